"""Meshes one joint with gmsh and runs joint_study on it."""

import math
import pathlib
import subprocess
import tempfile
import time

from joint_geometry import geo_text

E = 210000.0  # MPa, as joint_study has it
LOADS = ("out_of_plane", "in_plane", "axial", "torsion")
LONGEST = 300  # seconds for one step


def study_arguments(j):
    through = j.end == "through" and j.kind != "mitre"
    values = {"kind": j.kind, "b0": j.b0, "h0": j.h0, "t0": j.t0, "b1": j.b1, "h1": j.h1,
              "t1": j.t1, "angle": j.angle, "chord_start": j.chord_start, "chord_end": j.chord_end,
              "brace_end": j.brace_end, "through": int(through),
              "halved_x": int(j.halved_x), "halved_y": int(j.halved_y)}
    return [f"{key}={value!r}" if isinstance(value, float) else f"{key}={value}"
            for key, value in values.items()]


def run_joint(program, joint, with_stress=False):
    """Additional flexibility times E t0^3 (axial: E t0) of each load, and what it took.

    `with_stress`: hot spot factors too, for a through chord at right angles.
    """
    arguments = study_arguments(joint)
    if with_stress:
        arguments.append(f"leg={joint.weld * math.sqrt(2) * joint.t1!r}")
    with tempfile.TemporaryDirectory() as folder:
        geo, mesh = pathlib.Path(folder, "joint.geo"), pathlib.Path(folder, "joint.msh")
        geo.write_text(geo_text(joint), encoding="utf-8")
        begin = time.time()
        made = subprocess.run(["gmsh", "-3", "-v", "2", str(geo), "-o", str(mesh)],
                              capture_output=True, text=True, timeout=LONGEST, check=False)
        if made.returncode != 0 or "Error" in made.stdout + made.stderr:
            raise RuntimeError(f"gmsh: {made.stdout}{made.stderr}")
        meshed = time.time()
        done = subprocess.run([program, str(mesh), *arguments],
                              capture_output=True, text=True, timeout=LONGEST, check=False)
        if done.returncode != 0:
            raise RuntimeError(done.stderr)
        solved = time.time()
    n = [float(word) for word in done.stdout.split()]
    result = {}
    if with_stress:
        for load in LOADS[:3]:
            result[load + "_chord"], result[load + "_brace"] = n[:2]
            n = n[2:]
    for i, load in enumerate(LOADS):
        solid, beams = n[2 * i], n[2 * i + 1]
        unit = E * joint.t0 ** (1 if load == "axial" else 3)
        result[load] = (solid - beams) * unit
        result[load + "_share"] = (solid - beams) / solid if solid else math.nan
    result["axial"] = n[8] * E * joint.t0
    result["other"] = (n[9] - n[10]) * E * joint.t0 ** 3
    result.update(area=n[11], inertia=n[12], nodes=int(n[13]), mended=int(n[14]),
                  mesh_time=meshed - begin, solve_time=solved - meshed)
    return result
