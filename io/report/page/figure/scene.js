// What there is to draw in one case.

import { DIVERGING, NOT_CHECKED, PATTERN, VIRIDIS, along } from "./colours.js";
import { addAttachment, addGusset } from "./attachments.js";
import { markAll } from "./marks.js";
import { axisPoints, coil, middle } from "./member_lines.js";
import { usedMost } from "./prepare.js";
import { add, cross, sub, times, unit } from "./vectors.js";

/// Colour and pattern of a member: compression has rings, what is over its limit is hatched.
function memberLook(prepared, state, result, i) {
  if (state.mode === "joints") return { colour: NOT_CHECKED, pattern: PATTERN.plain };
  if (prepared.ofTube[state.mode]) {
    const { value, hatched } = prepared.ofTube[state.mode][i];
    if (value === null) return { colour: NOT_CHECKED, pattern: PATTERN.plain };
    return {
      colour: along(VIRIDIS, value / prepared.scales[state.mode]),
      pattern: hatched ? PATTERN.hatch : PATTERN.plain,
    };
  }
  if (state.mode === "axial") {
    return {
      colour: along(DIVERGING, 0.5 + (0.5 * result.N) / prepared.scales.axial),
      pattern: result.N < -0.02 * prepared.scales.axial ? PATTERN.rings : PATTERN.plain,
    };
  }
  const value =
    state.mode === "von_mises" ? result.von_mises : usedMost(result, prepared.data.checks);
  if (value === null || value === undefined) return { colour: NOT_CHECKED, pattern: PATTERN.plain };
  return {
    colour: along(VIRIDIS, value / prepared.scales[state.mode]),
    pattern: state.mode === "utilisation" && value > 1 ? PATTERN.hatch : PATTERN.plain,
  };
}

function worstMember(data, index) {
  const worst = data.cases[index].worst;
  if (!worst) return -1;
  return data.members.findIndex((m) => m.name === worst.item);
}

const RIGID = 0.999; // and more: nothing to be seen

/// A sleeve round each end of a tube that gives way, in the colour of how rigid it is.
function addFixity(drawn, m, points, member) {
  const share = Math.min(0.2, 50 / m.length);
  [
    [points[0], middle(points, share)],
    [middle(points, 1 - share), points[points.length - 1]],
  ].forEach((line, end) => {
    if (m.fixity[end] > RIGID) return;
    drawn.sweeps.push({
      points: line,
      round: m.round,
      width: 1.15 * m.width,
      height: 1.15 * m.height,
      z: m.axes.z,
      member,
      colour: along(VIRIDIS, m.fixity[end]),
      pattern: PATTERN.plain,
    });
  });
}

function addMember(drawn, prepared, state, i, worst) {
  const m = prepared.members[i],
    c = prepared.data.cases[state.case],
    result = c.members[i];
  const points = axisPoints(prepared, m, c.nodes, state.factor, 8),
    spring = m.kind === "spring";
  drawn.sweeps.push({
    points: spring ? coil(points[0], points[points.length - 1], 16) : points,
    axis: points,
    round: m.round,
    width: spring ? 6 : m.width,
    height: spring ? 6 : m.height,
    z: m.axes.z,
    member: i,
    picked: i === state.picked,
    ...memberLook(prepared, state, result, i),
  });
  if (state.mode === "joints" && m.fixity) addFixity(drawn, m, points, i);
  if (i !== worst && i !== state.picked) return;
  const share = i === worst && result.where !== null ? result.where : 0.5;
  drawn.labels.push({
    at: middle(points, share),
    text: state.words(i, result, i === worst),
    kind: i === state.picked ? "picked" : "worst",
  });
}

function addPanel(drawn, prepared, state, i, moved) {
  const { data } = prepared,
    p = data.panels[i],
    c = data.cases[state.case],
    result = c.panels[i];
  const corners = p.corners.map(moved);
  const normal = unit(cross(sub(corners[1], corners[0]), sub(corners[3], corners[0])));
  const used = result ? usedMost(result, data.panel_checks) : null;
  const coloured = state.mode === "utilisation" && used !== null;
  const offset = p.offset || 0;
  drawn.quads.push({
    corners: corners.map((q) => add(q, times(normal, offset))),
    normal,
    colour: coloured ? along(VIRIDIS, used) : NOT_CHECKED,
    hatch: used !== null && used > 1,
    panel: i,
  });
  nameIfWorst(drawn, state, c, times(corners.reduce(add), 0.25), p.name, result, data.panel_checks);
}

/// The label of a part that is no member, where it is the most used item of the case.
function nameIfWorst(drawn, state, c, at, name, result, checks) {
  if (!c.worst || c.worst.item !== name) return;
  drawn.labels.push({ at, text: state.worstWords(name, result, checks), kind: "worst" });
}

/// What is fitted to the tubes.
function addFitted(drawn, data, state, c, moved, moves) {
  data.attachments.forEach((a, i) => {
    addAttachment(drawn, a, moved);
    const at = moved(a.hole);
    nameIfWorst(drawn, state, c, at, a.name, c.attachments[i], data.attachment_checks);
  });
  data.gussets.forEach((g, i) => {
    addGusset(drawn, g, moves);
    const at = add(g.corners[0], moves(g.nodes[0]));
    nameIfWorst(drawn, state, c, at, g.name, c.gussets[i], data.gusset_checks);
  });
}

/// Everything to be drawn. state: {case, mode, factor, picked, marks, words(member, result)}.
export function scene(prepared, state, eye) {
  const { data } = prepared,
    c = data.cases[state.case];
  const drawn = { sweeps: [], quads: [], lines: [], labels: [] };
  const moves = (n) => times(c.nodes[n].slice(0, 3), state.factor || 0);
  const moved = (n) => (state.factor ? add(prepared.at[n], moves(n)) : prepared.at[n]);
  const worst = worstMember(data, state.case);
  prepared.members.forEach((m, i) => addMember(drawn, prepared, state, i, worst));
  addFitted(drawn, data, state, c, moved, moves);
  data.panels.forEach((p, i) => addPanel(drawn, prepared, state, i, moved));
  if (state.marks) markAll(drawn, prepared, state, eye, moved);
  return drawn;
}
