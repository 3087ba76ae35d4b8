// Tables that can be sorted and scrolled by keyboard.

import { make } from "./elements.js";
import { DASH, none, used } from "./numbers.js";
import { checkWords, data } from "./words.js";

export const column = (head, unit) => ({ head, unit });
export const number = (head, unit) => ({ head, unit, number: true });
export const rowHead = (head) => ({ head, row: true });
export const longText = (head) => ({ head, text: true });

export function checkHead(check) {
  const name = checkWords(check.name);
  return number(name[0].toUpperCase() + name.slice(1), check.counts ? null : "does not count");
}

export const usedCell = (value, note) => ({
  text: used(value),
  over: value > 1,
  note,
  order: value,
});

const classes = (...names) => names.filter((name) => name).join(" ") || null;

function headOf(columns) {
  return make(
    "tr",
    {},
    columns.map((c) =>
      make(
        "th",
        { scope: "col", class: classes(c.number ? "n" : "", c.screen ? "no-print" : "") },
        c.head,
        c.unit ? make("small", {}, c.unit) : null,
      ),
    ),
  );
}

function cellOf(cell, c) {
  const plain = cell === null || typeof cell !== "object" || cell instanceof Node;
  const { text, over, lacking, note, title } = plain ? { text: cell } : cell;
  const attributes = {
    class: classes(
      c.number ? "n" : c.text ? "text" : "",
      c.screen && "no-print",
      over && "over",
      lacking && "lacking",
    ),
    title,
  };
  return make(
    c.row ? "th" : "td",
    c.row ? { scope: "row", ...attributes } : attributes,
    text === null ? DASH : text,
    note ? make("sup", {}, note) : null,
  );
}

/// columns: {head, unit, number, row, screen}, screen: not on paper; a cell is text, an element or
/// {text, over, lacking, note, order}.
export function table(caption, columns, rows, options = {}) {
  const body = make(
    "tbody",
    {},
    rows.map((row) =>
      make(
        "tr",
        { class: row.over ? "over" : null },
        row.cells.map((cell, i) => cellOf(cell, columns[i])),
      ),
    ),
  );
  const t = make(
    "table",
    { class: options.kind },
    caption ? make("caption", {}, make("span", {}, caption)) : null,
    make("thead", {}, headOf(columns)),
    body,
  );
  if (options.sort) sortable(t, columns, rows, body);
  // A box that scrolls must be reachable by keyboard.
  const label = options.label || caption || "Table";
  return make("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": label }, t);
}

/// Orders the lines by column k; lines without a value come last, equal ones stay as they were.
function sortLines(lines, k, falling) {
  const value = ({ row }) => row.order[k];
  lines.sort((a, b) => {
    const p = value(a),
      q = value(b);
    if (none(p) || none(q)) return none(p) - none(q) || a.i - b.i;
    const less = typeof p === "number" ? p - q : p < q ? -1 : p > q ? 1 : 0;
    return (falling ? -less : less) || a.i - b.i;
  });
}

function sortable(t, columns, rows, body) {
  const lines = [...body.children].map((line, i) => ({ line, row: rows[i], i }));
  t.querySelectorAll("thead th").forEach((th, k) => {
    const unit = th.querySelector("small");
    // Buttons are not repeated on the next sheet of a print; plain text is.
    const button = make("button", { type: "button", class: "no-print" }, columns[k].head);
    const printed = make("span", { class: "print-only" }, columns[k].head);
    th.replaceChildren(button, printed, ...(unit ? [unit] : []));
    button.addEventListener("click", () => {
      const down = th.getAttribute("aria-sort") !== "descending" && !!columns[k].number;
      const up = !columns[k].number && th.getAttribute("aria-sort") === "ascending";
      t.querySelectorAll("th[aria-sort]").forEach((o) => o.removeAttribute("aria-sort"));
      const falling = down || up;
      th.setAttribute("aria-sort", falling ? "descending" : "ascending");
      sortLines(lines, k, falling);
      body.append(...lines.map((l) => l.line));
    });
  });
  const first = columns.findIndex((c) => c.sorted);
  if (first >= 0) t.querySelectorAll("thead th")[first].setAttribute("aria-sort", "descending");
}

/// Letters for the reasons of one table, in the order in which they come up.
export function footnotes() {
  const known = [];
  function letter(reason) {
    if (none(reason)) return null;
    let i = known.indexOf(reason);
    if (i < 0) i = known.push(reason) - 1;
    return (
      (i >= 26 ? String.fromCharCode(96 + Math.floor(i / 26)) : "") +
      String.fromCharCode(97 + (i % 26))
    );
  }
  function list() {
    if (!known.length) return null;
    return make(
      "ul",
      { class: "notes" },
      known.map((reason) =>
        make("li", {}, make("sup", {}, letter(reason)), " ", data.reasons[reason]),
      ),
    );
  }
  return { letter, list };
}
