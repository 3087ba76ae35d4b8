// At a glance: the most used items of all cases.

import { box, defineHatch, draw, label, plot, stroke } from "./drawing.js";
import { none, used } from "./numbers.js";
import { governing } from "./state.js";
import { checkWords, data } from "./words.js";

/// Each item in its worst case: {name, check, value, load}, the most used first.
function ranking() {
  const best = new Map();
  const see = (c, name, result, checks) => {
    const g = governing(result, checks);
    if (g && !(best.has(name) && best.get(name).value >= g.value)) {
      best.set(name, { name, ...g, load: c.name });
    }
  };
  for (const c of data.cases) {
    c.members.forEach((r, i) => see(c, data.members[i].name, r, data.checks));
    c.panels.forEach((r, i) => see(c, data.panels[i].name, r, data.panel_checks));
    c.attachments.forEach((r, i) => see(c, data.attachments[i].name, r, data.attachment_checks));
    c.gussets.forEach((r, i) => see(c, data.gussets[i].name, r, data.gusset_checks));
    if (c.worst && !none(c.worst.utilisation) && !best.has(c.worst.item)) {
      const name = c.worst.item || "frame";
      best.set(name, { name, check: c.worst.check, value: c.worst.utilisation, load: c.name });
    }
  }
  return [...best.values()].sort((a, b) => b.value - a.value);
}

function drawAxis(svg, x, width, height) {
  for (const t of [0.25, 0.5, 0.75]) {
    stroke(svg, `M${x(t)} 0V${height - 20}`, "grid");
    label(svg, x(t), height - 5, String(t), "dim", "middle");
  }
  stroke(svg, `M${x(1)} 0V${height - 20}`, "limit");
  label(svg, x(1), height - 5, "limit 1", "strong", x(1) > width - 40 ? "end" : "middle");
}

function drawRow(svg, x, y, r) {
  const text = label(svg, 0, y + 12, undefined, "halo");
  draw(text, "tspan", { class: "strong" }, `${used(r.value)}  ${r.name}`);
  draw(text, "tspan", { class: "dim" }, `  ${checkWords(r.check)}, ${r.load}`);
  box(svg, 0, y + 18, Math.max(1, x(r.value)), 10, "bar");
  if (r.value > 1) {
    box(svg, 0, y + 18, x(r.value), 10).setAttribute("fill", "url(#rank-over)");
  }
}

export function rankingPlot(width) {
  const all = ranking(),
    rows = all.slice(0, 12);
  if (!rows.length) return null;
  const top = Math.max(1.02, 1.02 * rows[0].value),
    step = 38,
    height = rows.length * step + 26;
  const x = (u) => ((width - 2) * u) / top;
  const told = rows.map((r) => `${r.name} ${used(r.value)} ${checkWords(r.check)} in ${r.load}`);
  const svg = plot(width, height, "Most used items: " + told.join("; "));
  defineHatch(svg, "rank-over");
  drawAxis(svg, x, width, height);
  rows.forEach((r, i) => drawRow(svg, x, i * step, r));
  const some = `the first ${rows.length} of ${all.length}, each in its worst case`;
  return {
    svg,
    title: "Utilisation, most used first",
    note: all.length > rows.length ? some : "each in its worst case",
  };
}
