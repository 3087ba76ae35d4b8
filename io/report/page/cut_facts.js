// The cut list in a few numbers.

import { fact, make } from "./elements.js";
import { counted, fixed, none } from "./numbers.js";

const sum = (things, of) => things.reduce((total, thing) => total + of(thing), 0);

function priceFacts(orders) {
  const priced = orders.filter((o) => !none(o.price)),
    open = orders.length - priced.length;
  if (!priced.length) return [];
  const without = `without ${counted(open, "size", "sizes")} that the file gives no price for`;
  return [
    fact(
      "Price of the bars",
      fixed(
        sum(priced, (o) => o.price),
        2,
      ),
      open ? without : "by the prices in the file",
    ),
  ];
}

function sheetFacts(sheets) {
  if (!sheets.length) return [];
  const rivets = counted(
    sum(sheets, (s) => s.rivets),
    "rivet",
    "rivets",
  );
  return [
    fact(
      "Sheet as cut",
      fixed(
        sum(sheets, (s) => s.mass),
        2,
      ) + " kg",
      `${counted(sheets.length, "piece", "pieces")}, ${rivets}`,
    ),
  ];
}

export function cutFacts(c) {
  const pieces = sum(Object.values(c.pieces), (p) => p.count);
  return make(
    "dl",
    { class: "facts" },
    fact("Tube as cut", fixed(c.mass, 2) + " kg", counted(pieces, "piece", "pieces")),
    fact(
      "Bars to buy",
      counted(
        sum(c.orders, (o) => o.bars),
        "bar",
        "bars",
      ),
      `${fixed(
        sum(c.orders, (o) => o.mass),
        1,
      )} kg`,
    ),
    priceFacts(c.orders),
    fact(
      "Weld",
      fixed(c.weld_length / 1000, 2) + " m",
      `all round ${counted(c.welds, "end", "ends")}`,
    ),
    sheetFacts(c.sheets),
  );
}
