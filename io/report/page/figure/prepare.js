// What every case has in common: sizes of tubes, their axes, the scales of colours.

import { add, cross, dot, radians, size, sub, times, unit } from "./vectors.js";

const NO_SIZE = 8; // mm, drawn for a section that is given by its properties alone

/// Axes of a member as the program has them: z is up, made perpendicular; roll turns about x.
export function memberAxes(from, to, roll) {
  const x = unit(sub(to, from));
  const up = Math.abs(x[2]) > Math.cos(radians(0.5)) ? [1, 0, 0] : [0, 0, 1];
  const z0 = unit(sub(up, times(x, dot(up, x))));
  const y0 = cross(z0, x);
  const c = Math.cos(radians(roll)),
    s = Math.sin(radians(roll));
  return { x, y: add(times(y0, c), times(z0, s)), z: sub(times(z0, c), times(y0, s)) };
}

function greatest(data, pick) {
  let most = 0;
  for (const c of data.cases)
    for (const m of c.members) most = Math.max(most, Math.abs(pick(m) || 0));
  return most;
}

/// Up to the next 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten.
export function roundUp(value) {
  if (!(value > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  for (const step of [1, 1.5, 2, 3, 4, 5, 6, 8, 10]) {
    if (value <= step * power * (1 + 1e-9)) return step * power;
  }
  return 10 * power;
}

/// The greatest utilisation among the checks that count, or null.
export function usedMost(entry, checks) {
  let most = null;
  entry.used.forEach((u, i) => {
    if (u !== null && u !== undefined && checks[i].counts && (most === null || u > most)) most = u;
  });
  return most;
}

function prepareMember(data, at, m) {
  const section = m.section === null ? null : data.sections[m.section];
  return {
    ...m,
    section,
    round: !section || /^round/.test(section.shape),
    height: (section && section.height) || NO_SIZE,
    width: (section && section.width) || NO_SIZE,
    length: size(sub(at[m.to], at[m.from])),
    axes: memberAxes(at[m.from], at[m.to], m.roll || 0),
  };
}

/// What a kg of wall does for the torsional stiffness, where it does something.
function worthOf(data, member) {
  const worth = data.rank ? data.rank.worth[member] : null;
  return worth > 0 ? worth : null;
}

/// What the loss of a tube leaves: its worst use, and whether the frame needs the tube.
function lossOf(data, member) {
  const loss =
    data.losses && data.losses.losses.find((l) => l.kind === "tube" && l.member === member);
  if (!loss) return { value: null };
  return { value: loss.worst === null ? 1 : Math.min(1, loss.worst), hatched: loss.must_hold };
}

/// Its utilisation at the worst instant of all rides.
function worstRide(data, member) {
  const value = data.rides ? data.rides.worst[member] : null;
  return { value, hatched: value > 1 };
}

export function prepare(data) {
  const at = data.nodes.map((n) => n.at);
  const members = data.members.map((m) => prepareMember(data, at, m));
  const points = at.concat(
    data.wheels.map((w) => w.centre),
    data.wheels.map((w) => w.contact),
  );
  const low = [0, 1, 2].map((k) => Math.min(...points.map((p) => p[k])));
  const high = [0, 1, 2].map((k) => Math.max(...points.map((p) => p[k])));
  const extent = size(sub(high, low)) || 1;
  let most = 0;
  for (const c of data.cases)
    for (const u of c.nodes) most = Math.max(most, Math.hypot(u[0], u[1], u[2]));
  let load = 0;
  for (const c of data.cases) for (const w of c.wheels) load = Math.max(load, size(w.force));
  const ofTube = {
    worth: data.members.map((m, i) => ({ value: worthOf(data, i) })),
    losses: data.members.map((m, i) => lossOf(data, i)),
    rides: data.members.map((m, i) => worstRide(data, i)),
  };
  return {
    data,
    at,
    members,
    low,
    high,
    extent,
    centre: times(add(low, high), 0.5),
    load,
    ofTube,
    scales: {
      utilisation: 1,
      axial: roundUp(greatest(data, (m) => m.N)),
      von_mises: roundUp(greatest(data, (m) => m.von_mises)),
      joints: 1,
      worth: roundUp(Math.max(0, ...ofTube.worth.map((t) => t.value || 0))) || 1,
      losses: 1,
      rides: 1,
    },
    // The factor at which the largest motion of any case is 6 % of the frame's size.
    factor: most > 0 ? (0.06 * extent) / most : 0,
  };
}
