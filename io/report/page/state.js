// What is shown just now, and what is nearest its limit.

import { FrameFigure } from "./figure/frame_figure.js";
import { MPa, fixed, newtons, none, three, used } from "./numbers.js";
import { data } from "./words.js";

export const prepared = FrameFigure.prepare(data);

export const worstOf = (c) => (c.worst && !none(c.worst.utilisation) ? c.worst.utilisation : -1);

export const casesByUse = data.cases
  .map((c, i) => i)
  .sort((a, b) => worstOf(data.cases[b]) - worstOf(data.cases[a]) || a - b);

export const MODES = [
  ...(data.rides
    ? [{ name: "rides", label: "Utilisation over the rides", unit: "worst of every instant" }]
    : []),
  { name: "utilisation", label: "Utilisation", unit: "share of what is allowed; 1 is the limit" },
  { name: "axial", label: "Axial force", unit: "N, tension positive" },
  { name: "von_mises", label: "Von Mises stress", unit: "MPa, at the worst place of the tube" },
  { name: "joints", label: "Stiffness of joints", unit: "1 is rigid, 0 a pin" },
  ...(data.rank && !none(data.rank.whole.stiffness)
    ? [{ name: "worth", label: "Worth of tubes", unit: "N m/deg of torsion for a kg of wall" }]
    : []),
  ...(data.losses
    ? [{ name: "losses", label: "Loss of tubes", unit: "worst use of what is left, tube by tube" }]
    : []),
];

const ofMode = {
  joints: (i) => {
    const ends = data.members[i].fixity;
    return ends ? ends.map((end) => fixed(end, 2)).join(" and ") : "pinned";
  },
  worth: (i) => (none(data.rank.worth[i]) ? "no wall" : three(data.rank.worth[i])),
  rides: (i) => used(data.rides.worst[i]),
  losses: (i) => {
    const loss = data.losses.losses.find((l) => l.kind === "tube" && l.member === i);
    return loss.mechanism ? "can move freely" : used(loss.worst);
  },
  axial: (i, result) => newtons(result.N) + " N",
  von_mises: (i, result) => (none(result.von_mises) ? "no stress" : MPa(result.von_mises) + " MPa"),
  utilisation: (i, result) => used(FrameFigure.usedMost(result, data.checks)),
};

export const factorWords = (v) => (!v ? "not drawn" : v === 1 ? "true size" : `${three(v)} times`);
export const nice = (v) => (v > 0 ? Number(v.toPrecision(v < 100 ? 1 : 2)) : 0);

/// The check nearest its limit among those that count.
export function governing(result, checks) {
  let best = -1;
  result.used.forEach((u, i) => {
    if (!none(u) && checks[i].counts && (best < 0 || u > result.used[best])) best = i;
  });
  return best < 0 ? null : { check: checks[best].name, value: result.used[best] };
}

export const state = {
  case: casesByUse.length ? casesByUse[0] : -1,
  mode: MODES[0].name,
  factor: nice(prepared.factor),
  picked: -1,
  marks: true,
  force: (v) => newtons(v) + " N",
  words: (i, result, worst) => {
    const ofCase = !["joints", "worth", "losses", "rides"].includes(state.mode);
    const marked = worst && ofCase ? ", worst" : "";
    return `${data.members[i].name} ${ofMode[state.mode](i, result)}${marked}`;
  },
  worstWords: (name, result, checks) =>
    `${name} ${used((governing(result, checks) || {}).value)}, worst`,
};

export const thisCase = () => data.cases[state.case];

export function membersByUse(c) {
  const most = (i) => FrameFigure.usedMost(c.members[i], data.checks) ?? -1;
  return c.members.map((m, i) => i).sort((a, b) => most(b) - most(a) || a - b);
}
