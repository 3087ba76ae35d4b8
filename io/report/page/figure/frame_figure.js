// The frame as a figure that can be turned: what to draw (scene), from where (Camera), and two ways
// to draw it (WebGL 2, SVG). Lengths are mm, axes ISO 8855: x forward, y left, z up.
// Both ways draw the same scene; SVG serves printing and browsers without WebGL.

import { Camera, memberAt } from "./camera.js";
import { DIVERGING, VIRIDIS } from "./colours.js";
import { drawSvg } from "./figure_svg.js";
import { placeLabels } from "./labels.js";
import { prepare, usedMost } from "./prepare.js";
import { scene } from "./scene.js";
import { createGl } from "./webgl.js";

export const FrameFigure = {
  prepare,
  scene,
  Camera,
  memberAt,
  drawSvg,
  createGl,
  placeLabels,
  usedMost,
  VIRIDIS,
  DIVERGING,
};
