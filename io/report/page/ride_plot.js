// The force on each wheel over a ride: from the least to the greatest at each time.

import { draw, label, plot, stroke, ticks } from "./drawing.js";
import { fixed, newtons, none } from "./numbers.js";
import { words } from "./words.js";

const RIDE_BAND = 104, // height of a wheel's diagram
  RIDE_HEAD = 26, // its name above it
  RIDE_FOOT = 40, // times below it
  RIDE_LEFT = 50,
  RIDE_GAP = 28;

/// There along the greatest forces, back along the least.
function bandPath(x, y, trace, wheel) {
  let there = "",
    back = "";
  trace.time.forEach((time, k) => {
    const least = trace.least[wheel][k],
      greatest = trace.greatest[wheel][k];
    if (none(least)) return;
    const at = x(time).toFixed(1);
    there += `${there ? "L" : "M"}${at} ${y(greatest).toFixed(1)}`;
    back = `L${at} ${y(least).toFixed(1)}${back}`;
  });
  return there && `${there}${back}Z`;
}

function drawForces(svg, area, ride, wheel, most) {
  const [name, w] = wheel.entry,
    { left, right, top } = area,
    bottom = top + RIDE_BAND;
  const x = (time) => left + ((right - left) * time) / ride.duration;
  const y = (force) => bottom - (RIDE_BAND * force) / most;
  for (const v of ticks(0, most, 3)) {
    stroke(svg, `M${left} ${y(v).toFixed(1)}H${right}`, v ? "grid" : "axis");
    label(svg, left - 6, y(v) + 4, fixed(v, 0), "dim", "end");
  }
  stroke(svg, bandPath(x, y, ride.trace, wheel.number), "force");
  stroke(svg, `M${left} ${y(w.standing).toFixed(1)}H${right}`, "rest");
  if (!none(w.standard_factor)) {
    const standard = y(w.standing * w.standard_factor).toFixed(1);
    stroke(svg, `M${left} ${standard}H${right}`, "limit");
  }
  const told = `  ${newtons(w.peak)} N, ${fixed(w.factor, 2)} times at rest`;
  const head = label(svg, left, top - 9, undefined, "halo");
  draw(head, "tspan", { class: "strong" }, words(name));
  draw(head, "tspan", { class: "dim" }, told);
  for (const t of ticks(0, ride.duration, right - left > 400 ? 6 : 4)) {
    stroke(svg, `M${x(t).toFixed(1)} ${bottom}v4`, "axis");
    label(svg, x(t), bottom + 17, String(t), "dim", "middle");
  }
}

/// Two wheels beside each other where there is room: those of an axle, as files list them.
export function ridePlot(ride, width) {
  const wheels = Object.entries(ride.wheels).map((entry, number) => ({ entry, number }));
  const columns = width >= 720 && wheels.length > 1 ? 2 : 1,
    rows = Math.ceil(wheels.length / columns),
    step = RIDE_HEAD + RIDE_BAND + RIDE_FOOT;
  const counted = ([, w]) => w.standing * (w.standard_factor ?? 0);
  const most =
    1.04 * Math.max(1, ...wheels.map((w) => Math.max(w.entry[1].peak, counted(w.entry))));
  const told = wheels.map(({ entry: [name, w] }) => {
    return `${words(name)} ${newtons(w.peak)} N, ${fixed(w.factor, 2)} times its load at rest`;
  });
  const svg = plot(width, rows * step, `Wheel forces of ride ${ride.name}: ${told.join("; ")}`);
  const room = (width - (columns - 1) * RIDE_GAP) / columns;
  wheels.forEach((wheel, k) => {
    const start = (k % columns) * (room + RIDE_GAP),
      top = Math.floor(k / columns) * step + RIDE_HEAD;
    const area = { left: start + RIDE_LEFT, right: start + room - 14, top };
    drawForces(svg, area, ride, wheel, most);
  });
  return svg;
}
