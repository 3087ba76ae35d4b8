// All load cases in one table, and what comes out if the frame is not as drawn.

import { chooseCase } from "./controls.js";
import { make, meter, place } from "./elements.js";
import { DASH, fixed, none, three, used } from "./numbers.js";
import { casesByUse } from "./state.js";
import { column, longText, number, rowHead, table } from "./tables.js";
import { CASE, checkWords, data, passWord } from "./words.js";

const meterCell = (value) => make("span", {}, meter(value), used(value));

function caseButton(i, name) {
  return make(
    "button",
    {
      type: "button",
      class: "link",
      onclick() {
        chooseCase(i);
        place("case-" + i).scrollIntoView({ block: "start" });
      },
    },
    name,
  );
}

function worstCells(worst) {
  if (!worst) return [{ text: meterCell(null), over: false }, DASH, DASH];
  const over = worst.utilisation > 1;
  return [
    { text: meterCell(worst.utilisation), over },
    worst.check ? checkWords(worst.check) : DASH,
    worst.item || worst.reason || DASH,
  ];
}

export function fillOverview() {
  const rows = casesByUse.map((i) => {
    const c = data.cases[i];
    return {
      over: !c.passes,
      cells: [
        caseButton(i, c.name),
        passWord(c.passes),
        ...worstCells(c.worst),
        `${fixed(c.reserve, 2)}${c.rare ? ", rare" : ""}`,
        `${three(c.moves_most.by)} ${c.moves_most.node}`,
        c.note || "",
      ],
    };
  });
  const caption =
    "Nearest the limit first. Used is the share of what is allowed, with the loads " +
    "times the reserve of the case; 1 is the limit.";
  place("cases-overview").append(
    table(
      caption,
      [
        rowHead(CASE),
        column("Verdict"),
        number("Used"),
        column("Check"),
        column("Item"),
        number("Reserve"),
        number("Moves most", "mm, node"),
        longText("Note"),
      ],
      rows,
      { label: "Load cases" },
    ),
  );
}

export function fillOtherwise() {
  if (!data.what_ifs.length) {
    place("otherwise").hidden = true;
    return;
  }
  const rows = data.what_ifs.map((w) => {
    const over = w.utilisation > 1;
    return {
      over,
      cells: [
        w.change,
        { text: none(w.utilisation) ? "no answer" : meterCell(w.utilisation), over },
        w.check ? checkWords(w.check) : DASH,
        w.item || DASH,
        w.case || DASH,
      ],
    };
  });
  place("otherwise-body").append(
    table(
      "The most used item of all cases if one thing is not as it was drawn.",
      [rowHead("Change"), number("Used"), column("Check"), column("Item"), column("Case")],
      rows,
    ),
  );
}
