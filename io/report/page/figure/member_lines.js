// The lines along which members are drawn: displaced axes, coils of springs.

import { memberAxes } from "./prepare.js";
import { add, cross, radians, size, sub, times, unit } from "./vectors.js";

/// What the rotation by the vector `r` (degrees) adds to the unit vector `x`.
function turnedBy(r, x) {
  const angle = radians(size(r));
  if (!angle) return [0, 0, 0];
  const k = unit(r),
    across = cross(k, x);
  return add(times(across, Math.sin(angle)), times(cross(k, across), 1 - Math.cos(angle)));
}

/// The cubic from p0 to p1 with the slopes t0 and t1 at its ends, as so many pieces.
function cubic(p0, p1, t0, t1, pieces) {
  const line = [];
  for (let i = 0; i <= pieces; ++i) {
    const t = i / pieces,
      t2 = t * t,
      t3 = t2 * t;
    line.push(
      add(
        add(times(p0, 2 * t3 - 3 * t2 + 1), times(t0, t3 - 2 * t2 + t)),
        add(times(p1, 3 * t2 - 2 * t3), times(t1, t3 - t2)),
      ),
    );
  }
  return line;
}

/// Points of the axis of member m, displaced `factor` times: the cubic that leaves each end in the
/// direction of its node, or freely where it is pinned.
export function axisPoints(prepared, m, motion, factor, pieces) {
  const a = prepared.at[m.from],
    b = prepared.at[m.to];
  if (!factor || !motion) return [a, b];
  const end = (from, n) => add(from, times(motion[n].slice(0, 3), factor));
  const p0 = end(a, m.from),
    p1 = end(b, m.to),
    chord = sub(p1, p0);
  if (m.kind !== "beam" || (m.pinned[0] && m.pinned[1])) return [p0, p1];
  const leaves = (n) =>
    times(add(m.axes.x, times(turnedBy(motion[n].slice(3), m.axes.x), factor)), m.length);
  let t0 = leaves(m.from),
    t1 = leaves(m.to);
  if (m.pinned[0]) t0 = sub(times(chord, 1.5), times(t1, 0.5));
  if (m.pinned[1]) t1 = sub(times(chord, 1.5), times(t0, 0.5));
  return cubic(p0, p1, t0, t1, pieces);
}

/// A spring from a to b.
export function coil(a, b, radius) {
  const { x, y, z } = memberAxes(a, b, 0),
    L = size(sub(b, a)),
    turns = 8,
    steps = 12 * turns;
  const line = [a, add(a, times(x, 0.12 * L))];
  for (let i = 0; i <= steps; ++i) {
    const turn = (2 * Math.PI * i) / 12;
    line.push(
      add(
        add(a, times(x, L * (0.14 + (0.72 * i) / steps))),
        add(times(y, radius * Math.cos(turn)), times(z, radius * Math.sin(turn))),
      ),
    );
  }
  line.push(add(a, times(x, 0.88 * L)), b);
  return line;
}

/// The point at a share (0 to 1) of a line of points.
export function middle(line, share) {
  const t = Math.min(1, Math.max(0, share)) * (line.length - 1);
  const i = Math.min(line.length - 2, Math.floor(t));
  return add(line[i], times(sub(line[i + 1], line[i]), t - i));
}
