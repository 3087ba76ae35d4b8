// The cut list: what to buy, how to cut it, in which order to weld it.

import { barPlot, patternWords, patterns } from "./bar_plot.js";
import { cutFacts } from "./cut_facts.js";
import { list, make, place } from "./elements.js";
import { DASH, counted, fixed, none } from "./numbers.js";
import { sheetPlot } from "./sheet_plot.js";
import { column, longText, number, rowHead, table } from "./tables.js";
import { ofWeldment, pieceLists, several, weldmentTable } from "./weldments.js";
import { data } from "./words.js";

function turnWords(turn) {
  if (none(turn)) return "";
  const size = Math.abs(turn),
    sided = size > 0.5 && size < 179.5;
  const way = !sided ? "" : turn > 0 ? " clockwise" : " anticlockwise";
  return `, turned ${fixed(size, 0)}\u00b0${way}`;
}

function pieceRow([name, p]) {
  const ends = none(p.mirror_of)
    ? [p.ends[0].text, p.ends[1].text + turnWords(p.turn)]
    : [`mirror image of ${p.mirror_of}`, ""];
  const shrinks = p.shrinkage.some(none) ? null : p.shrinkage[0] + p.shrinkage[1];
  return {
    cells: [
      name,
      String(p.count),
      p.size,
      fixed(p.long_point, 1),
      fixed(p.short_point, 1),
      fixed(shrinks, 2),
      ...ends,
      fixed(p.mass, 3),
      p.members.join(", "),
    ],
  };
}

function pieces(c) {
  const caption =
    "Lengths from point to point on the outer faces. Angles in degrees from a square " +
    "cut: one number for a mitre, two with a slash for mitre and bevel, two with a plus for two " +
    "planes. How far the second end is turned about the tube from the first: at 0 the long " +
    "points lie on one side, at 180 on opposite sides.";
  const columns = [
    rowHead("Piece"),
    number("Count"),
    column("Section"),
    number("Long point", "mm"),
    number("Short point", "mm"),
    number("Welds draw in", "mm"),
    column("First end"),
    column("Second end"),
    number("Mass of one", "kg"),
    longText("Tubes"),
  ];
  return pieceLists(c).flatMap(([title, list]) => [
    make("h3", {}, title),
    table(caption, columns, list.map(pieceRow), { label: "Pieces to cut", kind: "pieces" }),
  ]);
}

function barOrder(o, i) {
  const price = none(o.price) ? "" : `, price ${fixed(o.price, 2)}`;
  const least = o.optimal ? "Fewer bars do not do." : `At least ${o.least_bars} are needed.`;
  return [
    make("h4", {}, `${o.bars} of ${o.size}, ${fixed(o.mass, 1)} kg${price}`),
    make(
      "p",
      { class: "small" },
      `${least} Off-cuts, saw cuts and ends take ${fixed(o.waste / 1000, 2)} m.`,
    ),
    make(
      "ol",
      { class: "bars" },
      patterns(o).map((p, k) =>
        make(
          "li",
          {},
          make("div", { class: "bar-figure", "data-order": i, "data-pattern": k }),
          make("span", {}, `${counted(p.count, "bar", "bars")}: ${patternWords(p)}`),
        ),
      ),
    ),
  ];
}

function bars(c) {
  const { length, kerf, end_trim } = c.stock;
  const rule =
    `Bars of ${fixed(length, 0)} mm; a saw cut takes ${fixed(kerf, 1)} mm, and ` +
    `${fixed(end_trim, 0)} mm come off each end. What is left over is hatched.`;
  return [
    make("h3", {}, "Bars to buy"),
    make("p", { class: "small" }, rule),
    ...c.orders.flatMap(barOrder),
  ];
}

function sheetRow(s) {
  return {
    cells: [
      s.name,
      s.material,
      fixed(s.thickness, 1),
      fixed(s.width, 1),
      fixed(s.height, 1),
      fixed(s.area / 1e6, 3),
      fixed(s.mass, 2),
      String(s.rivets),
      s.holes.length ? fixed(s.holes[0][2], 1) : DASH,
      s.panels.join(", "),
    ],
  };
}

function sheets(c) {
  const caption =
    "Each piece ends flush with the outer faces of its tubes. Width and height are " +
    "those of the rectangle to buy. check -o and cut -o write each as a drawing in full size, " +
    "DXF and SVG.";
  const columns = [
    rowHead("Piece"),
    column("Material"),
    number("Thickness", "mm"),
    number("Width", "mm"),
    number("Height", "mm"),
    number("Area", "m\u00b2"),
    number("Mass", "kg"),
    number("Rivets"),
    number("Hole", "mm"),
    longText("Panels"),
  ];
  const figures = c.sheets.map((s, i) =>
    make(
      "figure",
      { class: "sheet-figure" },
      make("figcaption", {}, `Sheet ${s.name}`, make("small", {}, "from outside, tubes dashed")),
      make("div", { "data-sheet": i }),
    ),
  );
  return [
    make("h3", {}, "Sheets"),
    table(caption, columns, c.sheets.map(sheetRow), { label: "Sheets to cut" }),
    ...figures,
  ];
}

function jig(c) {
  const between = (a, b) => `${a} ${DASH} ${b}`;
  const row = ({ corners, diagonals }) => ({
    cells: [
      between(corners[0], corners[2]),
      fixed(diagonals[0], 1),
      between(corners[1], corners[3]),
      fixed(diagonals[1], 1),
    ],
  });
  const columns = [
    rowHead("Between"),
    number("Diagonal", "mm"),
    column("And between"),
    number("Diagonal", "mm"),
  ];
  const caption = "Both diagonals of every four-sided bay, from node to node.";
  return c.weldments
    .filter((w) => w.jig.length)
    .flatMap((w) => [
      make("h3", {}, "On the jig" + ofWeldment(c, w)),
      table(caption, columns, w.jig.map(row), { label: "Diagonals on the jig" }),
    ]);
}

function weldOrder(c) {
  const row = (w, i) => ({
    cells: [String(i + 1), w.nodes.join(", "), String(w.ends), fixed(w.weld_length, 0)],
  });
  const caption =
    "Tack every joint first. Joints that are images of each other go one after the " +
    "other, then the one farthest from those just welded.";
  const columns = [rowHead("Step"), longText("Nodes"), number("Ends"), number("Weld", "mm")];
  return [
    ...c.weldments
      .filter((w) => w.weld_order.length)
      .flatMap((w) => [
        make("h3", {}, "Weld in this order" + ofWeldment(c, w)),
        table(caption, columns, w.weld_order.map(row), { label: "Order of welding" }),
      ]),
    ...shrinkage(c),
  ];
}

function shrinkage(c) {
  const parts = [],
    unknown = c.shrinkage.unknown_ends;
  const along = Object.entries(c.shrinkage.along).filter(([, d]) => d && d.welds > 0);
  const rows = along.map(([axis, d]) => ({
    cells: [axis, fixed(d.draw_in, 1), String(d.welds), d.row.join(", ")],
  }));
  const caption =
    "0.1 times the area of a weld over the wall, each; contained in no length. A rule " +
    "for plate: weld a sample and measure if a length matters.";
  if (rows.length) {
    parts.push(
      make("h3", {}, "What the welds draw in"),
      table(
        caption,
        [rowHead("Along"), number("Draws in", "mm"), number("Welds"), longText("By the row of")],
        rows,
        { label: "Shrinkage of the welds" },
      ),
    );
  }
  if (unknown) {
    const ends = counted(unknown, "end is", "ends are");
    parts.push(make("p", { class: "small" }, `${ends} not steel tube: weld a sample and measure.`));
  }
  return parts;
}

export function fillCut() {
  const body = place("cut-body"),
    c = data.cut;
  if (!c) {
    const why = "Left out of a frame as large as this one; tubewright cut makes it.";
    body.append(make("p", {}, why));
    return;
  }
  const doubts = c.remarks.map((w) => w.message + (w.advice ? "; " + w.advice : ""));
  body.append(cutFacts(c));
  if (c.advice.length) body.append(make("h3", {}, "Before you cut"), list(c.advice));
  if (doubts.length) body.append(make("h3", {}, "Doubts about cutting it"), list(doubts));
  if (several(c)) body.append(...weldmentTable(c));
  if (Object.keys(c.pieces).length) body.append(...pieces(c));
  if (c.orders.length) body.append(...bars(c));
  if (c.sheets.length) body.append(...sheets(c));
  if (c.jig.length) body.append(...jig(c));
  if (c.weld_order.length) body.append(...weldOrder(c));
}

/// Bars and sheets are drawn for the width there is.
export function fillCutPlots() {
  const body = place("cut-body"),
    width = Math.max(260, Math.min(900, body.clientWidth));
  if (!data.cut || body.dataset.width === String(width)) return;
  body.dataset.width = String(width);
  body.querySelectorAll("[data-order]").forEach((box) => {
    const order = data.cut.orders[Number(box.dataset.order)];
    box.replaceChildren(barPlot(patterns(order)[Number(box.dataset.pattern)], width - 24));
  });
  body
    .querySelectorAll("[data-sheet]")
    .forEach((box) =>
      box.replaceChildren(sheetPlot(data.cut.sheets[Number(box.dataset.sheet)], width)),
    );
}
