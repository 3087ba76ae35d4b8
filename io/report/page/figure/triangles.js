// Tubes and sheets as triangles, 12 numbers a vertex: place, normal, colour, pattern, distance
// along the axis in mm, place across the face (-1 to 1, or 9 for no edges).

import { add, cross, dot, size, sub, times, unit } from "./vectors.js";

export const NUMBERS = 12;

/// Axes at each point of a line, turned as little as can be from one point to the next.
function framesAlong(line, firstZ) {
  const frames = [];
  let z = firstZ,
    travelled = 0;
  for (let i = 0; i < line.length; ++i) {
    const t = unit(sub(line[Math.min(line.length - 1, i + 1)], line[Math.max(0, i - 1)]));
    if (!z || Math.abs(dot(z, t)) > 0.999) z = Math.abs(t[2]) > 0.99 ? [1, 0, 0] : [0, 0, 1];
    z = unit(sub(z, times(t, dot(z, t))));
    if (i) travelled += size(sub(line[i], line[i - 1]));
    frames.push({ at: line[i], t, z, y: cross(z, t), travelled });
  }
  return frames;
}

/// The sides of the profile of half size 1: from, to, and the normal of a flat one.
function facetsOf(sweep) {
  if (!sweep.round) {
    return [
      [
        [1, -1],
        [1, 1],
        [1, 0],
      ],
      [
        [1, 1],
        [-1, 1],
        [0, 1],
      ],
      [
        [-1, 1],
        [-1, -1],
        [-1, 0],
      ],
      [
        [-1, -1],
        [1, -1],
        [0, -1],
      ],
    ];
  }
  const facets = [],
    n = Math.max(sweep.width, sweep.height) > 12 ? 12 : 6;
  for (let k = 0; k < n; ++k) {
    const a = (2 * Math.PI * k) / n,
      e = (2 * Math.PI * (k + 1)) / n;
    facets.push([[Math.cos(a), Math.sin(a)], [Math.cos(e), Math.sin(e)], null]);
  }
  return facets;
}

/// Appends a swept profile to `out`, three vertices a triangle; `grow` mm thicker all round.
export function pushSweep(out, sweep, grow, colour) {
  const [r, g, b] = colour.map((v) => v / 255);
  const half = [sweep.width / 2 + grow, sweep.height / 2 + grow];
  const frames = framesAlong(sweep.points, sweep.z),
    facets = facetsOf(sweep);
  const vertex = (p, n, along, across) =>
    out.push(p[0], p[1], p[2], n[0], n[1], n[2], r, g, b, sweep.pattern, along, across);
  const side = (f, c, s) => add(f.at, add(times(f.y, c * half[0]), times(f.z, s * half[1])));
  for (let i = 0; i + 1 < frames.length; ++i) {
    const f = frames[i],
      h = frames[i + 1];
    for (const [p, q, flat] of facets) {
      for (const [frame, place, across] of [
        [f, p, -1],
        [f, q, 1],
        [h, q, 1],
        [f, p, -1],
        [h, q, 1],
        [h, p, -1],
      ]) {
        const facing = flat || place;
        vertex(
          side(frame, place[0], place[1]),
          add(times(frame.y, facing[0]), times(frame.z, facing[1])),
          frame.travelled,
          flat ? across : 9,
        );
      }
    }
  }
  for (const [f, outward] of [
    [frames[0], -1],
    [frames[frames.length - 1], 1],
  ]) {
    const rim = facets.map(([p]) => side(f, p[0], p[1])),
      n = times(f.t, outward);
    for (let k = 1; k + 1 < rim.length; ++k) {
      for (const p of [rim[0], rim[k], rim[k + 1]]) vertex(p, n, f.travelled, 9);
    }
  }
}

export function pushTriangles(out, corners, normal, colour) {
  const [r, g, b] = colour.map((v) => v / 255);
  for (const k of [0, 1, 2, 0, 2, 3]) out.push(...corners[k], ...normal, r, g, b, 0, 0, 9);
}

/// A vertex of a line: lines have neither light nor edges.
export function pushPoint(out, p, colour) {
  out.push(...p, 0, 0, 1, ...colour.map((v) => v / 255), 0, 0, 9);
}
