// Colours and patterns that stand for numbers.

// Viridis (CC0), ten of its colours; between them straight lines.
export const VIRIDIS = [
  "#440154",
  "#482878",
  "#3e4a89",
  "#31688e",
  "#26828e",
  "#1f9e89",
  "#35b779",
  "#6dcd59",
  "#b4de2c",
  "#fde725",
];
// Diverging, pale at zero, of equal lightness at equal distance from it: violet below, ochre above.
export const DIVERGING = [
  "#4f2f88",
  "#7561ae",
  "#a19acc",
  "#c9c6e0",
  "#eceae6",
  "#e4c69a",
  "#c6924a",
  "#9a6410",
  "#5c3b00",
];
export const NOT_CHECKED = [138, 142, 148];
export const PATTERN = { plain: 0, rings: 1, hatch: 2 };

const bytes = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));

/// The colour at a share (0 to 1) of the way along a map, three bytes.
export function along(map, share) {
  const t = Math.min(1, Math.max(0, share)) * (map.length - 1);
  const i = Math.min(map.length - 2, Math.floor(t));
  const a = bytes(map[i]),
    b = bytes(map[i + 1]);
  return a.map((v, k) => Math.round(v + (b[k] - v) * (t - i)));
}

export const css = (rgb) => `rgb(${rgb[0]},${rgb[1]},${rgb[2]})`;
