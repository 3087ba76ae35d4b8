// The head of the page and its first section: will it hold?

import { box, circle, label, plot, stroke } from "./drawing.js";
import { fact, list, make, place } from "./elements.js";
import { counted, fixed, none, three, used } from "./numbers.js";
import { casesByUse, worstOf } from "./state.js";
import { CASE, checkWords, data, words } from "./words.js";

export function fillHead() {
  place("title").textContent = data.title;
  const cells = [
    ["File", data.input.name],
    ["Date", data.date],
    ["tubewright", data.version],
    ["Analysis", words(data.analysis)],
    ["Units", "mm, N, MPa, deg, kg"],
  ];
  place("title-block").append(...cells.map(([k, v]) => fact(k, v)));
  place("foot").append(
    `Made by tubewright ${data.version} on ${data.date} from ${data.input.name}. ` +
      "A calculation with the loads and sizes given above, no approval of a vehicle.",
  );
}

function worstFacts(worst) {
  if (!worst) return [];
  const over = worst.utilisation > 1;
  return [
    fact(
      "Most used",
      used(worst.utilisation) + " of 1",
      `${checkWords(worst.check)} of ${worst.item}, ${data.rides ? "" : "case "}${worst.case}`,
    ),
    fact(
      over ? "Too much by" : "In hand",
      fixed(Math.abs(1 - worst.utilisation), 2),
      over ? "of what is allowed" : "of what is allowed, reserve included",
    ),
  ];
}

function rideFacts() {
  const { rides } = data.rides,
    pass = rides.filter((r) => r.verdict.answer === "pass").length;
  const wheels = rides.flatMap((r) =>
    Object.entries(r.wheels).map(([name, w]) => ({ name, ride: r.name, ...w })),
  );
  const hardest = wheels.sort((a, b) => b.factor - a.factor)[0];
  return [
    fact("Rides", `${pass} of ${rides.length} pass`),
    fact(
      "Hardest hit wheel",
      `${fixed(hardest.factor, 2)} times at rest`,
      `${words(hardest.name)}, ride ${hardest.ride}`,
    ),
  ];
}

function stiffnessFacts() {
  const facts = [],
    t = data.torsion;
  if (t && !none(t.stiffness)) {
    facts.push(
      fact(
        "Torsional stiffness",
        three(t.stiffness) + " N m/deg",
        none(t.wanted) ? "no value asked for" : three(t.wanted) + " N m/deg asked for",
      ),
    );
  }
  const elastic = (data.modes || []).filter((m) => !m.rigid);
  const first = elastic.find((m) => m.frame_only) || elastic[0];
  if (first) {
    facts.push(fact("First natural frequency", three(first.frequency) + " Hz", first.name));
  }
  return facts;
}

function fatigueFacts() {
  if (!data.fatigue) return [];
  const tired = Math.max(-1, ...data.fatigue.members.map((m) => m.utilisation ?? -1));
  if (tired < 0) return [];
  return [
    fact(
      "Fatigue screening",
      make("a", { href: "#fatigue" }, `${used(tired)} of 1`),
      data.fatigue.counts ? "counts in the verdict" : "does not count in the verdict",
    ),
  ];
}

function openFacts() {
  const open = data.not_checked.length,
    doubts = data.warnings.length;
  const facts = [
    fact(
      "Not checked",
      open
        ? make("a", { href: "#not-checked" }, counted(open, "line", "lines"))
        : "nothing left out",
    ),
  ];
  if (doubts) {
    facts.push(
      fact(
        "Doubts about the frame",
        make("a", { href: "#cautions" }, counted(doubts, "warning", "warnings")),
      ),
    );
  }
  return facts;
}

const REASONS_SHOWN = 8;

export function fillVerdict() {
  const v = data.verdict,
    shown = v.reasons.slice(0, REASONS_SHOWN),
    more = v.reasons.length - shown.length;
  const failing = data.cases.filter((c) => !c.passes).length;
  const facts = [
    ...worstFacts(v.worst),
    ...(data.rides
      ? rideFacts()
      : [fact("Load cases", `${data.cases.length - failing} of ${data.cases.length} pass`)]),
    fact(
      "Mass",
      fixed(data.mass.tubes + data.mass.panels, 1) + " kg frame",
      fixed(data.mass.total, 1) + " kg with what it carries",
    ),
    ...stiffnessFacts(),
    ...fatigueFacts(),
    ...openFacts(),
  ];
  place("verdict-body").append(
    make(
      "div",
      { class: "verdict " + v.answer },
      make("div", { class: "word" }, v.word),
      make(
        "div",
        { class: "reason" },
        make("p", {}, v.sentence),
        make("p", { class: "coverage" }, v.coverage + "."),
        ...(shown.length ? [list(shown)] : []),
        ...(more > 0
          ? [make("p", {}, make("a", { href: "#not-checked" }, `and ${more} more`))]
          : []),
      ),
    ),
    make("div", { class: "strip", id: "strip" }),
    make("dl", { class: "facts" }, facts),
  );
}

export function fillContents() {
  const sections = [...document.querySelectorAll("main > section")].filter(
    (s) => s.id !== "verdict" && !s.hidden,
  );
  place("contents").append(
    make(
      "ul",
      {},
      sections.map((s) =>
        make("li", {}, make("a", { href: "#" + s.id }, s.querySelector("h2").textContent)),
      ),
    ),
  );
}

function nameMostUsed(svg, x, width) {
  const most = data.cases[casesByUse[0]];
  if (!most || worstOf(most) < 0) return;
  const at = x(worstOf(most)),
    near = at > width - 180;
  label(
    svg,
    at + (near ? 6 : -6),
    13,
    `${most.name} ${used(worstOf(most))}`,
    "strong",
    near ? "end" : "start",
  );
  if (at > 270 && width > 560) {
    label(svg, x(0), 13, `every ${CASE.toLowerCase()}, by its most used item`, "dim");
  }
}

/// Every case's worst on one line from 0 to the limit and beyond.
export function strip(width) {
  const top = Math.max(1.1, 1.08 * Math.max(0, ...data.cases.map(worstOf)));
  const left = 8,
    right = width - 8;
  const x = (u) => left + ((right - left) * Math.min(u, top)) / top;
  const all = casesByUse.map((i) => `${data.cases[i].name} ${used(worstOf(data.cases[i]))}`);
  const svg = plot(width, 62, `Most used item of each ${CASE.toLowerCase()}: ` + all.join(", "));
  box(svg, x(0), 24, x(1) - x(0), 12, "track");
  stroke(svg, `M${x(1)} 12V44`, "limit");
  label(svg, x(1), 57, "limit 1", "strong", "middle");
  for (const t of [0, 0.25, 0.5, 0.75]) {
    label(svg, x(t), 57, String(t), "dim", t ? "middle" : "start");
  }
  casesByUse
    .slice()
    .reverse()
    .forEach((i) => {
      const u = worstOf(data.cases[i]);
      if (u < 0) return;
      if (u > 1) stroke(svg, `M${x(u)} 20l7 10l-7 10l-7 -10z`, "dot");
      else circle(svg, x(u), 30, 5.5, i === casesByUse[0] ? "dot" : "hollow");
    });
  nameMostUsed(svg, x, width);
  return svg;
}
