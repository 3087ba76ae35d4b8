// Numbers as the page writes them.

export const DASH = "\u2013"; // stands for no value

export const none = (v) => v === null || v === undefined;
const signed = (text) => text.replace(/^-/, "\u2212");

/// So many digits after the point, and no negative zero.
export function fixed(value, places) {
  if (none(value)) return DASH;
  const text = value.toFixed(places);
  return signed(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);
}

/// Three significant digits, never written with an exponent unless tiny or huge.
export function three(value) {
  if (none(value)) return DASH;
  const size = Math.abs(value);
  if (size === 0) return "0";
  if (size < 1e-4 || size >= 1e7) return signed(value.toExponential(1));
  if (size >= 1000) return fixed(Number(value.toPrecision(4)), 0);
  return signed(String(Number(value.toPrecision(3))));
}

/// A share of what is allowed. What is over 1 never reads 1.00, nor does what is under it.
export function used(value) {
  if (none(value)) return DASH;
  if (value > 0 && value < 0.005) return "<0.01";
  if (value >= 100) return fixed(value, 0);
  if (value === 1 || Math.abs(value - 1) >= 0.005) return fixed(value, 2);
  return value > 1 ? Math.max(value, 1.001).toFixed(3) : Math.min(value, 0.999).toFixed(3);
}

export const newtons = (v) => (none(v) ? DASH : fixed(v, Math.abs(v) < 9.95 ? 1 : 0));
export const MPa = (v) => fixed(v, 1);

export function millions(cycles) {
  if (none(cycles)) return "endless";
  return cycles >= 1e6 ? fixed(cycles / 1e6, 1) + " million" : fixed(cycles, 0);
}

export const counted = (n, one, many) => `${n} ${n === 1 ? one : many}`;
