// What the answer rests on: what was not checked, sources, assumptions, cautions, the input.

import { list, make, place } from "./elements.js";
import { DASH, fixed, newtons, none, three } from "./numbers.js";
import { column, longText, number, rowHead, table } from "./tables.js";
import { checkWords, data, nodeName, words } from "./words.js";

export function fillNotChecked() {
  place("not-checked-body").append(
    data.not_checked.length
      ? list(data.not_checked)
      : make("p", {}, "Every check that applies was made."),
  );
  if (data.by_comparison.length) {
    place("not-checked-body").append(
      make("h3", {}, "Checked by comparison: rules outside their stated range"),
      list(data.by_comparison),
    );
  }
}

export function fillSources() {
  const body = place("sources-body"),
    clauses = Object.entries(data.clauses);
  if (clauses.length) {
    const rows = clauses.map(([name, rules]) => ({ cells: [checkWords(name), rules.join("; ")] }));
    body.append(
      make("h3", {}, "Clauses followed in this report"),
      table("", [rowHead("Check"), column("Clause")], rows, { label: "Clauses followed" }),
    );
  }
  if (data.sources.length) {
    const rows = data.sources.map((s) => ({ cells: [s.subject, s.rule, s.source] }));
    body.append(
      make("h3", {}, "Rules of the program and where they come from"),
      table("", [rowHead("Subject"), longText("Rule"), longText("Source")], rows, {
        label: "Rules and sources",
      }),
    );
  }
}

function sectionTable() {
  const rows = data.sections.map((s, i) => {
    const members = data.members.filter((m) => m.section === i).length;
    return {
      cells: [
        s.name,
        words(s.shape),
        three(s.height),
        three(s.width),
        three(s.wall),
        s.material || DASH,
        String(members),
      ],
    };
  });
  return table(
    "",
    [
      rowHead("Section"),
      column("Shape"),
      number("Height", "mm"),
      number("Width", "mm"),
      number("Wall", "mm"),
      column("Material"),
      number("Members"),
    ],
    rows,
    { label: "Sections" },
  );
}

function materialTable() {
  const rows = data.materials.map((m) => ({
    cells: [m.name, ...[m.E, m.G, m.yield, m.ultimate, m.density].map((v) => fixed(v, 0))],
  }));
  return table(
    "",
    [
      rowHead("Material"),
      number("E", "MPa"),
      number("G", "MPa"),
      number("Yield", "MPa"),
      number("Tensile", "MPa"),
      number("Density", "kg/m\u00b3"),
    ],
    rows,
    { label: "Materials" },
  );
}

function vehicleFacts(v) {
  const standing = Object.entries(v.standing).map(([k, n]) => `${words(k)} ${newtons(n)} N`);
  const tips = Object.entries(v.tips_at || {})
    .filter(([, g]) => !none(g))
    .map(([k, g]) => `${words(k)} ${fixed(g, 2)} g`);
  const [x, y, z] = data.mass.centre.map((d) => fixed(d, 0));
  const braking =
    `${fixed(v.reachable_braking, 2)} g on the level with friction ` + fixed(v.friction, 2);
  return list([
    `Stands on ${standing.join(", ")}.`,
    `Brakes reach ${braking}; limit: ${v.braking_limited_by}.`,
    `Tips over at ${tips.join(", ")}.`,
    `Centre of mass x ${x}, y ${y}, z ${z} mm.`,
  ]);
}

export function fillAssumptions() {
  const carried = data.masses.map((m) => `${m.name} ${three(m.mass)} kg`);
  const held = data.supports.map((s) => `${nodeName(s.node)} ${s.holds.join(" ")}`);
  const given = [
    carried.length ? `Masses carried: ${carried.join(", ")}.` : "",
    held.length ? `Supports hold: ${held.join("; ")}.` : "",
  ];
  place("assumptions-body").append(
    list(data.assumptions.concat(given.filter((t) => t))),
    make("h3", {}, "Sections"),
    sectionTable(),
    make("h3", {}, "Materials"),
    materialTable(),
  );
  if (data.vehicle) {
    place("assumptions-body").append(make("h3", {}, "The vehicle"), vehicleFacts(data.vehicle));
  }
}

export function fillCautions() {
  const doubts = data.warnings.map(
    (w) => `${w.line ? `Line ${w.line}: ` : ""}${w.message}${w.advice ? "; " + w.advice : ""}`,
  );
  if (doubts.length) {
    place("cautions-body").append(
      make("h3", {}, "Doubts about this frame"),
      list(doubts),
      make("h3", {}, "In general"),
    );
  }
  place("cautions-body").append(list(data.cautions));
}

export function fillInput() {
  const box = { class: "input", tabindex: "0", role: "region", "aria-label": "Input file" };
  place("input-body").append(make("p", {}, data.input.name), make("pre", box, data.input.text));
}
