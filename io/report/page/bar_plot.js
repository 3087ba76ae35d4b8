// Bars to buy and how each is cut, to scale.

import { box, label, plot, stroke } from "./drawing.js";
import { counted, fixed } from "./numbers.js";
import { data } from "./words.js";

/// Bars cut alike, each pattern once: {count, pieces, rest}.
export function patterns(order) {
  const found = new Map();
  for (const bar of order.cut_plan) {
    const key = bar.pieces.join(" ");
    if (found.has(key)) found.get(key).count += 1;
    else found.set(key, { count: 1, ...bar });
  }
  return [...found.values()];
}

export function patternWords(pattern) {
  const runs = [];
  for (const name of pattern.pieces) {
    if (runs.length && runs[runs.length - 1].name === name) runs[runs.length - 1].count += 1;
    else runs.push({ name, count: 1 });
  }
  const words = runs.map((r) => {
    const times = r.count > 1 ? r.count + " \u00d7 " : "";
    return `${times}${r.name} ${fixed(data.cut.pieces[r.name].long_point, 0)}`;
  });
  return `${words.join(", ")}; ${fixed(pattern.rest, 0)} mm left`;
}

/// Slanting lines from `start` to `end` px, cut off where the bar ends.
function hatchRest(svg, start, end, height) {
  for (let k = 0; k < end - start - 4; k += 7) {
    const foot = (start + k).toFixed(1),
      top = Math.min(start + k + 10, end).toFixed(1);
    const rise = Math.min(24, 2.4 * (end - start - k));
    stroke(svg, `M${foot} ${height}L${top} ${(height - rise).toFixed(1)}`, "hatch");
  }
}

/// One bar to scale: pieces with their labels, what is left hatched.
export function barPlot(pattern, width) {
  const { length, end_trim, kerf } = data.cut.stock,
    height = 26,
    middle = height / 2 + 5.5;
  const svg = plot(
    width,
    height + 2,
    `${counted(pattern.count, "bar", "bars")}: ${patternWords(pattern)}`,
  );
  const x = (v) => 0.5 + ((width - 1) * v) / length;
  let at = end_trim;
  box(svg, x(0), 1, x(length) - x(0), height, "track outline");
  pattern.pieces.forEach((name) => {
    const long = data.cut.pieces[name].long_point,
      w = x(at + long) - x(at);
    box(svg, x(at), 1, w, height, "piece outline");
    if (w > 7 + 7 * name.length) label(svg, x(at) + w / 2, middle, name, "strong", "middle");
    at += long + kerf;
  });
  const left = x(length) - x(at);
  hatchRest(svg, x(at), x(length), height);
  if (left > 70) {
    label(svg, x(at) + left / 2, middle, `${fixed(pattern.rest, 0)} left`, "halo", "middle");
  }
  return svg;
}
