// The data of the page (DATA.md), and how it names things. The same data give the same page: no
// clock, no chance, no network.

import { place } from "./elements.js";
import { DASH, fixed, none, three } from "./numbers.js";

export const data = JSON.parse(place("report-data").textContent);

/// What the figure and the tables show one of.
export const CASE = data.rides ? "Instant" : "Load case";

export const words = (name) => name.replace(/_/g, " ");
export const nodeName = (i) => data.nodes[i].name;

const CHECK_WORDS = {
  rivet_tear_out: "rivet tear-out",
  inter_rivet_buckling: "buckling between rivets",
};
export const checkWords = (name) => CHECK_WORDS[name] || words(name);

export const passWord = (passes) => (passes === null ? "no answer" : passes ? "passes" : "FAILS");

export function sectionWords(m) {
  if (m.section === null) return m.kind;
  const s = data.sections[m.section],
    by = " \u00d7 ";
  return (
    shapeWords(s, by) +
    (s.material ? ", " + s.material : "") +
    (m.kind === "beam" ? "" : ", " + m.kind)
  );
}

function shapeWords(s, by) {
  if (s.shape === "properties") return "given by its properties";
  const both = three(s.height) + by + three(s.width);
  const dimensions =
    s.shape === "square_tube"
      ? both
      : /^(round|square)/.test(s.shape)
        ? three(s.height)
        : none(s.height)
          ? ""
          : both;
  return `${dimensions}${none(s.wall) ? "" : by + three(s.wall)} ${words(s.shape)}`;
}

/// Where along member m (number i) a result is worst, `length` its length in mm.
export function whereWords(m, result, length) {
  if (none(result.where)) return DASH;
  if (result.where <= 0.001) return nodeName(m.from);
  if (result.where >= 0.999) return nodeName(m.to);
  return `${fixed(result.where * length, 0)} mm from ${nodeName(m.from)}`;
}
