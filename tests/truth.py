"""Makes tests/TRUTH.md, or holds it against what the tests compare now.

usage: truth.py [--write] TEST_PROGRAM...

Runs the tests tagged [truth], which hand over a row for every number they compare with something
outside the project (tests/truth.h). Without --write it fails where TRUTH.md lacks a row, has one
too many, or shows another number: half a unit of the last digit shown is allowed for rounding.
"""

import collections
import difflib
import math
import os
import pathlib
import re
import subprocess
import sys
import tempfile

TESTS = pathlib.Path(__file__).resolve().parent
PAGE = TESTS / "TRUTH.md"
MUCH = 0.03  # of a difference: what a reader should not have to look for

Row = collections.namedtuple(
    "Row", "test what known source theirs ours relative absolute most_times")

KNOWN = {
    "seen": "the number or its formula was read in the source, or in a public page that quotes it",
    "remembered": "recalled from the source named, whose page was not at hand: no difference then "
                  "says only that the program computes what was remembered; check it there before "
                  "you rely on it",
    "derived": "worked out for this project apart from the program: by hand, from a closed form, "
               "by a script or by finite elements of another kind",
    "practice": "common practice of the trade or a judgement, no source",
}

ROOMS = {
    "solver/model": "Sections",
    "solver/linear_algebra": "Equations and eigenvalues",
    "solver/elements": "Elements: beams, sheets, joints of sheets",
    "solver/statics": "Frames under load",
    "solver/stability": "Buckling, vibration, large displacements",
    "solver/road": "Roads and the paths of wheels",
    "solver/dynamics": "Rides and counted cycles",
    "cases/frame": "Materials",
    "cases/attachments": "Attachments on a tube's face",
    "joint_models": "Solids for joints",
    "cases/joint_stiffness": "Stiffness of welded joints",
    "cases/bends": "Bent tubes",
    "cases/model": "From a frame to numbers",
    "cases/vehicle": "Vehicle loads",
    "cases/checks": "Checks of members and welds",
    "cases/joints": "Checks of joints and rivets",
    "cases/attachment_checks": "Checks of attachments",
    "cases/lint": "Rules that warn",
    "cases/analysis": "Whole frames",
    "cases/sheets": "Sheets cut",
    "cases/pieces": "Pieces of tube",
    "cases/nesting": "Nesting",
    "cases/workshop": "Workshop",
    "cases/studies": "Studies",
    "cases/verdict": "Fatigue and verdict",
    "cases/changes": "Frames changed in one place",
    "cases/sizing": "Sizes from a list",
    "cases/validate": "What a file may say",
    "io/yaml": "Units",
    "io/workshop": "Papers for the workshop",
}


def fail(text):
    sys.exit(f"truth.py: {text}")


def check_tags():
    """A row of a test without the tag would be lost."""
    for path in sorted(TESTS.glob("**/*_test.cpp")):
        text = path.read_text(encoding="utf-8")
        if "tests/truth.h" not in text:
            continue
        parts = re.split(r"^}\n", text, flags=re.MULTILINE)
        calls = {"truth"}  # and functions of the file that call it
        for part in parts:
            if "TEST_CASE(" not in part and re.search(r"\btruth\(", part):
                calls.update(re.findall(r"^\w[^\n]*?\b(\w+)\(", part, flags=re.MULTILINE))
        called = re.compile(r"\b(" + "|".join(sorted(calls)) + r")\(")
        for part in parts:
            head, _, body = part.partition("TEST_CASE(")[2].partition(") {\n")
            if called.search(body) and "[truth]" not in head:
                fail(f"{path}: this test compares numbers and is not tagged [truth]: {head}")


def read_rows(path):
    rows = []
    for line in path.read_text(encoding="utf-8").splitlines():
        file, what, known, source, *numbers = line.split("\t")
        test = file.replace("\\", "/").rpartition("/tests/")[2].removesuffix("_test.cpp")
        rows.append(Row(test, what, known, source, *map(float, numbers)))
    return rows


def compared_rows(programs):
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for number, program in enumerate(programs):
            out = pathlib.Path(folder) / str(number)
            run = subprocess.run([program, "[truth]", "--order", "decl"], text=True, check=False,
                                 capture_output=True, env={**os.environ, "TUBEWRIGHT_TRUTH": out})
            if run.returncode != 0:
                fail(f"{program} fails:\n{run.stdout[-4000:]}{run.stderr[-2000:]}")
            rows += read_rows(out)
    for row in rows:
        if row.known not in KNOWN or "|" in row.what + row.source:
            fail(f"no such kind of source, or a bar in a text: {row}")
    counts = collections.Counter((row.test, row.what, row.source) for row in rows)
    twice = [key for key, count in counts.items() if count > 1]
    if twice:
        fail(f"the same row twice: {twice[:5]}")
    return rows


def plain(text):
    """1e-05 as 1e-5."""
    return re.sub(r"e([-+])0*(\d)", lambda m: "e" + m[1].replace("+", "") + m[2], text)


def printed(value):
    """As printed in the source, if that has up to six digits; else four."""
    return plain(f"{value:.6g}" if float(f"{value:.6g}") == value else f"{value:.4g}")


def ours_beside(row):
    """Four significant digits, more where the source has more."""
    digits = len(re.sub(r"e.*|[-.]", "", printed(row.theirs)).lstrip("0"))
    return plain(f"{row.ours:.{min(6, max(4, digits))}g}")


def last_unit(text):
    """Of the last digit shown."""
    mantissa, _, power = text.partition("e")
    return 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2]))


def percent(share):
    if abs(share) < 0.5e-4:
        return "0.00 %"
    decimals = max(0, min(2, 1 - math.floor(math.log10(abs(share) * 100))))
    return f"{100 * share:+.{decimals}f} %"


def difference(row):
    if row.theirs == 0:
        return plain(f"{row.ours:+.2g}")
    return percent(row.ours / row.theirs - 1)


def allowed(row):
    if row.most_times:
        return f"1 to {row.most_times:.3g} times"
    if row.relative == row.absolute == 0:
        return "exact"
    return "± " + plain(f"{100 * row.relative:.3g} %" if row.relative else f"{row.absolute:.2g}")


def line_of(row, letter):
    return (f"| {row.what} | {printed(row.theirs)} | {ours_beside(row)} | {difference(row)} "
            f"| {allowed(row)} | {letter}, {row.known} |")


def cells(line):
    return [cell.strip() for cell in line.strip("|").split(" | ")]


def kept_line(row, letter, shown):
    """The line shown, if it differs from the row in nothing but rounding."""
    new = line_of(row, letter)
    now = cells(new)
    old = shown.get((row.test, now[0], now[-1]))
    if old is None:
        return new
    was = cells(old)
    if len(was) != len(now) or was[4:] != now[4:]:
        return new
    for text, value in ((was[1], row.theirs), (was[2], row.ours)):
        try:
            if abs(float(text) - value) > 0.6 * last_unit(text):
                return new
        except ValueError:
            return new
    return old


def shown_lines(page):
    """Lines of the page as it is, by test, name and source."""
    lines, test = {}, ""
    for line in page.splitlines():
        link = re.match(r"Sources of \[.*\]\((.*)_test\.cpp\):", line)
        if link:
            test = link[1]
        elif line.startswith("| ") and test:
            lines[test, cells(line)[0], cells(line)[-1]] = line
    return lines


def room_of(test):
    return test.rpartition("/")[0]


def title(test):
    words = test.rpartition("/")[2].replace("_", " ")
    return f"### {words[0].upper()}{words[1:]}"


def introduction(rows):
    counts = collections.Counter(row.known for row in rows)
    yield "# Numbers from outside"
    yield ""
    yield (f"The {len(rows)} numbers of this project that its tests compare with something outside "
           "it: tables of standards and handbooks, worked examples, benchmarks, closed forms, "
           "independent calculations. `tests/truth.py --write` made this page from the tests "
           "themselves, and the test `truth` fails when a row is missing, new or shows another "
           "number. Laws (equilibrium, symmetry, bounds) are tested too, but have no number to "
           "show; cut geometry worked by hand and what Python tests ask of the whole program are "
           "not listed.")
    yield ""
    yield "| source | rows | what that means |"
    yield "|---|---:|---|"
    for known, meaning in KNOWN.items():
        if counts[known]:
            yield f"| {known} | {counts[known]} | {meaning} |"
    yield ""
    yield ("*Theirs* is the number as printed there (or four digits of it), *ours* what the "
           "program computes now, *difference* ours against theirs, *allowed* what the test lets "
           "pass: an amount in the unit of the row, often half the last digit printed, or a share. "
           "Where theirs was computed by a cruder or finer method than ours, the allowance says "
           "so.")


def table_of(test, rows, shown):
    yield title(test)
    yield ""
    yield f"Sources of [the test]({test}_test.cpp):"
    yield ""
    letters = {}
    for row in rows:
        if row.source not in letters:
            letters[row.source] = chr(ord("A") + len(letters))
            yield f"* {letters[row.source]}, {row.known}: {row.source}"
    yield ""
    yield "| what | theirs | ours | difference | allowed | source |"
    yield "|---|---:|---:|---:|---:|---|"
    for row in rows:
        yield kept_line(row, letters[row.source], shown)


def contents(by_room):
    kinds = list(KNOWN)
    yield "| topic | rows | " + " | ".join(kinds) + " |"
    yield "|---|---:|" + "---:|" * len(kinds)
    for room, rows in by_room.items():
        counts = collections.Counter(row.known for row in rows)
        numbers = " | ".join(str(counts[kind] or "") for kind in kinds)
        yield f"| {ROOMS[room]} | {len(rows)} | {numbers} |"


def largest_differences(rows):
    far = [row for row in rows if row.theirs and abs(row.ours / row.theirs - 1) >= MUCH]
    if not far:
        return
    yield ""
    yield (f"Ours and theirs differ by {100 * MUCH:.0f} % and more here; the tests say why beside "
           "each:")
    yield ""
    yield "| what | difference | allowed | test |"
    yield "|---|---:|---:|---|"
    for row in far:
        yield (f"| {row.what} | {100 * (row.ours / row.theirs - 1):+.0f} % | {allowed(row)} "
               f"| [{row.test}]({row.test}_test.cpp) |")


def page_of(rows, shown):
    unnamed = {room_of(row.test) for row in rows} - ROOMS.keys()
    if unnamed:
        fail(f"name these rooms in ROOMS: {sorted(unnamed)}")
    by_room = {room: [row for row in rows if room_of(row.test) == room] for room in ROOMS}
    by_room = {room: found for room, found in by_room.items() if found}
    lines = [*introduction(rows), "", *contents(by_room), *largest_differences(rows)]
    for room, found in by_room.items():
        lines += ["", f"## {ROOMS[room]} (`{room}`)"]
        for test in sorted({row.test for row in found}):
            lines += ["", *table_of(test, [row for row in found if row.test == test], shown)]
    return "\n".join(lines) + "\n"


def main():
    arguments = sys.argv[1:]
    write = "--write" in arguments
    programs = [a for a in arguments if a != "--write"]
    if not programs:
        fail(__doc__)
    check_tags()
    rows = compared_rows(programs)
    page = PAGE.read_text(encoding="utf-8") if PAGE.is_file() else ""
    made = page_of(rows, {} if write else shown_lines(page))
    if write:
        PAGE.write_text(made, encoding="utf-8")
    elif made != page:
        sys.stdout.writelines(difflib.unified_diff(
            page.splitlines(True), made.splitlines(True), "TRUTH.md", "what the tests compare now",
            n=0))
        fail("TRUTH.md is not what the tests compare now. If the new numbers are right: "
             f"python3 tests/truth.py --write {' '.join(programs)}")
    print(f"{len(rows)} numbers compared")


main()
