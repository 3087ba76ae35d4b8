"""Hot spot stress factors of tees from solids: writes hot_spots.csv.

usage: hot_spot_sweep.py JOINT_STUDY [CSV]

Through chord, square brace at right angles, walls as given, a weld all round (that takes hold of
the chord's round corner too). A factor is the greatest stress normal to the toe, extrapolated from
0.3 to 1.2 of the wall, over the brace's nominal stress: on the chord's side and on the brace's side
of the weld, for a moment out of the plane, one in it, and a pull. Elements 0.6 of the wall at the
joint. Lengths of named tubes in mm, else in walls of the chord.
"""

import csv
import pathlib
import sys

from joint_geometry import Joint
from joint_run import LOADS, run_joint

HERE = pathlib.Path(__file__).resolve().parent
KEYS = ("b0", "h0", "t0", "b1", "t1")
COLUMNS = (*KEYS, *(f"{load}_{side}" for load in LOADS[:3] for side in ("chord", "brace")))


def joints():
    for b0, h0, t0, b1, t1 in (
            (20, 20, 1.5, 20, 1.5), (25, 25, 1.5, 20, 1.5), (20, 20, 1.5, 15, 1.5),
            (30, 30, 2, 20, 1.5), (40, 20, 1.5, 20, 1.5)):
        yield Joint(b0=b0, h0=h0, t0=t0, b1=b1, h1=b1, t1=t1, on_corner=1, near=0.6)
    side = 13.333
    for beta in (0.4, 0.6, 0.8, 1.0):
        b1 = round(beta * side, 4)
        yield Joint(b0=side, h0=side, t0=1, b1=b1, h1=b1, t1=1, on_corner=1, near=0.6)


def main():
    path = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else HERE / "hot_spots.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        out.writeheader()
        for joint in joints():
            result = run_joint(sys.argv[1], joint, with_stress=True)
            row = {key: getattr(joint, key) for key in KEYS}
            row.update({key: f"{result[key]:.3g}" for key in COLUMNS[len(KEYS):]})
            out.writerow(row)
            file.flush()
            print(row, flush=True)


if __name__ == "__main__":
    main()
