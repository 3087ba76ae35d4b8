// The figure as an SVG drawing, for printing and for browsers without WebGL.

import { PATTERN, css } from "./colours.js";
import { placeLabels } from "./labels.js";

const SVG = "http://www.w3.org/2000/svg";

function shape(parent, name, attributes, text) {
  const e = document.createElementNS(SVG, name);
  for (const key in attributes) e.setAttribute(key, attributes[key]);
  if (text !== undefined) e.textContent = text;
  parent.append(e);
  return e;
}

function drawQuad(svg, quad, path, prefix) {
  const opacity = quad.solid ? 1 : 0.35;
  shape(svg, "path", {
    d: path,
    fill: css(quad.colour),
    "fill-opacity": opacity,
    class: "fig-panel",
  });
  if (quad.hatch) {
    shape(svg, "path", { d: path, fill: `url(#${prefix}-over)`, "fill-opacity": 0.5 });
  }
}

function drawSweep(svg, sweep, path, scale) {
  const wide = Math.max(1.2, (scale * (sweep.width + sweep.height)) / 2);
  const stroke = (width, more) =>
    shape(svg, "path", {
      d: path,
      fill: "none",
      "stroke-linejoin": "round",
      "stroke-width": width,
      ...more,
    });
  if (sweep.picked) stroke(wide + 7, { class: "fig-picked" });
  if (sweep.member !== undefined) stroke(wide + 1.4, { class: "fig-edge" });
  stroke(wide, { stroke: css(sweep.colour) });
  if (sweep.pattern === PATTERN.rings) {
    stroke(wide, { stroke: "#000", "stroke-opacity": 0.55, "stroke-dasharray": "2 9" });
  } else if (sweep.pattern === PATTERN.hatch) {
    stroke(wide, { stroke: "#000", "stroke-dasharray": "5 5" });
  }
}

function drawLabel(svg, l) {
  const x = l.x.toFixed(1);
  if (l.kind === "worst" || l.kind === "picked") {
    const leader = `M${l.px.toFixed(1)} ${l.py.toFixed(1)}L${x} ${l.y.toFixed(1)}`;
    shape(svg, "path", { d: leader, class: "fig-leader" });
    shape(svg, "rect", {
      x: (l.x - l.wide / 2).toFixed(1),
      y: (l.y - 10).toFixed(1),
      width: l.wide.toFixed(1),
      height: 20,
      rx: 2,
      class: "fig-tag fig-tag-" + l.kind,
    });
  }
  shape(
    svg,
    "text",
    { x, y: (l.y + 4.5).toFixed(1), "text-anchor": "middle", class: "fig-text fig-text-" + l.kind },
    l.text,
  );
}

/// The black hatching of what is over its limit; `prefix` keeps the drawings of a page apart.
function defineHatch(svg, prefix) {
  const hatch = shape(shape(svg, "defs", {}), "pattern", {
    id: prefix + "-over",
    width: 7,
    height: 7,
    patternUnits: "userSpaceOnUse",
    patternTransform: "rotate(45)",
  });
  shape(hatch, "rect", { width: 3, height: 7, fill: "#000" });
}

/// Sweeps and quads, what is far from the eye first and what is picked last.
function inOrder(drawn, project) {
  const depth = (points) => points.reduce((sum, p) => sum + project(p)[2], 0) / points.length;
  const things = drawn.sweeps
    .map((w) => ({ depth: depth(w.axis || w.points), sweep: w }))
    .concat(drawn.quads.map((q) => ({ depth: depth(q.corners), quad: q })));
  const last = (t) => (t.sweep && t.sweep.picked ? 1 : 0);
  return things.sort((a, b) => last(a) - last(b) || a.depth - b.depth);
}

export function drawSvg(svg, drawn, camera, width, height, prefix) {
  svg.replaceChildren();
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  const project = camera.projector(width, height),
    scale = camera.scale(width, height);
  const path = (points) =>
    points
      .map((p, i) => {
        const q = project(p);
        return (i ? "L" : "M") + q[0].toFixed(1) + " " + q[1].toFixed(1);
      })
      .join("");
  defineHatch(svg, prefix);
  for (const line of drawn.lines) shape(svg, "path", { d: path(line), class: "fig-ground" });
  for (const { sweep, quad } of inOrder(drawn, project)) {
    if (quad) drawQuad(svg, quad, path(quad.corners) + "Z", prefix);
    else drawSweep(svg, sweep, path(sweep.points), scale);
  }
  for (const l of placeLabels(drawn, project, width, height)) drawLabel(svg, l);
}
