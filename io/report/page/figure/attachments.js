// What is welded or bolted to a tube, from its face to a little beyond its hole.

import { PATTERN } from "./colours.js";
import { add, cross, dot, sub, times, unit } from "./vectors.js";

const STEEL = { colour: [104, 109, 116], pattern: PATTERN.plain };
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
  const tip = add(hole, times(out, a.length / 3));
  for (const side of a.apart ? [-1, 1] : [0]) {
    const off = times(unit(cross(z, out)), (side * a.apart) / 2);
    drawn.sweeps.push({
      points: [add(foot, off), add(tip, off)],
      round: false,
      width: a.thickness,
      height: a.length,
      z,
      ...STEEL,
    });
  }
}
