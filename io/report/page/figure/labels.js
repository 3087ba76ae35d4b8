// Where the labels of the figure stand.

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
export function placeLabels(drawn, project, width, height) {
  const list = drawn.labels
    .map((l) => {
      const [px, py] = project(l.at),
        wide = 7.2 * l.text.length + 12;
      const strong = l.kind === "picked" || l.kind === "worst";
      const outside = l.kind === "ground" && (px < 0 || px > width || py < 0 || py > height);
      return {
        ...l,
        px,
        py,
        wide,
        outside,
        x: Math.min(width - wide / 2 - 2, Math.max(wide / 2 + 2, px)),
        y: strong ? py - 34 : l.kind === "load" ? py + 12 : py,
      };
    })
    .filter((l) => !l.outside);
  list.sort((a, b) => ORDER[a.kind] - ORDER[b.kind]);
  return spreadLabels(list, 22, height);
}
