"""Every answer that the README shows is what the program answers now. `[...]`, another line in
square brackets or `...` stands for lines left out; whatever else is shown has to be there, in
order."""

import pathlib
import re
import subprocess
import unittest

from program import EXAMPLES, PROGRAM, ProgramTest

ROOT = pathlib.Path(__file__).parents[2]
README = (ROOT / "README.md").read_text()

# Only its faults are shown in the README.
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


def blocks(language=""):
    """The texts between fences."""
    found, inside = [], None
    for line in README.split("\n"):
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


def sessions():
    """(words, lines shown) of every block that begins with a command and its answer."""
    for block in blocks():
        first, *shown = block.rstrip("\n").split("\n")
        if first.startswith("$ tubewright ") and shown:
            yield first.split()[2:], shown


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


class Readme(ProgramTest):
    def setUp(self):
        super().setUp()
        self.file(BAD, "bad.yaml")
        bench = [b for b in blocks("yaml") if b.startswith("bench_test:")]
        self.assertEqual(1, len(bench))
        hauler = next(EXAMPLES.glob("05_*.yaml")).read_text()
        self.file(hauler + "\n" + bench[0], "hauler_on_the_bench.yaml")
        (self.directory / "cases").symlink_to(ROOT / "cases")

    def answer(self, words):
        process = subprocess.run([PROGRAM, *words], cwd=self.directory, text=True, timeout=300,
                                 stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                 stderr=subprocess.STDOUT)
        return [told(line) for line in process.stdout.split("\n")]

    def test_every_answer_shown_is_the_answer(self):
        count = 0
        for words, shown in sessions():
            with self.subTest(" ".join(words)):
                lines, start = self.answer(words), 0
                for run in pieces([told(line) for line in shown]):
                    place = place_of(run, lines, start)
                    self.assertIsNotNone(place, "not in the answer:\n" + "\n".join(run))
                    start = place + len(run)
                count += 1
        self.assertGreater(count, 10)

    def test_every_command_is_shown_with_its_answer(self):
        help_page = subprocess.run([PROGRAM, "--help"], text=True, stdout=subprocess.PIPE).stdout
        commands = re.findall(r"^  ([a-z-]+) (?:FRAME|FILE)", help_page, re.M)
        shown = {words[0] for words, _ in sessions()}
        without_text = {"view", "start"}  # a window, a file
        self.assertEqual(set(commands) - without_text, shown)

    def test_every_picture_is_there(self):
        pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
        self.assertGreater(len(pictures), 2)
        for picture in pictures:
            self.assertTrue((ROOT / picture).is_file(), picture)


if __name__ == "__main__":
    unittest.main()
