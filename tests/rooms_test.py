"""Holds the tree against the plan of its rooms: who includes whom, how full a folder is, what is
tested, where messages get their words.

usage: rooms_test.py SOURCE_DIR ROOMS_FILE

ROOMS_FILE is written by CMake, a line a room: "FOLDER: FOLDER;FOLDER", the room and those it uses.
"""

import re
import sys
from pathlib import Path

MOST_FILES = 28

# Sources without a test file of their own name, and what holds them instead.
TESTED_OTHERWISE = {
    "io/command/command_check.cpp": "tests/program/check_test.py, files_test.py, report_test.py",
    "io/command/command_compare.cpp": "tests/program/compare_test.py",
    "io/command/command_completion.cpp": "tests/program/completion_test.py",
    "io/command/command_schema.cpp": "tests/program/usage_test.py",
    "io/command/command_size.cpp": "tests/program/size_test.py",
    "io/command/command_start.cpp": "tests/program/start_test.py",
    "io/command/command_study.cpp": "tests/program/study_test.py",
    "io/command/command_vary.cpp": "tests/program/vary_test.py",
    "io/command/command_view.cpp": "tests/program/pictures_test.py",
    "io/command/main.cpp": "tests/program/usage_test.py",
    "io/command/write_man_page.cpp": "tests/program/man_page_test.py",
    "io/text/version.cpp": "tests/program/usage_test.py",
    "viz/draw/main.cpp": "tests/program/pictures_test.py",
    "viz/draw/window.cpp": "tests/program/pictures_test.py",
}

source = Path(sys.argv[1])
faults = []


def read_rooms():
    rooms = {}
    for line in Path(sys.argv[2]).read_text(encoding="utf-8").splitlines():
        folder, used = line.split(":")
        rooms[folder] = [room for room in used.strip().split(";") if room]
    return rooms


def own_code(folder):
    return sorted(p for p in (source / folder).iterdir() if p.suffix in (".h", ".cpp"))


def includes(path):
    text = path.read_text(encoding="utf-8")
    return re.findall(r'^#include "([^"]+)/[^"/]+"', text, re.MULTILINE)


def check_arrows(rooms):
    for room, used in rooms.items():
        needed = {target for path in own_code(room) for target in includes(path)} - {room}
        for target in sorted(needed - set(used)):
            faults.append(f"{room} includes headers of {target}, which it does not list under USES")
        for target in sorted(set(used) - needed):
            faults.append(f"{room} lists {target} under USES and includes none of its headers")


def check_one_way(rooms):
    """A room that can be reached from itself closes a ring."""
    for start in rooms:
        reached, ahead = set(), list(rooms[start])
        while ahead:
            room = ahead.pop()
            if room not in reached:
                reached.add(room)
                ahead.extend(rooms[room])
        if start in reached:
            faults.append(f"{start} uses itself by way of other rooms")


def check_fullness(rooms):
    for room in rooms:
        count = len(own_code(room))
        if count > MOST_FILES:
            faults.append(f"{room} holds {count} files, more than {MOST_FILES}")


def check_tests(rooms):
    for room in rooms:
        for path in own_code(room):
            name = f"{room}/{path.name}"
            own = (source / "tests" / room / f"{path.stem}_test.cpp").is_file()
            if path.suffix == ".cpp" and not own and name not in TESTED_OTHERWISE:
                faults.append(f"{name} has no test file, tests/{room}/{path.stem}_test.cpp")
            if own and name in TESTED_OTHERWISE:
                faults.append(f"{name} has a test file and stands in TESTED_OTHERWISE too")
    for name, tests in TESTED_OTHERWISE.items():
        folder = Path(tests).parent if "," not in tests else Path("tests/program")
        files = [Path(part.strip()).name for part in tests.split(",")]
        for missing in [f for f in files if not (source / folder / f).is_file()] + (
            [] if (source / name).is_file() else [name]
        ):
            faults.append(f"TESTED_OTHERWISE names {missing}, which is not there")


# The text of a message where it is reported: `add_error(diagnostics, place, {"..."`.
INLINE_TEXT = re.compile(
    r"\b(?:add_error|add_warning|error_at)\([^;{)]*\{\s*[^}\d\s]|\{\s*Severity::"
)


def check_wording(rooms):
    for room in rooms:
        for path in own_code(room):
            if INLINE_TEXT.search(path.read_text(encoding="utf-8")):
                faults.append(f"{room}/{path.name} words a message where it reports it")


rooms = read_rooms()
if not rooms:
    faults.append(f"{sys.argv[2]} lists no rooms")
check_arrows(rooms)
check_one_way(rooms)
check_fullness(rooms)
check_tests(rooms)
check_wording(rooms)
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
