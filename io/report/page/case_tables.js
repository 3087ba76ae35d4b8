// One load case in tables. Each function returns a list of elements, empty if there is nothing.

import { make } from "./elements.js";
import { DASH, MPa, fixed, newtons, none, three, used } from "./numbers.js";
import { governing, membersByUse, prepared } from "./state.js";
import { checkHead, column, footnotes, number, rowHead, table, usedCell } from "./tables.js";
import { checkWords, data, passWord, whereWords, words } from "./words.js";

function memberRow(i, r, notes) {
  const m = data.members[i],
    g = governing(r, data.checks),
    value = g && g.value;
  const over = g && g.value > 1;
  const section = m.section === null ? m.kind : data.sections[m.section].name;
  const where = whereWords(m, r, prepared.members[i].length);
  const checks = r.used.map((u, k) => usedCell(u, notes.letter(r.why[k])));
  return {
    over,
    cells: [
      m.name,
      section,
      { text: used(value), over },
      g ? checkWords(g.check) : DASH,
      ...checks,
      newtons(r.N),
      none(r.von_mises) ? DASH : MPa(r.von_mises),
      where,
      none(r.class) ? DASH : String(r.class),
    ],
    order: [
      m.name,
      section,
      value,
      g ? g.check : null,
      ...r.used,
      r.N,
      r.von_mises,
      where,
      r.class,
    ],
  };
}

export function memberTable(c) {
  const notes = footnotes();
  const rows = membersByUse(c).map((i) => memberRow(i, c.members[i], notes));
  const columns = [
    rowHead("Member"),
    column("Section"),
    { ...number("Used"), sorted: true },
    column("By"),
    ...data.checks.map(checkHead),
    number("Axial", "N"),
    number("von Mises", "MPa"),
    column("At"),
    number("Class"),
  ];
  const caption =
    "Tubes, links, cables and springs, most used first. A letter stands for the " +
    "reason why a check was not made, or made in part.";
  const options = { kind: "members", sort: true, label: `Members in case ${c.name}` };
  return [make("h4", {}, "Members"), table(caption, columns, rows, options), notes.list()];
}

function panelRow(i, p, notes) {
  const g = governing(p, data.panel_checks);
  const checks = p.used.map((u, k) => ({
    ...usedCell(u, notes.letter(p.why[k])),
    over: u > 1 && data.panel_checks[k].counts,
  }));
  return {
    over: g && g.value > 1,
    cells: [
      data.panels[i].name,
      usedCell(g && g.value),
      ...checks,
      fixed(p.flow, 2),
      fixed(p.stress, 2),
      fixed(p.critical, 2),
      newtons(p.rivet),
      none(p.bond) ? DASH : fixed(p.bond, 2),
      p.kept < 0.9995 ? `buckled, ${fixed(100 * p.kept, 0)} % kept` : "flat",
    ],
  };
}

export function panelTable(c) {
  if (!c.panels.length) return [];
  const notes = footnotes(),
    rows = c.panels.map((p, i) => panelRow(i, p, notes));
  const columns = [
    rowHead("Panel"),
    number("Used"),
    ...data.panel_checks.map(checkHead),
    number("Flow", "N/mm"),
    number("Shear", "MPa"),
    number("Buckles at", "MPa"),
    number("Rivet", "N"),
    number("Bond", "MPa"),
    column("Sheet"),
  ];
  const caption = "Shear flow is what the sheet hands to the tubes along its edges.";
  return [
    make("h4", {}, "Panels"),
    table(caption, columns, rows, { label: `Panels in case ${c.name}` }),
    notes.list(),
  ];
}

export function wheelTable(c) {
  if (!c.wheels.length) return [];
  const have = data.vehicle ? data.vehicle.friction : null;
  const rows = c.wheels.map((w, i) => ({
    over: false,
    cells: [
      words(data.wheels[i].name),
      ...w.force.map(newtons),
      w.lifted ? "lifted" : fixed(w.friction, 2),
    ],
  }));
  const there = none(have) ? "" : `; friction there is: ${fixed(have, 2)}`;
  return [
    make("h4", {}, "Wheels"),
    table(
      `Forces of the road on the wheels${there}.`,
      [
        rowHead("Wheel"),
        number("Along x", "N"),
        number("Across y", "N"),
        number("Load z", "N"),
        number("Friction needed"),
      ],
      rows,
      { label: `Wheels in case ${c.name}` },
    ),
  ];
}

function forceTable(title, caption, entries, moments) {
  if (!entries.length) return [];
  const size = (e) => Math.hypot(...e.force);
  const rows = entries
    .slice()
    .sort((a, b) => size(b) - size(a))
    .map((e) => ({
      cells: [
        e.node,
        ...e.force.map(newtons),
        newtons(size(e)),
        ...(moments ? e.moment.map((v) => fixed(v, 1)) : []),
      ],
    }));
  const columns = [
    rowHead("Node"),
    ...["x", "y", "z", "in all"].map((k) => number(k, "N")),
    ...(moments ? ["Mx", "My", "Mz"].map((k) => number(k, "N m")) : []),
  ];
  return [make("h4", {}, title), table(caption, columns, rows, { label: title + ": " + caption })];
}

export function reactionTables(c) {
  if (!c.driving) {
    return forceTable("Reactions", "What the supports do to the frame.", c.reactions, true);
  }
  const caption =
    "Nothing holds a vehicle: these restraints only pin it down in the calculation " +
    `and must take nothing; they take ${three(c.driving.restraint)} N.`;
  return [
    ...forceTable("Reactions", caption, c.reactions, true),
    ...forceTable("Pick-ups", "What links and springs do to the frame.", c.pick_ups, false),
  ];
}

function verdictWords(c) {
  const worst = c.worst,
    word = passWord(c.passes);
  if (worst && !none(worst.utilisation)) {
    const item = worst.item || "the frame";
    return `${word}: ${used(worst.utilisation)} by ${checkWords(worst.check)} of ${item}`;
  }
  return worst && worst.reason ? `${word}: ${worst.reason}` : word;
}

const axesWords = (vector, write) =>
  `x ${write(vector[0])}, y ${write(vector[1])}, z ${write(vector[2])}`;

function drivingFacts(d) {
  const rows = [
    ["Accelerates", `${axesWords(d.acceleration, (v) => fixed(v, 3))} g`],
    ["Turns faster", `${axesWords(d.angular, (v) => fixed(v, 1))} deg/s\u00b2`],
  ];
  if (d.tips) rows.push(["Turns over", "what is left on the road cannot balance the vehicle"]);
  return rows;
}

function stabilityFacts(c) {
  const rows = [];
  if (c.slack.length) rows.push(["Slack", c.slack.join(", ")]);
  if (!none(c.sway_factor)) {
    const what = c.sways === "suspension" ? "Suspension gives way" : "Joints give way";
    rows.push([what, `at ${three(c.sway_factor)} times the loads`]);
  }
  if (c.second_order) {
    const end = c.second_order.converged ? "settled" : "did not settle";
    rows.push(["Second order", `${end}; grew ${three(c.second_order.growth)} times`]);
  }
  if (!none(c.load_reached)) rows.push(["Load reached", fixed(c.load_reached, 2)]);
  return rows;
}

export function caseFacts(c) {
  const most = c.moves_most,
    apart = c.out_of_balance;
  const rows = [
    ["Verdict", verdictWords(c)],
    ["Reserve", `loads times ${fixed(c.reserve, 2)}${c.rare ? "; a rare case" : ""}`],
    [
      "Moves most",
      `${most.node} by ${three(most.by)} mm (${axesWords(most.vector, three)})` +
        (c.driving ? " from the mean motion" : ""),
    ],
    ...(c.driving ? drivingFacts(c.driving) : []),
    ...stabilityFacts(c),
    [
      "Out of balance",
      `${three(apart.force)} of the forces, ${three(apart.moment)} of the moments`,
    ],
  ];
  return make(
    "dl",
    {},
    rows.map(([k, v]) => [make("dt", {}, k), make("dd", {}, v)]),
  );
}
