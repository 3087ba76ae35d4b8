// Makes elements of the page. Whatever the user wrote reaches the page as text nodes only.

export const place = (id) => document.getElementById(id);

/// on... attributes are listeners; children may be nested lists; null and "" are left out.
export function make(name, attributes, ...children) {
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

export const list = (lines) =>
  make(
    "ul",
    {},
    lines.map((line) => make("li", {}, line)),
  );

/// One of a list of facts: a name, its value, and small print below it.
export const fact = (name, value, more) =>
  make(
    "div",
    {},
    make("dt", {}, name),
    make("dd", {}, value, more ? make("small", {}, more) : null),
  );

/// A bar as long as the share that is used.
export function meter(value) {
  const bar = make("i");
  bar.style.width = `${Math.min(100, 100 * Math.max(0, value || 0)).toFixed(1)}%`;
  return make("span", { class: "meter", "aria-hidden": "true" }, bar);
}
