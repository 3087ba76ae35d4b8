// What is welded or bolted to a tube, from its face to a little beyond its hole.

import { PATTERN } from "./colours.js";
import { add, cross, dot, sub, times, unit } from "./vectors.js";

const STEEL = { colour: [104, 109, 116], pattern: PATTERN.plain };
/// A bolt's head and nut, of its diameter.
const HEAD = { height: 0.65, width: 1.6 };
const ROUND = new Set(["nut", "sleeve", "bolt"]);

/// moved(n): where node n is drawn.
export function addAttachment(drawn, a, moved) {
  const foot = moved(a.foot),
    hole = moved(a.hole),
    out = unit(sub(hole, foot));
  if (ROUND.has(a.kind)) {
    const thick = a.length || a.bolt || 8;
    drawn.sweeps.push({ points: [foot, hole], round: true, width: thick, height: thick, ...STEEL });
    return;
  }
  const flat = a.kind === "cross_tab" ? a.sideways : a.lengthwise; // the long side of the plate
  const z = unit(sub(flat, times(out, dot(flat, out))));
  const across = unit(cross(z, out));
  const tip = add(hole, times(out, a.length / 3));
  for (const side of a.apart ? [-1, 1] : [0]) {
    const off = times(across, (side * a.apart) / 2);
    drawn.sweeps.push({
      points: [add(foot, off), add(tip, off)],
      round: false,
      width: a.thickness,
      height: a.length,
      z,
      ...STEEL,
    });
  }
  if (a.bolt) addBolt(drawn, hole, across, (a.apart + a.thickness) / 2, a.bolt);
}

/// Its shank through plates whose outsides are `half` from the hole either way, a head on each.
function addBolt(drawn, hole, across, half, diameter) {
  const at = (off) => add(hole, times(across, off));
  const round = (from, to, width) =>
    drawn.sweeps.push({ points: [at(from), at(to)], round: true, width, height: width, ...STEEL });
  const beyond = half + HEAD.height * diameter;
  round(-half, half, diameter);
  round(-beyond, -half, HEAD.width * diameter);
  round(half, beyond, HEAD.width * diameter);
}

/// A gusset's plates, each of its corners moved with its node.
export function addGusset(drawn, g, moves) {
  const [corner, first, second] = g.corners.map((at, k) => add(at, moves(g.nodes[k])));
  const normal = unit(cross(sub(first, corner), sub(second, corner)));
  for (const off of g.offsets) {
    const corners = [corner, first, times(add(first, second), 0.5), second];
    drawn.quads.push({
      corners: corners.map((q) => add(q, times(normal, off))),
      normal,
      colour: STEEL.colour,
      solid: true,
    });
  }
}
