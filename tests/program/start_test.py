"""The starter frame: it passes, and what it shows behind comment signs fits it."""

import json
import unittest

from program import ProgramTest, read_yaml, run

# What an example refers to.
NEEDS = {"nodes": ["members"], "members": ["nodes"], "supports": ["nodes", "members"],
         "panels": ["sheets"], "cases": ["vehicle", "rides"], "life": ["vehicle"],
         "rides": ["vehicle"]}


def blocks():
    """The examples after the frame, without their comment signs, by their key at the top."""
    text = run("start", "-").stdout.split("# More keys\n")[1]
    lines = text.splitlines()
    lines = [line[2:] for line in lines[lines.index("#"):]]
    found = {}
    for line in lines:
        if line and line[0].isalpha():
            name = line.split(":")[0]
        if line:
            found[name] = found.get(name, "") + line + "\n"
    return found


def merged(one, other):
    """Maps within maps are joined; of anything else the latter counts."""
    result = dict(one)
    for key, value in other.items():
        both = isinstance(value, dict) and isinstance(result.get(key), dict)
        result[key] = merged(result[key], value) if both else value
    return result


class Start(ProgramTest):
    def setUp(self):
        super().setUp()
        (self.directory / "my_track.csv").write_text("0,0,0\n500,20,10\n1000,0,0\n")
        self.frame = read_yaml(run("start", "-").stdout)
        self.blocks = {name: read_yaml(text) for name, text in blocks().items()}

    def test_what_it_writes_passes_without_a_word(self):
        path = self.directory / "f.yaml"
        self.assertAnswer(0, run("start", path))
        process = run("check", path)
        self.assertAnswer(0, process)
        self.assertEqual("", process.stderr)

    def test_every_command_that_needs_nothing_more_answers_it(self):
        path = self.directory / "frame.yaml"
        self.assertAnswer(0, run("start", path))
        for words in (["check", "-o", self.directory / "results", "--no-pictures"], ["modes"],
                      ["buckle"], ["cut", "-o", self.directory / "workshop"]):
            self.assertAnswer(0, run(words[0], path, *words[1:]))

    def test_every_example_alone_is_accepted_in_its_place(self):
        for name, block in self.blocks.items():
            with self.subTest(name):
                frame = self.frame
                for needed in NEEDS.get(name, []):
                    frame = merged(frame, self.blocks[needed])
                process = run("check", "-", "-q", text=json.dumps(merged(frame, block)),
                              cwd=self.directory)
                self.assertIn(process.returncode, (0, 1), process.stderr)

    def test_all_of_them_together_are_accepted_by_every_command(self):
        frame = self.frame
        for block in self.blocks.values():
            frame = merged(frame, block)
        text = json.dumps(frame)
        for command in ("check", "twist", "floor", "modes", "buckle", "cut", "ride", "bench-test"):
            with self.subTest(command):
                process = run(command, "-", "-q", text=text, cwd=self.directory)
                self.assertIn(process.returncode, (0, 1), process.stderr)

    def test_each_may_be_taken_over_as_it_stands_where_the_frame_lacks_its_key(self):
        text = run("start", "-").stdout
        frame = text.split("\n# More keys\n")[0]
        for name, block in blocks().items():
            if name in self.frame or name in NEEDS:
                continue
            with self.subTest(name):
                process = run("check", "-", "-q", text=frame + "\n" + block)
                self.assertIn(process.returncode, (0, 1), process.stderr)


if __name__ == "__main__":
    unittest.main()
