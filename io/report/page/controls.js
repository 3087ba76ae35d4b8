// What the user chooses: load case, colours, deflection, tube.

import { showCases } from "./cases.js";
import { make, place } from "./elements.js";
import { used } from "./numbers.js";
import { fillLegend, fillPicked } from "./picked.js";
import { refresh } from "./stage.js";
import {
  MODES,
  casesByUse,
  factorWords,
  governing,
  membersByUse,
  nice,
  prepared,
  state,
  thisCase,
  worstOf,
} from "./state.js";
import { CASE, checkWords, data, passWord } from "./words.js";

let caseSelects = [],
  tubeSelect;

function caseOption(i) {
  const c = data.cases[i],
    worst = used(worstOf(c) < 0 ? null : worstOf(c));
  return make("option", { value: String(i) }, `${c.name}: ${worst}, ${passWord(c.passes)}`);
}

function modeChoice() {
  return MODES.map((m) =>
    make(
      "label",
      {},
      make("input", {
        type: "radio",
        name: "mode",
        value: m.name,
        checked: m.name === state.mode,
        onchange() {
          state.mode = m.name;
          fillLegend();
          refresh();
        },
      }),
      m.label,
    ),
  );
}

function deflectionChoice() {
  const most = 4 * state.factor || 1,
    output = make("output", { for: "factor" });
  const slider = make("input", {
    type: "range",
    id: "factor",
    min: "0",
    max: "100",
    step: "1",
    value: "50",
  });
  const apply = () => {
    // Finer near zero; in the middle the factor that suits the frame.
    state.factor = prepared.factor ? nice(most * (slider.value / 100) ** 2) : 0;
    output.textContent = factorWords(state.factor);
    slider.setAttribute("aria-valuetext", output.textContent);
  };
  slider.addEventListener("input", () => {
    apply();
    refresh();
  });
  apply();
  const name = make("label", { for: "factor" }, "Deflection drawn");
  return make("div", {}, make("div", { class: "row" }, name, output), slider);
}

function markChoice() {
  return make(
    "label",
    { class: "tick" },
    make("input", {
      type: "checkbox",
      checked: true,
      onchange(e) {
        state.marks = e.target.checked;
        refresh();
      },
    }),
    "Wheels, supports, masses, ground",
  );
}

function caseSwitch() {
  const select = make(
    "select",
    { id: "case-select-2" },
    data.cases.map((c, i) => caseOption(i)),
  );
  const all = make("input", { type: "checkbox", id: "all-cases", onchange: () => showCases() });
  place("case-switch").append(
    make(
      "div",
      { class: "pick" },
      make("label", { for: "case-select-2" }, `${CASE} shown in the tables and in the figure`),
      select,
    ),
    make(
      "label",
      { class: "tick" },
      all,
      `All ${data.rides ? "instants" : "cases"} one below the other`,
    ),
  );
  return select;
}

export function fillControls() {
  const select = make("select", { id: "case-select" }, casesByUse.map(caseOption));
  tubeSelect = make("select", {
    id: "tube-select",
    size: "7",
    onchange: () => pick(Number(tubeSelect.value)),
  });
  const row = (id, text, field) => make("div", {}, make("label", { for: id }, text), field);
  place("controls").append(
    row("case-select", `${CASE}, most used first`, select),
    make("fieldset", {}, make("legend", {}, "Colour of the tubes"), modeChoice()),
    deflectionChoice(),
    markChoice(),
    row("tube-select", "Tubes, most used first", tubeSelect),
  );
  caseSelects = [select, caseSwitch()];
  for (const s of caseSelects) s.addEventListener("change", () => chooseCase(Number(s.value)));
}

export function chooseCase(i) {
  state.case = i;
  for (const s of caseSelects) s.value = String(i);
  fillTubes();
  fillPicked();
  fillLegend();
  showCases();
  refresh();
}

function fillTubes() {
  const c = thisCase();
  tubeSelect.replaceChildren(
    ...membersByUse(c).map((i) => {
      const g = governing(c.members[i], data.checks);
      const use = g ? `${used(g.value)} ${checkWords(g.check)}` : "not checked";
      return make("option", { value: String(i) }, `${data.members[i].name}: ${use}`);
    }),
  );
  tubeSelect.value = state.picked < 0 ? "" : String(state.picked);
}

export function pick(i) {
  state.picked = i;
  tubeSelect.value = i < 0 ? "" : String(i);
  fillPicked();
  refresh();
}
