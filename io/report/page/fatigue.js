// Fatigue screening.

import { make, place } from "./elements.js";
import { DASH, MPa, fixed, millions, none, three, used } from "./numbers.js";
import { column, number, rowHead, table } from "./tables.js";
import { data } from "./words.js";

function introduction(f) {
  const category = `Detail category ${fixed(f.category, 0)} MPa at 2 million cycles`;
  const counts = f.counts ? "it counts in the verdict" : "it does not count in the verdict";
  return [
    make(
      "p",
      {},
      `${category}, \u03b3Mf ${fixed(f.gamma_Mf, 2)}; ${counts}. ` +
        `Category: ${f.source}. The tests behind the classes begin at walls of 4 mm: ` +
        "this compares tubes, it proves no joint.",
    ),
    make("p", {}, "The spectrum:"),
    make(
      "ol",
      {},
      f.spectrum.map((s) => make("li", {}, `${fixed(s.cycles, 0)} times ${s.what}`)),
    ),
  ];
}

function screened(f) {
  const members = f.members
    .filter((m) => !none(m.utilisation))
    .sort((a, b) => b.utilisation - a.utilisation);
  if (!members.length) return make("p", {}, "No member could be screened.");
  const columns = [
    rowHead("Member"),
    column("End"),
    number("Used"),
    ...f.spectrum.map((s, k) => number(`Range ${k + 1}`, "MPa")),
    number("Life by 1 alone", "cycles"),
    number("Miner's sum"),
  ];
  const rows = members.map((m) => {
    const over = m.utilisation > 1;
    return {
      over,
      cells: [
        m.name,
        m.end || DASH,
        { text: used(m.utilisation), over },
        ...f.spectrum.map((s, k) => MPa(m.ranges[k])),
        millions(m.cycles),
        three(m.damage),
      ],
    };
  });
  const caption =
    "Most used first. Used is what all stress ranges may be divided by until Miner's " +
    "sum is 1. Ranges are numbered as the lines of the spectrum.";
  return table(caption, columns, rows, { label: "Fatigue screening" });
}

function notScreened(f) {
  const reasons = new Map();
  for (const m of f.members.filter((one) => none(one.utilisation))) {
    const reason = m.reason || "no reason given";
    reasons.set(reason, [...(reasons.get(reason) || []), m.name]);
  }
  return [...reasons].map(([reason, names]) =>
    make("p", { class: "small" }, `Not screened, ${reason}: ${names.join(", ")}.`),
  );
}

export function fillFatigue() {
  const f = data.fatigue,
    body = place("fatigue-body");
  if (f) body.append(...introduction(f), screened(f), ...notScreened(f));
  else body.append(make("p", {}, "No fatigue screening was made; see what was not checked."));
}
