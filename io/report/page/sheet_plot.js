// A piece of sheet metal to scale: outline, rivet holes, tubes, the rectangle's sides.

import { circle, draw, label, plot, stroke } from "./drawing.js";
import { counted, fixed } from "./numbers.js";

const SHEET_LEFT = 34,
  SHEET_ABOVE = 8; // px beside and over the sheet

/// Draws the metal, its tubes, holes and nodes. x and y turn mm into px.
function drawMetal(svg, sheet, x, y, scale) {
  const point = ([a, b]) => `${x(a).toFixed(2)} ${y(b).toFixed(2)}`;
  const path = (points) => `M${points.map(point).join("L")}Z`;
  draw(svg, "path", {
    d: [sheet.outline, ...sheet.openings].map(path).join(""),
    class: "sheet-metal",
    "fill-rule": "evenodd",
  });
  for (const t of sheet.tubes) stroke(svg, `M${point(t.from)}L${point(t.to)}`, "thin");
  for (const [a, b, d] of sheet.holes) {
    circle(svg, x(a), y(b), Math.max((d / 2) * scale, 1.6), "hole");
  }
  for (const n of sheet.nodes) {
    const [a, b] = n.at,
      right = n.inward[0] < 0,
      low = n.inward[1] > 0;
    label(
      svg,
      x(a) + (right ? -10 : 10),
      y(b) + (low ? -10 : 18),
      n.name,
      "dim halo",
      right ? "end" : "start",
    );
  }
}

function drawSides(svg, sheet, x, y) {
  const below = y(0),
    right = x(sheet.width),
    top = y(sheet.height),
    left = x(0);
  stroke(
    svg,
    `M${left} ${below + 8}V${below + 16}M${right} ${below + 8}V${below + 16}` +
      `M${left} ${below + 12}H${right}M${left - 8} ${below}H${left - 16}` +
      `M${left - 8} ${top}H${left - 16}M${left - 12} ${below}V${top}`,
    "axis",
  );
  label(svg, x(sheet.width / 2), below + 27, fixed(sheet.width, 1), undefined, "middle");
  const middle = y(sheet.height / 2);
  label(svg, 14, middle, fixed(sheet.height, 1), undefined, "middle").setAttribute(
    "transform",
    `rotate(-90 14 ${middle.toFixed(1)})`,
  );
}

/// An arrow along the unit vector (ux, uy): where the vehicle drives.
function drawForward(svg, cx, cy, ux, uy) {
  const at = (along, aside) =>
    `${(cx + along * ux - aside * uy).toFixed(1)} ${(cy + along * uy + aside * ux).toFixed(1)}`;
  stroke(svg, `M${at(-20, 0)}L${at(20, 0)}M${at(12, 5)}L${at(20, 0)}L${at(12, -5)}`, "curve");
  label(svg, cx + 28, cy + 4, "forward (x)", "dim");
}

export function sheetPlot(sheet, width) {
  const f = sheet.forward,
    size = Math.hypot(f[0], f[1]);
  const way = size > 0.5; // the sheet's plane holds the way it drives
  const below = way ? 70 : 30;
  const scale = Math.min((width - SHEET_LEFT - 10) / sheet.width, 460 / sheet.height);
  const h = sheet.height * scale;
  const sides = `${fixed(sheet.width, 1)} by ${fixed(sheet.height, 1)} mm`;
  const holes = counted(sheet.rivets, "rivet hole", "rivet holes");
  const svg = plot(
    width,
    h + below + SHEET_ABOVE,
    `Outline of the sheet ${sheet.name}: ${sides}, ${holes}.`,
  );
  const x = (v) => SHEET_LEFT + v * scale,
    y = (v) => SHEET_ABOVE + h - v * scale;
  drawMetal(svg, sheet, x, y, scale);
  drawSides(svg, sheet, x, y);
  if (way) drawForward(svg, x(0) + 24, y(0) + 46, f[0] / size, -f[1] / size);
  return svg;
}
