"""The line that tells what long work is at: on a terminal, and gone afterwards."""

import os
import pathlib
import pty
import re
import signal
import subprocess
import sys
import time
import unittest

from program import PROGRAM, ProgramTest

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "bench"))
import bench_check  # noqa: E402  the girder of any length

ERASE = "\x1b[K"


def at_terminal(*words, term="vt100", ended=False):
    """Standard output and error on one pseudo-terminal: exit code, all it was sent, seconds.
    `ended`: the program is, by a signal, once it shows something."""
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
        if ended:
            process.terminate()
            ended = False
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
    cases = 16  # load cases of the frame, more from test to test where the machine is quick

    def long_run(self, *words, term="vt100"):
        """A check of some 500 members, with as many load cases as keep it at work for twice the
        second before the line appears, in this very run: exit code, what the terminal was sent."""
        frame, _ = bench_check.frame(40)
        while True:
            path = self.file(frame.replace("cases: {", "cases: {" + "".join(
                f"more_{i}: {{kind: static, gravity: [0, 0, {-1 - i / 1000}]}}, "
                for i in range(Progress.cases))))
            code, sent, seconds = at_terminal("check", path, *words, term=term)
            if seconds > 2:
                return code, sent
            Progress.cases *= 2

    def test_it_tells_the_stage_and_the_seconds_and_leaves_nothing(self):
        code, sent = self.long_run()
        self.assertIn(code, (0, 1))
        self.assertRegex(sent, r"\r[a-z][a-z 0-9]+ \.\.\. [1-9][0-9]*\.[0-9] s" + re.escape(ERASE))
        plain = subprocess.run([PROGRAM, "check", str(self.directory / "frame.yaml")], text=True,
                               stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                               stderr=subprocess.STDOUT, env=dict(os.environ, TERM="vt100"))
        self.assertNotIn("\x1b", plain.stdout)  # no terminal, no line
        self.assertEqual(plain.stdout, "\n".join(rows_of(sent)))

    def test_it_leaves_nothing_where_the_answer_cannot_be_written(self):
        code, sent = self.long_run("-o", self.file("in the way", "results"))
        self.assertEqual(2, code)
        self.assertIn(ERASE, sent)
        rows = rows_of(sent)
        self.assertRegex(rows[-2], "^tubewright: error: cannot write")
        self.assertEqual("", rows[-1])
        self.assertNotIn(" ... ", "".join(rows))

    def test_a_signal_that_ends_the_program_takes_the_line_along(self):
        self.long_run()  # leaves a file with as many load cases as that took
        for _ in range(5):
            code, sent, _ = at_terminal("check", self.directory / "frame.yaml", ended=True)
            if " ... " in sent:
                break
            Progress.cases *= 2  # it had answered before there was a line
            self.long_run()
        self.assertEqual(-signal.SIGTERM, code)
        self.assertIn(" ... ", sent)
        self.assertEqual([""], rows_of(sent))

    def test_none_where_the_terminal_cannot_erase_and_none_with_quiet(self):
        for words, term in ((["-q"], "vt100"), ([], "dumb")):
            _, sent = self.long_run(*words, term=term)
            self.assertNotIn("\x1b", sent)
            self.assertNotRegex(sent, r"\r(?!\n)")


if __name__ == "__main__":
    unittest.main()
