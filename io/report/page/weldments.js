// What is welded in one, where a frame has several such parts: the frame proper, arms, rods.

import { make } from "./elements.js";
import { fixed } from "./numbers.js";
import { longText, number, rowHead, table } from "./tables.js";

export const several = (c) => c.weldments.length > 1;

/// " of the frame", " of arm_l"; empty where there is but one.
export function ofWeldment(c, w) {
  if (!several(c)) return "";
  return w === c.weldments[0] && !w.single ? ` of the ${w.name}` : ` of ${w.name}`;
}

/// The pieces of some weldments, each with those of its tubes that are in them.
function piecesIn(c, weldments) {
  return Object.entries(c.pieces)
    .map(([label, piece]) => {
      const members = weldments.flatMap((w) => w.pieces[label] ?? []);
      return [label, { ...piece, members, count: members.length }];
    })
    .filter(([, piece]) => piece.count);
}

/// Titles and pieces of the tables: one, or one a weldment and one for what nothing is welded to.
export function pieceLists(c) {
  if (!several(c)) return [["Pieces", Object.entries(c.pieces)]];
  const lists = c.weldments
    .filter((w) => !w.single)
    .map((w) => ["Pieces" + ofWeldment(c, w), piecesIn(c, [w])]);
  const singles = c.weldments.filter((w) => w.single);
  lists.push(["Pieces that nothing is welded to", piecesIn(c, singles)]);
  return lists.filter(([, pieces]) => pieces.length);
}

export function weldmentTable(c) {
  const count = (w) => Object.values(w.pieces).flat().length;
  const rows = c.weldments.map((w) => ({
    cells: [
      w.name,
      String(count(w)),
      fixed(w.mass, 2),
      fixed(w.weld_length / 1000, 2),
      String(w.welds),
      String(w.joints),
      Object.keys(w.pieces).join(", "),
    ],
  }));
  const columns = [
    rowHead("Weldment"),
    number("Pieces"),
    number("Mass", "kg"),
    number("Weld", "m"),
    number("Welded ends"),
    number("Ends on a joint"),
    longText("Pieces"),
  ];
  const caption =
    "Parted where the file releases an end, and at links: these ends are held by pins, bushes or " +
    "eyes. Weld each by itself.";
  return [make("h3", {}, "Weldments"), table(caption, columns, rows, { label: "Weldments" })];
}
