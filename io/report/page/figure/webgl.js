// The figure drawn by WebGL 2.

import { FRAGMENT, VERTEX } from "./shaders.js";
import { NUMBERS, pushPoint, pushSweep, pushTriangles } from "./triangles.js";

/// The compiled shaders, or null.
function compile(gl) {
  const program = gl.createProgram();
  for (const [kind, text] of [
    [gl.VERTEX_SHADER, VERTEX],
    [gl.FRAGMENT_SHADER, FRAGMENT],
  ]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  return gl.getProgramParameter(program, gl.LINK_STATUS) ? program : null;
}

/// All vertices of a scene, and from which to which (start, count) each part goes.
function verticesOf(drawn, looks, scale) {
  const out = [],
    ranges = {};
  const part = (name, fill) => {
    const start = out.length / NUMBERS;
    fill();
    ranges[name] = [start, out.length / NUMBERS - start];
  };
  const picked = drawn.sweeps.filter((w) => w.picked);
  const plates = drawn.quads.filter((q) => q.solid),
    sheets = drawn.quads.filter((q) => !q.solid);
  part("ground", () => {
    for (const line of drawn.lines) for (const p of line) pushPoint(out, p, looks.ground);
  });
  part("picked", () => {
    for (const w of picked) pushSweep(out, w, Math.max(4, 3.5 / scale), looks.picked);
  });
  part("picked_itself", () => {
    for (const w of picked) pushSweep(out, w, 0, w.colour);
  });
  part("solid", () => {
    for (const w of drawn.sweeps) pushSweep(out, w, 0, w.colour);
    for (const q of plates) pushTriangles(out, q.corners, q.normal, q.colour);
  });
  part("rims", () => {
    for (const q of sheets) {
      for (const k of [0, 1, 1, 2, 2, 3, 3, 0]) pushPoint(out, q.corners[k], looks.ink);
    }
  });
  part("sheets", () => {
    for (const q of sheets) pushTriangles(out, q.corners, q.normal, q.colour);
  });
  return { vertices: new Float32Array(out), ranges };
}

/// Makes the canvas as many device pixels large as it is seen, and empties it.
function clear(gl, width, height, looks) {
  const { canvas } = gl,
    ratio = Math.min(2, window.devicePixelRatio || 1);
  const w = Math.round(width * ratio),
    h = Math.round(height * ratio);
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
  }
  gl.viewport(0, 0, w, h);
  const paper = looks.paper.map((v) => v / 255);
  gl.clearColor(paper[0], paper[1], paper[2], 1);
  gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
}

function pointAtVertices(gl, program, buffer) {
  gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
  ["place", "normal", "colour", "texture"].forEach((name, i) => {
    const where = gl.getAttribLocation(program, name);
    if (where < 0) return;
    gl.enableVertexAttribArray(where);
    gl.vertexAttribPointer(where, 3, gl.FLOAT, false, 4 * NUMBERS, 12 * i);
  });
}

function setView(gl, uniform, camera, width, height, looks) {
  const { right, up, eye } = camera.axes();
  gl.uniform3fv(uniform("right"), right);
  gl.uniform3fv(uniform("up"), up);
  gl.uniform3fv(uniform("eye"), eye);
  gl.uniform3fv(uniform("target"), camera.target);
  gl.uniform2f(uniform("half_size"), width / 2, height / 2);
  gl.uniform1f(uniform("scale"), camera.scale(width, height));
  gl.uniform1f(uniform("depth"), 4 * camera.extent);
  gl.uniform3fv(
    uniform("ink"),
    looks.edge.map((v) => v / 255),
  );
}

/// part(name, how, flat, opacity) draws one part of the scene.
function drawParts(gl, part) {
  gl.enable(gl.DEPTH_TEST);
  gl.disable(gl.CULL_FACE);
  gl.disable(gl.BLEND);
  part("ground", gl.LINES, 1, 1);
  part("solid", gl.TRIANGLES, 0, 1);
  part("rims", gl.LINES, 1, 1);
  gl.enable(gl.BLEND);
  gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
  gl.depthMask(false);
  part("sheets", gl.TRIANGLES, 0, 0.42);
  gl.disable(gl.BLEND);
  // The picked tube shows through whatever is before it, with a halo round it.
  gl.disable(gl.DEPTH_TEST);
  part("picked", gl.TRIANGLES, 1, 1);
  gl.enable(gl.DEPTH_TEST);
  gl.depthMask(true);
  gl.clear(gl.DEPTH_BUFFER_BIT);
  part("picked_itself", gl.TRIANGLES, 0, 1);
}

/// Returns null where there is no WebGL 2.
export function createGl(canvas) {
  const gl = canvas.getContext("webgl2", {
    antialias: true,
    alpha: false,
    preserveDrawingBuffer: true,
  });
  const program = gl && compile(gl);
  if (!program) return null;
  const uniform = (name) => gl.getUniformLocation(program, name);
  const buffer = gl.createBuffer();
  let ranges = {};

  function load(drawn, looks, scale) {
    const made = verticesOf(drawn, looks, scale);
    ranges = made.ranges;
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.bufferData(gl.ARRAY_BUFFER, made.vertices, gl.DYNAMIC_DRAW);
  }

  function draw(camera, width, height, looks) {
    clear(gl, width, height, looks);
    gl.useProgram(program);
    pointAtVertices(gl, program, buffer);
    setView(gl, uniform, camera, width, height, looks);
    drawParts(gl, (name, how, flat, opacity) => {
      gl.uniform1f(uniform("flat_colour"), flat);
      gl.uniform1f(uniform("opacity"), opacity);
      if (ranges[name][1]) gl.drawArrays(how, ...ranges[name]);
    });
  }

  return { load, draw };
}
