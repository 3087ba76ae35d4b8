// At a glance: what stands on each wheel in each case.

import { box, label, plot, stroke } from "./drawing.js";
import { newtons, none } from "./numbers.js";
import { data, words } from "./words.js";

/// One wheel in one case: its load in N as a bar, and a line where it is when the vehicle stands.
function drawWheel(svg, left, y, room, high, w, standing) {
  const at = (v) => left + (room * Math.max(0, v)) / high,
    load = w.force[2];
  label(svg, left - 6, y + 31, w.lifted ? "lifted" : newtons(load), undefined, "end");
  box(svg, left, y + 20, room, 13, "track");
  box(svg, left, y + 20, at(load) - left, 13, "bar");
  if (!none(standing)) stroke(svg, `M${at(standing).toFixed(1)} ${y + 18}v17`, "curve");
}

function told(c) {
  const loads = c.wheels.map((w, i) => `${words(data.wheels[i].name)} ${newtons(w.force[2])} N`);
  return `${c.name}: ${loads.join(", ")}`;
}

export function wheelPlot(width) {
  const cases = data.wheels.length ? data.cases.filter((c) => c.wheels.length) : [];
  if (!cases.length) return null;
  const step = 40,
    number = 42,
    top = 22,
    column = width / data.wheels.length;
  const high = Math.max(1, ...cases.flatMap((c) => c.wheels.map((w) => w.force[2])));
  const svg = plot(
    width,
    top + cases.length * step + 4,
    "Wheel loads: " + cases.map(told).join("; "),
  );
  data.wheels.forEach((w, i) => label(svg, i * column, 13, words(w.name), "strong"));
  cases.forEach((c, k) => {
    const y = top + k * step;
    label(svg, 0, y + 12, c.name, "dim");
    c.wheels.forEach((w, i) => {
      const standing = data.vehicle ? data.vehicle.standing[data.wheels[i].name] : null;
      drawWheel(svg, i * column + number, y, column - number - 12, high, w, standing);
    });
  });
  return {
    svg,
    title: "Wheel loads by case",
    note: "upward force on each wheel, N; the line across a bar marks the wheel standing",
  };
}
