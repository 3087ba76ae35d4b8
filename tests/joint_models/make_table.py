"""Makes cases/joint_stiffness/joint_table.cpp from joint_stiffness.csv.

usage: make_table.py [CSV [CPP]]

A stiffness is 1/flexibility of the sweep, at most MOST; a factor is a stiffness over that of the base
joint (chord square, brace square, walls equal, 90 degrees, through chord) of the same beta and
slenderness. tests/cases/joint_stiffness/joint_table_test.cpp holds the result against the CSV.
"""

import csv
import pathlib
import sys

from joint_sweep import BETAS, FACTOR_BETAS, SLENDERNESS

HERE = pathlib.Path(__file__).resolve().parent
SPRINGS = ("out_of_plane", "in_plane", "axial")
# Stiffer than this counts as rigid: over E t0^3, along the axis over E t0.
MOST = {"out_of_plane": 1000, "in_plane": 1000, "torsion": 1000, "axial": 10}


def read_rows(path):
    rows = []
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            rows.append({key: value if key in ("use", "kind", "end") else float(value)
                         for key, value in row.items()})
    return rows


def stiffness(row, spring):
    flexibility = row[spring]
    most = MOST[spring]
    return most if flexibility * most <= 1 else 1 / flexibility


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
    return [[stiffness(find(rows, use="base", b0=m, b1=beta * m), spring) for beta in BETAS]
            for m in SLENDERNESS]


def curve_at(base, spring, beta, slenderness):
    """Base value at a point of the grid."""
    i = min(range(len(SLENDERNESS)), key=lambda k: abs(SLENDERNESS[k] - slenderness))
    j = min(range(len(BETAS)), key=lambda k: abs(BETAS[k] - beta))
    return base[spring][i][j]


def factor_curves(rows, base, use, changed):
    """For each spring the factor at FACTOR_BETAS; where a small brace cannot be, that of the next."""
    curves = {}
    for spring in SPRINGS:
        curve = []
        for beta in FACTOR_BETAS:
            found = [row for row in rows if row["use"] == use and changed(row)
                     and near(row["b1"] / row["b0"], beta)]
            if found:
                row = found[0]
                curve.append(stiffness(row, spring)
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
    return [stiffness(find(rows, use="corner", b0=m, h0=aspect * m, **chosen), spring)
            for m in SLENDERNESS]


def corner(rows, chosen):
    parts = []
    for spring in ("out_of_plane", "in_plane", "torsion"):
        parts.append(grid([corner_rows(rows, spring, a, chosen) for a in (0.5, 1.0, 2.0)]))
    return "{" + ",\n      ".join(parts) + "}"


def pair(rows, base, end):
    """Flexibility of two braces turned against each other and together, over that of one alone on a
    through chord."""
    against, together = [], []
    for beta in FACTOR_BETAS:
        row = find(rows, use="pair", end=end, b1=beta * 16.667, b0=16.667)
        alone = 1 / curve_at(base, "out_of_plane", beta, row["b0"])
        against.append((row["out_of_plane"] - row["other"]) / alone)
        together.append(max(0, row["out_of_plane"] + row["other"]) / alone)
    return "{" + numbers(against) + ",\n      " + numbers(together) + "}"


def table(rows):
    base = {spring: base_curves(rows, spring) for spring in SPRINGS}

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
