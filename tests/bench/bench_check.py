#!/usr/bin/env python3
"""Whole-process time of `tubewright check` on generated frames.

    tests/bench/bench_check.py build/release/tubewright [runs, default 5]

For frames of about 50, 200, 1 000 and 10 000 members: seconds (minimum and median of the runs) for
the summary and for --json, reading the file to the last byte of output included. The first row,
--version, is what starting and ending the process costs by itself.
"""
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path


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


if __name__ == "__main__":
    main()
