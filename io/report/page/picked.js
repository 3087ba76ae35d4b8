// Beside the figure: the numbers of the picked tube, and what the colours mean.

import { box, draw, label, plot, stroke } from "./drawing.js";
import { make, place } from "./elements.js";
import { FrameFigure } from "./figure/frame_figure.js";
import { MPa, fixed, newtons, none, three, used } from "./numbers.js";
import { MODES, governing, prepared, state, thisCase } from "./state.js";
import { number, column, rowHead, table } from "./tables.js";
import { checkWords, data, nodeName, sectionWords, whereWords } from "./words.js";

function checkRow(m, result, check, k) {
  const over = result.used[k] > 1;
  const at = check.name === "weld" && result.weld_at ? ` at ${nodeName(m[result.weld_at])}` : "";
  const value = none(result.used[k]) ? "not made" : used(result.used[k]);
  const why = none(result.why[k]) ? "" : data.reasons[result.why[k]];
  return { over, cells: [checkWords(check.name) + at, { text: value, over }, why] };
}

function stressWords(m, r, length) {
  const way = r.N > 0 ? "tension" : r.N < 0 ? "compression" : "none";
  const axial = `Axial ${newtons(r.N)} N (${way})`;
  if (none(r.von_mises)) return axial + ".";
  const where = none(r.where) ? "" : whereWords(m, r, length);
  const parts = `axial ${MPa(r.axial)}, bending ${MPa(r.bending)}, shear ${MPa(r.shear)} MPa`;
  return `${axial}; von Mises ${MPa(r.von_mises)} MPa ${where}: ${parts}.`;
}

export function fillPicked() {
  const body = place("picked");
  if (state.picked < 0) {
    const hint = "Click a tube, or choose one from the list, for its numbers.";
    body.replaceChildren(make("p", { class: "hint" }, hint));
    return;
  }
  const m = data.members[state.picked],
    c = thisCase(),
    r = c.members[state.picked];
  const g = governing(r, data.checks),
    { length } = prepared.members[state.picked];
  const ends = `${nodeName(m.from)} to ${nodeName(m.to)}, ${fixed(length, 0)} mm`;
  const limit = g ? `${used(g.value)} of its ${checkWords(g.check)} limit` : "Not checked";
  body.replaceChildren(
    make("h3", {}, m.name),
    make("p", {}, `${sectionWords(m)}; ${ends}${m.tube ? `, a piece of the tube ${m.tube}` : ""}.`),
    make("p", {}, make("strong", {}, limit), ` in case ${c.name}.`),
    make("p", {}, stressWords(m, r, length)),
    table(
      "",
      [rowHead("Check"), number("Used"), column("Reason")],
      data.checks.map((check, k) => checkRow(m, r, check, k)),
      { label: `Checks of ${m.name}` },
    ),
  );
}

function legendPlot(mode, scale, signed) {
  const width = 480,
    map = signed ? FrameFigure.DIVERGING : FrameFigure.VIRIDIS;
  const svg = plot(width, 50, `${mode.label} from ${signed ? -scale : 0} to ${scale}`);
  const g = draw(draw(svg, "defs", {}), "linearGradient", { id: "legend-map" });
  map.forEach((colour, i) =>
    draw(g, "stop", { offset: i / (map.length - 1), "stop-color": colour }),
  );
  const x = (t) => 22 + (width - 44) * t;
  box(svg, x(0), 6, x(1) - x(0), 16, "outline").setAttribute("fill", "url(#legend-map)");
  for (let p = x(0) + 8; signed && p < x(0.495); p += 16) {
    draw(svg, "rect", { x: p, y: 6, width: 4, height: 16, fill: "#000", "fill-opacity": 0.5 });
  }
  for (const t of [0, 0.25, 0.5, 0.75, 1]) {
    stroke(svg, `M${x(t)} 22v5`, "axis");
    label(svg, x(t), 41, three(signed ? (2 * t - 1) * scale : t * scale), undefined, "middle");
  }
  return svg;
}

const MODE_NOTES = {
  axial: "Dark rings: compression.",
  utilisation: "Black hatching: over the limit. Grey: no check made; the list says why.",
  von_mises: "Grey: no stress (spring).",
  joints:
    "Sleeves at the ends of tubes: how much of a rigid end's moment each takes, by its walls, " +
    "its release, and how stiff the tube is. Without a sleeve: rigid, or the tube runs on.",
  worth: "By the slope with the wall. Grey: no wall, or thinner is stiffer.",
  rides: "Black hatching: over the limit. Grey: no check made.",
  losses: "Black hatching: the frame moves freely or fails without it.",
};

export function fillLegend() {
  const mode = MODES.find((m) => m.name === state.mode);
  const marks = [
    data.wheels.length
      ? "Rings are wheels" + (data.rides ? "" : "; arrows, what the road does to them")
      : "",
    data.supports.length ? "pyramids are supports" : "",
    data.attachments.length ? "grey plates and bolts are attachments" : "",
    data.gussets.length ? "grey plates in corners, gussets" : "",
    data.masses.length ? "crosses, masses carried" : "",
  ]
    .filter((t) => t)
    .join("; ");
  const sentence = marks ? marks[0].toUpperCase() + marks.slice(1) + ". " : "";
  place("legend").replaceChildren(
    legendPlot(mode, prepared.scales[mode.name], mode.name === "axial"),
    make(
      "p",
      {},
      `${mode.label}, ${mode.unit}. The scale is the same in every case. ` + MODE_NOTES[mode.name],
    ),
    make("p", {}, `${sentence}Tubes have their true outer size.`),
  );
}
