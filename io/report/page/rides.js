// What the rides do: there only in the report of `ride`. What is not proven comes first.

import { chooseCase } from "./controls.js";
import { list, make, meter, place } from "./elements.js";
import { DASH, fixed, newtons, none, three, used } from "./numbers.js";
import { ridePlot } from "./ride_plot.js";
import { column, number, rowHead, table } from "./tables.js";
import { checkWords, data, words } from "./words.js";

const STANDARD_GRAVITY = 9.80665; // m/s2 in a g

const sentenceOf = (text) => text[0].toUpperCase() + text.slice(1) + ".";

/// Puts one instant into the figure and the tables.
function instantButton(entry) {
  return make(
    "button",
    {
      type: "button",
      class: "link",
      onclick() {
        chooseCase(entry.case);
        place("figure").scrollIntoView({ block: "start" });
      },
    },
    fixed(entry.time, 4),
  );
}

function wheelsOf(ride) {
  const rows = Object.entries(ride.wheels).map(([name, w]) => ({
    cells: [
      words(name),
      newtons(w.standing),
      newtons(w.peak),
      fixed(w.factor, 2),
      none(w.standard_factor) ? DASH : fixed(w.standard_factor, 2),
      fixed(100 * w.off_ground, 1),
      fixed(w.tyre_deflection, 1),
    ],
  }));
  return table(
    "Factor: peak over the load at rest. Standard set: what its bumps and steps count with.",
    [
      rowHead("Wheel"),
      number("At rest", "N"),
      number("Peak", "N"),
      number("Factor"),
      number("Standard set"),
      number("In the air", "% of the time"),
      number("Tyre squeezed", "mm"),
    ],
    rows,
    { label: `Wheels in ride ${ride.name}` },
  );
}

function massesOf(ride) {
  const masses = Object.entries(ride.masses);
  if (!masses.length) return [];
  const rows = masses.map(([name, m]) => ({
    cells: [
      words(name),
      fixed(m.rms, 2),
      fixed(m.rms / STANDARD_GRAVITY, 2),
      fixed(m.peak, 1),
      fixed(m.peak / STANDARD_GRAVITY, 2),
    ],
  }));
  const shaken = table(
    "Shaken up and down, beside gravity.",
    [
      rowHead("Mass"),
      number("Rms", "m/s\u00b2"),
      number("", "g"),
      number("Peak", "m/s\u00b2"),
      number("", "g"),
    ],
    rows,
    { label: `Carried masses in ride ${ride.name}` },
  );
  return [make("h4", {}, "Carried masses"), shaken];
}

function nearestOf(ride) {
  if (!ride.nearest.length) return make("p", {}, "Nothing could be checked.");
  const rows = ride.nearest.map((w) => {
    const over = w.utilisation > 1;
    return {
      over,
      cells: [
        w.item,
        { text: make("span", {}, meter(w.utilisation), used(w.utilisation)), over },
        checkWords(w.check),
        instantButton(w),
      ],
    };
  });
  return table(
    "Each at the instant that is worst for it; a time shows that instant in the figure.",
    [rowHead("Item"), number("Used"), column("Check"), number("At", "s")],
    rows,
    { label: `Nearest their limits in ride ${ride.name}` },
  );
}

function notProven(ride) {
  if (!ride.not_proven.length) return [];
  return [make("p", {}, make("strong", {}, "Not proven")), list(ride.not_proven.map(sentenceOf))];
}

const halvedWords = (change) =>
  none(change)
    ? "With half the step of time there is no answer."
    : `With half the step of time peaks change by ${fixed(100 * change, 1)} % at most.`;

function ridePart(ride, i) {
  const worst = ride.worst
    ? `Most used: ${used(ride.worst.utilisation)} by ${checkWords(ride.worst.check)} of ` +
      `${ride.worst.item} at ${fixed(ride.worst.time, 4)} s`
    : "Nothing could be checked";
  return [
    make("h3", {}, `Ride ${ride.name}: ${ride.word}`),
    ...notProven(ride),
    make("p", {}, make("strong", {}, `${worst}.`)),
    make(
      "p",
      {},
      `${sentenceOf(ride.what)} ${fixed(ride.distance, 1)} m in ${fixed(ride.duration, 2)} s. ` +
        halvedWords(ride.change_by_halving),
    ),
    make(
      "figure",
      { class: "ride-figure" },
      make(
        "figcaption",
        {},
        "Wheel forces",
        make(
          "small",
          {},
          "N over s, from the least to the greatest at each time; thin line: at rest; " +
            "dashed: what the standard set counts with",
        ),
      ),
      make("div", { "data-ride": String(i) }),
    ),
    make("h4", {}, "Wheels"),
    wheelsOf(ride),
    make("h4", {}, "Nearest their limits"),
    nearestOf(ride),
    ...massesOf(ride),
    make("h4", {}, "Wear"),
    make("p", {}, sentenceOf(ride.wear)),
  ];
}

function lifePart() {
  const { sentence, members } = data.rides.life;
  if (!sentence) return [];
  const once = data.rides.rides.map((r) => number(`Ride ${r.name}`, "once"));
  const rows = members.map((m) => ({
    over: m.damage > 1,
    cells: [
      m.name,
      { text: three(m.damage), over: m.damage > 1 },
      ...m.rides.map((damage) => three(damage)),
    ],
  }));
  return [
    make("h3", {}, "How long it lasts"),
    make("p", {}, make("strong", {}, sentenceOf(sentence))),
    rows.length
      ? table(
          "Miner's sums of stress ranges at the worse end, worn most first; 1 is the end of life.",
          [rowHead("Tube"), number("All together"), ...once],
          rows,
          { label: "Fatigue by the rides" },
        )
      : make("p", {}, "No stress range reaches the cut-off."),
  ];
}

/// Rides are drawn for the width there is.
export function fillRidePlots() {
  const body = place("rides-body"),
    width = Math.max(260, Math.min(1160, body.clientWidth));
  if (!data.rides || body.dataset.width === String(width)) return;
  body.dataset.width = String(width);
  body
    .querySelectorAll("[data-ride]")
    .forEach((box) =>
      box.replaceChildren(ridePlot(data.rides.rides[Number(box.dataset.ride)], width)),
    );
}

/// Chapters that `ride` has nothing for.
const OF_A_CHECK = ["fatigue", "cut"];

export function fillRides() {
  if (!data.rides) {
    place("rides").hidden = true;
    return;
  }
  const body = place("rides-body");
  data.rides.rides.forEach((ride, i) => body.append(...ridePart(ride, i)));
  body.append(...lifePart());
  place("cases-heading").textContent = "The worst instants";
  for (const chapter of OF_A_CHECK) place(chapter).hidden = true;
}
