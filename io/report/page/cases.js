// The load cases: each in a section of its own, on the screen and on paper.

import { attachmentTable, gussetTable } from "./attachment_tables.js";
import { caseFacts, memberTable, panelTable, reactionTables, wheelTable } from "./case_tables.js";
import { SVG } from "./drawing.js";
import { make, place } from "./elements.js";
import { FrameFigure } from "./figure/frame_figure.js";
import { MODES, casesByUse, factorWords, nice, prepared, state } from "./state.js";
import { data } from "./words.js";

const filled = new Set();

function fillCase(i) {
  if (filled.has(i)) return;
  filled.add(i);
  const c = data.cases[i];
  place("case-" + i).append(
    caseFacts(c),
    make("div", { class: "figure-print print-only", id: "case-figure-" + i }),
    make(
      "div",
      { class: "side-by-side" },
      make("div", {}, wheelTable(c)),
      make("div", {}, reactionTables(c)),
    ),
    ...memberTable(c).filter((e) => e),
    ...panelTable(c).filter((e) => e),
    ...attachmentTable(c).filter((e) => e),
    ...gussetTable(c).filter((e) => e),
  );
}

export function fillCases() {
  place("cases-body").append(
    ...data.cases.map((c, i) => {
      const heading = "case-heading-" + i;
      return make(
        "section",
        { class: "case", id: "case-" + i, "aria-labelledby": heading, hidden: true },
        make("h3", { id: heading }, data.rides ? "Instant " : "Case ", c.name),
        c.note ? make("p", {}, c.note) : null,
      );
    }),
  );
}

export function showCases() {
  const all = place("all-cases").checked;
  data.cases.forEach((c, i) => {
    const seen = all || i === state.case;
    if (seen) fillCase(i);
    place("case-" + i).hidden = !seen;
  });
}

/// The frame on paper: every case in its own figure, by utilisation, as SVG.
const drawnForPrint = new Set();
function figureForPrint(body, i, name, mode = "utilisation") {
  if (drawnForPrint.has(name)) return;
  drawnForPrint.add(name);
  const c = data.cases[i],
    factor = nice(prepared.factor),
    { label } = MODES.find((m) => m.name === mode);
  const shown = mode === "rides" ? `${label}; shape of ${c.name}` : `Case ${c.name}`;
  const svg = document.createElementNS(SVG, "svg");
  const paper = new FrameFigure.Camera(prepared);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", `The frame in case ${c.name}, coloured by ${label.toLowerCase()}`);
  const before = { ...state };
  Object.assign(state, { case: i, mode, factor, picked: -1, marks: true });
  const drawn = FrameFigure.scene(prepared, state, paper.axes().eye);
  FrameFigure.drawSvg(svg, drawn, paper, 720, 430, name);
  Object.assign(state, before);
  body.append(
    svg,
    make(
      "p",
      { class: "small" },
      `${shown}, deflection ${factorWords(factor)}; dark violet 0, yellow 1 of what is ` +
        "allowed, black hatching over it.",
    ),
  );
}

function readyCase(i) {
  fillCase(i);
  figureForPrint(place("case-figure-" + i), i, "case" + i);
}

function readyForPrint() {
  if (casesByUse.length) {
    figureForPrint(place("figure-for-print"), casesByUse[0], "worst", MODES[0].name);
  }
  data.cases.forEach((c, i) => readyCase(i));
}

/// Cases that are not shown are filled in when the browser has time, and before a print.
export function fillRestWhenIdle() {
  let i = 0;
  const later = window.requestIdleCallback || ((f) => setTimeout(f, 30));
  const step = () => {
    if (i >= data.cases.length) {
      readyForPrint();
      return;
    }
    readyCase(i);
    i += 1;
    later(step);
  };
  later(step);
  window.addEventListener("beforeprint", readyForPrint);
}
