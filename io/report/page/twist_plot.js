// At a glance: how the frame twists along its length.

import { box, circle, label, plot, stroke, ticks } from "./drawing.js";
import { fixed, three } from "./numbers.js";
import { data } from "./words.js";

const TWIST_TOP = 26,
  TWIST_BOTTOM = 238,
  TWIST_HEIGHT = 282;

function drawBays(svg, x, bays) {
  for (const b of bays) {
    const a = x(Math.max(b.from, b.to)),
      w = x(Math.min(b.from, b.to)) - a;
    if (b.weakest) {
      box(svg, a, TWIST_TOP - 14, w, TWIST_BOTTOM - TWIST_TOP + 14, "shade");
      label(svg, a + w / 2, TWIST_TOP - 2, "weakest bay", "strong", "middle");
    }
    if (w > 44) label(svg, a + w / 2, TWIST_BOTTOM - 6, fixed(b.twist_per_m, 4), "dim", "middle");
  }
}

function drawPoints(svg, x, y, points, right) {
  const line = points.map(
    (p, i) => `${i ? "L" : "M"}${x(p.x).toFixed(1)} ${y(p.twist).toFixed(1)}`,
  );
  stroke(svg, line.join(""), "curve");
  let last = -Infinity;
  for (const p of points) {
    circle(svg, x(p.x), y(p.twist), 3.6, "dot");
    stroke(svg, `M${x(p.x)} ${TWIST_BOTTOM}v4`, "axis");
    if (x(p.x) - last < 42) continue;
    last = x(p.x);
    label(svg, Math.min(right - 8, x(p.x)), TWIST_BOTTOM + 18, fixed(p.x, 0), undefined, "middle");
  }
}

export function twistPlot(width) {
  const t = data.torsion;
  if (!t || !t.profile || t.profile.length < 2) return null;
  const points = t.profile.slice().sort((a, b) => b.x - a.x),
    left = 52,
    right = width - 14;
  const x0 = points[0].x,
    x1 = points[points.length - 1].x;
  const high = Math.max(...points.map((p) => p.twist), 1e-12);
  const low = Math.min(0, ...points.map((p) => p.twist));
  const x = (v) => left + ((right - left) * (v - x0)) / (x1 - x0 || 1);
  const y = (v) => TWIST_BOTTOM - ((TWIST_BOTTOM - TWIST_TOP) * (v - low)) / (1.08 * high - low);
  const told = points.map((p) => `${fixed(p.twist, 4)} degrees at x ${fixed(p.x, 0)} mm`);
  const svg = plot(
    width,
    TWIST_HEIGHT,
    `Twist along the frame under ${three(t.couple)} N m: ${told.join(", ")}`,
  );
  drawBays(svg, x, t.bays);
  for (const v of ticks(low, high, 4)) {
    stroke(svg, `M${left} ${y(v)}H${right}`, "grid");
    label(svg, left - 6, y(v) + 4, three(v), undefined, "end");
  }
  stroke(svg, `M${left} ${TWIST_BOTTOM}H${right}`, "axis");
  drawPoints(svg, x, y, points, right);
  label(svg, left, TWIST_BOTTOM + 36, "front", "dim");
  label(svg, (left + right) / 2, TWIST_BOTTOM + 36, "x, mm", "dim", "middle");
  label(svg, right, TWIST_BOTTOM + 36, "rear", "dim", "end");
  return {
    svg,
    title: "Twist along the frame",
    note:
      `degrees under a couple of ${three(t.couple)} N m; beside the axis, ` +
      "degrees for a metre of each bay",
  };
}
