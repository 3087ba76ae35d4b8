"""The command line: help, version, misuse, the schema."""

import json
import unittest

import jsonschema

from program import CANTILEVER, MISSPELT, ProgramTest, read_yaml, run


class Usage(ProgramTest):
    def test_the_name_alone_gives_a_short_usage_and_2(self):
        process = run()
        self.assertAnswer(2, process)
        self.assertEqual("", process.stdout)
        self.assertIn("tubewright check frame.yaml", process.stderr)

    def test_help_and_version_go_to_standard_output(self):
        for words in (["--help"], ["-h"], ["--version"], ["help"], ["check", "--help"],
                      ["start", "--help"], ["schema", "-h"]):
            process = run(*words)
            self.assertAnswer(0, process)
            self.assertNotEqual("", process.stdout)
            self.assertEqual("", process.stderr)

    def test_every_command_of_the_help_exists(self):
        lines = run("--help").stdout.split("Commands:\n")[1].split("\n\n")[0].splitlines()
        commands = [line.split()[0] for line in lines]
        self.assertEqual(["check", "twist", "floor", "modes", "buckle", "rank", "break", "ride",
                          "size", "cut", "bench-test", "view", "vary", "compare", "start", "schema",
                          "completion"], commands)
        for command in commands:
            self.assertAnswer(0, run(command, "--help"))

    def test_misuse_gives_2_a_hint_and_no_results(self):
        for words, hint in ((["chekc", "a.yaml"], "did you mean `check`?"),
                            (["check", "a.yaml", "--jason"], "did you mean `--json`?"),
                            (["check"], "needs a frame file"),
                            (["check", "a.yaml", "-o"], "needs a value"),
                            (["size", "a.yaml", "--seconds", "0"], "`--seconds` takes a number"),
                            (["size", "a.yaml", "-o", "-"], "the name of a file to write"),
                            (["twist", "a.yaml", "--hold", "x"], "`free` or `clamped`"),
                            (["a.yaml"], "tubewright check a.yaml")):
            process = run(*words)
            self.assertAnswer(2, process)
            self.assertEqual("", process.stdout)
            self.assertIn(hint, process.stderr)

    def test_help_that_cannot_be_written_gives_2(self):
        with open("/dev/full", "w") as full:
            self.assertAnswer(2, run("--help", stdout=full))


class Schema(ProgramTest):
    def setUp(self):
        super().setUp()
        process = run("schema")
        self.assertAnswer(0, process)
        self.schema = json.loads(process.stdout)

    def test_it_is_a_draft_07_schema(self):
        self.assertIn("draft-07", self.schema["$schema"])
        jsonschema.Draft7Validator.check_schema(self.schema)

    def test_it_accepts_what_check_accepts(self):
        jsonschema.validate(read_yaml(CANTILEVER), self.schema)
        jsonschema.validate(read_yaml(run("start", "-").stdout), self.schema)

    def test_it_refuses_an_unknown_key(self):
        with self.assertRaises(jsonschema.ValidationError):
            jsonschema.validate(read_yaml(MISSPELT), self.schema)


if __name__ == "__main__":
    unittest.main()
