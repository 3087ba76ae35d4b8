"""Stiffness of welded joints over their proportions, from solids: writes joint_stiffness.csv.

usage: joint_sweep.py JOINT_STUDY [CSV]

JOINT_STUDY is the built program (build/release/tests/joint_models/joint_study). Joints that stand
in the file are not run again, so a sweep can be stopped, widened and taken up; delete the file
for a new one. Needs gmsh. About half an hour of one processor.

All lengths are in walls of the chord (t0 = 1). Each row is a joint; its flexibilities are signed
and without unit: E t0^3 / k for moments, E t0 / k along the brace's axis; a negative one is stiffer
than beams that meet rigidly. `use`: base, wall, chord, brace, end, angle, corner, pair are read by
make_table.py, `check` is kept back to say how good the table is, `reference` are named joints.
"""

import csv
import pathlib
import subprocess
import sys

from joint_geometry import Joint
from joint_run import run_joint

BETAS = (0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
SLENDERNESS = (10, 13.333, 16.667, 20, 30)  # b0 / t0
FACTOR_BETAS = (0.3, 0.5, 0.7, 0.8, 0.9, 1.0)
MIDDLE = 16.667
LEAST_BRACE = 5  # sides of a brace in walls of its own: the round corners must fit

HERE = pathlib.Path(__file__).resolve().parent
KEYS = ("kind", "end", "angle", "b0", "h0", "t0", "b1", "h1", "t1")
FLEXIBILITIES = ("out_of_plane", "in_plane", "axial", "torsion", "other")
COLUMNS = ("use", *KEYS, *FLEXIBILITIES, "nodes", "mended")


def tee(beta, slenderness, chord=1.0, brace=1.0, wall=1.0, **more):
    """A joint in walls of the chord; a wall too thick for a small brace is made thinner."""
    b1 = round(beta * slenderness, 4)
    h1 = round(brace * b1, 4)
    t1 = round(min(wall, min(b1, h1) / LEAST_BRACE), 4)
    # A section sheared out of square dies away the more slowly the thinner its walls are.
    length = max(4, 0.24 * slenderness / max(1, chord))
    return Joint(b0=slenderness, h0=round(chord * slenderness, 4), t0=1, b1=b1, h1=h1, t1=t1,
                 chord_length=length, **more)


def fitting(beta, least):
    """The slenderness at which a brace at least `least` walls wide has this beta."""
    return MIDDLE if beta * MIDDLE >= least else 30


def factors(**change):
    """The middle of the base grid with one thing changed."""
    least = LEAST_BRACE * max(1, change.get("wall", 1)) / min(1, change.get("brace", 1))
    for beta in FACTOR_BETAS:
        if beta * 30 >= least:
            yield tee(beta, fitting(beta, least), **change)


def joints():
    for slenderness in SLENDERNESS:
        for beta in BETAS:
            yield "base", tee(beta, slenderness)
    for wall in (0.667, 1.5):
        yield from (("wall", j) for j in factors(wall=wall))
    for aspect in (0.5, 2.0):
        yield from (("chord", j) for j in factors(chord=aspect))
        yield from (("brace", j) for j in factors(brace=aspect))
    for end in ("open", "capped"):
        yield from (("end", j) for j in factors(end=end))
    for angle in (60, 45):
        yield from (("angle", j) for j in factors(angle=angle))
    for slenderness in SLENDERNESS:
        for aspect in (0.5, 1.0, 2.0):
            yield "corner", tee(1, slenderness, chord=aspect, brace=aspect, kind="mitre")
            for end in ("open", "capped"):
                yield "corner", tee(1, slenderness, chord=aspect, brace=aspect, end=end)
    for end in ("through", "open"):
        for beta in FACTOR_BETAS:
            yield "pair", tee(beta, MIDDLE, kind="pair", end=end)


def checks():
    """Several things changed at once, between the points of the grid."""
    yield tee(0.55, 25)
    yield tee(0.75, 12)
    yield tee(0.95, 15)
    yield tee(0.65, 15, chord=2.0, wall=0.75)
    yield tee(0.65, 15, chord=0.5, wall=1.0)
    yield tee(0.85, 24, chord=2.0, brace=0.7, wall=0.667)
    yield tee(0.5, 26.667, chord=0.5)
    yield tee(1.0, 13.333, chord=2.0)
    yield tee(1.0, 20, brace=2.0)
    yield tee(0.5, 20, brace=1.5, wall=1.25)
    yield tee(0.75, 13.333, brace=2.0, chord=2.0)
    yield tee(0.667, 20, wall=0.75)
    yield tee(0.75, 20, end="open")
    yield tee(0.5, 26.667, chord=0.5, end="open")
    yield tee(0.8, 13.333, chord=2.0, end="open", wall=0.667)
    yield tee(0.6, 20, end="capped")
    yield tee(0.8, 25, end="capped", brace=1.5)
    yield tee(0.6, 20, angle=60)
    yield tee(0.8, 13.333, angle=50)
    yield tee(0.7, 20, angle=45, wall=0.75)
    yield tee(0.7, MIDDLE, angle=60, end="open")
    yield tee(0.7, MIDDLE, angle=120, end="open")
    yield tee(0.9, MIDDLE, angle=120, end="open")
    yield tee(0.7, MIDDLE, angle=45, end="open")
    yield tee(0.7, MIDDLE, angle=60, end="capped")
    yield tee(0.6, 12, kind="pair")
    yield tee(0.75, 25, kind="pair")
    yield tee(1.0, 13.333, kind="pair", end="open")


def reference():
    """The joints of named tubes, mm."""
    for b0, h0, t0, b1, t1 in (
            (20, 20, 1.5, 20, 1.5), (25, 25, 1.5, 25, 1.5), (25, 25, 2, 25, 2),
            (30, 30, 2, 25, 2), (25, 25, 1.5, 20, 1.5), (20, 20, 1.5, 15, 1.5),
            (30, 30, 2, 20, 1.5), (30, 30, 1.5, 20, 1.5), (25, 25, 1.5, 15, 1.5),
            (30, 30, 2, 15, 1.5), (40, 20, 1.5, 20, 1.5), (20, 40, 1.5, 20, 1.5)):
        yield Joint(b0=b0, h0=h0, t0=t0, b1=b1, h1=b1, t1=t1)
    for end in ("open", "capped"):
        yield Joint(b0=40, h0=20, end=end)
        yield Joint(end=end)
    yield Joint(kind="mitre")
    yield Joint(kind="pair")
    yield Joint(kind="pair", end="open")
    yield Joint(b0=30, h0=30, t0=2, weld=0)


def key_of(row):
    return tuple(str(row[key]) for key in ("use", *KEYS))


def all_joints():
    yield from (("reference", j) for j in reference() if j.weld)
    yield from joints()
    yield from (("check", j) for j in checks())


def main():
    program = sys.argv[1]
    path = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else HERE / "joint_stiffness.csv"
    done = set()
    if path.exists():
        with path.open(encoding="utf-8") as file:
            done = {key_of(row) for row in csv.DictReader(file)}
    else:
        path.write_text(",".join(COLUMNS) + "\n", encoding="utf-8")
    for use, joint in all_joints():
        row = {"use": use, **{key: getattr(joint, key) for key in KEYS}}
        if key_of(row) in done:
            continue
        done.add(key_of(row))
        try:
            result = run_joint(program, joint)
        except (RuntimeError, OSError, subprocess.TimeoutExpired) as fault:
            print(f"no answer: {row}: {fault}", file=sys.stderr)
            continue
        row.update({key: f"{result[key]:.5g}" for key in FLEXIBILITIES},
                   nodes=result["nodes"], mended=result["mended"])
        with path.open("a", encoding="utf-8", newline="") as file:
            csv.DictWriter(file, COLUMNS, lineterminator="\n").writerow(row)
        print(row, f"{result['mesh_time']:.1f} + {result['solve_time']:.1f} s", flush=True)


if __name__ == "__main__":
    main()
