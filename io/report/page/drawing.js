// Makes SVG drawings. Lengths are pixels.

export const SVG = "http://www.w3.org/2000/svg";

export function draw(parent, name, attributes, text) {
  const e = document.createElementNS(SVG, name);
  for (const key in attributes) {
    const value = attributes[key];
    if (value === undefined) continue;
    e.setAttribute(key, typeof value === "number" ? String(Math.round(value * 100) / 100) : value);
  }
  if (text !== undefined) e.textContent = text;
  parent.append(e);
  return e;
}

/// An SVG whose drawing is told in words too.
export function plot(width, height, words) {
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  svg.setAttribute("class", "plot");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", words);
  return svg;
}

export const stroke = (parent, d, style) => draw(parent, "path", { d, class: style });

export const box = (parent, x, y, width, height, style) =>
  draw(parent, "rect", { x, y, width, height, class: style });

export const circle = (parent, cx, cy, r, style) =>
  draw(parent, "circle", { cx, cy, r, class: style });

/// Words at a place, which is their start, or their "middle" or "end" by `anchor`.
export const label = (parent, x, y, text, style, anchor) =>
  draw(parent, "text", { x, y, "text-anchor": anchor, class: style }, text);

/// Black stripes to lay over what is past its limit: fill "url(#id)".
export function defineHatch(svg, id) {
  const hatch = draw(draw(svg, "defs", {}), "pattern", {
    id,
    width: 7,
    height: 7,
    patternUnits: "userSpaceOnUse",
    patternTransform: "rotate(45)",
  });
  draw(hatch, "rect", { width: 3, height: 7, fill: "#000" });
}

/// Round numbers from low to high, about `count` of them.
export function ticks(low, high, count) {
  const rough = (high - low) / count,
    power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((k) => k * power).find((s) => s >= rough - 1e-12);
  const found = [];
  for (let k = Math.ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; ++k) {
    found.push(Number((k * step).toPrecision(12)));
  }
  return found;
}
