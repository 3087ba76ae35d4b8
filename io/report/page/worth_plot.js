// At a glance: what a kg more does for the torsional stiffness, in walls and in diagonals.

import { box, defineHatch, draw, label, plot, stroke, ticks } from "./drawing.js";
import { none, three } from "./numbers.js";
import { data } from "./words.js";

const STEP = 34,
  SHOWN = 14;

function groupName(g) {
  return g.name + (g.members.length > 1 ? ` and ${g.members.length - 1} alike` : "");
}

/// {name, value, added} of walls and diagonals, most for a kg first.
function offers() {
  const rank = data.rank;
  const walls = rank.groups.map((g) => ({ name: groupName(g), value: g.per_kg, added: false }));
  const more = rank.diagonals.map((d) => ({
    name: `diagonal ${d.tubes.join(" and ")}`,
    value: d.per_kg,
    added: true,
  }));
  return [...walls, ...more].filter((c) => !none(c.value)).sort((a, b) => b.value - a.value);
}

function drawOffer(svg, x, y, r) {
  const text = label(svg, 0, y + 11, undefined, "halo");
  draw(text, "tspan", { class: "strong" }, `${three(r.value)}  `);
  draw(text, "tspan", {}, r.name);
  const from = Math.min(x(0), x(r.value)),
    wide = Math.max(1, Math.abs(x(r.value) - x(0)));
  box(svg, from, y + 16, wide, 9, "bar");
  if (r.added) box(svg, from, y + 16, wide, 9).setAttribute("fill", "url(#worth-added)");
}

export function worthPlot(width) {
  if (!data.rank) return null;
  const all = offers(),
    rows = all.slice(0, SHOWN);
  if (!rows.length) return null;
  const low = Math.min(0, ...rows.map((r) => r.value)),
    high = Math.max(0, ...rows.map((r) => r.value));
  if (!(high > low)) return null;
  const height = rows.length * STEP + 26;
  const x = (v) => 1 + ((width - 4) * (v - low)) / (high - low);
  const told = rows.map((r) => `${r.name} ${three(r.value)}`);
  const svg = plot(width, height, `Torsional stiffness gained a kg: ${told.join("; ")}`);
  defineHatch(svg, "worth-added");
  for (const v of ticks(low, high, width < 420 ? 3 : 5)) {
    stroke(svg, `M${x(v)} 0V${height - 20}`, "grid");
    const end = x(v) > width - 30 ? "end" : x(v) < 20 ? "start" : "middle";
    label(svg, x(v), height - 5, three(v), "dim", end);
  }
  rows.forEach((r, i) => drawOffer(svg, x, i * STEP, r));
  return {
    svg,
    title: "Torsional stiffness gained for a kg, N m/deg",
    note:
      "walls by their slope; hatched: diagonals of open bays, by an exact solution" +
      (all.length > rows.length ? `; the first ${rows.length} of ${all.length}` : ""),
  };
}
