// At a glance: is the floor worth its weight?

import { box, circle, label, plot, stroke, ticks } from "./drawing.js";
import { fixed, three } from "./numbers.js";
import { data } from "./words.js";

const FLOOR_LEFT = 60,
  FLOOR_TOP = 22,
  FLOOR_BOTTOM = 238,
  FLOOR_HEIGHT = 282;

/// The frames compared: [words, kind of mark, numbers].
export function floorRows() {
  const f = data.floor;
  return [
    ["without the sheet", "without", f.without],
    ["with the sheet", "with", f.with && f.with.default],
    ["tube diagonals, same mass", "diagonal", f.diagonal],
    ["heavier floor tubes, same mass", "thicker", f.thicker_tubes],
  ].filter((r) => r[2]);
}

const MARKS = {
  without: (svg, x, y) => circle(svg, x, y, 6, "hollow"),
  with: (svg, x, y) => circle(svg, x, y, 6.5, "dot"),
  diagonal: (svg, x, y) => stroke(svg, `M${x} ${y - 8}l7 13h-14z`, "hollow"),
  thicker: (svg, x, y) => box(svg, x - 5.5, y - 5.5, 11, 11, "hollow"),
};

/// Marks with their words, which give way upwards to those already written.
function drawRows(svg, x, y, rows, right) {
  const placed = [];
  for (const [text, kind, r] of rows) {
    const px = x(r.mass),
      py = y(r.stiffness),
      end = px > (FLOOR_LEFT + right) / 2;
    MARKS[kind](svg, px, py);
    const tx = px + (end ? -12 : kind === "without" ? -6 : 12),
      wide = 6.6 * text.length;
    const from = end ? tx - wide : tx;
    let ty = py + 4 - (kind === "without" ? 16 : 0);
    const meets = (p) => Math.abs(p.ty - ty) < 15 && p.from < from + wide && from < p.to;
    while (placed.some(meets)) ty -= 15;
    placed.push({ ty, from, to: from + wide });
    label(svg, tx, ty, text, "halo", end ? "end" : "start");
  }
}

function drawAxes(svg, x, y, low, high, most, width) {
  const right = width - 14;
  for (const v of ticks(0, most, 4)) {
    stroke(svg, `M${FLOOR_LEFT} ${y(v)}H${right}`, "grid");
    label(svg, FLOOR_LEFT - 6, y(v) + 4, three(v), undefined, "end");
  }
  for (const v of ticks(low, high, width < 420 ? 3 : 5)) {
    label(svg, x(v), FLOOR_BOTTOM + 18, three(v), undefined, "middle");
  }
  stroke(svg, `M${FLOOR_LEFT} ${FLOOR_BOTTOM}H${right}`, "axis");
}

export function floorPlot(width) {
  if (!data.floor) return null;
  const rows = floorRows(),
    right = width - 14,
    masses = rows.map((r) => r[2].mass);
  const span = Math.max(...masses) - Math.min(...masses) || 1;
  const low = Math.min(...masses) - 0.25 * span,
    high = Math.max(...masses) + 0.25 * span;
  const most = 1.12 * Math.max(...rows.map((r) => r[2].stiffness));
  const x = (v) => FLOOR_LEFT + ((right - FLOOR_LEFT) * (v - low)) / (high - low);
  const y = (v) => FLOOR_BOTTOM - ((FLOOR_BOTTOM - FLOOR_TOP) * v) / most;
  const told = rows.map(
    (r) => `${r[0]} ${fixed(r[2].mass, 2)} kg, ${three(r[2].stiffness)} N m/deg`,
  );
  const svg = plot(
    width,
    FLOOR_HEIGHT,
    "Torsional stiffness against mass of the frame: " + told.join("; "),
  );
  drawAxes(svg, x, y, low, high, most, width);
  const base = rows[0][2],
    from = `M${x(base.mass)} ${y(base.stiffness)}`;
  for (const [, , r] of rows.slice(1)) {
    stroke(svg, `${from}L${x(r.mass)} ${y(r.stiffness)}`, "thin");
  }
  drawRows(svg, x, y, rows, right);
  label(svg, right, FLOOR_BOTTOM + 36, "mass of the frame, kg", "dim", "end");
  return {
    svg,
    title: "Is the floor worth its weight?",
    note: "torsional stiffness, N m/deg; the steeper the line, the more a kilogram brings",
  };
}
