// Turning, moving and picking in the figure by pointer, keyboard and buttons.

import { pick } from "./controls.js";
import { make, place } from "./elements.js";
import { FrameFigure } from "./figure/frame_figure.js";
import { VIEW, camera, refresh, shown, stageSize } from "./stage.js";
import { membersByUse, state, thisCase } from "./state.js";

/// Moves the view as the pointers that are down have moved. pointers: {down, spread}.
function drag(stage, pointers, event, dx, dy) {
  const { clientWidth, clientHeight } = stage;
  if (pointers.down.size === 2) {
    const wide = apart(pointers.down);
    camera.magnify(wide / (pointers.spread || wide));
    pointers.spread = wide;
    camera.pan(dx / 2, dy / 2, clientWidth, clientHeight);
  } else if (event.shiftKey || event.buttons & 4) {
    camera.pan(dx, dy, clientWidth, clientHeight);
  } else {
    camera.turn(-0.4 * dx, 0.4 * dy);
  }
  refresh(VIEW);
}

function apart(down) {
  const [a, b] = [...down.values()];
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function pickAt([x, y]) {
  const { width, height } = stageSize;
  const project = camera.projector(width, height),
    scale = camera.scale(width, height);
  pick(FrameFigure.memberAt(shown, project, scale, x, y));
}

export function handlePointers(stage) {
  const pointers = { down: new Map(), spread: 0 },
    { down } = pointers;
  let moved = 0;
  const at = (event) => {
    const box = stage.getBoundingClientRect();
    return [event.clientX - box.left - stage.clientLeft, event.clientY - box.top - stage.clientTop];
  };
  stage.addEventListener("pointerdown", (event) => {
    if (event.button === 2) return;
    stage.setPointerCapture(event.pointerId);
    if (!down.size) moved = 0;
    down.set(event.pointerId, at(event));
    if (down.size === 2) pointers.spread = apart(down);
  });
  stage.addEventListener("pointermove", (event) => {
    const before = down.get(event.pointerId);
    if (!before) return;
    const now = at(event),
      dx = now[0] - before[0],
      dy = now[1] - before[1];
    moved += Math.abs(dx) + Math.abs(dy);
    down.set(event.pointerId, now);
    if (moved >= 4) drag(stage, pointers, event, dx, dy);
  });
  const up = (event) => {
    const held = down.get(event.pointerId);
    down.delete(event.pointerId);
    if (held && moved < 4 && event.type !== "pointercancel") pickAt(at(event));
  };
  stage.addEventListener("pointerup", up);
  stage.addEventListener("pointercancel", up);
  stage.addEventListener(
    "wheel",
    (event) => {
      if (document.activeElement !== stage && !event.ctrlKey) return;
      event.preventDefault();
      camera.magnify(Math.exp(-0.0015 * event.deltaY));
      refresh(VIEW);
    },
    { passive: false },
  );
}

function nextByUse(step) {
  const order = membersByUse(thisCase()),
    k = order.indexOf(state.picked),
    n = order.length;
  const next = k >= 0 ? (k + step + n) % n : step > 0 ? 0 : n - 1;
  pick(order[next]);
}

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

const KEYS = {
  "+": () => camera.magnify(1.2),
  "=": () => camera.magnify(1.2),
  "-": () => camera.magnify(1 / 1.2),
  0: () => camera.look("corner"),
  Home: () => camera.look("corner"),
  n: () => nextByUse(1),
  N: () => nextByUse(1),
  p: () => nextByUse(-1),
  P: () => nextByUse(-1),
  Escape: () => pick(-1),
};

export function handleKeys(stage) {
  stage.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const way = ARROWS[event.key];
    if (way && event.shiftKey) {
      camera.pan(24 * way[0], 24 * way[1], stage.clientWidth, stage.clientHeight);
    } else if (way) {
      camera.turn(-6 * way[0], 6 * way[1]);
    } else if (Object.hasOwn(KEYS, event.key)) {
      KEYS[event.key]();
    } else {
      return;
    }
    event.preventDefault();
    refresh(VIEW);
  });
}

export function fillViewButtons() {
  const button = (text, label, act) =>
    make(
      "button",
      {
        type: "button",
        "aria-label": label,
        onclick() {
          act();
          refresh(VIEW);
        },
      },
      text,
    );
  place("view-buttons").append(
    button("Corner", "Look from the front left corner", () => camera.look("corner")),
    button("Front", "Look from the front", () => camera.look("front")),
    button("Side", "Look from the left side", () => camera.look("side")),
    button("Top", "Look from above", () => camera.look("top")),
    button("\u21ba", "Turn left", () => camera.turn(-15, 0)),
    button("\u21bb", "Turn right", () => camera.turn(15, 0)),
    button("+", "Nearer", () => camera.magnify(1.25)),
    button("\u2212", "Farther", () => camera.magnify(0.8)),
  );
}
