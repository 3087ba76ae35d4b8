// The figure on the screen: by WebGL where there is WebGL, else by SVG.

import { SVG, box, label, stroke } from "./drawing.js";
import { make, place } from "./elements.js";
import { FrameFigure } from "./figure/frame_figure.js";
import { prepared, state } from "./state.js";

export let camera, shown, stageSize;
let gl,
  canvas,
  overlay,
  pending = false,
  stale = true;

export const VIEW = Symbol("only the view has changed");

/// Colours of the page's style, three bytes each.
function looks() {
  const style = getComputedStyle(document.documentElement);
  const bytes = (name) => {
    const hex = style.getPropertyValue(name).trim();
    return [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));
  };
  return {
    paper: bytes("--fig-paper"),
    ink: bytes("--fig-ink"),
    ground: bytes("--fig-ground"),
    edge: bytes("--fig-edge"),
    picked: bytes("--fig-picked"),
  };
}

function drawLabels() {
  const { width, height } = stageSize,
    project = camera.projector(width, height);
  overlay.setAttribute("viewBox", `0 0 ${width} ${height}`);
  overlay.replaceChildren();
  for (const l of FrameFigure.placeLabels(shown, project, width, height)) {
    if (l.kind === "worst" || l.kind === "picked") {
      const from = `${l.px.toFixed(1)} ${l.py.toFixed(1)}`,
        to = `${l.x.toFixed(1)} ${l.y.toFixed(1)}`;
      stroke(overlay, `M${from}L${to}`, "fig-leader");
      box(
        overlay,
        l.x - l.wide / 2,
        l.y - 10,
        l.wide,
        20,
        "fig-tag fig-tag-" + l.kind,
      ).setAttribute("rx", "2");
    }
    label(overlay, l.x, l.y + 4.5, l.text, "fig-text fig-text-" + l.kind, "middle");
  }
}

function paint() {
  pending = false;
  const stage = place("stage");
  const width = stage.clientWidth,
    height = stage.clientHeight;
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
export function refresh(onlyView) {
  if (onlyView !== VIEW) stale = true;
  if (pending) return;
  pending = true;
  requestAnimationFrame(paint);
}

export function startFigure(stage) {
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
  new ResizeObserver(() => refresh()).observe(stage);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => refresh());
}
