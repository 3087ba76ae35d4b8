// Fills the page from the data in #report-data (DATA.md). Whatever the user wrote reaches the page as
// text nodes only. The same data give the same page: no clock, no chance, no network.
"use strict";

(() => {
  const data = JSON.parse(document.getElementById("report-data").textContent);
  const place = (id) => document.getElementById(id);

  // ----------------------------------------------------------------------------------- elements

  function make(name, attributes, ...children) {
    const e = document.createElement(name);
    for (const key in attributes || {}) {
      const value = attributes[key];
      if (value === undefined || value === null || value === false) continue;
      if (key.startsWith("on")) e.addEventListener(key.slice(2), value);
      else e.setAttribute(key, value === true ? "" : value);
    }
    e.append(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== ""));
    return e;
  }

  const SVG = "http://www.w3.org/2000/svg";

  function draw(parent, name, attributes, text) {
    const e = document.createElementNS(SVG, name);
    for (const key in attributes) {
      const value = attributes[key];
      e.setAttribute(key, typeof value === "number" ? String(Math.round(value * 100) / 100) : value);
    }
    if (text !== undefined) e.textContent = text;
    parent.append(e);
    return e;
  }

  /// An SVG whose drawing is told in words too.
  function plot(width, height, words) {
    const svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    svg.setAttribute("class", "plot");
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", words);
    return svg;
  }

  // ------------------------------------------------------------------------------------ numbers

  const none = (v) => v === null || v === undefined;
  const signed = (text) => text.replace(/^-/, "\u2212");

  /// So many digits after the point, and no negative zero.
  function fixed(value, places) {
    if (none(value)) return "\u2013";
    const text = value.toFixed(places);
    return signed(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);
  }

  /// Three significant digits, never written with an exponent unless tiny or huge.
  function three(value) {
    if (none(value)) return "\u2013";
    const size = Math.abs(value);
    if (size === 0) return "0";
    if (size < 1e-4 || size >= 1e7) return signed(value.toExponential(1));
    if (size >= 1000) return fixed(Number(value.toPrecision(4)), 0);
    return signed(String(Number(value.toPrecision(3))));
  }

  /// A share of what is allowed. What is over 1 never reads 1.00, nor does what is under it.
  function used(value) {
    if (none(value)) return "\u2013";
    if (value > 0 && value < 0.005) return "<0.01";
    if (value >= 100) return fixed(value, 0);
    if (value === 1 || Math.abs(value - 1) >= 0.005) return fixed(value, 2);
    return value > 1 ? Math.max(value, 1.001).toFixed(3) : Math.min(value, 0.999).toFixed(3);
  }

  const newtons = (v) => (none(v) ? "\u2013" : fixed(v, Math.abs(v) < 9.95 ? 1 : 0));
  const MPa = (v) => fixed(v, 1);
  const CHECK_WORDS = { yield: "yield", section: "section", buckling: "buckling", weld: "weld", joint: "joint",
    rivet_shear: "rivet shear", rivet_bearing: "rivet bearing", rivet_tear_out: "rivet tear-out",
    inter_rivet_buckling: "buckling between rivets", bond: "bond", sway: "sway" };
  const checkWords = (name) => CHECK_WORDS[name] || name.replace(/_/g, " ");
  const checkHead = (check) => ({ head: checkWords(check.name)[0].toUpperCase() + checkWords(check.name).slice(1), number: true,
    unit: check.counts ? null : "does not count" });
  const words = (name) => name.replace(/_/g, " ");
  const nodeName = (i) => data.nodes[i].name;
  const passWord = (passes) => (passes === null ? "no answer" : passes ? "passes" : "FAILS");

  function millions(cycles) {
    if (none(cycles)) return "endless";
    return cycles >= 1e6 ? fixed(cycles / 1e6, 1) + " million" : fixed(cycles, 0);
  }

  function sectionWords(m) {
    if (m.section === null) return m.kind;
    const s = data.sections[m.section];
    const shape = words(s.shape);
    const dimensions = /^(round|square)/.test(s.shape)
      ? three(s.height) + (s.shape === "square_tube" ? " \u00d7 " + three(s.width) : "")
      : none(s.height) ? "" : three(s.height) + " \u00d7 " + three(s.width);
    const text = s.shape === "properties" ? "given by its properties" : `${dimensions}${none(s.wall) ? "" : " \u00d7 " + three(s.wall)} ${shape}`;
    return text + (s.material ? ", " + s.material : "") + (m.kind === "beam" ? "" : ", " + m.kind);
  }

  // ------------------------------------------------------------------------------------- tables

  /// columns: {head, unit, number, row}; a cell is text, an element or {text, over, note, order}.
  function table(caption, columns, rows, options = {}) {
    const head = make("tr", {}, columns.map((c) => {
      const label = [c.head, c.unit ? make("small", {}, c.unit) : null];
      return make("th", { scope: "col", class: c.number ? "n" : null }, label);
    }));
    const body = make("tbody", {}, rows.map((row) => make("tr", { class: row.over ? "over" : null }, row.cells.map((cell, i) => {
      const c = columns[i], plain = cell === null || typeof cell !== "object" || cell instanceof Node;
      const content = plain ? cell : cell.text;
      const attributes = { class: [c.number ? "n" : c.text ? "text" : "", !plain && cell.over ? "over" : ""].join(" ").trim() || null,
        title: plain ? null : cell.title };
      return make(c.row ? "th" : "td", c.row ? { scope: "row", ...attributes } : attributes, content === null ? "\u2013" : content,
        !plain && cell.note ? make("sup", {}, cell.note) : null);
    }))));
    const t = make("table", { class: options.kind }, caption ? make("caption", {}, make("span", {}, caption)) : null, make("thead", {}, head), body);
    if (options.sort) sortable(t, columns, rows, body);
    // A box that scrolls must be reachable by keyboard.
    return make("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": options.label || caption || "Table" }, t);
  }

  function sortable(t, columns, rows, body) {
    const lines = [...body.children].map((line, i) => ({ line, row: rows[i], i }));
    t.querySelectorAll("thead th").forEach((th, k) => {
      const unit = th.querySelector("small");
      // Buttons are not repeated on the next sheet of a print; plain text is.
      const button = make("button", { type: "button", class: "no-print" }, columns[k].head);
      th.replaceChildren(button, make("span", { class: "print-only" }, columns[k].head), ...(unit ? [unit] : []));
      button.addEventListener("click", () => {
        const down = th.getAttribute("aria-sort") !== "descending" && !!columns[k].number;
        const up = !columns[k].number && th.getAttribute("aria-sort") === "ascending";
        t.querySelectorAll("th[aria-sort]").forEach((o) => o.removeAttribute("aria-sort"));
        const falling = down || up;
        th.setAttribute("aria-sort", falling ? "descending" : "ascending");
        const value = ({ row }) => row.order[k];
        lines.sort((a, b) => {
          const p = value(a), q = value(b);
          if (none(p) || none(q)) return none(p) - none(q) || a.i - b.i;
          const less = typeof p === "number" ? p - q : p < q ? -1 : p > q ? 1 : 0;
          return (falling ? -less : less) || a.i - b.i;
        });
        body.append(...lines.map((l) => l.line));
      });
    });
    const first = columns.findIndex((c) => c.sorted);
    if (first >= 0) t.querySelectorAll("thead th")[first].setAttribute("aria-sort", "descending");
  }

  /// Letters for the reasons of one table, in the order in which they come up.
  function footnotes() {
    const known = [];
    return {
      letter(reason) {
        if (none(reason)) return null;
        let i = known.indexOf(reason);
        if (i < 0) i = known.push(reason) - 1;
        return (i >= 26 ? String.fromCharCode(96 + Math.floor(i / 26)) : "") + String.fromCharCode(97 + i % 26);
      },
      list() {
        if (!known.length) return null;
        return make("ul", { class: "notes" }, known.map((reason) => make("li", {}, make("sup", {}, this.letter(reason)), " ", data.reasons[reason])));
      },
    };
  }

  const meter = (value) => {
    const bar = make("i");
    bar.style.width = `${Math.min(100, 100 * Math.max(0, value || 0)).toFixed(1)}%`;
    return make("span", { class: "meter", "aria-hidden": "true" }, bar);
  };

  const usedCell = (value, note) => ({ text: used(value), over: value > 1, note, order: value });

  const list = (lines) => make("ul", {}, lines.map((line) => make("li", {}, line)));

  // ---------------------------------------------------------------------------------- the state

  const prepared = FrameFigure.prepare(data);
  const casesByUse = data.cases.map((c, i) => i).sort((a, b) =>
    worstOf(data.cases[b]) - worstOf(data.cases[a]) || a - b);
  function worstOf(c) { return c.worst && !none(c.worst.utilisation) ? c.worst.utilisation : -1; }

  const MODES = [
    { name: "utilisation", label: "Utilisation", unit: "share of what is allowed; 1 is the limit" },
    { name: "axial", label: "Axial force", unit: "N, tension positive" },
    { name: "von_mises", label: "Von Mises stress", unit: "MPa, at the worst place of the tube" },
  ];

  const factorWords = (v) => (!v ? "not drawn" : v === 1 ? "true size" : `${three(v)} times`);
  const nice = (v) => (v > 0 ? Number(v.toPrecision(v < 100 ? 1 : 2)) : 0);
  const state = {
    case: casesByUse.length ? casesByUse[0] : -1, mode: "utilisation", factor: nice(prepared.factor), picked: -1, marks: true,
    force: (v) => newtons(v) + " N",
    words(i, result, worst) {
      const name = data.members[i].name;
      const value = state.mode === "axial" ? newtons(result.N) + " N"
        : state.mode === "von_mises" ? (none(result.von_mises) ? "no stress" : MPa(result.von_mises) + " MPa") : used(FrameFigure.usedMost(result, data.checks));
      return `${name} ${value}${worst ? ", worst" : ""}`;
    },
    panelWords: (i, result) => `${data.panels[i].name} ${used((governing(result, data.panel_checks) || {}).value)}, worst`,
  };
  const thisCase = () => data.cases[state.case];

  /// The check nearest its limit among those that count.
  function governing(result, checks) {
    let best = -1;
    result.used.forEach((u, i) => { if (!none(u) && checks[i].counts && (best < 0 || u > result.used[best])) best = i; });
    return best < 0 ? null : { check: checks[best].name, value: result.used[best] };
  }

  function membersByUse(c) {
    return c.members.map((m, i) => i).sort((a, b) =>
      (FrameFigure.usedMost(c.members[b], data.checks) ?? -1) - (FrameFigure.usedMost(c.members[a], data.checks) ?? -1) || a - b);
  }

  // ------------------------------------------------------------------------------ head, verdict

  function fillHead() {
    place("title").textContent = data.title;
    const cells = [["File", data.input.name], ["Date", data.date], ["tubewright", data.version], ["Analysis", words(data.analysis)],
      ["Units", "mm, N, MPa, deg, kg"]];
    place("title-block").append(...cells.map(([k, v]) => make("div", {}, make("dt", {}, k), make("dd", {}, v))));
    place("foot").append(`Made by tubewright ${data.version} on ${data.date} from ${data.input.name}. `
      + "A calculation with the loads and sizes given above, no approval of a vehicle.");
  }

  function fillVerdict() {
    const v = data.verdict, kind = v.passes === null ? "open" : v.passes ? "pass" : "fail";
    const word = { pass: "PASS", fail: "FAIL", open: "NO ANSWER" }[kind];
    const facts = [];
    const fact = (name, value, more) => facts.push(make("div", {}, make("dt", {}, name), make("dd", {}, value, more ? make("small", {}, more) : null)));
    if (v.worst) {
      fact("Most used", used(v.worst.utilisation) + " of 1", `${checkWords(v.worst.check)} of ${v.worst.item}, case ${v.worst.case}`);
      fact(v.worst.utilisation > 1 ? "Too much by" : "In hand", fixed(Math.abs(1 - v.worst.utilisation), 2),
        v.worst.utilisation > 1 ? "of what is allowed" : "of what is allowed, reserve included");
    }
    const failing = data.cases.filter((c) => !c.passes).length;
    fact("Load cases", `${data.cases.length - failing} of ${data.cases.length} pass`);
    fact("Mass", fixed(data.mass.tubes + data.mass.panels, 1) + " kg frame", fixed(data.mass.total, 1) + " kg with what it carries");
    if (data.torsion && !none(data.torsion.stiffness)) {
      fact("Torsional stiffness", three(data.torsion.stiffness) + " N m/deg", none(data.torsion.wanted) ? "no value asked for" : three(data.torsion.wanted) + " N m/deg asked for");
    }
    const first = (data.modes || []).find((m) => !m.rigid);
    if (first) fact("First natural frequency", three(first.frequency) + " Hz", first.shape);
    const tired = data.fatigue ? Math.max(-1, ...data.fatigue.members.map((m) => m.utilisation ?? -1)) : -1;
    if (tired >= 0) fact("Fatigue screening", make("a", { href: "#fatigue" }, `${used(tired)} of 1`), data.fatigue.counts ? "counts in the verdict" : "does not count in the verdict");
    const open = data.not_checked.length;
    fact("Not checked", open ? make("a", { href: "#not-checked" }, `${open} ${open === 1 ? "line" : "lines"}`) : "nothing left out");
    if (data.warnings.length) fact("Doubts about the frame", make("a", { href: "#cautions" }, `${data.warnings.length} ${data.warnings.length === 1 ? "warning" : "warnings"}`));
    place("verdict-body").append(
      make("div", { class: "verdict " + kind }, make("div", { class: "word" }, word), make("div", { class: "reason" }, make("p", {}, v.sentence))),
      make("div", { class: "strip", id: "strip" }), make("dl", { class: "facts" }, facts));
    const sections = [...document.querySelectorAll("main > section")].filter((s) => s.id !== "verdict" && !s.hidden);
    place("contents").append(make("ul", {}, sections.map((s) => make("li", {}, make("a", { href: "#" + s.id }, s.querySelector("h2").textContent)))));
  }

  /// Every case's worst on one line from 0 to the limit and beyond.
  function strip(width) {
    const top = Math.max(1.1, 1.08 * Math.max(0, ...data.cases.map(worstOf))), left = 8, right = width - 8;
    const x = (u) => left + (right - left) * Math.min(u, top) / top;
    const words_ = "Most used item of each load case: " + casesByUse.map((i) => `${data.cases[i].name} ${used(worstOf(data.cases[i]))}`).join(", ");
    const svg = plot(width, 62, words_);
    draw(svg, "rect", { x: x(0), y: 24, width: x(1) - x(0), height: 12, class: "track" });
    draw(svg, "path", { d: `M${x(1)} 12V44`, class: "limit" });
    draw(svg, "text", { x: x(1), y: 57, "text-anchor": "middle", class: "strong" }, "limit 1");
    for (const t of [0, 0.25, 0.5, 0.75]) draw(svg, "text", { x: x(t), y: 57, "text-anchor": t ? "middle" : "start", class: "dim" }, String(t));
    casesByUse.slice().reverse().forEach((i) => {
      const u = worstOf(data.cases[i]);
      if (u < 0) return;
      if (u > 1) draw(svg, "path", { d: `M${x(u)} 20l7 10l-7 10l-7 -10z`, class: "dot" });
      else draw(svg, "circle", { cx: x(u), cy: 30, r: 5.5, class: i === casesByUse[0] ? "dot" : "hollow" });
    });
    const most = data.cases[casesByUse[0]];
    if (most && worstOf(most) >= 0) {
      const near = x(worstOf(most)) > width - 180;
      draw(svg, "text", { x: x(worstOf(most)) + (near ? 6 : -6), y: 13, "text-anchor": near ? "end" : "start", class: "strong" }, `${most.name} ${used(worstOf(most))}`);
      if (x(worstOf(most)) > 270 && width > 560) draw(svg, "text", { x: x(0), y: 13, class: "dim" }, "every load case, by its most used item");
    }
    return svg;
  }

  // ------------------------------------------------------------------------------------- figure

  let camera, gl, canvas, overlay, shown, stageSize, pending = false, stale = true;

  const VIEW = Symbol("only the view has changed");

  function looks() {
    const style = getComputedStyle(document.documentElement);
    const bytes = (name) => {
      const hex = style.getPropertyValue(name).trim();
      return [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));
    };
    return { paper: bytes("--fig-paper"), ink: bytes("--fig-ink"), ground: bytes("--fig-ground"), edge: bytes("--fig-edge"), picked: bytes("--fig-picked") };
  }

  function drawLabels() {
    const { width, height } = stageSize, project = camera.projector(width, height);
    overlay.setAttribute("viewBox", `0 0 ${width} ${height}`);
    overlay.replaceChildren();
    for (const l of FrameFigure.placeLabels(shown, project, width, height)) {
      if (l.kind === "worst" || l.kind === "picked") {
        draw(overlay, "path", { d: `M${l.px.toFixed(1)} ${l.py.toFixed(1)}L${l.x.toFixed(1)} ${l.y.toFixed(1)}`, class: "fig-leader" });
        draw(overlay, "rect", { x: l.x - l.wide / 2, y: l.y - 10, width: l.wide, height: 20, rx: 2, class: "fig-tag fig-tag-" + l.kind });
      }
      draw(overlay, "text", { x: l.x, y: l.y + 4.5, "text-anchor": "middle", class: "fig-text fig-text-" + l.kind }, l.text);
    }
  }

  function paint() {
    pending = false;
    const stage = place("stage");
    const width = stage.clientWidth, height = stage.clientHeight;
    if (!width || !height || state.case < 0) return;
    stageSize = { width, height };
    if (stale) {
      shown = FrameFigure.scene(prepared, state, camera.axes().eye);
      if (gl) gl.load(shown, looks(), camera.scale(width, height));
      stale = false;
    }
    if (gl) {
      gl.draw(camera, width, height, looks());
      drawLabels();
    } else {
      FrameFigure.drawSvg(overlay, shown, camera, width, height, "stage");
    }
  }

  /// Draws again; what there is to draw is made anew only if more than the view has changed.
  function refresh(onlyView) {
    if (onlyView !== VIEW) stale = true;
    if (pending) return;
    pending = true;
    requestAnimationFrame(paint);
  }

  function startFigure() {
    const stage = place("stage");
    camera = new FrameFigure.Camera(prepared);
    canvas = make("canvas", { "aria-hidden": "true" });
    gl = FrameFigure.createGl(canvas);
    overlay = document.createElementNS(SVG, "svg");
    overlay.setAttribute("aria-hidden", "true");
    overlay.setAttribute("class", gl ? "leaders" : "drawing");
    if (gl) stage.append(canvas);
    stage.append(overlay);
    stage.dataset.drawnBy = gl ? "webgl" : "svg";
    canvas.addEventListener("webglcontextlost", () => {
      gl = null;
      canvas.remove();
      overlay.setAttribute("class", "drawing");
      stage.dataset.drawnBy = "svg";
      refresh();
    });
    handlePointers(stage);
    handleKeys(stage);
    new ResizeObserver(() => refresh()).observe(stage);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => refresh());
  }

  function handlePointers(stage) {
    const down = new Map();
    let moved = 0, spread = 0;
    const at = (event) => {
      const box = stage.getBoundingClientRect();
      return [event.clientX - box.left - stage.clientLeft, event.clientY - box.top - stage.clientTop];
    };
    const apart = () => {
      const [a, b] = [...down.values()];
      return Math.hypot(a[0] - b[0], a[1] - b[1]);
    };
    stage.addEventListener("pointerdown", (event) => {
      if (event.button === 2) return;
      stage.setPointerCapture(event.pointerId);
      if (!down.size) moved = 0;
      down.set(event.pointerId, at(event));
      if (down.size === 2) spread = apart();
    });
    stage.addEventListener("pointermove", (event) => {
      const before = down.get(event.pointerId);
      if (!before) return;
      const now = at(event), dx = now[0] - before[0], dy = now[1] - before[1];
      moved += Math.abs(dx) + Math.abs(dy);
      down.set(event.pointerId, now);
      if (moved < 4) return;
      if (down.size === 2) {
        const wide = apart();
        camera.magnify(wide / (spread || wide));
        spread = wide;
        camera.pan(dx / 2, dy / 2, stage.clientWidth, stage.clientHeight);
      } else if (event.shiftKey || event.buttons & 4) {
        camera.pan(dx, dy, stage.clientWidth, stage.clientHeight);
      } else {
        camera.turn(-0.4 * dx, 0.4 * dy);
      }
      refresh(VIEW);
    });
    const up = (event) => {
      const held = down.get(event.pointerId);
      down.delete(event.pointerId);
      if (!held || moved >= 4 || event.type === "pointercancel") return;
      const { width, height } = stageSize;
      pick(FrameFigure.memberAt(shown, camera.projector(width, height), camera.scale(width, height), ...at(event)));
    };
    stage.addEventListener("pointerup", up);
    stage.addEventListener("pointercancel", up);
    stage.addEventListener("wheel", (event) => {
      if (document.activeElement !== stage && !event.ctrlKey) return;
      event.preventDefault();
      camera.magnify(Math.exp(-0.0015 * event.deltaY));
      refresh(VIEW);
    }, { passive: false });
  }

  function nextByUse(step) {
    const order = membersByUse(thisCase()), k = order.indexOf(state.picked);
    pick(order[k < 0 ? (step > 0 ? 0 : order.length - 1) : (k + step + order.length) % order.length]);
  }

  function handleKeys(stage) {
    stage.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const [w, h] = [stage.clientWidth, stage.clientHeight];
      const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      if (arrows && event.shiftKey) camera.pan(24 * arrows[0], 24 * arrows[1], w, h);
      else if (arrows) camera.turn(-6 * arrows[0], 6 * arrows[1]);
      else if (event.key === "+" || event.key === "=") camera.magnify(1.2);
      else if (event.key === "-") camera.magnify(1 / 1.2);
      else if (event.key === "0" || event.key === "Home") camera.look("corner");
      else if (event.key === "n" || event.key === "N") nextByUse(1);
      else if (event.key === "p" || event.key === "P") nextByUse(-1);
      else if (event.key === "Escape") pick(-1);
      else return;
      event.preventDefault();
      refresh(VIEW);
    });
  }

  function viewButtons() {
    const button = (text, label, act) => make("button", { type: "button", "aria-label": label, onclick() { act(); refresh(VIEW); } }, text);
    place("view-buttons").append(
      button("Corner", "Look from the front left corner", () => camera.look("corner")),
      button("Front", "Look from the front", () => camera.look("front")),
      button("Side", "Look from the left side", () => camera.look("side")),
      button("Top", "Look from above", () => camera.look("top")),
      button("\u21ba", "Turn left", () => camera.turn(-15, 0)), button("\u21bb", "Turn right", () => camera.turn(15, 0)),
      button("+", "Nearer", () => camera.magnify(1.25)), button("\u2212", "Farther", () => camera.magnify(0.8)));
  }

  // ----------------------------------------------------------------------------------- controls

  const caseOption = (i) => {
    const c = data.cases[i];
    return make("option", { value: String(i) }, `${c.name}: ${used(worstOf(c) < 0 ? null : worstOf(c))}, ${passWord(c.passes)}`);
  };
  let caseSelects = [], tubeSelect, factorOutput;

  function controls() {
    const select = make("select", { id: "case-select" }, casesByUse.map(caseOption));
    const modes = MODES.map((m) => make("label", {}, make("input", { type: "radio", name: "mode", value: m.name, checked: m.name === state.mode,
      onchange() { state.mode = m.name; legend(); refresh(); } }), m.label));
    const most = 4 * state.factor || 1;
    factorOutput = make("output", { for: "factor" });
    const slider = make("input", { type: "range", id: "factor", min: "0", max: "100", step: "1", value: "50" });
    const apply = () => {
      // Finer near zero; in the middle the factor that suits the frame.
      state.factor = prepared.factor ? nice(most * (slider.value / 100) ** 2) : 0;
      const words_ = factorWords(state.factor);
      factorOutput.textContent = words_;
      slider.setAttribute("aria-valuetext", words_);
    };
    slider.addEventListener("input", () => { apply(); refresh(); });
    apply();
    tubeSelect = make("select", { id: "tube-select", size: "7", onchange() { pick(Number(tubeSelect.value), true); } });
    place("controls").append(
      make("div", {}, make("label", { for: "case-select" }, "Load case, most used first"), select),
      make("fieldset", {}, make("legend", {}, "Colour of the tubes"), modes),
      make("div", {}, make("div", { class: "row" }, make("label", { for: "factor" }, "Deflection drawn"), factorOutput), slider),
      make("label", { class: "tick" }, make("input", { type: "checkbox", checked: true, onchange(e) { state.marks = e.target.checked; refresh(); } }), "Wheels, supports, masses, ground"),
      make("div", {}, make("label", { for: "tube-select" }, "Tubes, most used first"), tubeSelect));
    const second = make("select", { id: "case-select-2" }, data.cases.map((c, i) => caseOption(i)));
    const all = make("input", { type: "checkbox", id: "all-cases", onchange() { showCases(); } });
    place("case-switch").append(make("div", { class: "pick" }, make("label", { for: "case-select-2" }, "Load case shown in the tables and in the figure"), second),
      make("label", { class: "tick" }, all, "All cases one below the other"));
    caseSelects = [select, second];
    for (const s of caseSelects) s.addEventListener("change", () => chooseCase(Number(s.value)));
  }

  function chooseCase(i) {
    state.case = i;
    for (const s of caseSelects) s.value = String(i);
    fillTubes();
    fillPicked();
    legend();
    showCases();
    refresh();
  }

  function fillTubes() {
    const c = thisCase();
    tubeSelect.replaceChildren(...membersByUse(c).map((i) => {
      const g = governing(c.members[i], data.checks);
      return make("option", { value: String(i) }, `${data.members[i].name}: ${g ? `${used(g.value)} ${checkWords(g.check)}` : "not checked"}`);
    }));
    tubeSelect.value = state.picked < 0 ? "" : String(state.picked);
  }

  function pick(i) {
    state.picked = i;
    tubeSelect.value = i < 0 ? "" : String(i);
    fillPicked();
    refresh();
  }

  function fillPicked() {
    const box = place("picked");
    if (state.picked < 0) {
      box.replaceChildren(make("p", { class: "hint" }, "Click a tube, or choose one from the list, for its numbers."));
      return;
    }
    const m = data.members[state.picked], c = thisCase(), r = c.members[state.picked], notes = footnotes();
    const g = governing(r, data.checks);
    const where = none(r.where) ? "" : r.where <= 0.001 ? `at ${nodeName(m.from)}` : r.where >= 0.999 ? `at ${nodeName(m.to)}`
      : `${fixed(r.where * prepared.members[state.picked].length, 0)} mm from ${nodeName(m.from)}`;
    const rows = data.checks.map((check, k) => ({ over: r.used[k] > 1, cells: [checkWords(check.name) + (check.name === "weld" && r.weld_at ? ` at ${nodeName(m[r.weld_at])}` : ""), { text: none(r.used[k]) ? "not made" : used(r.used[k]), over: r.used[k] > 1 },
      none(r.why[k]) ? "" : data.reasons[r.why[k]]] }));
    box.replaceChildren(
      make("h3", {}, m.name),
      make("p", {}, `${sectionWords(m)}; ${nodeName(m.from)} to ${nodeName(m.to)}, ${fixed(prepared.members[state.picked].length, 0)} mm${m.tube ? `, a piece of the tube ${m.tube}` : ""}.`),
      make("p", {}, make("strong", {}, g ? `${used(g.value)} of its ${checkWords(g.check)} limit` : "Not checked"), ` in case ${c.name}.`),
      make("p", {}, `Axial ${newtons(r.N)} N (${r.N > 0 ? "tension" : r.N < 0 ? "compression" : "none"})`
        + (none(r.von_mises) ? "." : `; von Mises ${MPa(r.von_mises)} MPa ${where}: axial ${MPa(r.axial)}, bending ${MPa(r.bending)}, shear ${MPa(r.shear)} MPa.`)),
      table("", [{ head: "Check", row: true }, { head: "Used", number: true }, { head: "Reason" }], rows, { label: `Checks of ${m.name}` }),
      notes.list() || "");
  }

  function legend() {
    const mode = MODES.find((m) => m.name === state.mode), scale = prepared.scales[state.mode], signed_ = state.mode === "axial";
    const map = signed_ ? FrameFigure.DIVERGING : FrameFigure.VIRIDIS, width = 480;
    const svg = plot(width, 50, `${mode.label} from ${signed_ ? -scale : 0} to ${scale}`);
    const g = draw(draw(svg, "defs", {}), "linearGradient", { id: "legend-map" });
    map.forEach((colour, i) => draw(g, "stop", { offset: i / (map.length - 1), "stop-color": colour }));
    const x = (t) => 22 + (width - 44) * t;
    draw(svg, "rect", { x: x(0), y: 6, width: x(1) - x(0), height: 16, fill: "url(#legend-map)", class: "outline" });
    if (signed_) for (let p = x(0) + 8; p < x(0.495); p += 16) draw(svg, "rect", { x: p, y: 6, width: 4, height: 16, fill: "#000", "fill-opacity": 0.5 });
    for (const t of [0, 0.25, 0.5, 0.75, 1]) {
      const value = signed_ ? (2 * t - 1) * scale : t * scale;
      draw(svg, "path", { d: `M${x(t)} 22v5`, class: "axis" });
      draw(svg, "text", { x: x(t), y: 41, "text-anchor": "middle" }, three(value));
    }
    const extra = signed_ ? "Dark rings: compression." : state.mode === "utilisation" ? "Black hatching: over the limit. Grey: no check made; the list says why." : "Grey: no stress (spring).";
    const marks = [data.wheels.length ? "Rings are wheels; arrows, what the road does to them" : "", data.supports.length ? "pyramids are supports" : "",
      data.masses.length ? "crosses, masses carried" : ""].filter((t) => t).join("; ");
    place("legend").replaceChildren(svg, make("p", {}, `${mode.label}, ${mode.unit}. The scale is the same in every case. ${extra}`),
      make("p", {}, `${marks ? marks[0].toUpperCase() + marks.slice(1) + ". " : ""}Tubes have their true outer size.`));
  }

  // -------------------------------------------------------------------------------------- plots

  function rankingPlot(width) {
    const best = new Map();
    data.cases.forEach((c) => {
      const see = (name, result, names) => {
        const g = governing(result, names);
        if (g && !(best.has(name) && best.get(name).value >= g.value)) best.set(name, { name, ...g, load: c.name });
      };
      c.members.forEach((r, i) => see(data.members[i].name, r, data.checks));
      c.panels.forEach((r, i) => see(data.panels[i].name, r, data.panel_checks));
      if (c.worst && !none(c.worst.utilisation) && !best.has(c.worst.item)) {
        best.set(c.worst.item || "frame", { name: c.worst.item || "frame", check: c.worst.check, value: c.worst.utilisation, load: c.name });
      }
    });
    const all = [...best.values()].sort((a, b) => b.value - a.value), rows = all.slice(0, 12);
    if (!rows.length) return null;
    const top = Math.max(1.02, 1.02 * rows[0].value), step = 38, height = rows.length * step + 26;
    const x = (u) => (width - 2) * u / top;
    const svg = plot(width, height, "Most used items: " + rows.map((r) => `${r.name} ${used(r.value)} ${checkWords(r.check)} in ${r.load}`).join("; "));
    const hatch = draw(draw(svg, "defs", {}), "pattern", { id: "rank-over", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
    draw(hatch, "rect", { width: 3, height: 7, fill: "#000" });
    for (const t of [0.25, 0.5, 0.75]) {
      draw(svg, "path", { d: `M${x(t)} 0V${height - 20}`, class: "grid" });
      draw(svg, "text", { x: x(t), y: height - 5, "text-anchor": "middle", class: "dim" }, String(t));
    }
    draw(svg, "path", { d: `M${x(1)} 0V${height - 20}`, class: "limit" });
    draw(svg, "text", { x: x(1), y: height - 5, "text-anchor": x(1) > width - 40 ? "end" : "middle", class: "strong" }, "limit 1");
    rows.forEach((r, i) => {
      const y = i * step;
      const text = draw(svg, "text", { x: 0, y: y + 12, class: "halo" });
      draw(text, "tspan", { class: "strong" }, `${used(r.value)}  ${r.name}`);
      draw(text, "tspan", { class: "dim" }, `  ${checkWords(r.check)}, ${r.load}`);
      draw(svg, "rect", { x: 0, y: y + 18, width: Math.max(1, x(r.value)), height: 10, class: "bar" });
      if (r.value > 1) draw(svg, "rect", { x: 0, y: y + 18, width: x(r.value), height: 10, fill: "url(#rank-over)" });
    });
    return { svg, title: "Utilisation, most used first", note: all.length > rows.length ? `the first ${rows.length} of ${all.length}, each in its worst case` : "each in its worst case" };
  }

  const ticks = (low, high, count) => {
    const rough = (high - low) / count, power = 10 ** Math.floor(Math.log10(rough));
    const step = [1, 2, 5, 10].map((k) => k * power).find((s) => s >= rough - 1e-12);
    const list_ = [];
    for (let k = Math.ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; ++k) list_.push(Number((k * step).toPrecision(12)));
    return list_;
  };

  function twistPlot(width) {
    const t = data.torsion;
    if (!t || !t.profile || t.profile.length < 2) return null;
    const points = t.profile.slice().sort((a, b) => b.x - a.x), left = 52, right = width - 14, top = 26, bottom = 238, height = 282;
    const x0 = points[0].x, x1 = points[points.length - 1].x;
    const high = Math.max(...points.map((p) => p.twist), 1e-12), low = Math.min(0, ...points.map((p) => p.twist));
    const x = (v) => left + (right - left) * (v - x0) / (x1 - x0 || 1), y = (v) => bottom - (bottom - top) * (v - low) / (1.08 * high - low);
    const svg = plot(width, height, `Twist along the frame under ${three(t.couple)} N m: ` + points.map((p) => `${fixed(p.twist, 4)} degrees at x ${fixed(p.x, 0)} mm`).join(", "));
    for (const b of t.bays) {
      const a = x(Math.max(b.from, b.to)), w = x(Math.min(b.from, b.to)) - a;
      if (b.weakest) draw(svg, "rect", { x: a, y: top - 14, width: w, height: bottom - top + 14, class: "shade" });
      if (b.weakest) draw(svg, "text", { x: a + w / 2, y: top - 2, "text-anchor": "middle", class: "strong" }, "weakest bay");
      if (w > 44) draw(svg, "text", { x: a + w / 2, y: bottom - 6, "text-anchor": "middle", class: "dim" }, fixed(b.twist_per_m, 4));
    }
    for (const v of ticks(low, high, 4)) {
      draw(svg, "path", { d: `M${left} ${y(v)}H${right}`, class: "grid" });
      draw(svg, "text", { x: left - 6, y: y(v) + 4, "text-anchor": "end" }, three(v));
    }
    draw(svg, "path", { d: `M${left} ${bottom}H${right}`, class: "axis" });
    draw(svg, "path", { d: points.map((p, i) => `${i ? "L" : "M"}${x(p.x).toFixed(1)} ${y(p.twist).toFixed(1)}`).join(""), class: "curve" });
    let last = -Infinity;
    for (const p of points) {
      draw(svg, "circle", { cx: x(p.x), cy: y(p.twist), r: 3.6, class: "dot" });
      draw(svg, "path", { d: `M${x(p.x)} ${bottom}v4`, class: "axis" });
      if (x(p.x) - last < 42) continue;
      last = x(p.x);
      draw(svg, "text", { x: Math.min(right - 8, x(p.x)), y: bottom + 18, "text-anchor": "middle" }, fixed(p.x, 0));
    }
    draw(svg, "text", { x: left, y: bottom + 36, class: "dim" }, "front");
    draw(svg, "text", { x: (left + right) / 2, y: bottom + 36, "text-anchor": "middle", class: "dim" }, "x, mm");
    draw(svg, "text", { x: right, y: bottom + 36, "text-anchor": "end", class: "dim" }, "rear");
    return { svg, title: "Twist along the frame", note: `degrees under a couple of ${three(t.couple)} N m; beside the axis, degrees for a metre of each bay` };
  }

  function floorRows() {
    const f = data.floor;
    return [["without the sheet", "without", f.without], ["with the sheet", "with", f.with && f.with.default],
      ["tube diagonals, same mass", "diagonal", f.diagonal], ["heavier floor tubes, same mass", "thicker", f.thicker_tubes]].filter((r) => r[2]);
  }

  function floorPlot(width) {
    if (!data.floor) return null;
    const rows = floorRows(), left = 60, right = width - 14, top = 22, bottom = 238, height = 282;
    const masses = rows.map((r) => r[2].mass), stiff = rows.map((r) => r[2].stiffness);
    const span = Math.max(...masses) - Math.min(...masses) || 1, low = Math.min(...masses) - 0.25 * span, high = Math.max(...masses) + 0.25 * span;
    const most = 1.12 * Math.max(...stiff);
    const x = (v) => left + (right - left) * (v - low) / (high - low), y = (v) => bottom - (bottom - top) * v / most;
    const svg = plot(width, height, "Torsional stiffness against mass of the frame: " + rows.map((r) => `${r[0]} ${fixed(r[2].mass, 2)} kg, ${three(r[2].stiffness)} N m/deg`).join("; "));
    for (const v of ticks(0, most, 4)) {
      draw(svg, "path", { d: `M${left} ${y(v)}H${right}`, class: "grid" });
      draw(svg, "text", { x: left - 6, y: y(v) + 4, "text-anchor": "end" }, three(v));
    }
    for (const v of ticks(low, high, width < 420 ? 3 : 5)) draw(svg, "text", { x: x(v), y: bottom + 18, "text-anchor": "middle" }, three(v));
    draw(svg, "path", { d: `M${left} ${bottom}H${right}`, class: "axis" });
    const base = rows[0][2];
    for (const r of rows.slice(1)) draw(svg, "path", { d: `M${x(base.mass)} ${y(base.stiffness)}L${x(r[2].mass)} ${y(r[2].stiffness)}`, class: "thin" });
    const marks = { without: (px, py) => draw(svg, "circle", { cx: px, cy: py, r: 6, class: "hollow" }),
      with: (px, py) => draw(svg, "circle", { cx: px, cy: py, r: 6.5, class: "dot" }),
      diagonal: (px, py) => draw(svg, "path", { d: `M${px} ${py - 8}l7 13h-14z`, class: "hollow" }),
      thicker: (px, py) => draw(svg, "rect", { x: px - 5.5, y: py - 5.5, width: 11, height: 11, class: "hollow" }) };
    const placed = [];
    for (const [label, kind, r] of rows) {
      const px = x(r.mass), py = y(r.stiffness), end = px > (left + right) / 2;
      marks[kind](px, py);
      const tx = px + (end ? -12 : kind === "without" ? -6 : 12), wide = 6.6 * label.length, from = end ? tx - wide : tx;
      let ty = py + 4 - (kind === "without" ? 16 : 0);
      while (placed.some((p) => Math.abs(p.ty - ty) < 15 && p.from < from + wide && from < p.to)) ty -= 15;
      placed.push({ ty, from, to: from + wide });
      draw(svg, "text", { x: tx, y: ty, "text-anchor": end ? "end" : "start", class: "halo" }, label);
    }
    draw(svg, "text", { x: right, y: bottom + 36, "text-anchor": "end", class: "dim" }, "mass of the frame, kg");
    return { svg, title: "Is the floor worth its weight?", note: "torsional stiffness, N m/deg; the steeper the line, the more a kilogram brings" };
  }

  function wheelPlot(width) {
    if (!data.wheels.length) return null;
    const cases = data.cases.filter((c) => c.wheels.length);
    if (!cases.length) return null;
    const n = data.wheels.length, step = 40, number = 42, top = 22, column = width / n, high = Math.max(1, ...cases.flatMap((c) => c.wheels.map((w) => w.force[2])));
    const svg = plot(width, top + cases.length * step + 4, "Wheel loads: " + cases.map((c) => `${c.name}: ${c.wheels.map((w, i) => `${words(data.wheels[i].name)} ${newtons(w.force[2])} N`).join(", ")}`).join("; "));
    data.wheels.forEach((w, i) => draw(svg, "text", { x: i * column, y: 13, class: "strong" }, words(w.name)));
    cases.forEach((c, k) => {
      const y = top + k * step;
      draw(svg, "text", { x: 0, y: y + 12, class: "dim" }, c.name);
      c.wheels.forEach((w, i) => {
        const left = i * column + number, room = column - number - 12, at = (v) => left + room * Math.max(0, v) / high;
        draw(svg, "text", { x: left - 6, y: y + 31, "text-anchor": "end" }, w.lifted ? "lifted" : newtons(w.force[2]));
        draw(svg, "rect", { x: left, y: y + 20, width: room, height: 13, class: "track" });
        draw(svg, "rect", { x: left, y: y + 20, width: at(w.force[2]) - left, height: 13, class: "bar" });
        const standing = data.vehicle ? data.vehicle.standing[data.wheels[i].name] : null;
        if (!none(standing)) draw(svg, "path", { d: `M${at(standing).toFixed(1)} ${y + 18}v17`, class: "curve" });
      });
    });
    return { svg, title: "Wheel loads by case", note: "upward force on each wheel, N; the line across a bar marks the wheel standing" };
  }

  function fillPlots() {
    const body = place("plots-body");
    const wide = body.clientWidth, columns = wide >= 800 ? 2 : 1;
    const width = Math.max(280, Math.min(680, Math.floor(columns === 2 ? (wide - 36) / 2 : wide)));
    if (body.dataset.width === String(width)) return;
    body.dataset.width = String(width);
    body.replaceChildren(...[rankingPlot, wheelPlot, twistPlot, floorPlot].map((f) => f(width)).filter((p) => p).map((p) =>
      make("figure", {}, make("figcaption", {}, p.title, make("small", {}, p.note)), p.svg)));
    place("strip").replaceChildren(strip(Math.max(280, Math.min(1160, place("verdict-body").clientWidth))));
  }

  // -------------------------------------------------------------------------------------- cases

  function fillOverview() {
    const rows = casesByUse.map((i) => {
      const c = data.cases[i], w = c.worst;
      return { over: !c.passes, cells: [
        make("button", { type: "button", class: "link", onclick() { chooseCase(i); place("case-" + i).scrollIntoView({ block: "start" }); } }, c.name),
        passWord(c.passes), { text: make("span", {}, meter(w && w.utilisation), used(w && w.utilisation)), over: w && w.utilisation > 1 },
        w && w.check ? checkWords(w.check) : "\u2013", w && w.item ? w.item : (w && w.reason) || "\u2013",
        `${fixed(c.reserve, 2)}${c.rare ? ", rare" : ""}`, `${three(c.moves_most.by)} ${c.moves_most.node}`, c.note || ""] };
    });
    place("cases-overview").append(table("Nearest the limit first. Used is the share of what is allowed, with the loads times the reserve of the case; 1 is the limit.",
      [{ head: "Case", row: true }, { head: "Verdict" }, { head: "Used", number: true }, { head: "Check" }, { head: "Item" }, { head: "Reserve", number: true },
        { head: "Moves most", unit: "mm, node", number: true }, { head: "Note", text: true }], rows, { label: "Load cases" }));
  }

  function memberTable(c) {
    const notes = footnotes();
    const rows = membersByUse(c).map((i) => {
      const m = data.members[i], r = c.members[i], g = governing(r, data.checks);
      const where = none(r.where) ? "\u2013" : r.where <= 0.001 ? nodeName(m.from) : r.where >= 0.999 ? nodeName(m.to)
        : `${fixed(r.where * prepared.members[i].length, 0)} mm from ${nodeName(m.from)}`;
      const checks = r.used.map((u, k) => usedCell(u, notes.letter(r.why[k])));
      return { over: g && g.value > 1,
        cells: [m.name, m.section === null ? m.kind : data.sections[m.section].name, { text: used(g && g.value), over: g && g.value > 1 }, g ? checkWords(g.check) : "\u2013", ...checks,
          newtons(r.N), none(r.von_mises) ? "\u2013" : MPa(r.von_mises), where, none(r.class) ? "\u2013" : String(r.class)],
        order: [m.name, m.section === null ? m.kind : data.sections[m.section].name, g && g.value, g ? g.check : null, ...r.used, r.N, r.von_mises, where, r.class] };
    });
    const t = table("Tubes, links, cables and springs, most used first. A letter stands for the reason why a check was not made, or made in part.",
      [{ head: "Member", row: true }, { head: "Section" }, { head: "Used", number: true, sorted: true }, { head: "By" },
        ...data.checks.map(checkHead),
        { head: "Axial", unit: "N", number: true }, { head: "von Mises", unit: "MPa", number: true }, { head: "At" }, { head: "Class", number: true }],
      rows, { kind: "members", sort: true, label: `Members in case ${c.name}` });
    return [make("h4", {}, "Members"), t, notes.list()];
  }

  function panelTable(c) {
    if (!c.panels.length) return [];
    const notes = footnotes();
    const rows = c.panels.map((p, i) => {
      const g = governing(p, data.panel_checks);
      return { over: g && g.value > 1, cells: [data.panels[i].name, usedCell(g && g.value), ...p.used.map((u, k) => ({ ...usedCell(u, notes.letter(p.why[k])), over: u > 1 && data.panel_checks[k].counts })),
        fixed(p.flow, 2), fixed(p.stress, 2), fixed(p.critical, 2), newtons(p.rivet), none(p.bond) ? "\u2013" : fixed(p.bond, 2),
        p.kept < 0.9995 ? `buckled, ${fixed(100 * p.kept, 0)} % kept` : "flat"] };
    });
    return [make("h4", {}, "Panels"), table("Shear flow is what the sheet hands to the tubes along its edges.",
      [{ head: "Panel", row: true }, { head: "Used", number: true }, ...data.panel_checks.map(checkHead),
        { head: "Flow", unit: "N/mm", number: true }, { head: "Shear", unit: "MPa", number: true }, { head: "Buckles at", unit: "MPa", number: true },
        { head: "Rivet", unit: "N", number: true }, { head: "Bond", unit: "MPa", number: true }, { head: "Sheet" }], rows, { label: `Panels in case ${c.name}` }), notes.list()];
  }

  function wheelTable(c) {
    if (!c.wheels.length) return [];
    const have = data.vehicle ? data.vehicle.friction : null;
    const rows = c.wheels.map((w, i) => ({ over: false, cells: [words(data.wheels[i].name), newtons(w.force[0]), newtons(w.force[1]), newtons(w.force[2]),
      w.lifted ? "lifted" : none(w.friction) ? "\u2013" : fixed(w.friction, 2)] }));
    return [make("h4", {}, "Wheels"), table(`Forces of the road on the wheels${none(have) ? "" : `; friction there is: ${fixed(have, 2)}`}.`,
      [{ head: "Wheel", row: true }, { head: "Along x", unit: "N", number: true }, { head: "Across y", unit: "N", number: true }, { head: "Load z", unit: "N", number: true }, { head: "Friction needed", number: true }],
      rows, { label: `Wheels in case ${c.name}` })];
  }

  function forceTable(title, caption, entries, moments) {
    if (!entries.length) return [];
    const size = (e) => Math.hypot(...e.force);
    const rows = entries.slice().sort((a, b) => size(b) - size(a)).map((e) => ({ cells: [e.node, ...e.force.map(newtons), newtons(size(e)), ...(moments ? e.moment.map((v) => fixed(v, 1)) : [])] }));
    return [make("h4", {}, title), table(caption, [{ head: "Node", row: true }, ...["x", "y", "z"].map((k) => ({ head: k, unit: "N", number: true })), { head: "in all", unit: "N", number: true },
      ...(moments ? ["Mx", "My", "Mz"].map((k) => ({ head: k, unit: "N m", number: true })) : [])], rows, { label: title + ": " + caption })];
  }

  function caseFacts(c) {
    const rows = [["Verdict", `${passWord(c.passes)}${c.worst && !none(c.worst.utilisation) ? `: ${used(c.worst.utilisation)} by ${checkWords(c.worst.check)} of ${c.worst.item || "the frame"}` : c.worst && c.worst.reason ? ": " + c.worst.reason : ""}`],
      ["Reserve", `loads times ${fixed(c.reserve, 2)}${c.rare ? "; a rare case" : ""}`],
      ["Moves most", `${c.moves_most.node} by ${three(c.moves_most.by)} mm (x ${three(c.moves_most.vector[0])}, y ${three(c.moves_most.vector[1])}, z ${three(c.moves_most.vector[2])})${c.driving ? " from the mean motion" : ""}`]];
    if (c.driving) {
      const d = c.driving;
      rows.push(["Accelerates", `x ${fixed(d.acceleration[0], 3)}, y ${fixed(d.acceleration[1], 3)}, z ${fixed(d.acceleration[2], 3)} g`],
        ["Turns faster", `x ${fixed(d.angular[0], 1)}, y ${fixed(d.angular[1], 1)}, z ${fixed(d.angular[2], 1)} deg/s\u00b2`]);
      if (d.tips) rows.push(["Turns over", "what is left on the road cannot balance the vehicle"]);
    }
    if (c.slack.length) rows.push(["Slack", c.slack.join(", ")]);
    if (!none(c.sway_factor)) rows.push(["Joints give way", `at ${three(c.sway_factor)} times the loads`]);
    if (c.second_order) rows.push(["Second order", `${c.second_order.converged ? "settled" : "did not settle"}; grew ${three(c.second_order.growth)} times`]);
    if (!none(c.load_reached)) rows.push(["Load reached", fixed(c.load_reached, 2)]);
    rows.push(["Out of balance", `${three(c.out_of_balance.force)} of the forces, ${three(c.out_of_balance.moment)} of the moments`]);
    return make("dl", {}, rows.map(([k, v]) => [make("dt", {}, k), make("dd", {}, v)]));
  }

  function reactionTables(c) {
    if (!c.driving) return forceTable("Reactions", "What the supports do to the frame.", c.reactions, true);
    return [...forceTable("Reactions", `Nothing holds a vehicle: these restraints only pin it down in the calculation and must take nothing; they take ${three(c.driving.restraint)} N.`, c.reactions, true),
      ...forceTable("Pick-ups", "What links and springs do to the frame.", c.pick_ups, false)];
  }

  const filled = new Set();

  function fillCase(i) {
    if (filled.has(i)) return;
    filled.add(i);
    const c = data.cases[i];
    place("case-" + i).append(caseFacts(c), make("div", { class: "figure-print print-only", id: "case-figure-" + i }),
      make("div", { class: "side-by-side" }, make("div", {}, wheelTable(c)), make("div", {}, reactionTables(c))),
      ...memberTable(c).filter((e) => e), ...panelTable(c).filter((e) => e));
  }

  function fillCases() {
    place("cases-body").append(...data.cases.map((c, i) => make("section", { class: "case", id: "case-" + i, "aria-labelledby": "case-heading-" + i, hidden: true },
      make("h3", { id: "case-heading-" + i }, "Case ", c.name), c.note ? make("p", {}, c.note) : null)));
  }

  function showCases() {
    const all = place("all-cases").checked;
    data.cases.forEach((c, i) => {
      const seen = all || i === state.case;
      if (seen) fillCase(i);
      place("case-" + i).hidden = !seen;
    });
  }

  /// The frame on paper: every case in its own figure, by utilisation, as SVG.
  const drawnForPrint = new Set();
  function figureForPrint(box, i, name) {
    if (drawnForPrint.has(name)) return;
    drawnForPrint.add(name);
    const svg = document.createElementNS(SVG, "svg");
    const paper = new FrameFigure.Camera(prepared);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", `The frame in case ${data.cases[i].name}, coloured by utilisation`);
    const before = { ...state };
    Object.assign(state, { case: i, mode: "utilisation", factor: nice(prepared.factor), picked: -1, marks: true });
    FrameFigure.drawSvg(svg, FrameFigure.scene(prepared, state, paper.axes().eye), paper, 720, 430, name);
    Object.assign(state, before);
    box.append(svg, make("p", { class: "small" }, `Case ${data.cases[i].name}, deflection ${factorWords(nice(prepared.factor))}; dark violet 0, yellow 1 of what is allowed, black hatching over it.`));
  }

  function readyForPrint() {
    if (casesByUse.length) figureForPrint(place("figure-for-print"), casesByUse[0], "worst");
    data.cases.forEach((c, i) => { fillCase(i); figureForPrint(place("case-figure-" + i), i, "case" + i); });
  }

  function fillRestWhenIdle() {
    let i = 0;
    const later = window.requestIdleCallback || ((f) => setTimeout(f, 30));
    const step = () => {
      if (i >= data.cases.length) {
        readyForPrint();
        return;
      }
      fillCase(i);
      figureForPrint(place("case-figure-" + i), i, "case" + i);
      i += 1;
      later(step);
    };
    later(step);
    window.addEventListener("beforeprint", readyForPrint);
  }

  // ----------------------------------------------------------------------- what follows the cases

  function fillOtherwise() {
    if (!data.what_ifs.length) return;
    place("otherwise-body").append(table("The most used item of all cases if one thing is not as it was drawn.",
      [{ head: "Change", row: true }, { head: "Used", number: true }, { head: "Check" }, { head: "Item" }, { head: "Case" }],
      data.what_ifs.map((w) => ({ over: w.utilisation > 1, cells: [w.change, { text: none(w.utilisation) ? "no answer" : make("span", {}, meter(w.utilisation), used(w.utilisation)), over: w.utilisation > 1 },
        w.check ? checkWords(w.check) : "\u2013", w.item || "\u2013", w.case || "\u2013"] }))));
  }

  function fillFatigue() {
    const f = data.fatigue, body = place("fatigue-body");
    if (!f) {
      body.append(make("p", {}, "No fatigue screening was made; see what was not checked."));
      return;
    }
    body.append(make("p", {}, `Detail category ${fixed(f.category, 0)} MPa at 2 million cycles, \u03b3Mf ${fixed(f.gamma_Mf, 2)}; ${f.counts ? "it counts in the verdict" : "it does not count in the verdict"}. Category: ${f.source}. The tests behind the classes begin at walls of 4 mm: this compares tubes, it proves no joint.`),
      make("p", {}, "The spectrum:"), make("ol", {}, f.spectrum.map((s) => make("li", {}, `${fixed(s.cycles, 0)} times ${s.what}`))));
    const order = f.members.map((m, i) => i).filter((i) => !none(f.members[i].utilisation)).sort((a, b) => f.members[b].utilisation - f.members[a].utilisation || a - b);
    if (!order.length) body.append(make("p", {}, "No member could be screened."));
    else {
      body.append(table("Most used first. Used is what all stress ranges may be divided by until Miner's sum is 1. Ranges are numbered as the lines of the spectrum.",
        [{ head: "Member", row: true }, { head: "End" }, { head: "Used", number: true }, ...f.spectrum.map((s, k) => ({ head: `Range ${k + 1}`, unit: "MPa", number: true })),
          { head: "Life by 1 alone", unit: "cycles", number: true }, { head: "Miner's sum", number: true }],
        order.map((i) => {
          const m = f.members[i];
          return { over: m.utilisation > 1, cells: [m.name, m.end || "\u2013", { text: used(m.utilisation), over: m.utilisation > 1 }, ...f.spectrum.map((s, k) => MPa(m.ranges[k])), millions(m.cycles), three(m.damage)] };
        }), { label: "Fatigue screening" }));
    }
    const left = f.members.filter((m) => none(m.utilisation));
    const reasons = new Map();
    for (const m of left) reasons.set(m.reason || "no reason given", [...(reasons.get(m.reason || "no reason given") || []), m.name]);
    for (const [reason, names] of reasons) body.append(make("p", { class: "small" }, `Not screened, ${reason}: ${names.join(", ")}.`));
  }

  function fillStudies() {
    const body = place("studies-body"), t = data.torsion, f = data.floor;
    if (t) {
      body.append(make("h3", {}, "Torsion"), make("p", {}, `${three(t.stiffness)} N m/deg, ${t.hold === "clamped" ? "one end clamped" : "free to warp"}; free ${three(t.stiffness_free)}, clamped ${three(t.stiffness_clamped)} N m/deg.`
        + (none(t.wanted) ? "" : ` Asked for: ${three(t.wanted)} N m/deg.`) + (none(t.without_panels) ? "" : ` Without its panels ${three(t.without_panels)} N m/deg.`)
        + (none(t.first_buckling_couple) ? "" : ` The first sheet buckles at ${three(t.first_buckling_couple)} N m.`)));
      body.append(table("Bays, from the rear to the front", [{ head: "From x", unit: "mm", number: true, row: true }, { head: "To x", unit: "mm", number: true }, { head: "Twist", unit: "deg", number: true },
        { head: "Twist per metre", unit: "deg/m", number: true }, { head: "Share of the work", unit: "%", number: true }, { head: "" , unit: "" }],
      t.bays.map((b) => ({ cells: [fixed(b.from, 0), fixed(b.to, 0), fixed(b.twist, 4), fixed(b.twist_per_m, 4), fixed(100 * b.energy_share, 1), b.weakest ? "weakest bay" : ""] }))));
    }
    if (f) {
      body.append(make("h3", {}, "Floor"), make("p", {}, make("strong", {}, f.verdict)), list(f.reasons || []));
      body.append(table("The frame without its sheet, with it, and with the sheet's mass in tubes instead",
        [{ head: "Frame", row: true }, { head: "Mass", unit: "kg", number: true }, { head: "Torsional stiffness", unit: "N m/deg", number: true }, { head: "First torsion", unit: "Hz", number: true },
          { head: "Most used", number: true }, { head: "Rivets used", number: true }, { head: "Gain", unit: "N m/deg per kg", number: true }],
        floorRows().map(([label, , r]) => ({ cells: [label, fixed(r.mass, 2), three(r.stiffness), three(r.frequency), usedCell(r.utilisation), used(r.rivet_utilisation), three(r.per_kg)] }))));
      if ((f.what_would_change_it || []).length) body.append(make("p", {}, "What would change it: "), list(f.what_would_change_it));
    }
    if (data.modes) {
      const bending = data.modes.filter((m) => !m.rigid);
      body.append(make("h3", {}, "Natural frequencies"), table(`${data.modes.length - bending.length} rigid-body motions at 0 Hz are left out.`,
        [{ head: "Frequency", unit: "Hz", number: true, row: true }, { head: "Shape" }, { head: "Share of its motion", unit: "%", number: true }],
        bending.map((m) => ({ cells: [three(m.frequency), m.shape, fixed(100 * m.share, 0)] })), { label: "Natural frequencies" }));
    }
    if (data.buckling) {
      const rows = data.buckling.slice().sort((a, b) => (a.factors[0] ?? Infinity) - (b.factors[0] ?? Infinity));
      body.append(make("h3", {}, "Buckling of the frame"), table("By what factor the loads of a case may grow before the frame, or a tube within it, buckles (linear).",
        [{ head: "Case", row: true }, { head: "Factor", number: true }, { head: "Where" }, { head: "Then" }],
        rows.map((r) => ({ over: r.factors[0] < 1, cells: [r.case, none(r.factors[0]) ? "none found" : three(r.factors[0]), (r.members && r.members[0]) || "\u2013", r.factors.slice(1).map(three).join(", ") || "\u2013"] })), { label: "Buckling factors" }));
    }
    if (!t && !f && !data.modes && !data.buckling) place("studies").hidden = true;
  }

  // --------------------------------------------------------------------------------- the cut list

  const counted = (n, one, many) => `${n} ${n === 1 ? one : many}`;

  /// Bars cut alike, each pattern once: {count, pieces, rest}.
  function patterns(order) {
    const found = new Map();
    for (const bar of order.cut_plan) {
      const key = bar.pieces.join(" ");
      if (found.has(key)) found.get(key).count += 1;
      else found.set(key, { count: 1, ...bar });
    }
    return [...found.values()];
  }

  function patternWords(pattern) {
    const runs = [];
    for (const label of pattern.pieces) {
      if (runs.length && runs[runs.length - 1].label === label) runs[runs.length - 1].count += 1;
      else runs.push({ label, count: 1 });
    }
    return runs.map((r) => `${r.count > 1 ? r.count + " \u00d7 " : ""}${r.label} ${fixed(data.cut.pieces[r.label].long_point, 0)}`).join(", ")
      + `; ${fixed(pattern.rest, 0)} mm left`;
  }

  /// One bar to scale: pieces with their labels, what is left hatched.
  function barPlot(pattern, width) {
    const length = data.cut.stock.length, height = 26, svg = plot(width, height + 2, `${counted(pattern.count, "bar", "bars")}: ${patternWords(pattern)}`);
    const x = (at) => 0.5 + (width - 1) * at / length;
    let at = data.cut.stock.end_trim;
    draw(svg, "rect", { x: x(0), y: 1, width: x(length) - x(0), height, class: "track outline" });
    pattern.pieces.forEach((label) => {
      const long = data.cut.pieces[label].long_point, w = x(at + long) - x(at);
      draw(svg, "rect", { x: x(at), y: 1, width: w, height, class: "piece outline" });
      if (w > 7 + 7 * label.length) draw(svg, "text", { x: x(at) + w / 2, y: height / 2 + 5.5, "text-anchor": "middle", class: "strong" }, label);
      at += long + data.cut.stock.kerf;
    });
    const left = x(length) - x(at);
    for (let k = 0; k < left - 4; k += 7) {
      draw(svg, "path", { d: `M${(x(at) + k).toFixed(1)} ${height}L${Math.min(x(at) + k + 10, x(length)).toFixed(1)} ${(height - Math.min(24, 2.4 * (x(length) - x(at) - k))).toFixed(1)}`, class: "hatch" });
    }
    if (left > 70) draw(svg, "text", { x: x(at) + left / 2, y: height / 2 + 5.5, "text-anchor": "middle", class: "halo" }, `${fixed(pattern.rest, 0)} left`);
    return svg;
  }

  /// A piece of sheet metal to scale: outline, rivet holes, tubes, the rectangle's sides.
  function sheetPlot(sheet, width) {
    const f = sheet.forward, size = Math.hypot(f[0], f[1]), way = size > 0.5;  // the sheet's plane holds the way it drives
    const left = 34, below = way ? 70 : 30, above = 8, scale = Math.min((width - left - 10) / sheet.width, 460 / sheet.height);
    const w = sheet.width * scale, h = sheet.height * scale;
    const svg = plot(width, h + below + above, `Outline of the sheet ${sheet.name}: ${fixed(sheet.width, 1)} by ${fixed(sheet.height, 1)} mm, ${counted(sheet.rivets, "rivet hole", "rivet holes")}.`);
    const x = (v) => left + v * scale, y = (v) => above + h - v * scale;
    const path = (points) => points.map(([a, b], i) => `${i ? "L" : "M"}${x(a).toFixed(2)} ${y(b).toFixed(2)}`).join("") + "Z";
    draw(svg, "path", { d: [sheet.outline, ...sheet.openings].map(path).join(""), class: "sheet-metal", "fill-rule": "evenodd" });
    for (const t of sheet.tubes) draw(svg, "path", { d: `M${x(t.from[0]).toFixed(2)} ${y(t.from[1]).toFixed(2)}L${x(t.to[0]).toFixed(2)} ${y(t.to[1]).toFixed(2)}`, class: "thin" });
    for (const [a, b, d] of sheet.holes) draw(svg, "circle", { cx: x(a), cy: y(b), r: Math.max(d / 2 * scale, 1.6), class: "hole" });
    for (const n of sheet.nodes) {
      const [a, b] = n.at, right = n.inward[0] < 0, low = n.inward[1] > 0;
      draw(svg, "text", { x: x(a) + (right ? -10 : 10), y: y(b) + (low ? -10 : 18), "text-anchor": right ? "end" : "start", class: "dim halo" }, n.name);
    }
    draw(svg, "path", { d: `M${x(0)} ${y(0) + 8}V${y(0) + 16}M${x(sheet.width)} ${y(0) + 8}V${y(0) + 16}M${x(0)} ${y(0) + 12}H${x(sheet.width)}`
      + `M${x(0) - 8} ${y(0)}H${x(0) - 16}M${x(0) - 8} ${y(sheet.height)}H${x(0) - 16}M${x(0) - 12} ${y(0)}V${y(sheet.height)}`, class: "axis" });
    draw(svg, "text", { x: x(sheet.width / 2), y: y(0) + 27, "text-anchor": "middle" }, fixed(sheet.width, 1));
    draw(svg, "text", { x: 14, y: y(sheet.height / 2), "text-anchor": "middle", transform: `rotate(-90 14 ${y(sheet.height / 2).toFixed(1)})` }, fixed(sheet.height, 1));
    if (way) {
      const cx = x(0) + 24, cy = y(0) + 46, ux = f[0] / size, uy = -f[1] / size;
      const at = (along, aside) => `${(cx + along * ux - aside * uy).toFixed(1)} ${(cy + along * uy + aside * ux).toFixed(1)}`;
      draw(svg, "path", { d: `M${at(-20, 0)}L${at(20, 0)}M${at(12, 5)}L${at(20, 0)}L${at(12, -5)}`, class: "curve" });
      draw(svg, "text", { x: cx + 28, y: cy + 4, class: "dim" }, "forward (x)");
    }
    return svg;
  }

  function pieceTable(c) {
    const number = (head, unit) => ({ head, unit, number: true });
    const ends = (p) => (none(p.mirror_of) ? [p.ends[0].text, p.ends[1].text + (none(p.turn) ? "" : `, turned ${fixed(Math.abs(p.turn), 0)}\u00b0${Math.abs(p.turn) > 0.5 && Math.abs(p.turn) < 179.5 ? (p.turn > 0 ? " clockwise" : " anticlockwise") : ""}`)] : [`mirror image of ${p.mirror_of}`, ""]);
    const shrink = (p) => (p.shrinkage.some(none) ? null : p.shrinkage[0] + p.shrinkage[1]);
    const rows = Object.entries(c.pieces).map(([label, p]) => ({ order: [label, p.count, p.size, p.long_point, p.short_point, shrink(p), null, null, p.mass, null],
      cells: [label, String(p.count), p.size, fixed(p.long_point, 1), fixed(p.short_point, 1), none(shrink(p)) ? "\u2013" : fixed(shrink(p), 2), ...ends(p), fixed(p.mass, 3), p.members.join(", ")] }));
    return table("Lengths from point to point on the outer faces. Angles in degrees from a square cut: one number for a mitre, two with a slash for mitre and bevel, two with a plus for two planes. How far the second end is turned about the tube from the first: at 0 the long points lie on one side, at 180 on opposite sides.",
      [{ head: "Piece", row: true }, number("Count"), { head: "Section" }, number("Long point", "mm"), number("Short point", "mm"), number("Welds draw in", "mm"), { head: "First end" }, { head: "Second end" },
        number("Mass of one", "kg"), { head: "Tubes", text: true }], rows, { label: "Pieces to cut", kind: "pieces" });
  }

  function fillCut() {
    const body = place("cut-body"), c = data.cut;
    if (!c) {
      body.append(make("p", {}, "Left out of a frame as large as this one; tubewright cut makes it."));
      return;
    }
    const bars = c.orders.reduce((n, o) => n + o.bars, 0), bought = c.orders.reduce((m, o) => m + o.mass, 0);
    const priced = c.orders.filter((o) => !none(o.price)), facts = [];
    const fact = (name, value, more) => facts.push(make("div", {}, make("dt", {}, name), make("dd", {}, value, more ? make("small", {}, more) : null)));
    fact("Tube as cut", fixed(c.mass, 2) + " kg", counted(Object.values(c.pieces).reduce((n, p) => n + p.count, 0), "piece", "pieces"));
    fact("Bars to buy", counted(bars, "bar", "bars"), `${fixed(bought, 1)} kg`);
    if (priced.length) {
      fact("Price of the bars", fixed(priced.reduce((sum, o) => sum + o.price, 0), 2),
        priced.length < c.orders.length ? `without ${counted(c.orders.length - priced.length, "size", "sizes")} that the file gives no price for` : "by the prices in the file");
    }
    fact("Weld", fixed(c.weld_length / 1000, 2) + " m", `all round ${counted(c.welds, "end", "ends")}`);
    if (c.sheets.length) {
      fact("Sheet as cut", fixed(c.sheets.reduce((m, s) => m + s.mass, 0), 2) + " kg", `${counted(c.sheets.length, "piece", "pieces")}, ${counted(c.sheets.reduce((n, s) => n + s.rivets, 0), "rivet", "rivets")}`);
    }
    body.append(make("dl", { class: "facts" }, facts));
    if (c.advice.length) body.append(make("h3", {}, "Before you cut"), list(c.advice));
    if (c.remarks.length) body.append(make("h3", {}, "Doubts about cutting it"), list(c.remarks.map((w) => w.message + (w.advice ? "; " + w.advice : ""))));
    if (Object.keys(c.pieces).length) body.append(make("h3", {}, "Pieces"), pieceTable(c));
    if (c.orders.length) {
      body.append(make("h3", {}, "Bars to buy"), make("p", { class: "small" }, `Bars of ${fixed(c.stock.length, 0)} mm; a saw cut takes ${fixed(c.stock.kerf, 1)} mm, and ${fixed(c.stock.end_trim, 0)} mm come off each end. What is left over is hatched.`));
      c.orders.forEach((o, i) => {
        body.append(make("h4", {}, `${o.bars} of ${o.size}, ${fixed(o.mass, 1)} kg${none(o.price) ? "" : `, price ${fixed(o.price, 2)}`}`),
          make("p", { class: "small" }, `${o.optimal ? "Fewer bars do not do." : `At least ${o.least_bars} are needed.`} Off-cuts, saw cuts and ends take ${fixed(o.waste / 1000, 2)} m.`),
          make("ol", { class: "bars" }, patterns(o).map((p, k) => make("li", {}, make("div", { class: "bar-figure", "data-order": i, "data-pattern": k }),
            make("span", {}, `${counted(p.count, "bar", "bars")}: ${patternWords(p)}`)))));
      });
    }
    if (c.sheets.length) {
      body.append(make("h3", {}, "Sheets"), table("Each piece ends flush with the outer faces of its tubes. Width and height are those of the rectangle to buy. check -o and cut -o write each as a drawing in full size, DXF and SVG.",
        [{ head: "Piece", row: true }, { head: "Material" }, { head: "Thickness", unit: "mm", number: true }, { head: "Width", unit: "mm", number: true }, { head: "Height", unit: "mm", number: true },
          { head: "Area", unit: "m\u00b2", number: true }, { head: "Mass", unit: "kg", number: true }, { head: "Rivets", number: true }, { head: "Hole", unit: "mm", number: true }, { head: "Panels", text: true }],
        c.sheets.map((s) => ({ cells: [s.name, s.material, fixed(s.thickness, 1), fixed(s.width, 1), fixed(s.height, 1), fixed(s.area / 1e6, 3), fixed(s.mass, 2), String(s.rivets),
          s.holes.length ? fixed(s.holes[0][2], 1) : "\u2013", s.panels.join(", ")] })), { label: "Sheets to cut" }));
      c.sheets.forEach((s, i) => body.append(make("figure", { class: "sheet-figure" }, make("figcaption", {}, `Sheet ${s.name}`, make("small", {}, "from outside, tubes dashed")), make("div", { "data-sheet": i }))));
    }
    if (c.jig.length) {
      body.append(make("h3", {}, "On the jig"), table("Both diagonals of every four-sided bay, from node to node.", [{ head: "Between", row: true }, { head: "Diagonal", unit: "mm", number: true },
        { head: "And between" }, { head: "Diagonal", unit: "mm", number: true }],
      c.jig.map((j) => ({ cells: [`${j.corners[0]} \u2013 ${j.corners[2]}`, fixed(j.diagonals[0], 1), `${j.corners[1]} \u2013 ${j.corners[3]}`, fixed(j.diagonals[1], 1)] })), { label: "Diagonals on the jig" }));
    }
    if (c.weld_order.length) {
      body.append(make("h3", {}, "Weld in this order"), table("Tack every joint first. Joints that are images of each other go one after the other, then the one farthest from those just welded.",
        [{ head: "Step", row: true }, { head: "Nodes", text: true }, { head: "Ends", number: true }, { head: "Weld", unit: "mm", number: true }],
        c.weld_order.map((w, i) => ({ cells: [String(i + 1), w.nodes.join(", "), String(w.ends), fixed(w.weld_length, 0)] })), { label: "Order of welding" }));
      const along = Object.entries(c.shrinkage.along).filter(([, d]) => d && d.welds > 0);
      if (along.length) {
        body.append(make("h3", {}, "What the welds draw in"), table("0.1 times the area of a weld over the wall, each; contained in no length. A rule for plate: weld a sample and measure if a length matters.",
          [{ head: "Along", row: true }, { head: "Draws in", unit: "mm", number: true }, { head: "Welds", number: true }, { head: "By the row of", text: true }],
          along.map(([axis, d]) => ({ cells: [axis, fixed(d.draw_in, 1), String(d.welds), d.row.join(", ")] })), { label: "Shrinkage of the welds" }));
      }
      if (c.shrinkage.unknown_ends) body.append(make("p", { class: "small" }, `${counted(c.shrinkage.unknown_ends, "end is", "ends are")} not steel tube: weld a sample and measure.`));
    }
  }

  /// Bars and sheets are drawn for the width there is.
  function fillCutPlots() {
    const body = place("cut-body"), width = Math.max(260, Math.min(900, body.clientWidth));
    if (!data.cut || body.dataset.width === String(width)) return;
    body.dataset.width = String(width);
    body.querySelectorAll("[data-order]").forEach((box) =>
      box.replaceChildren(barPlot(patterns(data.cut.orders[Number(box.dataset.order)])[Number(box.dataset.pattern)], width - 24)));
    body.querySelectorAll("[data-sheet]").forEach((box) => box.replaceChildren(sheetPlot(data.cut.sheets[Number(box.dataset.sheet)], width)));
  }

  function fillRest() {
    place("not-checked-body").append(data.not_checked.length ? list(data.not_checked) : make("p", {}, "Every check that applies was made."));
    const clauses = Object.entries(data.clauses);
    if (clauses.length) {
      place("sources-body").append(make("h3", {}, "Clauses followed in this report"), table("", [{ head: "Check", row: true }, { head: "Clause" }],
        clauses.map(([name, rules]) => ({ cells: [checkWords(name).replace(/_/g, " "), rules.join("; ")] })), { label: "Clauses followed" }));
    }
    if (data.sources.length) {
      place("sources-body").append(make("h3", {}, "Rules of the program and where they come from"), table("", [{ head: "Subject", row: true }, { head: "Rule", text: true }, { head: "Source", text: true }],
        data.sources.map((s) => ({ cells: [s.subject, s.rule, s.source] })), { label: "Rules and sources" }));
    }
    const number = (head, unit) => ({ head, unit, number: true });
    const carried = data.masses.map((m) => `${m.name} ${three(m.mass)} kg`), held = data.supports.map((s) => `${nodeName(s.node)} ${s.holds.join(" ")}`);
    const given = [carried.length ? `Masses carried: ${carried.join(", ")}.` : "", held.length ? `Supports hold: ${held.join("; ")}.` : ""];
    place("assumptions-body").append(list(data.assumptions.concat(given.filter((t) => t))), make("h3", {}, "Sections"),
      table("", [{ head: "Section", row: true }, { head: "Shape" }, number("Height", "mm"), number("Width", "mm"), number("Wall", "mm"), { head: "Material" }, number("Members", "")],
        data.sections.map((s, i) => ({ cells: [s.name, words(s.shape), three(s.height), three(s.width), three(s.wall), s.material || "\u2013", String(data.members.filter((m) => m.section === i).length)] })), { label: "Sections" }),
      make("h3", {}, "Materials"),
      table("", [{ head: "Material", row: true }, number("E", "MPa"), number("G", "MPa"), number("Yield", "MPa"), number("Tensile", "MPa"), number("Density", "kg/m\u00b3")],
        data.materials.map((m) => ({ cells: [m.name, fixed(m.E, 0), fixed(m.G, 0), fixed(m.yield, 0), fixed(m.ultimate, 0), fixed(m.density, 0)] })), { label: "Materials" }));
    if (data.vehicle) {
      const v = data.vehicle, tips = v.tips_at || {};
      place("assumptions-body").append(make("h3", {}, "The vehicle"), list([
        "Stands on " + Object.entries(v.standing).map(([k, n]) => `${words(k)} ${newtons(n)} N`).join(", ") + ".",
        `Brakes reach ${fixed(v.reachable_braking, 2)} g on the level with friction ${fixed(v.friction, 2)}; limit: ${v.braking_limited_by}.`,
        "Tips over at " + Object.entries(tips).filter(([, g]) => !none(g)).map(([k, g]) => `${words(k)} ${fixed(g, 2)} g`).join(", ") + ".",
        `Centre of mass x ${fixed(data.mass.centre[0], 0)}, y ${fixed(data.mass.centre[1], 0)}, z ${fixed(data.mass.centre[2], 0)} mm.`]));
    }
    if (data.warnings.length) {
      place("cautions-body").append(make("h3", {}, "Doubts about this frame"), list(data.warnings.map((w) =>
        `${w.line ? `Line ${w.line}: ` : ""}${w.message}${w.advice ? "; " + w.advice : ""}`)), make("h3", {}, "In general"));
    }
    place("cautions-body").append(list(data.cautions));
    place("input-body").append(make("p", {}, data.input.name), make("pre", { class: "input", tabindex: "0", role: "region", "aria-label": "Input file" }, data.input.text));
    for (const [id, present] of [["otherwise", data.what_ifs.length > 0]]) if (!present) place(id).hidden = true;
  }

  fillHead();
  controls();
  fillStudies();
  fillRest();
  fillOtherwise();
  fillFatigue();
  fillCut();
  fillVerdict();
  fillPlots();
  fillCutPlots();
  viewButtons();
  fillOverview();
  fillCases();
  if (state.case >= 0) {
    startFigure();
    chooseCase(state.case);
  }
  fillRestWhenIdle();
  new ResizeObserver(fillPlots).observe(place("plots-body"));
  new ResizeObserver(fillCutPlots).observe(place("cut-body"));
})();
