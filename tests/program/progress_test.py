"""The line that tells what long work is at: on a terminal, and gone afterwards."""

import os
import pathlib
import pty
import re
import subprocess
import sys
import time
import unittest

from program import PROGRAM, ProgramTest

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "bench"))
import bench_check  # noqa: E402  the girder of any length

ERASE = "\x1b[K"


def at_terminal(*words, term="vt100"):
    """Standard output and error on one pseudo-terminal: exit code, all it was sent, seconds."""
    environment = dict(os.environ, TERM=term, NO_COLOR="1")
    master, slave = pty.openpty()
    begin = time.monotonic()
    process = subprocess.Popen([PROGRAM, *map(str, words)], stdin=subprocess.DEVNULL, stdout=slave,
                               stderr=slave, env=environment)
    os.close(slave)
    sent = b""
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:  # Linux: the other end is closed
            break
        if not piece:
            break
        sent += piece
    os.close(master)
    return process.wait(), sent.decode(), time.monotonic() - begin


def rows_of(sent):
    """What the terminal shows in the end: carriage return, line feed and EL (ECMA-48 8.3.41)."""
    rows, column = [""], 0
    for part in re.findall(r"\x1b\[K|\r|\n|[^\x1b\r\n]+", sent):
        if part == "\r":
            column = 0
        elif part == "\n":
            rows.append("")
        elif part == ERASE:
            rows[-1] = rows[-1][:column]
        else:
            rows[-1] = rows[-1][:column] + part + rows[-1][column + len(part):]
            column += len(part)
    return rows


class Progress(ProgramTest):
    @classmethod
    def setUpClass(cls):
        """A frame of nearly 2 000 members with as many load cases as keep the program at work for
        several times the second before the line appears, here and now."""
        frame, _ = bench_check.frame(150)
        count = 16
        while True:
            cls.text = frame.replace("cases: {", "cases: {" + "".join(
                f"more_{i}: {{kind: static, gravity: [0, 0, {-1 - i / 1000}]}}, "
                for i in range(count)))
            begin = time.monotonic()
            subprocess.run([PROGRAM, "check", "-"], input=cls.text, text=True, timeout=300,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            if time.monotonic() - begin > 3:
                return
            count *= 2

    def test_it_tells_the_stage_and_the_seconds_and_leaves_nothing(self):
        path = self.file(self.text)
        code, sent, _ = at_terminal("check", path)
        self.assertIn(code, (0, 1))
        self.assertRegex(sent, r"\r[a-z][a-z 0-9]+ \.\.\. [1-9][0-9]*\.[0-9] s" + re.escape(ERASE))
        plain = subprocess.run([PROGRAM, "check", str(path)], stdin=subprocess.DEVNULL, text=True,
                               stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        self.assertEqual(plain.stdout, "\n".join(rows_of(sent)))

    def test_it_leaves_nothing_where_the_answer_cannot_be_written(self):
        directory = self.file("in the way", "results")
        code, sent, _ = at_terminal("check", self.file(self.text), "-o", directory)
        self.assertEqual(2, code)
        self.assertIn(ERASE, sent)
        rows = rows_of(sent)
        self.assertRegex(rows[-2], "^tubewright: error: cannot write")
        self.assertEqual("", rows[-1])
        self.assertNotIn(" ... ", "".join(rows))

    def test_only_on_a_terminal_that_can_erase_and_never_with_quiet(self):
        path = self.file(self.text)
        for words, term in ((["check", path, "-q", "--json"], "vt100"),
                            (["check", path], "dumb")):
            _, sent, _ = at_terminal(*words, term=term)
            self.assertNotIn("\x1b", sent)
            self.assertNotRegex(sent, r"\r(?!\n)")
        process = subprocess.run([PROGRAM, "check", str(path)], stdin=subprocess.DEVNULL, text=True,
                                 capture_output=True, env=dict(os.environ, TERM="vt100"))
        self.assertNotIn("\x1b", process.stdout + process.stderr)


if __name__ == "__main__":
    unittest.main()
