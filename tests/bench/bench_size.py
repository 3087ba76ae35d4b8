#!/usr/bin/env python3
"""How long `tubewright size` takes to prove the lightest sizes, or how far it gets.

    tests/bench/bench_size.py build/release/tubewright [seconds a frame, default 60]

Trusses that the literature sizes from lists of areas (10 bars x 42, 25 bars in 8 groups x 30, 52
bars in 12 groups x 64), with the least weights that an independent program proved; a box of two
bays in 4 groups x 12 sizes; the bench vehicle of bench_check.py, loaded more, in 8 groups x 20
sizes with all checks of 13 cases, with and without a limit on its torsional stiffness; the cargo
quad of the examples in the 7 groups of its file x 18 sizes likewise. A row each: seconds, proved or
not, the answer in kg, the bound, the gap, rounds.
"""
import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench_check import EXAMPLES, vehicle

SQUARES = [(15, 1.5), (20, 1.5), (20, 2), (25, 1.5), (25, 2), (25, 2.5), (30, 1.5), (30, 2),
           (30, 2.5), (30, 3), (35, 1.5), (35, 2), (35, 3), (40, 1.5), (40, 2), (40, 3), (45, 2),
           (50, 2), (50, 3), (60, 3)]
INCHES2 = [.111, .141, .196, .25, .307, .391, .442, .563, .602, .766, .785, .994, 1, 1.228, 1.266,
           1.457, 1.563, 1.62, 1.8, 1.99, 2.13, 2.38, 2.62, 2.63, 2.88, 2.93, 3.09, 3.13, 3.38,
           3.47, 3.55, 3.63, 3.84, 3.87, 3.88, 4.18, 4.22, 4.49, 4.59, 4.8, 4.97, 5.12, 5.74,
           7.22, 7.97, 8.53, 9.3, 10.85, 11.5, 13.5, 13.9, 14.2, 15.5, 16, 16.9, 18.8, 19.9, 22,
           22.9, 24.5, 26.5, 28, 30, 33.5]


def squares(sizes):
    return ["stock:", "  sizes:"] + [f"    - {{shape: square_tube, side: {s}, wall: {w}}}"
                                     for s, w in sizes]


def truss(nodes, held, plane, groups, areas, forces, metal, limits):
    """Bars of one list of areas, in units of the source: a millimetre stands for its length."""
    E, density, strength = metal
    one = "Iy: 1e9, Iz: 1e9, It: 1e9, Wy: 1e9, Wz: 1e9, Wt: 1e9, material: metal"
    lines = ["frame: listed bars", "materials:",
             f"  metal: {{E: {E}, nu: 0.3, density: {density}, yield: {strength}, "
             f"ultimate: {2 * strength}}}",
             "sections:", f"  s: {{shape: properties, A: {areas[0]}, {one}}}", "nodes:"]
    lines += [f"  n{n}: [{x}, {y}, {z}]" for n, (x, y, z) in nodes.items()]
    lines.append("members:")
    for bars in groups.values():
        lines += [f"  b{a}_{b}: {{kind: link, from: n{a}, to: n{b}, section: s}}" for a, b in bars]
    lines.append("supports:")
    lines += [f"  n{n}: {'pinned' if n in held else '[z]'}" for n in nodes if plane or n in held]
    acting = ", ".join(f"n{n}: [{x}, {y}, {z}]" for n, (x, y, z) in forces.items())
    lines += ["cases:", f"  load: {{kind: static, forces: {{{acting}}}}}",
              "limits:", "  yield_factor: 1"]
    if limits:
        lines += ["  displacement:", "    load:"]
        lines += [f"      n{n}: {{{', '.join(f'{d}: {most}' for d in way)}}}"
                  for n, (way, most) in limits.items()]
    lines.append("groups:")
    lines += [f"  {name}: [{', '.join(f'b{a}_{b}' for a, b in bars)}]"
              for name, bars in groups.items()]
    lines += ["stock:", "  sizes:"] + [f"    - {{shape: properties, A: {a}}}" for a in areas]
    return "\n".join(lines) + "\n"


def ten_bars():
    nodes = {1: (720, 360, 0), 2: (720, 0, 0), 3: (360, 360, 0), 4: (360, 0, 0), 5: (0, 360, 0),
             6: (0, 0, 0)}
    bars = [(5, 3), (3, 1), (6, 4), (4, 2), (3, 4), (1, 2), (5, 4), (6, 3), (3, 2), (4, 1)]
    areas = [a for a in INCHES2 if a >= 1.62 and a not in (8.53, 9.3, 10.85, 24.5, 28)]
    return truss(nodes, {5, 6}, True, {f"g{i}": [b] for i, b in enumerate(bars)}, areas,
                 {2: (0, -1e5, 0), 4: (0, -1e5, 0)}, (1e7, 1e4, 25000),
                 {n: ("xy", 2) for n in (1, 2, 3, 4)})


def twenty_five_bars():
    nodes = {1: (-37.5, 0, 200), 2: (37.5, 0, 200), 3: (-37.5, 37.5, 100), 4: (37.5, 37.5, 100),
             5: (37.5, -37.5, 100), 6: (-37.5, -37.5, 100), 7: (-100, 100, 0), 8: (100, 100, 0),
             9: (100, -100, 0), 10: (-100, -100, 0)}
    groups = {"g1": [(1, 2)], "g2": [(1, 4), (2, 3), (1, 5), (2, 6)],
              "g3": [(2, 5), (2, 4), (1, 3), (1, 6)], "g4": [(3, 6), (4, 5)],
              "g5": [(3, 4), (5, 6)], "g6": [(3, 10), (6, 7), (4, 9), (5, 8)],
              "g7": [(3, 8), (4, 7), (6, 9), (5, 10)], "g8": [(3, 7), (4, 8), (5, 9), (6, 10)]}
    areas = [round(0.1 * i, 1) for i in range(1, 27)] + [2.8, 3.0, 3.2, 3.4]
    forces = {1: (1000, -10000, -10000), 2: (0, -10000, -10000), 3: (500, 0, 0), 6: (600, 0, 0)}
    return truss(nodes, {7, 8, 9, 10}, False, groups, areas, forces, (1e7, 1e4, 40000),
                 {n: ("xyz", 0.35) for n in (1, 2)})


def fifty_two_bars():
    nodes = {4 * r + c + 1: (2000 * c, 3000 * r, 0) for r in range(5) for c in range(4)}
    groups = {}
    for k in range(4):
        low, high = 4 * k, 4 * k + 4
        groups[f"v{k}"] = [(low + c, high + c) for c in (1, 2, 3, 4)]
        groups[f"d{k}"] = [bar for c in (1, 2, 3)
                           for bar in ((low + c, high + c + 1), (low + c + 1, high + c))]
        groups[f"h{k}"] = [(high + c, high + c + 1) for c in (1, 2, 3)]
    areas = [940.0 if a == 1.457 else round(a * 645.16, 3) for a in INCHES2]  # 940 as printed
    return truss(nodes, {1, 2, 3, 4}, True, groups, areas,
                 {n: (100000, 200000, 0) for n in (17, 18, 19, 20)}, (207000, 7860, 180), {})


def box():
    """Two bays of 600 mm, 400 x 300, pinned at one end; limits on twist and two displacements."""
    corners = {"lb": (200, 0), "rb": (-200, 0), "rt": (-200, 300), "lt": (200, 300)}
    ring = [("lb", "rb"), ("rb", "rt"), ("rt", "lt"), ("lt", "lb")]
    sizes = [(20, 1.5), (20, 2), (25, 1.5), (25, 2), (30, 1.5), (30, 2), (35, 2), (40, 1.5),
             (40, 2), (40, 3), (50, 2), (50, 3)]
    lines = ["frame: box of two bays", "joints: rigid",
             "sections: {s: {shape: square_tube, side: 25, wall: 2, material: S235}}", "nodes:"]
    lines += [f"  {c}{i}: [{600 * i}, {y}, {z}]" for i in range(3) for c, (y, z) in corners.items()]
    groups = {"bay_0": [(f"{c}0", f"{c}1") for c in corners],
              "bay_1": [(f"{c}1", f"{c}2") for c in corners],
              "rings": [(f"{a}{i}", f"{b}{i}") for i in (1, 2) for a, b in ring],
              "ring_0": [(f"{a}0", f"{b}0") for a, b in ring]}
    lines.append("members:")
    lines += [f"  {a}_{b}: {{from: {a}, to: {b}, section: s}}"
              for pairs in groups.values() for a, b in pairs]
    lines.append("supports: {" + ", ".join(f"{c}0: pinned" for c in corners) + "}")
    down = ", ".join(f"{c}2: [0, 0, -25]" for c in corners)
    lines += ["cases:", "  twist: {kind: static, forces: {lb2: [0, 0, 100], rb2: [0, 0, -100]}}",
              f"  bend: {{kind: static, forces: {{{down}}}}}", "limits:", "  displacement:",
              "    twist: {lb2: {z: 0.139626340}, lt1: {y: 0.15}}", "    bend: {lb1: {z: 0.07}}",
              "groups:"]
    lines += [f"  {name}: [{', '.join(f'{a}_{b}' for a, b in pairs)}]"
              for name, pairs in groups.items()]
    return "\n".join(lines + squares(sizes)) + "\n"


def sized_vehicle(bays, stiffness):
    """The bench vehicle with more on it, in eight groups of twenty sizes."""
    text = vehicle(bays)[0].replace("mass: 90", "mass: 300")
    groups = {name: [] for name in ("low", "high", "posts", "cross_low", "cross_high", "diagonals",
                                    "sides", "top")}
    count = 0

    def take(name):
        nonlocal count
        groups[name].append(f"m{count}")
        count += 1

    for i in range(bays + 1):  # in the order of vehicle()
        for name in ("posts", "posts", "cross_low", "cross_high", "diagonals"):
            take(name)
        if i > 0:
            for name in ("low", "low", "high", "high", "sides", "sides", "top"):
                take(name)
    lines = [f"torsion: {{front: [low0_l, low0_r], rear: [low{bays}_l, low{bays}_r], couple: 100}}",
             "groups:"]
    lines += [f"  {name}: [{', '.join(members)}]" for name, members in groups.items()]
    if stiffness:
        lines.append(f"limits: {{torsional_stiffness: {stiffness}}}")
    return text + "\n".join(lines + squares(SQUARES)) + "\n"


def sized_quad(stiffness):
    """In the groups of its file."""
    text = (EXAMPLES / "03_cargo_quad.yaml").read_text()
    return text + (f"limits: {{torsional_stiffness: {stiffness}}}\n" if stiffness else "")


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    program = sys.argv[1]
    seconds = sys.argv[2] if len(sys.argv) > 2 else "60"
    print(f"{'frame':28} {'s':>7} {'proved':>7} {'kg':>14} {'bound':>14} {'gap %':>6} "
          f"{'rounds':>7}")
    frames = {"10 bars, 42 areas": ten_bars(), "25 bars, 30 areas": twenty_five_bars(),
              "52 bars, 64 areas": fifty_two_bars(), "box, 12 sizes": box(),
              "bench vehicle": sized_vehicle(9, 0), "bench vehicle, twist": sized_vehicle(9, 4500),
              "cargo quad": sized_quad(0), "cargo quad, twist": sized_quad(2000)}
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "frame.yaml"
        for name, text in frames.items():
            path.write_text(text)
            start = time.perf_counter()
            done = subprocess.run([program, "size", str(path), "--json", "--seconds", seconds],
                                  capture_output=True, text=True)
            taken = time.perf_counter() - start
            if done.returncode not in (0, 1):
                sys.exit(done.stderr)
            answer = json.loads(done.stdout)["size"]
            gap = "-" if answer["gap"] is None else f"{100 * answer['gap']:.2f}"
            mass = "-" if answer["mass"] is None else f"{answer['mass']:.9g}"
            print(f"{name:28} {taken:7.2f} {str(answer['proved']):>7} {mass:>14} "
                  f"{answer['bound']:14.9g} {gap:>6} {answer['rounds']:7d}", flush=True)


if __name__ == "__main__":
    main()
