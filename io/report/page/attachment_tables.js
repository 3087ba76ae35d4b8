// What is fitted to the tubes, attachments and gussets, in one load case.

import { make } from "./elements.js";
import { fixed, newtons, three, used } from "./numbers.js";
import { governing } from "./state.js";
import { checkHead, column, footnotes, number, rowHead, table, usedCell } from "./tables.js";
import { checkWords, data, nodeName, words } from "./words.js";

/// Those that lack a number first, then the most used.
function gapsFirst(results, checks) {
  const most = (r) => (governing(r, checks) || { value: -1 }).value;
  const open = (r) => (r.lacks.length ? 1 : 0);
  return results
    .map((r, i) => i)
    .sort(
      (a, b) => open(results[b]) - open(results[a]) || most(results[b]) - most(results[a]) || a - b,
    );
}

/// One cell a check. What should have a number and has none says so.
function checkCells(r, checks, notes) {
  return r.used.map((u, k) => {
    const note = notes.letter(r.why[k]);
    return r.lacks.includes(k)
      ? { text: "not made", note, lacking: true }
      : { ...usedCell(u, note), over: u > 1 && checks[k].counts };
  });
}

function partRow({ name, cells, force, parts }, r, checks, notes) {
  const g = governing(r, checks),
    over = !!g && g.value > 1;
  const gaps = r.lacks.map((k) => `no ${checkWords(checks[k].name)} check`);
  const by = g ? checkWords(g.check) : "";
  return {
    over,
    cells: [
      name,
      { text: used(g && g.value), over },
      [...gaps, by].filter((t) => t).join("; "),
      newtons(force),
      ...cells,
      ...checkCells(r, checks, notes),
      ...parts.map(newtons),
    ],
  };
}

/// Every clause that the checks of one kind of part followed.
function clauseLine(kind, checks) {
  const told = checks
    .map((c) => [checkWords(c.name), data.clauses[`${kind}_${c.name}`]])
    .filter(([, rules]) => rules)
    .map(([name, rules]) => `${name} ${rules.join(", ")}`);
  return told.length ? make("p", { class: "small" }, `Clauses: ${told.join("; ")}.`) : null;
}

/// kind: {word, title, caption, checks, parts}; told(i, result): {name, cells, force, parts} of
/// part i, what it is and where, the force through it and its parts.
function partTable(c, kind, results, told) {
  if (!results.length) return [];
  const notes = footnotes();
  const rows = gapsFirst(results, kind.checks).map((i) =>
    partRow(told(i, results[i]), results[i], kind.checks, notes),
  );
  const columns = [
    rowHead(kind.word[0].toUpperCase() + kind.word.slice(1)),
    number("Used"),
    column("By"),
    number("Force", "N"),
    column("What it is", "mm"),
    column("Where"),
    ...kind.checks.map(checkHead),
    ...kind.parts.map((head) => ({ ...number(head, "N"), screen: true })),
  ];
  const caption =
    kind.caption +
    " What could not be checked stands first, then the most used. A letter stands for the " +
    "reason why a check was not made, or what its rule was not written for.";
  return [
    make("h4", {}, kind.title),
    table(caption, columns, rows, { kind: "fitted", label: `${kind.title} in case ${c.name}` }),
    notes.list(),
    clauseLine(kind.word, kind.checks),
  ];
}

const by = (a, b) => `${three(a)} \u00d7 ${three(b)}`;

function attachmentWords(a) {
  const plate = a.thickness ? by(a.length, a.thickness) : a.length ? three(a.length) : "";
  const bolt = a.bolt ? `M${three(a.bolt)}` : "";
  return [`${words(a.kind)} ${plate}`.trim(), bolt].filter((t) => t).join(", ");
}

export function attachmentTable(c) {
  const kind = {
    word: "attachment",
    title: "Attachments",
    caption: "Forces act on each at its hole and are told without the reserve.",
    checks: data.attachment_checks,
    parts: ["Along x", "Across y", "Up z"],
  };
  return partTable(c, kind, c.attachments, (i, r) => {
    const a = data.attachments[i];
    return {
      name: a.name,
      cells: [attachmentWords(a), `${a.on}, ${a.face}`],
      force: Math.hypot(...r.force),
      parts: r.force,
    };
  });
}

function gussetWords(g) {
  const [corner, ...ends] = g.corners;
  const legs = ends.map((end) => fixed(Math.hypot(...end.map((v, k) => v - corner[k])), 0));
  const plates = g.offsets.length === 1 ? "plate" : `${g.offsets.length} plates`;
  const long = legs[0] === legs[1] ? legs[0] : legs.join(" and ");
  return `${plates}, ${three(g.thickness)}, legs ${long}`;
}

export function gussetTable(c) {
  const kind = {
    word: "gusset",
    title: "Gussets",
    caption: "The force is that along the free edge, tension positive, without the reserve.",
    checks: data.gusset_checks,
    parts: [],
  };
  return partTable(c, kind, c.gussets, (i, r) => {
    const g = data.gussets[i];
    return {
      name: g.name,
      cells: [gussetWords(g), `${nodeName(g.nodes[0])}: ${g.between.join(" and ")}`],
      force: r.force,
      parts: [],
    };
  });
}
