"""Makes cases/joint_stiffness/joint_table.cpp from joint_stiffness.csv.

usage: make_table.py [CSV [CPP]]

Joints of a brace on a chord: the local flexibility is that of the sweep and, added, that of the
brace's stub from the chord's axis to its face, which the beams have and the solid has not. It is
positive and changes smoothly; the program takes the stub off again. A factor is a local stiffness
over that of the base joint (chord square, brace square, walls equal, 90 degrees, through chord) of
the same beta and slenderness. Corners: stiffness, at most MOST.
tests/cases/joint_stiffness/joint_table_test.cpp holds the result against the CSV.
"""

import csv
import math
import pathlib
import sys

from joint_sweep import BETAS, FACTOR_BETAS, SLENDERNESS

HERE = pathlib.Path(__file__).resolve().parent
SPRINGS = ("out_of_plane", "in_plane", "axial")
MOST = 1000  # corners: stiffness over E t0^3 that counts as rigid
# Below this a local flexibility is the noise of a small difference; less than any brace's stub.
LEAST = {"out_of_plane": 5e-4, "in_plane": 5e-4, "axial": 0.05}


def read_rows(path):
    rows = []
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            rows.append({key: value if key in ("use", "kind", "end") else float(value)
                         for key, value in row.items()})
    return rows


def corner_loss(r):
    """Area, own second moment, depth of centroid of what a round corner takes off (EN 10219-2)."""
    return ((1 - math.pi / 4) * r * r,
            (1 / 3 - math.pi / 16 - 1 / (3 * (12 - 3 * math.pi))) * r ** 4,
            (10 - 3 * math.pi) / (12 - 3 * math.pi) * r)


def solid_rectangle(h, b, r):
    """Area and second moment about the axis parallel to b."""
    area, own, depth = corner_loss(r)
    return h * b - 4 * area, b * h ** 3 / 12 - 4 * (own + area * (h / 2 - depth) ** 2)


def tube(h, b, t):
    outer = solid_rectangle(h, b, 2 * t)
    inner = solid_rectangle(h - 2 * t, b - 2 * t, t)
    return outer[0] - inner[0], outer[1] - inner[1]


def stub(row, spring):
    """Flexibility of the brace from the chord's axis to its face, without unit (t0 = 1)."""
    scale = row["t0"]
    length = row["h0"] / 2 / math.sin(math.radians(row["angle"])) / scale
    b, h, t = row["b1"] / scale, row["h1"] / scale, row["t1"] / scale
    if spring == "axial":
        return length / tube(h, b, t)[0]
    return length / (tube(b, h, t) if spring == "out_of_plane" else tube(h, b, t))[1]


def local_stiffness(row, spring):
    return 1 / max(LEAST[spring], row[spring] + stub(row, spring))


def corner_stiffness(row, spring):
    return MOST if row[spring] * MOST <= 1 else 1 / row[spring]


def near(a, b):
    return abs(a - b) < 2e-3 * abs(b)


def find(rows, **wanted):
    """The one row with these values."""
    found = [row for row in rows if all(
        row[key] == value if isinstance(value, str) else near(row[key], value)
        for key, value in wanted.items())]
    if len(found) != 1:
        raise SystemExit(f"{len(found)} rows for {wanted}")
    return found[0]


def base_curves(rows, spring):
    return [[local_stiffness(find(rows, use="base", b0=m, b1=beta * m), spring) for beta in BETAS]
            for m in SLENDERNESS]


def parabola(x, x1, y1, x2, y2):
    """Through (x1, y1), (0, 0), (x2, y2), as in tube_on_tube.cpp."""
    a = (y1 / x1 - y2 / x2) / (x1 - x2)
    return x * (y1 / x1 + a * (x - x1))


def with_equal_walls(rows, base, spring, thin, thick):
    """The base where the smallest braces had to have thinner walls, brought to equal ones."""
    corrected = []
    for m, curve in zip(SLENDERNESS, base[spring]):
        line = []
        for beta, value in zip(BETAS, curve):
            wall = find(rows, use="base", b0=m, b1=beta * m)["t1"]
            # Only for beta 0.3 and 0.4, which has no factor of its own.
            at = 0 if beta < 0.35 else 1
            change = parabola(math.log(wall), math.log(0.667), math.log(thin[spring][at]),
                              math.log(1.5), math.log(thick[spring][at]))
            line.append(value / math.exp(change))
        corrected.append(line)
    return corrected


def curve_at(base, spring, beta, slenderness):
    """Base value at a point of the grid."""
    i = min(range(len(SLENDERNESS)), key=lambda k: abs(SLENDERNESS[k] - slenderness))
    j = min(range(len(BETAS)), key=lambda k: abs(BETAS[k] - beta))
    return base[spring][i][j]


def factor_curves(rows, base, use, changed):
    """For each spring the factor at FACTOR_BETAS; where a small brace cannot be, the next one."""
    curves = {}
    for spring in SPRINGS:
        curve = []
        for beta in FACTOR_BETAS:
            found = [row for row in rows if row["use"] == use and changed(row)
                     and near(row["b1"] / row["b0"], beta)]
            if found:
                row = found[0]
                curve.append(local_stiffness(row, spring)
                             / curve_at(base, spring, beta, row["b0"]))
            else:
                curve.append(None)
        for k in reversed(range(len(curve))):
            if curve[k] is None:
                curve[k] = curve[k + 1]
        curves[spring] = curve
    return curves


def numbers(values):
    return "{" + ", ".join(f"{value:.4g}" for value in values) + "}"


def grid(values):
    return "{{" + ",\n      ".join(numbers(row) for row in values) + "}}"


def influence(rows, base, use, changed):
    curves = factor_curves(rows, base, use, changed)
    return "{" + ",\n      ".join(numbers(curves[spring]) for spring in SPRINGS) + "}"


def corner_rows(rows, spring, aspect, chosen):
    return [corner_stiffness(find(rows, use="corner", b0=m, h0=aspect * m, **chosen), spring)
            for m in SLENDERNESS]


def corner(rows, chosen):
    parts = []
    for spring in ("out_of_plane", "in_plane", "torsion"):
        parts.append(grid([corner_rows(rows, spring, a, chosen) for a in (0.5, 1.0, 2.0)]))
    return "{" + ",\n      ".join(parts) + "}"


def pair(rows, base, end):
    """Local flexibility of two braces turned against each other and together, over that of one
    alone on a through chord."""
    against, together = [], []
    for beta in FACTOR_BETAS:
        row = find(rows, use="pair", end=end, b1=beta * 16.667, b0=16.667)
        alone = 1 / curve_at(base, "out_of_plane", beta, row["b0"])
        own = row["out_of_plane"] + stub(row, "out_of_plane")
        against.append((own - row["other"]) / alone)
        together.append(max(0, own + row["other"]) / alone)
    return "{" + numbers(against) + ",\n      " + numbers(together) + "}"


def table(rows):
    base = {spring: base_curves(rows, spring) for spring in SPRINGS}
    thin = factor_curves(rows, base, "wall", lambda r: near(r["t1"], 0.667))
    thick = factor_curves(rows, base, "wall", lambda r: near(r["t1"], 1.5))
    base = {spring: with_equal_walls(rows, base, spring, thin, thick) for spring in SPRINGS}

    def row_of(use, changed):
        return influence(rows, base, use, changed)

    lines = [
        "// Made by tests/joint_models/make_table.py from joint_stiffness.csv, do not edit.",
        '#include "cases/joint_stiffness/joint_table.h"', "", "namespace tubewright {", "",
        "// clang-format off",
        "const JointTable joint_table = {",
        "  .base_out_of_plane = " + grid(base["out_of_plane"]) + ",",
        "  .base_in_plane = " + grid(base["in_plane"]) + ",",
        "  .base_axial = " + grid(base["axial"]) + ",",
        "  .thin_brace = " + row_of("wall", lambda r: near(r["t1"], 0.667)) + ",",
        "  .thick_brace = " + row_of("wall", lambda r: near(r["t1"], 1.5)) + ",",
        "  .flat_chord = " + row_of("chord", lambda r: near(r["h0"] / r["b0"], 0.5)) + ",",
        "  .deep_chord = " + row_of("chord", lambda r: near(r["h0"] / r["b0"], 2)) + ",",
        "  .short_brace = " + row_of("brace", lambda r: near(r["h1"] / r["b1"], 0.5)) + ",",
        "  .long_brace = " + row_of("brace", lambda r: near(r["h1"] / r["b1"], 2)) + ",",
        "  .open_end = " + row_of("end", lambda r: r["end"] == "open") + ",",
        "  .capped_end = " + row_of("end", lambda r: r["end"] == "capped") + ",",
        "  .angle_60 = " + row_of("angle", lambda r: r["angle"] == 60) + ",",
        "  .angle_45 = " + row_of("angle", lambda r: r["angle"] == 45) + ",",
        "  .mitred = " + corner(rows, {"kind": "mitre"}) + ",",
        "  .butted_open = " + corner(rows, {"kind": "tee", "end": "open"}) + ",",
        "  .butted_capped = " + corner(rows, {"kind": "tee", "end": "capped"}) + ",",
        "  .pair_through = " + pair(rows, base, "through") + ",",
        "  .pair_open = " + pair(rows, base, "open") + "};",
        "// clang-format on", "", "}  // namespace tubewright", ""]
    return "\n".join(lines)


def main():
    source = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE / "joint_stiffness.csv"
    target = (pathlib.Path(sys.argv[2]) if len(sys.argv) > 2
              else HERE.parents[1] / "cases/joint_stiffness/joint_table.cpp")
    target.write_text(table(read_rows(source)), encoding="utf-8")


if __name__ == "__main__":
    main()
