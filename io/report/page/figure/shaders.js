// The two programs that the graphics card runs for the figure.

export const VERTEX = `#version 300 es
    in vec3 place; in vec3 normal; in vec3 colour; in vec3 texture;
    uniform vec3 right, up, eye, target; uniform vec2 half_size; uniform float scale, depth;
    out vec3 v_normal, v_colour, v_texture;
    void main() {
      vec3 p = place - target;
      gl_Position = vec4(scale * dot(p, right) / half_size.x, scale * dot(p, up) / half_size.y,
                         -dot(p, eye) / depth, 1.0);
      v_normal = vec3(dot(normal, right), dot(normal, up), dot(normal, eye));
      v_colour = colour; v_texture = texture;
    }`;
// texture: pattern, distance along the axis (mm), place across a face (-1 to 1; 9: no edges).
export const FRAGMENT = `#version 300 es
    precision highp float;
    in vec3 v_normal, v_colour, v_texture;
    uniform float flat_colour, opacity; uniform vec3 ink;
    out vec4 result;
    void main() {
      if (flat_colour > 0.5) { result = vec4(v_colour, opacity); return; }
      vec3 n = normalize(v_normal);
      if (n.z < 0.0) n = -n;
      float light = 0.66 + 0.2 * n.z + 0.14 * max(0.0, dot(n, vec3(-0.45, 0.75, 0.48)));
      vec3 c = v_colour * light;
      float pattern = floor(v_texture.x + 0.5), along = v_texture.y, across = v_texture.z;
      if (pattern == 1.0 && mod(along, 44.0) < 7.0) c *= 0.42;
      if (pattern == 2.0 && mod(along + 12.0 * across, 26.0) < 11.0) c *= 0.1;
      if (across < 5.0) {
        float pixel = fwidth(across);
        float edge = smoothstep(0.3, 1.1, (1.0 - abs(across)) / pixel);
        if (pixel < 0.5) c = mix(c, ink, 0.75 * (1.0 - edge));
      } else if (n.z < 0.3) {
        c = mix(ink, c, n.z / 0.3 * 0.5 + 0.5);
      }
      result = vec4(c, opacity);
    }`;
