"""Torsional stiffness of whole ladders of solids.

usage: ladder_run.py LADDER_STUDY

Prints each ladder with its stiffness, N m/deg: opposite couples of vertical forces on the rails
where the last cross tubes stand. Needs gmsh; some minutes of one processor and 3 GB. Read by
tests/cases/joint_stiffness/joint_springs_test.cpp. Where gmsh leaves an element inside out there
is no answer: change `far` a little, or leave out the welds, which add 0.2 %.
"""

import pathlib
import subprocess
import sys
import tempfile

from ladder_geometry import Ladder, geo_text

LADDERS = (
    ("20x20x1.5, 3 bays 500x500", Ladder(20, 20, 20, (250, 750), 500)),
    ("rails 25x25x1.5, crosses 20x20x1.5, 4 bays 400x500",
     Ladder(25, 25, 20, (0, 400, 800), 500)),
    ("rails 40x20x1.5 flat, crosses 20x20x1.5, 4 bays 350x600",
     Ladder(40, 20, 20, (0, 350, 700), 600, weld=False)),
    ("the same, capped", Ladder(40, 20, 20, (0, 350, 700), 600, capped=True, far=3)),
    ("rails 20x40x1.5 on edge, crosses 20x20x1.5, 4 bays 350x600",
     Ladder(20, 40, 20, (0, 350, 700), 600, weld=False, far=3)),
    ("the same, capped", Ladder(20, 40, 20, (0, 350, 700), 600, capped=True, far=3)),
)


def stiffness(program, ladder):
    with tempfile.TemporaryDirectory() as folder:
        geo, mesh = pathlib.Path(folder, "ladder.geo"), pathlib.Path(folder, "ladder.msh")
        geo.write_text(geo_text(ladder), encoding="utf-8")
        made = subprocess.run(["gmsh", "-3", "-v", "2", str(geo), "-o", str(mesh)],
                              capture_output=True, text=True, check=False)
        if made.returncode != 0 or not mesh.exists():
            raise RuntimeError(made.stdout + made.stderr)
        done = subprocess.run([program, str(mesh), str(ladder.places[-1]), str(ladder.across),
                               str(ladder.width)], capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise RuntimeError(done.stderr)
        return done.stdout.strip()


def main():
    for name, ladder in LADDERS:
        try:
            print(name, stiffness(sys.argv[1], ladder), flush=True)
        except RuntimeError as fault:
            print(name, "no answer:", fault, flush=True)


if __name__ == "__main__":
    main()
