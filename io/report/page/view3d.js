// The frame as a figure that can be turned: what to draw (scene), from where (Camera), and two ways
// to draw it (WebGL 2, SVG). Lengths are mm, axes ISO 8855: x forward, y left, z up.
// Both ways draw the same scene; SVG serves printing and browsers without WebGL.
"use strict";

const FrameFigure = (() => {
  const add = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
  const sub = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  const times = (a, k) => [a[0] * k, a[1] * k, a[2] * k];
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2],
    a[0] * b[1] - a[1] * b[0]];
  const size = (a) => Math.hypot(a[0], a[1], a[2]);
  const unit = (a) => times(a, 1 / (size(a) || 1));
  const radians = (degrees) => degrees * Math.PI / 180;

  // ------------------------------------------------------------------------------ colour maps

  // Viridis (CC0), ten of its colours; between them straight lines.
  const VIRIDIS = ["#440154", "#482878", "#3e4a89", "#31688e", "#26828e", "#1f9e89", "#35b779",
    "#6dcd59", "#b4de2c", "#fde725"];
  // Diverging, pale at zero, of equal lightness at equal distance from it: violet below, ochre above.
  const DIVERGING = ["#4f2f88", "#7561ae", "#a19acc", "#c9c6e0", "#eceae6", "#e4c69a", "#c6924a",
    "#9a6410", "#5c3b00"];
  const NOT_CHECKED = [138, 142, 148];

  const bytes = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));

  function along(map, share) {
    const t = Math.min(1, Math.max(0, share)) * (map.length - 1);
    const i = Math.min(map.length - 2, Math.floor(t));
    const a = bytes(map[i]), b = bytes(map[i + 1]);
    return a.map((v, k) => Math.round(v + (b[k] - v) * (t - i)));
  }

  const css = (rgb) => `rgb(${rgb[0]},${rgb[1]},${rgb[2]})`;

  // ------------------------------------------------------------------------------- preparation

  const NO_SIZE = 8; // mm, drawn for a section that is given by its properties alone

  /// Axes of a member as the program has them: z is up, made perpendicular; roll turns about x.
  function memberAxes(from, to, roll) {
    const x = unit(sub(to, from));
    const up = Math.abs(x[2]) > Math.cos(radians(0.5)) ? [1, 0, 0] : [0, 0, 1];
    const z0 = unit(sub(up, times(x, dot(up, x))));
    const y0 = cross(z0, x);
    const c = Math.cos(radians(roll)), s = Math.sin(radians(roll));
    return { x, y: add(times(y0, c), times(z0, s)), z: sub(times(z0, c), times(y0, s)) };
  }

  function greatest(data, pick) {
    let most = 0;
    for (const c of data.cases) for (const m of c.members) most = Math.max(most, Math.abs(pick(m) || 0));
    return most;
  }

  /// Up to the next 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten.
  function roundUp(value) {
    if (!(value > 0)) return 1;
    const power = 10 ** Math.floor(Math.log10(value));
    for (const step of [1, 1.5, 2, 3, 4, 5, 6, 8, 10]) {
      if (value <= step * power * (1 + 1e-9)) return step * power;
    }
    return 10 * power;
  }

  /// The greatest utilisation among the checks that count, or null.
  function usedMost(entry, checks) {
    let most = null;
    entry.used.forEach((u, i) => {
      if (u !== null && u !== undefined && checks[i].counts && (most === null || u > most)) most = u;
    });
    return most;
  }

  function prepare(data) {
    const at = data.nodes.map((n) => n.at);
    const members = data.members.map((m) => {
      const section = m.section === null ? null : data.sections[m.section];
      const round = !section || /^round/.test(section.shape);
      const height = (section && section.height) || NO_SIZE, width = (section && section.width) || NO_SIZE;
      return { ...m, section, round, height, width, length: size(sub(at[m.to], at[m.from])),
        axes: memberAxes(at[m.from], at[m.to], m.roll || 0) };
    });
    const points = at.concat(data.wheels.map((w) => w.centre), data.wheels.map((w) => w.contact));
    const low = [0, 1, 2].map((k) => Math.min(...points.map((p) => p[k])));
    const high = [0, 1, 2].map((k) => Math.max(...points.map((p) => p[k])));
    const extent = size(sub(high, low)) || 1;
    let most = 0;
    for (const c of data.cases) for (const u of c.nodes) most = Math.max(most, Math.hypot(u[0], u[1], u[2]));
    let load = 0;
    for (const c of data.cases) for (const w of c.wheels) load = Math.max(load, size(w.force));
    return {
      data, at, members, low, high, extent, centre: times(add(low, high), 0.5), load,
      scales: {
        utilisation: 1,
        axial: roundUp(greatest(data, (m) => m.N)),
        von_mises: roundUp(greatest(data, (m) => m.von_mises)),
      },
      // The factor at which the largest motion of any case is 6 % of the frame's size.
      factor: most > 0 ? 0.06 * extent / most : 0,
    };
  }

  // ------------------------------------------------------------------------------------- scene

  /// What the rotation by the vector `r` (degrees) adds to the unit vector `x`.
  function turnedBy(r, x) {
    const angle = radians(size(r));
    if (!angle) return [0, 0, 0];
    const k = unit(r), across = cross(k, x);
    return add(times(across, Math.sin(angle)), times(cross(k, across), 1 - Math.cos(angle)));
  }

  /// Points of the axis of member m, displaced `factor` times: the cubic that leaves each end in the
  /// direction of its node, or freely where it is pinned.
  function axisPoints(prepared, m, motion, factor, pieces) {
    const a = prepared.at[m.from], b = prepared.at[m.to];
    if (!factor || !motion) return [a, b];
    const end = (from, n) => add(from, times(motion[n].slice(0, 3), factor));
    const p0 = end(a, m.from), p1 = end(b, m.to), chord = sub(p1, p0);
    if (m.kind !== "beam" || (m.pinned[0] && m.pinned[1])) return [p0, p1];
    const leaves = (n) => times(add(m.axes.x, times(turnedBy(motion[n].slice(3), m.axes.x), factor)), m.length);
    let t0 = leaves(m.from), t1 = leaves(m.to);
    if (m.pinned[0]) t0 = sub(times(chord, 1.5), times(t1, 0.5));
    if (m.pinned[1]) t1 = sub(times(chord, 1.5), times(t0, 0.5));
    const line = [];
    for (let i = 0; i <= pieces; ++i) {
      const t = i / pieces, t2 = t * t, t3 = t2 * t;
      line.push(add(add(times(p0, 2 * t3 - 3 * t2 + 1), times(t0, t3 - 2 * t2 + t)),
        add(times(p1, 3 * t2 - 2 * t3), times(t1, t3 - t2))));
    }
    return line;
  }

  function coil(a, b, radius) {
    const { x, y, z } = memberAxes(a, b, 0), L = size(sub(b, a)), turns = 8, steps = 12 * turns;
    const line = [a, add(a, times(x, 0.12 * L))];
    for (let i = 0; i <= steps; ++i) {
      const turn = 2 * Math.PI * i / 12;
      line.push(add(add(a, times(x, L * (0.14 + 0.72 * i / steps))),
        add(times(y, radius * Math.cos(turn)), times(z, radius * Math.sin(turn)))));
    }
    line.push(add(a, times(x, 0.88 * L)), b);
    return line;
  }

  const ARROW = 0.13; // length of the greatest wheel load, as a share of the frame's size
  const PATTERN = { plain: 0, rings: 1, hatch: 2 };

  /// Colour and pattern of a member: compression has rings, what is over its limit is hatched.
  function memberLook(prepared, state, result) {
    if (state.mode === "axial") {
      return { colour: along(DIVERGING, 0.5 + 0.5 * result.N / prepared.scales.axial),
        pattern: result.N < -0.02 * prepared.scales.axial ? PATTERN.rings : PATTERN.plain };
    }
    const value = state.mode === "von_mises" ? result.von_mises : usedMost(result, prepared.data.checks);
    if (value === null || value === undefined) return { colour: NOT_CHECKED, pattern: PATTERN.plain };
    return { colour: along(VIRIDIS, value / prepared.scales[state.mode]),
      pattern: state.mode === "utilisation" && value > 1 ? PATTERN.hatch : PATTERN.plain };
  }

  function arrow(tip, back, eye, looks) {
    const shaft = sub(back, tip), L = size(shaft), head = Math.min(0.35 * L, 60);
    const x = unit(shaft);
    const side = times(unit(cross(x, eye)), 0.45 * head);
    const root = add(tip, times(x, head));
    return [[tip, back], [tip, add(root, side)], [tip, sub(root, side)]].map((points) =>
      ({ points, round: true, width: 9, height: 9, ...looks }));
  }

  function worstMember(data, index) {
    const worst = data.cases[index].worst;
    if (!worst) return -1;
    const byName = data.members.findIndex((m) => m.name === worst.item);
    return byName;
  }

  function middle(line, share) {
    const t = Math.min(1, Math.max(0, share)) * (line.length - 1), i = Math.min(line.length - 2, Math.floor(t));
    return add(line[i], times(sub(line[i + 1], line[i]), t - i));
  }

  /// Everything to be drawn. state: {case, mode, factor, picked, marks, words(member, result)}.
  function scene(prepared, state, eye) {
    const { data } = prepared, c = data.cases[state.case];
    const sweeps = [], quads = [], lines = [], labels = [];
    const neutral = { colour: [128, 133, 140], pattern: PATTERN.plain };
    const moved = (n) => (state.factor ? add(prepared.at[n], times(c.nodes[n].slice(0, 3), state.factor))
      : prepared.at[n]);
    const worst = worstMember(data, state.case);

    prepared.members.forEach((m, i) => {
      const result = c.members[i], points = axisPoints(prepared, m, c.nodes, state.factor, 8);
      const look = memberLook(prepared, state, result);
      const spring = m.kind === "spring";
      sweeps.push({ points: spring ? coil(points[0], points[points.length - 1], 16) : points,
        axis: points, round: m.round, width: spring ? 6 : m.width, height: spring ? 6 : m.height,
        z: m.axes.z, member: i, picked: i === state.picked, ...look });
      if (i === worst || i === state.picked) {
        const share = i === worst && result.where !== null ? result.where : 0.5;
        labels.push({ at: middle(points, share), text: state.words(i, result, i === worst),
          kind: i === state.picked ? "picked" : "worst" });
      }
    });

    data.panels.forEach((p, i) => {
      const corners = p.corners.map(moved), normal = unit(cross(sub(corners[1], corners[0]), sub(corners[3], corners[0])));
      const used = c.panels[i] ? usedMost(c.panels[i], data.panel_checks) : null;
      const colour = state.mode === "utilisation" && used !== null ? along(VIRIDIS, used) : NOT_CHECKED;
      const offset = Math.sign(normal[2] || 1) * -(p.offset || 0);
      quads.push({ corners: corners.map((q) => add(q, times(normal, offset))), normal, colour,
        hatch: used !== null && used > 1, panel: i });
      if (c.worst && c.worst.item === p.name) {
        labels.push({ at: times(corners.reduce(add), 0.25), text: state.panelWords(i, c.panels[i]), kind: "worst" });
      }
    });

    if (state.marks) {
      data.wheels.forEach((w, i) => {
        const radius = Math.abs(w.centre[2] - w.contact[2]) || 0.05 * prepared.extent, ring = [];
        for (let k = 0; k <= 40; ++k) {
          const turn = 2 * Math.PI * k / 40;
          ring.push(add(w.centre, [radius * Math.cos(turn), 0, radius * Math.sin(turn)]));
        }
        sweeps.push({ points: ring, round: true, width: 10, height: 10, ...neutral });
        for (const n of w.carrier) {
          sweeps.push({ points: [w.centre, moved(n)], round: true, width: 5, height: 5, ...neutral });
        }
        const wheel = c.wheels[i];
        if (!wheel) return;
        const force = size(wheel.force);
        if (wheel.lifted || force === 0) {
          labels.push({ at: w.contact, text: wheel.lifted ? "lifted" : "0 N", kind: "load" });
        } else {
          const back = sub(w.contact, times(wheel.force, ARROW * prepared.extent / prepared.load));
          sweeps.push(...arrow(w.contact, back, eye, neutral));
          labels.push({ at: back, text: state.force(force), kind: "load" });
        }
      });
      const foot = Math.max(18, 0.018 * prepared.extent);
      for (const s of data.supports) {
        const top = prepared.at[s.node];
        const base = [[1, 1], [-1, 1], [-1, -1], [1, -1]].map(([x, y]) => add(top, [x * foot, y * foot, -2 * foot]));
        for (let k = 0; k < 4; ++k) {
          for (const points of [[top, base[k]], [base[k], base[(k + 1) % 4]]]) {
            sweeps.push({ points, round: true, width: 6, height: 6, ...neutral });
          }
        }
      }
      for (const m of data.masses) {
        const arm = Math.max(12, 0.012 * prepared.extent);
        for (const e of [[1, 0, 0], [0, 1, 0], [0, 0, 1]]) {
          sweeps.push({ points: [add(m.at, times(e, arm)), add(m.at, times(e, -arm))], round: true,
            width: 7, height: 7, ...neutral });
        }
      }
      // The ground, or a level under the lowest node: half-metre squares, and where forward is.
      const step = prepared.extent < 1200 ? 250 : 500, z = data.wheels.length ? Math.min(...data.wheels.map((w) => w.contact[2]))
        : prepared.low[2] - 2.2 * foot;
      const x0 = Math.floor(prepared.low[0] / step - 0.3) * step, x1 = Math.ceil(prepared.high[0] / step + 0.3) * step;
      const y0 = Math.floor(prepared.low[1] / step - 0.3) * step, y1 = Math.ceil(prepared.high[1] / step + 0.3) * step;
      for (let x = x0; x <= x1; x += step) lines.push([[x, y0, z], [x, y1, z]]);
      for (let y = y0; y <= y1; y += step) lines.push([[x0, y, z], [x1, y, z]]);
      labels.push({ at: [x1, (y0 + y1) / 2, z], text: "forward x", kind: "ground" });
      labels.push({ at: [(x0 + x1) / 2, y1, z], text: `left y; squares ${step} mm`, kind: "ground" });
    }
    return { sweeps, quads, lines, labels };
  }

  // ------------------------------------------------------------------------------------ camera

  class Camera {
    constructor(prepared) {
      this.home = prepared.centre;
      this.extent = prepared.extent;
      // Everything that must be seen: nodes, wheels, the arrows under them.
      this.corners = prepared.at.slice();
      for (const w of prepared.data.wheels) {
        const r = Math.abs(w.centre[2] - w.contact[2]);
        for (const [x, z] of [[r, 0], [-r, 0], [0, r], [0, -r]]) this.corners.push(add(w.centre, [x, 0, z]));
        this.corners.push(add(w.contact, [0, 0, -ARROW * prepared.extent]));
      }
      this.look("corner");
    }

    look(name) {
      const [yaw, pitch] = { corner: [42, 24], front: [0, 0], side: [90, 0], top: [90, 90] }[name];
      this.yaw = yaw;
      this.pitch = pitch;
      this.zoom = 1;
      const { right, up } = this.axes();
      this.target = [right, up].reduce((p, axis) => add(p, times(axis, this.range(axis)[0])), this.home);
    }

    /// Middle and length of the frame along an axis, from `home`.
    range(axis) {
      const along_ = this.corners.map((p) => dot(sub(p, this.home), axis));
      const low = Math.min(...along_), high = Math.max(...along_);
      return [(low + high) / 2, high - low];
    }

    axes() {
      const a = radians(this.yaw), e = radians(this.pitch);
      return { right: [-Math.sin(a), Math.cos(a), 0],
        up: [-Math.sin(e) * Math.cos(a), -Math.sin(e) * Math.sin(a), Math.cos(e)],
        eye: [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)] };
    }

    /// Pixels for a millimetre: the whole frame fits when zoom is 1.
    scale(width, height) {
      const { right, up } = this.axes();
      return this.zoom * Math.min((width - 40) / (this.range(right)[1] + 0.1 * this.extent),
        (height - 50) / (this.range(up)[1] + 0.1 * this.extent));
    }

    turn(yaw, pitch) {
      this.yaw = ((this.yaw + yaw) % 360 + 360) % 360;
      this.pitch = Math.min(90, Math.max(-90, this.pitch + pitch));
    }

    pan(dx, dy, width, height) {
      const { right, up } = this.axes(), s = this.scale(width, height);
      this.target = add(this.target, add(times(right, -dx / s), times(up, dy / s)));
    }

    magnify(by) { this.zoom = Math.min(40, Math.max(0.3, this.zoom * by)); }

    /// Gives p => [x, y, depth] in pixels from the upper left; what is nearer has more depth.
    projector(width, height) {
      const { right, up, eye } = this.axes(), s = this.scale(width, height), t = this.target;
      return (p) => {
        const q = sub(p, t);
        return [width / 2 + s * dot(q, right), height / 2 - s * dot(q, up), s * dot(q, eye)];
      };
    }
  }

  /// The member drawn at a place, or -1: the nearest to the eye of those under it, else the closest.
  function memberAt(drawn, project, scale, x, y) {
    let best = -1, score = Infinity;
    for (const sweep of drawn.sweeps) {
      if (sweep.member === undefined) continue;
      const line = sweep.axis.map(project), half = 0.5 * scale * Math.max(sweep.width, sweep.height);
      for (let i = 0; i + 1 < line.length; ++i) {
        const [ax, ay, az] = line[i], [bx, by, bz] = line[i + 1];
        const l2 = (bx - ax) ** 2 + (by - ay) ** 2;
        const t = l2 ? Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / l2)) : 0;
        const away = Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
        if (away > half + 8) continue;
        const depth = az + t * (bz - az);
        const s = away <= half ? -1e6 - depth : away;
        if (s < score) { score = s; best = sweep.member; }
      }
    }
    return best;
  }

  // ---------------------------------------------------------------------------------------- SVG

  const SVG = "http://www.w3.org/2000/svg";

  function shape(parent, name, attributes, text) {
    const e = document.createElementNS(SVG, name);
    for (const key in attributes) e.setAttribute(key, attributes[key]);
    if (text !== undefined) e.textContent = text;
    parent.append(e);
    return e;
  }

  /// Moves labels apart that would cover each other. Each has x, y, wide; all are `high` px high.
  function spreadLabels(labels, high, height) {
    const placed = [];
    for (const l of labels) {
      let tries = 0;
      const meets = (o) => Math.abs(o.x - l.x) < (o.wide + l.wide) / 2 && Math.abs(o.y - l.y) < high;
      while (tries++ < 30) {
        const other = placed.find(meets);
        if (!other) break;
        l.y = other.y + high;
      }
      l.y = Math.min(height - high / 2, Math.max(high / 2, l.y));
      placed.push(l);
    }
    return placed;
  }

  const ORDER = { picked: 0, worst: 1, load: 2, ground: 3 };

  /// Labels with their places in pixels, kept inside the picture.
  function placeLabels(drawn, project, width, height) {
    const list = drawn.labels.map((l) => {
      const [px, py] = project(l.at), wide = 7.2 * l.text.length + 12;
      const strong = l.kind === "picked" || l.kind === "worst";
      const outside = l.kind === "ground" && (px < 0 || px > width || py < 0 || py > height);
      return { ...l, px, py, wide, outside, x: Math.min(width - wide / 2 - 2, Math.max(wide / 2 + 2, px)),
        y: strong ? py - 34 : l.kind === "load" ? py + 12 : py };
    }).filter((l) => !l.outside);
    list.sort((a, b) => ORDER[a.kind] - ORDER[b.kind]);
    return spreadLabels(list, 22, height);
  }

  function drawSvg(svg, drawn, camera, width, height, prefix) {
    svg.replaceChildren();
    svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    const project = camera.projector(width, height), s = camera.scale(width, height);
    const d = (points) => points.map((p, i) => {
      const q = project(p);
      return (i ? "L" : "M") + q[0].toFixed(1) + " " + q[1].toFixed(1);
    }).join("");
    const hatch = shape(shape(svg, "defs", {}), "pattern", { id: prefix + "-over", width: 7, height: 7,
      patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
    shape(hatch, "rect", { width: 3, height: 7, fill: "#000" });
    for (const line of drawn.lines) shape(svg, "path", { d: d(line), class: "fig-ground" });
    const depth = (points) => points.reduce((sum, p) => sum + project(p)[2], 0) / points.length;
    const things = drawn.sweeps.map((w) => ({ depth: depth(w.axis || w.points), sweep: w }))
      .concat(drawn.quads.map((q) => ({ depth: depth(q.corners), quad: q })));
    const last = (t) => (t.sweep && t.sweep.picked ? 1 : 0);
    things.sort((a, b) => last(a) - last(b) || a.depth - b.depth);
    for (const { sweep, quad } of things) {
      if (quad) {
        const path = d(quad.corners) + "Z";
        shape(svg, "path", { d: path, fill: css(quad.colour), "fill-opacity": 0.35, class: "fig-panel" });
        if (quad.hatch) shape(svg, "path", { d: path, fill: `url(#${prefix}-over)`, "fill-opacity": 0.5 });
        continue;
      }
      const wide = Math.max(1.2, s * (sweep.width + sweep.height) / 2), path = d(sweep.points);
      const looks = { d: path, fill: "none", "stroke-linejoin": "round" };
      if (sweep.picked) shape(svg, "path", { ...looks, "stroke-width": wide + 7, class: "fig-picked" });
      if (sweep.member !== undefined) shape(svg, "path", { ...looks, "stroke-width": wide + 1.4, class: "fig-edge" });
      shape(svg, "path", { ...looks, "stroke-width": wide, stroke: css(sweep.colour) });
      if (sweep.pattern === PATTERN.rings) {
        shape(svg, "path", { ...looks, "stroke-width": wide, stroke: "#000", "stroke-opacity": 0.55, "stroke-dasharray": "2 9" });
      } else if (sweep.pattern === PATTERN.hatch) {
        shape(svg, "path", { ...looks, "stroke-width": wide, stroke: "#000", "stroke-dasharray": "5 5" });
      }
    }
    for (const l of placeLabels(drawn, project, width, height)) {
      if (l.kind === "worst" || l.kind === "picked") {
        shape(svg, "path", { d: `M${l.px.toFixed(1)} ${l.py.toFixed(1)}L${l.x.toFixed(1)} ${l.y.toFixed(1)}`, class: "fig-leader" });
        shape(svg, "rect", { x: (l.x - l.wide / 2).toFixed(1), y: (l.y - 10).toFixed(1), width: l.wide.toFixed(1), height: 20,
          rx: 2, class: "fig-tag fig-tag-" + l.kind });
      }
      shape(svg, "text", { x: l.x.toFixed(1), y: (l.y + 4.5).toFixed(1), "text-anchor": "middle", class: "fig-text fig-text-" + l.kind }, l.text);
    }
  }

  // -------------------------------------------------------------------------------------- WebGL

  const VERTEX = `#version 300 es
    in vec3 place; in vec3 normal; in vec3 colour; in vec3 texture;
    uniform vec3 right, up, eye, target; uniform vec2 half_size; uniform float scale, depth;
    out vec3 v_normal, v_colour, v_texture;
    void main() {
      vec3 p = place - target;
      gl_Position = vec4(scale * dot(p, right) / half_size.x, scale * dot(p, up) / half_size.y,
                         -dot(p, eye) / depth, 1.0);
      v_normal = vec3(dot(normal, right), dot(normal, up), dot(normal, eye));
      v_colour = colour; v_texture = texture;
    }`;
  // texture: pattern, distance along the axis (mm), place across a face (-1 to 1; 9: no edges).
  const FRAGMENT = `#version 300 es
    precision highp float;
    in vec3 v_normal, v_colour, v_texture;
    uniform float flat_colour, opacity; uniform vec3 ink;
    out vec4 result;
    void main() {
      if (flat_colour > 0.5) { result = vec4(v_colour, opacity); return; }
      vec3 n = normalize(v_normal);
      if (n.z < 0.0) n = -n;
      float light = 0.66 + 0.2 * n.z + 0.14 * max(0.0, dot(n, vec3(-0.45, 0.75, 0.48)));
      vec3 c = v_colour * light;
      float pattern = floor(v_texture.x + 0.5), along = v_texture.y, across = v_texture.z;
      if (pattern == 1.0 && mod(along, 44.0) < 7.0) c *= 0.42;
      if (pattern == 2.0 && mod(along + 12.0 * across, 26.0) < 11.0) c *= 0.1;
      if (across < 5.0) {
        float pixel = fwidth(across);
        if (pixel < 0.5) c = mix(c, ink, 0.75 * (1.0 - smoothstep(0.3, 1.1, (1.0 - abs(across)) / pixel)));
      } else if (n.z < 0.3) {
        c = mix(ink, c, n.z / 0.3 * 0.5 + 0.5);
      }
      result = vec4(c, opacity);
    }`;

  /// Appends a swept profile to `out`, 12 numbers a vertex, three vertices a triangle.
  function pushSweep(out, sweep, grow, colour) {
    const line = sweep.points, count = line.length, [r, g, b] = colour.map((v) => v / 255);
    const half = [sweep.width / 2 + grow, sweep.height / 2 + grow];
    const frames = [];
    let z = sweep.z, travelled = 0;
    for (let i = 0; i < count; ++i) {
      const t = unit(sub(line[Math.min(count - 1, i + 1)], line[Math.max(0, i - 1)]));
      if (!z || Math.abs(dot(z, t)) > 0.999) z = Math.abs(t[2]) > 0.99 ? [1, 0, 0] : [0, 0, 1];
      z = unit(sub(z, times(t, dot(z, t))));
      if (i) travelled += size(sub(line[i], line[i - 1]));
      frames.push({ at: line[i], t, z, y: cross(z, t), travelled });
    }
    const vertex = (p, n, along, across) => out.push(p[0], p[1], p[2], n[0], n[1], n[2], r, g, b, sweep.pattern, along, across);
    const side = (f, c, s) => add(f.at, add(times(f.y, c * half[0]), times(f.z, s * half[1])));
    const facets = [];
    if (sweep.round) {
      const n = Math.max(sweep.width, sweep.height) > 12 ? 12 : 6;
      for (let k = 0; k < n; ++k) {
        const a = 2 * Math.PI * k / n, e = 2 * Math.PI * (k + 1) / n;
        facets.push([[Math.cos(a), Math.sin(a)], [Math.cos(e), Math.sin(e)], null]);
      }
    } else {
      facets.push([[1, -1], [1, 1], [1, 0]], [[1, 1], [-1, 1], [0, 1]], [[-1, 1], [-1, -1], [-1, 0]], [[-1, -1], [1, -1], [0, -1]]);
    }
    for (let i = 0; i + 1 < count; ++i) {
      const f = frames[i], h = frames[i + 1];
      for (const [p, q, flat] of facets) {
        const corners = [[f, p, -1], [f, q, 1], [h, q, 1], [f, p, -1], [h, q, 1], [h, p, -1]];
        for (const [frame, place, across] of corners) {
          const facing = flat || place;
          vertex(side(frame, place[0], place[1]), add(times(frame.y, facing[0]), times(frame.z, facing[1])),
            frame.travelled, flat ? across : 9);
        }
      }
    }
    for (const [f, out_] of [[frames[0], -1], [frames[count - 1], 1]]) {
      const rim = facets.map(([p]) => side(f, p[0], p[1])), n = times(f.t, out_);
      for (let k = 1; k + 1 < rim.length; ++k) {
        for (const p of [rim[0], rim[k], rim[k + 1]]) vertex(p, n, f.travelled, 9);
      }
    }
  }

  function pushTriangles(out, corners, normal, colour) {
    const [r, g, b] = colour.map((v) => v / 255);
    for (const k of [0, 1, 2, 0, 2, 3]) out.push(...corners[k], ...normal, r, g, b, 0, 0, 9);
  }

  /// Returns null where there is no WebGL 2.
  function createGl(canvas) {
    const gl = canvas.getContext("webgl2", { antialias: true, alpha: false, preserveDrawingBuffer: true });
    if (!gl) return null;
    const program = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, FRAGMENT]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS)) return null;
    const uniform = (name) => gl.getUniformLocation(program, name);
    const buffer = gl.createBuffer();
    let ranges = {};

    function load(drawn, looks, scale) {
      const out = [];
      ranges = {};
      const range = (name, fill) => {
        const start = out.length / 12;
        fill();
        ranges[name] = [start, out.length / 12 - start];
      };
      range("ground", () => {
        const [r, g, b] = looks.ground.map((v) => v / 255);
        for (const line of drawn.lines) for (const p of line) out.push(...p, 0, 0, 1, r, g, b, 0, 0, 9);
      });
      range("picked", () => {
        for (const w of drawn.sweeps) if (w.picked) pushSweep(out, w, Math.max(4, 3.5 / scale), looks.picked);
      });
      range("picked_itself", () => { for (const w of drawn.sweeps) if (w.picked) pushSweep(out, w, 0, w.colour); });
      range("solid", () => { for (const w of drawn.sweeps) pushSweep(out, w, 0, w.colour); });
      range("rims", () => {
        for (const q of drawn.quads) for (let k = 0; k < 4; ++k) {
          for (const p of [q.corners[k], q.corners[(k + 1) % 4]]) out.push(...p, 0, 0, 1, ...looks.ink.map((v) => v / 255), 0, 0, 9);
        }
      });
      range("sheets", () => { for (const q of drawn.quads) pushTriangles(out, q.corners, q.normal, q.colour); });
      gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
      gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(out), gl.DYNAMIC_DRAW);
    }

    function draw(camera, width, height, looks) {
      const ratio = Math.min(2, window.devicePixelRatio || 1);
      const w = Math.round(width * ratio), h = Math.round(height * ratio);
      if (canvas.width !== w || canvas.height !== h) { canvas.width = w; canvas.height = h; }
      gl.viewport(0, 0, w, h);
      const paper = looks.paper.map((v) => v / 255);
      gl.clearColor(paper[0], paper[1], paper[2], 1);
      gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      gl.useProgram(program);
      gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
      ["place", "normal", "colour", "texture"].forEach((name, i) => {
        const where = gl.getAttribLocation(program, name);
        if (where < 0) return;
        gl.enableVertexAttribArray(where);
        gl.vertexAttribPointer(where, 3, gl.FLOAT, false, 48, 12 * i);
      });
      const { right, up, eye } = camera.axes();
      gl.uniform3fv(uniform("right"), right);
      gl.uniform3fv(uniform("up"), up);
      gl.uniform3fv(uniform("eye"), eye);
      gl.uniform3fv(uniform("target"), camera.target);
      gl.uniform2f(uniform("half_size"), width / 2, height / 2);
      gl.uniform1f(uniform("scale"), camera.scale(width, height));
      gl.uniform1f(uniform("depth"), 4 * camera.extent);
      gl.uniform3fv(uniform("ink"), looks.edge.map((v) => v / 255));
      const part = (name, how, flat, opacity) => {
        gl.uniform1f(uniform("flat_colour"), flat);
        gl.uniform1f(uniform("opacity"), opacity);
        if (ranges[name][1]) gl.drawArrays(how, ...ranges[name]);
      };
      gl.enable(gl.DEPTH_TEST);
      gl.disable(gl.CULL_FACE);
      gl.disable(gl.BLEND);
      part("ground", gl.LINES, 1, 1);
      part("solid", gl.TRIANGLES, 0, 1);
      part("rims", gl.LINES, 1, 1);
      gl.enable(gl.BLEND);
      gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
      gl.depthMask(false);
      part("sheets", gl.TRIANGLES, 0, 0.42);
      gl.disable(gl.BLEND);
      // The picked tube shows through whatever is before it, with a halo round it.
      gl.disable(gl.DEPTH_TEST);
      part("picked", gl.TRIANGLES, 1, 1);
      gl.enable(gl.DEPTH_TEST);
      gl.depthMask(true);
      gl.clear(gl.DEPTH_BUFFER_BIT);
      part("picked_itself", gl.TRIANGLES, 0, 1);
    }
    return { load, draw };
  }

  return { prepare, scene, Camera, memberAt, drawSvg, createGl, placeLabels, along, css, roundUp, usedMost,
    VIRIDIS, DIVERGING, NOT_CHECKED, PATTERN };
})();
