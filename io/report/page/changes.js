// What to change, and what must hold. There only where `check` was asked for it.

import { make, place } from "./elements.js";
import { DASH, fixed, none, three, used } from "./numbers.js";
import { column, number, rowHead, table, usedCell } from "./tables.js";
import { data } from "./words.js";

const SHOWN_DIAGONALS = 24;

const withSign = (v, digits) => (v > 0 ? "+" : "") + fixed(v, digits);

const unbroken = (text) => text.replace(/ /g, "\u00a0");

/// Change of torsional stiffness in per cent.
function share(f) {
  const now = data.rank.whole.stiffness;
  if (none(now) || none(f.stiffness)) return DASH;
  return withSign(100 * (f.stiffness / now - 1), 1);
}

function worstCell(f) {
  if (f.mechanism) return { text: "moves", over: true, order: Infinity };
  return usedCell(f.worst);
}

function resizedCells(r) {
  if (!r) return [DASH, DASH, DASH, DASH];
  return [unbroken(r.size), withSign(r.mass - data.rank.whole.mass, 2), share(r), worstCell(r)];
}

function groupRows() {
  const order = (g) => (none(g.per_kg) ? -Infinity : g.per_kg);
  return data.rank.groups
    .slice()
    .sort((a, b) => order(b) - order(a))
    .map((g) => ({
      cells: [
        unbroken(g.name + (g.members.length > 1 ? ` +${g.members.length - 1}` : "")),
        fixed(g.mass, 2),
        three(g.per_kg),
        ...resizedCells(g.up),
        ...resizedCells(g.down),
        worstCell(g.without),
        g.removable ? unbroken("can go") : "",
      ],
    }));
}

function rankParts() {
  if (!data.rank) return [];
  const r = data.rank;
  const parts = [
    make("h3", {}, "What each tube is worth"),
    make("p", {}, make("strong", {}, `Pays most: ${r.best}.`)),
    table(
      "Each with its mirror image and the rest of its path (+1: one more), made one size bigger, " +
        "one smaller, and left out; each frame solved by itself",
      [
        rowHead("Tube"),
        number("Mass", "kg"),
        number("Slope with the wall", "N m/deg a kg"),
        column("One size up"),
        number("Mass", "kg"),
        number("Torsion", "%"),
        number("Worst"),
        column("One size down"),
        number("Mass", "kg"),
        number("Torsion", "%"),
        number("Worst"),
        number("Worst without it"),
        column(""),
      ],
      groupRows(),
      { label: "What each tube is worth" },
    ),
  ];
  if (!r.diagonals.length) return parts;
  const shown = r.diagonals.slice(0, SHOWN_DIAGONALS);
  const left = r.diagonals.length - shown.length;
  parts.push(
    table(
      `A diagonal of ${r.diagonal_size} more in an open bay, and in its mirror image` +
        (left ? `; ${left} that do less are left out` : ""),
      [
        rowHead("Diagonal"),
        number("Mass", "kg"),
        number("Torsion, welded", "N m/deg"),
        number("pinned", "N m/deg"),
        number("Gain", "N m/deg a kg"),
        number("Worst, welded"),
      ],
      shown.map((d) => ({
        cells: [
          d.tubes.join(" and "),
          fixed(d.mass, 3),
          three(d.welded.stiffness),
          three(d.pinned.stiffness),
          three(d.per_kg),
          worstCell(d.welded),
        ],
      })),
      { label: "Diagonals for open bays" },
    ),
  );
  return parts;
}

function lossRow(l) {
  const whole = data.losses.stiffness;
  const left = none(whole) || none(l.stiffness) ? DASH : fixed((100 * l.stiffness) / whole, 0);
  return {
    over: l.must_hold,
    cells: [
      l.name,
      { text: none(l.worst) ? DASH : used(l.worst), over: l.must_hold, order: l.worst },
      left,
      none(l.fatigue) ? DASH : used(l.fatigue),
      none(l.redundancy) ? DASH : fixed(l.redundancy, 2),
      l.follows,
    ],
  };
}

function lossTable(caption, losses) {
  if (!losses.length) return null;
  return table(
    caption,
    [
      rowHead("Lost"),
      number("Worst used", "at a safety factor of 1"),
      number("Torsion left", "%"),
      number("Fatigue of it", "used"),
      number("Redundancy", "of 6"),
      column("What follows"),
    ],
    losses.map(lossRow),
    { label: caption },
  );
}

function lossParts() {
  if (!data.losses) return [];
  const { losses, inspect, sentence, redundancy_sum, held_by_supports } = data.losses;
  const others = losses
    .filter((l) => l.must_hold && l.kind !== "weld")
    .sort((a, b) => (b.worst ?? Infinity) - (a.worst ?? Infinity));
  const held = held_by_supports ? "as its supports hold it" : "free";
  const degree = none(redundancy_sum)
    ? ""
    : `Statically indeterminate to the degree ${fixed(redundancy_sum, 0)}, ${held}. `;
  const first = sentence[0].toUpperCase() + sentence.slice(1);
  return [
    make("h3", {}, "What must hold"),
    make("p", {}, make("strong", {}, `${first}.`)),
    make(
      "p",
      {},
      degree +
        "One part is lost at a time, without a shock; a part that snaps may ask for up to twice " +
        "the forces.",
    ),
    lossTable(
      "Welds that must hold, nearest to fatigue first: inspect them in this order",
      inspect.map((i) => losses[i]),
    ),
    lossTable("Tubes and parts of sheets that must not be lost, the worst first", others),
  ].filter((part) => part);
}

export function fillChanges() {
  const parts = [...rankParts(), ...lossParts()];
  place("changes-body").append(...parts);
  if (!parts.length) place("changes").hidden = true;
}
