// What stands round the frame in the figure: wheels and what the road does to them, supports,
// masses, the ground. Each function adds to the scene (scene.js).

import { PATTERN } from "./colours.js";
import { add, cross, size, sub, times, unit } from "./vectors.js";

export const ARROW = 0.13; // length of the greatest wheel load, as a share of the frame's size

const NEUTRAL = { colour: [128, 133, 140], pattern: PATTERN.plain };
const rod = (points, thick) => ({ points, round: true, width: thick, height: thick, ...NEUTRAL });

/// Three rods: the shaft from `back` to `tip` and two barbs across the line of sight.
function arrow(tip, back, eye) {
  const shaft = sub(back, tip),
    L = size(shaft),
    head = Math.min(0.35 * L, 60);
  const x = unit(shaft);
  const side = times(unit(cross(x, eye)), 0.45 * head);
  const root = add(tip, times(x, head));
  return [
    [tip, back],
    [tip, add(root, side)],
    [tip, sub(root, side)],
  ].map((line) => rod(line, 9));
}

function wheelLoad(drawn, prepared, state, eye, contact, wheel) {
  const force = size(wheel.force);
  if (wheel.lifted || force === 0) {
    drawn.labels.push({ at: contact, text: wheel.lifted ? "lifted" : "0 N", kind: "load" });
    return;
  }
  const back = sub(contact, times(wheel.force, (ARROW * prepared.extent) / prepared.load));
  drawn.sweeps.push(...arrow(contact, back, eye));
  drawn.labels.push({ at: back, text: state.force(force), kind: "load" });
}

function markWheels(drawn, prepared, state, eye, moved) {
  const { data } = prepared,
    c = data.cases[state.case];
  data.wheels.forEach((w, i) => {
    const radius = Math.abs(w.centre[2] - w.contact[2]) || 0.05 * prepared.extent,
      ring = [];
    for (let k = 0; k <= 40; ++k) {
      const turn = (2 * Math.PI * k) / 40;
      ring.push(add(w.centre, [radius * Math.cos(turn), 0, radius * Math.sin(turn)]));
    }
    drawn.sweeps.push(rod(ring, 10));
    for (const n of w.carrier) drawn.sweeps.push(rod([w.centre, moved(n)], 5));
    if (c.wheels[i]) wheelLoad(drawn, prepared, state, eye, w.contact, c.wheels[i]);
  });
}

/// A pyramid under each held node, `foot` mm from its middle to its sides.
function markSupports(drawn, prepared, foot) {
  for (const s of prepared.data.supports) {
    const top = prepared.at[s.node];
    const base = [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ].map(([x, y]) => add(top, [x * foot, y * foot, -2 * foot]));
    for (let k = 0; k < 4; ++k) {
      drawn.sweeps.push(rod([top, base[k]], 6), rod([base[k], base[(k + 1) % 4]], 6));
    }
  }
}

function markMasses(drawn, prepared) {
  const arm = Math.max(12, 0.012 * prepared.extent);
  for (const m of prepared.data.masses) {
    for (const e of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]) {
      drawn.sweeps.push(rod([add(m.at, times(e, arm)), add(m.at, times(e, -arm))], 7));
    }
  }
}

/// The ground, or a level under the lowest node: squares, and where forward is.
function markGround(drawn, prepared, foot) {
  const { data, low, high } = prepared,
    step = prepared.extent < 1200 ? 250 : 500;
  const z = data.wheels.length
    ? Math.min(...data.wheels.map((w) => w.contact[2]))
    : low[2] - 2.2 * foot;
  const start = (k) => Math.floor(low[k] / step - 0.3) * step;
  const stop = (k) => Math.ceil(high[k] / step + 0.3) * step;
  const x0 = start(0),
    x1 = stop(0),
    y0 = start(1),
    y1 = stop(1);
  for (let x = x0; x <= x1; x += step)
    drawn.lines.push([
      [x, y0, z],
      [x, y1, z],
    ]);
  for (let y = y0; y <= y1; y += step)
    drawn.lines.push([
      [x0, y, z],
      [x1, y, z],
    ]);
  const label = (at, text) => drawn.labels.push({ at, text, kind: "ground" });
  label([x1, (y0 + y1) / 2, z], "forward x");
  label([(x0 + x1) / 2, y1, z], `left y; squares ${step} mm`);
}

/// moved(n): where node n is drawn.
export function markAll(drawn, prepared, state, eye, moved) {
  const foot = Math.max(18, 0.018 * prepared.extent);
  markWheels(drawn, prepared, state, eye, moved);
  markSupports(drawn, prepared, foot);
  markMasses(drawn, prepared);
  markGround(drawn, prepared, foot);
}
