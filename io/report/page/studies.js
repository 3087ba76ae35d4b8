// Torsion, floor, vibration, frame buckling. Each function returns a list of elements.

import { list, make, place } from "./elements.js";
import { floorRows } from "./floor_plot.js";
import { DASH, fixed, none, three, used } from "./numbers.js";
import { column, number, rowHead, table, usedCell } from "./tables.js";
import { data } from "./words.js";

function torsionWords(t) {
  const stiffness = (v) => `${three(v)} N m/deg`;
  const hold = t.hold === "clamped" ? "one end clamped" : "free to warp";
  const free = three(t.stiffness_free),
    clamped = stiffness(t.stiffness_clamped);
  const wanted = none(t.wanted) ? "" : ` Asked for: ${stiffness(t.wanted)}.`;
  const without = none(t.without_panels)
    ? ""
    : ` Without its panels ${stiffness(t.without_panels)}.`;
  const buckles = none(t.first_buckling_couple)
    ? ""
    : ` The first sheet buckles at ${three(t.first_buckling_couple)} N m.`;
  return (
    `${stiffness(t.stiffness)}, ${hold}; free ${free}, clamped ${clamped}.` +
    wanted +
    without +
    buckles
  );
}

function torsion(t) {
  const rows = t.bays.map((b) => ({
    cells: [
      fixed(b.from, 0),
      fixed(b.to, 0),
      fixed(b.twist, 4),
      fixed(b.twist_per_m, 4),
      fixed(100 * b.energy_share, 1),
      b.weakest ? "weakest bay" : "",
    ],
  }));
  return [
    make("h3", {}, "Torsion"),
    make("p", {}, torsionWords(t)),
    table(
      "Bays, from the rear to the front",
      [
        { ...number("From x", "mm"), row: true },
        number("To x", "mm"),
        number("Twist", "deg"),
        number("Twist per metre", "deg/m"),
        number("Share of the work", "%"),
        column(""),
      ],
      rows,
    ),
  ];
}

function floor(f) {
  const rows = floorRows().map(([label, , r]) => ({
    cells: [
      label,
      fixed(r.mass, 2),
      three(r.stiffness),
      three(r.frequency),
      usedCell(r.utilisation),
      used(r.rivet_utilisation),
      three(r.per_kg),
    ],
  }));
  const changes = f.what_would_change_it || [];
  return [
    make("h3", {}, "Floor"),
    make("p", {}, make("strong", {}, f.verdict)),
    list(f.reasons || []),
    table(
      "The frame without its sheet, with it, and with the sheet's mass in tubes instead",
      [
        rowHead("Frame"),
        number("Mass", "kg"),
        number("Torsional stiffness", "N m/deg"),
        number("First torsion", "Hz"),
        number("Most used"),
        number("Rivets used"),
        number("Gain", "N m/deg per kg"),
      ],
      rows,
    ),
    ...(changes.length ? [make("p", {}, "What would change it: "), list(changes)] : []),
  ];
}

function frequencies(modes) {
  const bending = modes.filter((m) => !m.rigid);
  return [
    make("h3", {}, "Natural frequencies"),
    table(
      `${modes.length - bending.length} rigid-body motions at 0 Hz are left out.`,
      [
        { ...number("Frequency", "Hz"), row: true },
        column("Shape"),
        number("Share of its motion", "%"),
      ],
      bending.map((m) => ({ cells: [three(m.frequency), m.name, fixed(100 * m.share, 0)] })),
      { label: "Natural frequencies" },
    ),
  ];
}

function frameBuckling(cases) {
  const sorted = cases
    .slice()
    .sort((a, b) => (a.factors[0] ?? Infinity) - (b.factors[0] ?? Infinity));
  const rows = sorted.map((r) => ({
    over: r.factors[0] < 1,
    cells: [
      r.case,
      none(r.factors[0]) ? "none found" : three(r.factors[0]),
      (r.in_suspension[0] ? "the suspension gives way, " : "") + (r.members[0] || DASH),
      r.factors.slice(1).map(three).join(", ") || DASH,
    ],
  }));
  const caption =
    "By what factor the loads of a case may grow before the frame, or a tube within " +
    "it, buckles (linear).";
  return [
    make("h3", {}, "Buckling of the frame"),
    table(caption, [rowHead("Case"), number("Factor"), column("Where"), column("Then")], rows, {
      label: "Buckling factors",
    }),
  ];
}

export function fillStudies() {
  const parts = [
    [data.torsion, torsion],
    [data.floor, floor],
    [data.modes, frequencies],
    [data.buckling, frameBuckling],
  ].filter(([made]) => made);
  for (const [made, write] of parts) place("studies-body").append(...write(made));
  if (!parts.length) place("studies").hidden = true;
}
