"""Runs the built program the way a shell would, for the tests beside this file.

The program's path comes in the environment variable TUBEWRIGHT."""

import json
import os
import pathlib
import shutil
import subprocess
import tempfile
import unittest

import yaml

PROGRAM = os.environ["TUBEWRIGHT"]
EXAMPLES = pathlib.Path(__file__).parents[2] / "cases"

# A cantilever of 25 x 2 square tube, 1 m long: 50 N at the tip stays far below yield.
CANTILEVER = """\
frame: A cantilever
sections:
  tube: {shape: square_tube, side: 25, wall: 2, material: S235}
nodes:
  wall: [0, 0, 0]
  tip: [1000, 0, 0]
members:
  arm: {from: wall, to: tip, section: tube}
supports:
  wall: fixed
cases:
  light: {kind: static, forces: {tip: [0, 0, -50]}}
"""
OVERLOADED = CANTILEVER + "  heavy: {kind: static, forces: {tip: [0, 0, -900]}}\n"
MECHANISM = CANTILEVER.replace("wall: fixed", "wall: pinned")
MISSPELT = CANTILEVER.replace("wall: 2,", "wal: 2,")


def run(*words, text=None, env=None, **options):
    """The finished process: returncode, stdout, stderr as text."""
    surroundings = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "TERM")}
    surroundings.update(env or {})
    options.setdefault("stdout", subprocess.PIPE)
    options.setdefault("stderr", subprocess.PIPE)
    if text is None:
        options.setdefault("stdin", subprocess.DEVNULL)
    return subprocess.run([PROGRAM, *map(str, words)], input=text, text=True, timeout=120,
                          env=surroundings, **options)


def one_json_object(text):
    """The object that `text` is; json.loads refuses a second one. NaN is refused too."""
    def refuse(word):
        raise ValueError(word + " is not JSON")
    result = json.loads(text, parse_constant=refuse)
    assert isinstance(result, dict)
    return result


class Yaml12(yaml.SafeLoader):
    """YAML 1.2's core schema has only true and false; PyYAML takes `on` for true as well."""


Yaml12.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers
            if tag != "tag:yaml.org,2002:bool" or first in "tTfF"]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()}


def read_yaml(text):
    return yaml.load(text, Loader=Yaml12)


class ProgramTest(unittest.TestCase):
    """Gives each test an empty directory, `self.directory`."""

    def setUp(self):
        self.directory = pathlib.Path(tempfile.mkdtemp(prefix="tubewright-"))
        self.addCleanup(shutil.rmtree, self.directory)

    def file(self, text, name="frame.yaml"):
        path = self.directory / name
        path.write_text(text)
        return path

    def assertAnswer(self, code, process):
        self.assertEqual(code, process.returncode, process.stderr)
