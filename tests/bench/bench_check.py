#!/usr/bin/env python3
"""Whole-process time of `tubewright check` on generated frames.

    tests/bench/bench_check.py build/release/tubewright [runs, default 5]

For frames of about 50, 200, 1 000 and 10 000 members: seconds (minimum and median of the runs) for
the summary and for --json, reading the file to the last byte of output included. The first row,
--version, is what starting and ending the process costs by itself. Then, for a vehicle of about 120
members with a floor of sheet and 13 cases and for the cargo quad of the examples, with springs and
18 cases: the verdict (check -q), the full answer (check), the buckling factors (buckle), what each
tube is worth (rank), what must hold (break) and a minute of gravel (ride), these once.
"""
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "cases"


def frame(bays):
    """A square-tube girder of braced bays along x on feet every 3 m; 13 members a bay."""
    lines = ["frame: bench",
             "sections: {t: {shape: square_tube, side: 25, wall: 2, material: S235}}", "nodes:"]
    corners = [(0, 0), (400, 0), (400, 300), (0, 300)]
    for i in range(bays + 1):
        for k, (y, z) in enumerate(corners):
            lines.append(f"  n{i}_{k}: [{i * 500}, {y}, {z}]")
    lines.append("members:")
    count = 0
    for i in range(bays + 1):
        pairs = [(f"n{i}_{k}", f"n{i}_{(k + 1) % 4}") for k in range(4)]
        if i > 0:
            pairs += [(f"n{i - 1}_{k}", f"n{i}_{k}") for k in range(4)]
            pairs += [(f"n{i - 1}_{k}", f"n{i}_{(k + 1) % 4}") for k in range(4)]
        pairs.append((f"n{i}_0", f"n{i}_2"))
        for a, b in pairs:
            lines.append(f"  m{count}: {{from: {a}, to: {b}, section: t}}")
            count += 1
    feet = [f"n{i}_{k}: pinned" for i in [*range(0, bays, 6), bays] for k in (0, 1)]
    lines.append("supports: {" + ", ".join(feet) + "}")
    lines.append("cases: {weight: {kind: static, gravity: [0, 0, -1]}, "
                 f"side: {{kind: static, forces: {{n{bays}_2: [0, 10, 0]}}}}}}")
    return "\n".join(lines) + "\n", count


def vehicle(bays):
    """A braced box on four wheels with a riveted floor, 12 members a bay and 5 more; 13 cases."""
    lines = ["frame: bench vehicle", "sections:",
             "  rail: {shape: square_tube, side: 25, wall: 2, material: S235}",
             "  brace: {shape: square_tube, side: 20, wall: 1.5, material: S235}", "nodes:"]
    length = 250 * bays
    for i in range(bays + 1):
        for side, y in (("l", 250), ("r", -250)):
            lines.append(f"  low{i}_{side}: [{-250 * i}, {y}, 250]")
            lines.append(f"  high{i}_{side}: [{-250 * i}, {y}, 500]")
    pairs = []
    for i in range(bays + 1):
        pairs += [(f"low{i}_{s}", f"high{i}_{s}", "brace") for s in "lr"]
        pairs += [(f"{h}{i}_l", f"{h}{i}_r", "rail") for h in ("low", "high")]
        pairs.append((f"low{i}_l", f"high{i}_r", "brace"))
        if i == 0:
            continue
        pairs += [(f"{h}{i - 1}_{s}", f"{h}{i}_{s}", "rail") for h in ("low", "high") for s in "lr"]
        pairs += [(f"low{i - 1}_{s}", f"high{i}_{s}", "brace") for s in "lr"]
        pairs.append((f"high{i - 1}_l", f"high{i}_r", "brace"))
    lines.append("members:")
    lines += [f"  m{k}: {{from: {a}, to: {b}, section: {s}}}" for k, (a, b, s) in enumerate(pairs)]
    lines += ["sheets:",
              "  floor: {material: EN AW-5754-H22, thickness: 1.0, offset: 13, joint: "
              "{rivet: {diameter: 4.0, pitch: 40}}}", "panels:"]
    for i in range(bays):
        lines.append(f"  floor{i}: {{corners: [low{i}_l, low{i}_r, low{i + 1}_r, low{i + 1}_l], "
                     "sheet: floor}")
    on = [f"high{i}_{s}" for i in (bays // 2, bays // 2 + 1) for s in "lr"]
    lines.append(f"masses: {{load: {{mass: 90, at: [{-length / 2}, 0, 620], on: "
                 f"[{', '.join(on)}]}}}}")
    lines.append("vehicle:\n  tyre_rate: 60\n  roll_stiffness_front_share: 0.5\n  wheels:")
    wheels = {f"{axle}_{side}": (i, x, y, axle, s)
              for axle, i, x in (("front", 0, 0), ("rear", bays, -length))
              for side, s, y in (("left", "l", 360), ("right", "r", -360))}
    for name, (i, x, y, axle, s) in wheels.items():
        lines.append(f"    {name}: {{contact: [{x}, {y}, 0], centre: [{x}, {y}, 200], carrier: "
                     f"[low{i}_{s}, high{i}_{s}], hold: spread, brake: outboard, axle: {axle}, "
                     "radius: 200}")
    cases = ["", "brake: 0.3", "corner: 0.3", "corner: -0.3", "brake: 0.2, corner: 0.2",
             "brake: 0.2, corner: -0.2"]
    cases += [f"bump: {{{w}: 3.0}}" for w in wheels]
    cases += [f"bump: {{{a}_left: 2.5, {a}_right: 2.5}}" for a in ("front", "rear")]
    cases.append("bump: {front_left: 2.0, rear_right: 2.0}")
    lines.append("cases:")
    lines += [f"  c{k}: {{kind: vehicle{', ' + c if c else ''}}}" for k, c in enumerate(cases)]
    lines.append("rides: {gravel: {road: C, speed: 20, duration: 60}}")
    return "\n".join(lines) + "\n", len(pairs)


def report(members, output, command, runs):
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        done = subprocess.run(command, capture_output=True)
        times.append(time.perf_counter() - start)
        if done.returncode not in (0, 1):
            sys.exit(done.stderr.decode())
    print(f"{members:8d} {output:>9} {min(times):8.3f} {statistics.median(times):9.3f}", flush=True)


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    program = sys.argv[1]
    runs = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    print(f"{'members':>8} {'output':>9} {'min s':>8} {'median s':>9}")
    report(0, "--version", [program, "--version"], runs)
    with tempfile.TemporaryDirectory() as folder:
        for wanted in (50, 200, 1000, 10000):
            text, members = frame(max(1, (wanted - 5) // 13))
            path = Path(folder) / f"frame_{members}.yaml"
            path.write_text(text)
            report(members, "summary", [program, "check", str(path)], runs)
            report(members, "--json", [program, "check", str(path), "--json"], runs)
        text, members = vehicle(9)
        path = Path(folder) / "vehicle.yaml"
        path.write_text(text)
        for file, count in ((path, members), (EXAMPLES / "03_cargo_quad.yaml", 100)):
            print(file.name)
            report(count, "check -q", [program, "check", "-q", str(file)], runs)
            report(count, "check", [program, "check", str(file)], runs)
            report(count, "buckle", [program, "buckle", str(file)], runs)
            for study in ("rank", "break", "ride"):
                report(count, study, [program, study, str(file), "-q"], 1)


if __name__ == "__main__":
    main()
