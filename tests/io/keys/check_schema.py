"""Holds frame files against the JSON Schema with python3-jsonschema.

usage: check_schema.py YAML_AS_JSON PROGRAM_SOURCE_DIR

Sound frames and those that only make no sense must be accepted, those of the wrong shape refused.
"""

import json
import pathlib
import subprocess
import sys

from jsonschema import Draft7Validator


def frames(yaml_as_json, paths):
    run = subprocess.run([yaml_as_json, *map(str, paths)], check=True, capture_output=True)
    lines = run.stdout.decode("utf-8").splitlines()
    assert len(lines) == len(paths)
    return [json.loads(line) for line in lines]


def main():
    yaml_as_json, source = sys.argv[1], pathlib.Path(sys.argv[2])
    schema = json.loads((source / "io/frame.schema.json").read_text(encoding="utf-8"))
    Draft7Validator.check_schema(schema)
    validator = Draft7Validator(schema)
    bad = source / "tests/io/bad_frames"
    sets = [
        (True, ["starter"], 1),
        (True, sorted((source / "cases").glob("*.yaml")), 0),
        (True, sorted((source / "tests/io/good_frames").glob("*.yaml")), 3),
        (True, sorted((bad / "meaning").glob("*.yaml")), 15),
        (False, sorted((bad / "shape").glob("*.yaml")), 50),
    ]
    wrong = 0
    for expected, paths, at_least in sets:
        if len(paths) < at_least:
            print(f"only {len(paths)} files where at least {at_least} are expected")
            wrong += 1
        for frame in frames(yaml_as_json, paths) if paths else []:
            error = next(iter(validator.iter_errors(frame["frame"])), None)
            if (error is None) != expected:
                wrong += 1
                print(frame["file"], "accepted" if error is None else error.message[:300])
    sys.exit(wrong > 0)


main()
