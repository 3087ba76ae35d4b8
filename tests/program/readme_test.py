"""README.md and its chapters, the README.md of every folder, against the program and the tree.

Every answer shown is what the program answers now. `[...]`, another line in square brackets or
`...` stands for lines left out; whatever else is shown has to be there, in order. YAML shown is
accepted by the schema; links lead somewhere; what is told of keys, materials, JSON and rooms is so.
"""

import json
import os
import pathlib
import re
import subprocess
import unittest

import jsonschema

from program import EXAMPLES, PROGRAM, ProgramTest, one_json_object, read_yaml, run

ROOT = pathlib.Path(__file__).parents[2]
MOST_LINES = 250  # of the README: what a stranger reads in a quarter of an hour
CHAPTERS = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
            for path in sorted(ROOT.glob("**/README.md"))
            if path.relative_to(ROOT).parts[0] not in ("build", "results", ".ci")}
OTHER_PAGES = ("CHANGELOG.md", "DEVELOPERS.md", "io/report/DATA.md", "tests/TRUTH.md")
# How many there are: none may get lost. More is welcome; then raise these.
LEAST_ANSWERS, LEAST_YAML = 14, 9

# Only its faults are shown.
BAD = """\
frame: Bad
sections:
  rail: {shape: square_tub, side: 25, wall: 2, material: S235}
nodes:
  A: [0, 0, 0]
  B: [1000, 0]
  C: ["1 kg", 0, 5]
members:
  m1: {from: A, to: B, section: rail, role: 45}
cases:
  light: {kind: static, gravity: [0, 0, -1]}
"""


def blocks(text, language=""):
    """The texts between fences."""
    found, inside = [], None
    for line in text.split("\n"):
        if not line.startswith("```"):
            if inside is not None:
                inside.append(line)
        elif inside is None:
            inside, kind = [], line[3:]
        else:
            if kind == language:
                found.append("\n".join(inside) + "\n")
            inside = None
    return found


def prose(text):
    """The text without what stands between fences."""
    return re.sub(r"^```.*?^```$", "", text, flags=re.M | re.S)


def all_yaml():
    return [(chapter, block)
            for chapter, text in CHAPTERS.items() for block in blocks(text, "yaml")]


def sessions():
    """(chapter, words, lines shown) of every block that begins with a command and its answer."""
    for chapter, text in CHAPTERS.items():
        for block in blocks(text):
            first, *shown = block.rstrip("\n").split("\n")
            if first.startswith("$ tubewright ") and shown:
                yield chapter, first.split()[2:], shown


def pieces(shown):
    """The runs of lines between what is left out."""
    run = []
    for line in shown + ["[...]"]:
        if re.fullmatch(r"\s*(\[.*\]|\.\.\.)\s*", line):
            while run and not run[-1]:
                run.pop()
            if run:
                yield run
            run = []
        elif run or line:
            run.append(line)


def told(line):
    """Without what differs from one processor to the next: rounding, as in `takes 2e-09 N`."""
    return re.sub(r"\b\de-\d\d\b", "?e-??", line.rstrip())


def place_of(run, lines, start):
    """Where the run begins in lines, from start on; None if it does not."""
    for i in range(start, len(lines) - len(run) + 1):
        if lines[i:i + len(run)] == run:
            return i
    return None


def anchors(text):
    """What a heading is linked by: small letters, digits, - and _, spaces as -."""
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")
            for heading in re.findall(r"^#+ (.*)$", prose(text), re.M)}


def table_rows(text):
    """The cells of every row of every table."""
    return [[cell.strip() for cell in line.strip("|").split(" |")]
            for line in text.split("\n") if line.startswith("| ")]


def rooms():
    """(folder, the rooms it uses) by the CMakeLists.txt of every room."""
    for path in sorted(ROOT.glob("*/**/CMakeLists.txt")):
        text = path.read_text(encoding="utf-8")
        folder = re.search(r"^tubewright_add_room\((\S+)", text, re.M)
        if folder and path.relative_to(ROOT).parts[0] not in ("build", "tests"):
            uses = re.search(r"\bUSES ([\w/\s]+?)\s+SOURCES\b", text)
            yield folder[1], set(uses[1].split()) if uses else set()


class Answers(ProgramTest):
    def setUp(self):
        super().setUp()
        self.file(BAD, "bad.yaml")
        bench = [b for _, b in all_yaml() if b.startswith("bench_test:")]
        self.assertEqual(1, len(bench))
        hauler = next(EXAMPLES.glob("05_*.yaml")).read_text()
        self.file(hauler + "\n" + bench[0], "hauler_on_the_bench.yaml")
        self.file(hauler.replace("side: 15, wall: 1.5", "side: 15, wall: 1").replace(
            "high2_l: [-500, 250, 500]", "high2_l: [-500, 250, 540]"), "lighter_hauler.yaml")
        (self.directory / "cases").symlink_to(ROOT / "cases")

    def answer(self, words):
        process = subprocess.run([PROGRAM, *words], cwd=self.directory, text=True, timeout=300,
                                 stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                 stderr=subprocess.STDOUT)
        return [told(line) for line in process.stdout.split("\n")]

    def test_every_answer_shown_is_the_answer(self):
        count = 0
        for chapter, words, shown in sessions():
            with self.subTest(chapter + ": " + " ".join(words)):
                lines, start = self.answer(words), 0
                for piece in pieces([told(line) for line in shown]):
                    place = place_of(piece, lines, start)
                    self.assertIsNotNone(place, "not in the answer:\n" + "\n".join(piece))
                    start = place + len(piece)
                count += 1
        print(f"{count} answers checked")
        self.assertGreaterEqual(count, LEAST_ANSWERS)

    def test_every_command_is_shown_with_its_answer(self):
        help_page = subprocess.run([PROGRAM, "--help"], text=True, stdout=subprocess.PIPE).stdout
        commands = re.findall(r"^  ([a-z-]+) (?:FRAME|FILE|A\.yaml)", help_page, re.M)
        shown = {words[0] for _, words, _ in sessions()}
        without_text = {"view", "start"}  # a window, a file
        self.assertEqual(set(commands) - without_text, shown)

    def test_json_has_the_keys_told(self):
        always = {"schema", "version", "axes", "frame", "passes", "warnings", "not_checked",
                  "cautions"}
        told_of_json = CHAPTERS["io/README.md"].split("\n## JSON")[1]
        rows = {row[0]: row[1] for row in table_rows(told_of_json)}
        frame = self.directory / "hauler_on_the_bench.yaml"
        words = {"vary": ("--set", "sections.rail.wall=1.5,2"), "compare": (frame,)}
        for command in ("check", "twist", "floor", "modes", "buckle", "bench-test", "cut", "vary",
                        "compare"):
            with self.subTest(command):
                answer = one_json_object(
                    run(command, frame, *words.get(command, ()), "--json").stdout)
                self.assertEqual(set(answer) - always,
                                 set(re.findall(r"`(\w+)`", rows[f"`{command}`"])))


class Yaml(ProgramTest):
    def test_every_part_of_a_frame_file_shown_is_one(self):
        schema = json.loads(run("schema").stdout)
        count = 0
        for chapter, block in all_yaml():
            with self.subTest(chapter + ":\n" + block):
                shown = read_yaml(block)
                validator = jsonschema.Draft7Validator({**schema, "required": []})
                self.assertEqual([], [e.message for e in validator.iter_errors(shown)])
                count += 1
        print(f"{count} pieces of YAML checked")
        self.assertGreaterEqual(count, LEAST_YAML)

    def test_the_frame_of_the_readme_is_the_first_example(self):
        text = next(EXAMPLES.glob("01_*.yaml")).read_text()
        shown = blocks(CHAPTERS["README.md"], "yaml")[0]
        self.assertEqual(text[text.index("\nframe:") + 1:].strip(), shown.strip())

    def test_every_key_is_told_with_its_help_and_default(self):
        rows = table_rows(CHAPTERS["io/README.md"])
        for key, spec, required in keys_of(json.loads(run("schema").stdout)):
            absent = "required" if required else ""
            if not required and "default" in spec:
                absent = "`" + json.dumps(spec["default"]).strip('"') + "`"
            with self.subTest(key):
                self.assertTrue(
                    any(row[0] == f"`{key}`" and row[1] == absent
                        and spec["description"] in row[2] and
                        all(f"`{word}`" in row[2] for word in spec.get("enum", []))
                        for row in rows), f"no row for {key}, {absent}, {spec['description']}")


def keys_of(schema):
    """(key, its schema, whether it is required) of every key, however deep."""
    for key, spec in schema.get("properties", {}).items():
        yield key, spec, key in schema.get("required", [])
        yield from keys_of(spec)
    below = [schema.get("additionalProperties"), schema.get("items"),
             *schema.get("oneOf", []), *schema.get("anyOf", [])]
    for part in below:
        if isinstance(part, dict):
            yield from keys_of(part)


class Pages(unittest.TestCase):
    def test_the_readme_is_short(self):
        self.assertLessEqual(CHAPTERS["README.md"].count("\n"), MOST_LINES)

    def test_every_link_and_picture_leads_somewhere(self):
        pages = {**CHAPTERS, **{p: (ROOT / p).read_text(encoding="utf-8") for p in OTHER_PAGES}}
        count = 0
        for page, text in pages.items():
            for link in re.findall(r"\]\(([^)\s]+)\)", prose(text)):
                if re.match(r"[a-z]+:", link):
                    continue
                count += 1
                path, _, anchor = link.partition("#")
                target = page
                if path:
                    target = os.path.normpath(pathlib.PurePosixPath(page).parent / path)
                with self.subTest(f"{page}: {link}"):
                    self.assertTrue((ROOT / target).exists(), link)
                    if anchor:
                        self.assertTrue(target.endswith(".md"), link)
                        self.assertIn(anchor, anchors((ROOT / target).read_text(encoding="utf-8")))
        self.assertGreater(count, 50)

    def test_every_source_file_named_is_there(self):
        floors = ("solver", "cases", "io", "viz", "tests")
        files = ["/" + p.relative_to(ROOT).as_posix() for f in floors
                 for p in (ROOT / f, *(ROOT / f).rglob("*"))]
        count = 0
        for page in {*CHAPTERS, *OTHER_PAGES} - {"CHANGELOG.md"}:  # which tells of what was
            text = prose((ROOT / page).read_text(encoding="utf-8"))
            for name in re.findall(r"`([a-z0-9_./-]+)`", text):
                if re.search(r"\.(h|cpp|py|sh|cmake)$", name) or name.split("/")[0] in floors:
                    count += 1
                    self.assertTrue(any(f.endswith("/" + name.rstrip("/")) for f in files),
                                    f"{page}: {name}")
        self.assertGreater(count, 100)

    def test_every_picture_kept_is_shown(self):
        shown = {os.path.normpath(pathlib.PurePosixPath(page).parent / link)
                 for page, text in CHAPTERS.items()
                 for link in re.findall(r"!\[[^\]]+\]\(([^)]+)\)", text)}
        kept = {p.relative_to(ROOT).as_posix() for p in (ROOT / "cases/pictures").iterdir()}
        self.assertEqual(kept, {p for p in shown if p.startswith("cases/pictures/")})

    def test_the_built_in_materials_are_told(self):
        source = (ROOT / "cases/frame/built_in_materials.cpp").read_text(encoding="utf-8")
        table = re.findall(r'^    \{"([^"]+)", ([^{}]*)\},$', source, re.M)
        self.assertGreater(len(table), 10)
        rows = {row[0]: row[2:] for row in table_rows(CHAPTERS["io/README.md"])}
        for name, numbers in table:
            numbers = [n for n in numbers.split(", ") if not n.startswith("Metal")]
            self.assertEqual(numbers, [n for n in rows[f"`{name}`"] if n], name)


class Rooms(unittest.TestCase):
    def test_every_room_says_what_it_is_and_what_it_may_use(self):
        self.assertGreater(len(list(rooms())), 20)
        for room, uses in rooms():
            with self.subTest(room):
                text = CHAPTERS[room + "/README.md"]
                for what in ("Comes in", "Goes out", "May use"):
                    self.assertIn(f"\n* **{what}**: ", text)
                may = re.search(r"^\* \*\*May use\*\*: (.*?)(?=\n\n|\n\*|\Z)", text, re.M | re.S)[1]
                self.assertEqual(uses, set(re.findall(r"`(\w+/\w+)`", may)))


if __name__ == "__main__":
    unittest.main()
