"""Shell completion: the words offered by bash, zsh and fish, each by the real shell."""

import os
import shlex
import subprocess
import unittest

from program import CANTILEVER, EXAMPLES, MISSPELT, PROGRAM, ProgramTest, run
from typing_at import line_after_tab

TWO_CASES = CANTILEVER + "  heavy: {kind: static, forces: {tip: [0, 0, -90]}}\n"


def commands_of_the_help():
    lines = run("--help").stdout.split("Commands:\n")[1].split("\n\n")[0].splitlines()
    return {line.split()[0] for line in lines}


class CompletionTest(ProgramTest):
    def setUp(self):
        super().setUp()
        self.file(TWO_CASES)
        self.file(TWO_CASES, "my frame.yml")
        self.file("nothing", "notes.txt")
        (self.directory / "results").mkdir()


class Bash(CompletionTest):
    """The function that bash calls, called with the words of a line; no bash-completion package."""

    def offered(self, *words, at=None):
        """What is offered for the word number `at`, by default the last."""
        line = ["tubewright", *words]
        script = "\n".join([
            run("completion", "bash").stdout,
            "COMP_WORDS=(" + " ".join(map(shlex.quote, line)) + ")",
            f"COMP_CWORD={len(line) - 1 if at is None else at}",
            f"_tubewright {shlex.quote(PROGRAM)}",
            '((${#COMPREPLY[@]} == 0)) || printf "%s\\n" "${COMPREPLY[@]}"'])
        process = subprocess.run(["bash", "--norc", "-c", script], cwd=self.directory, text=True,
                                 capture_output=True, timeout=60)
        self.assertEqual("", process.stderr)
        return set(process.stdout.splitlines())

    def test_the_first_word_is_a_command_or_an_option_of_the_program(self):
        self.assertEqual(commands_of_the_help(), self.offered(""))
        self.assertEqual({"check"}, self.offered("ch"))
        self.assertEqual({"--help", "--version"}, self.offered("-"))

    def test_frame_files_and_directories_come_after_a_command(self):
        self.assertEqual({"frame.yaml", "my frame.yml", "results"}, self.offered("check", ""))
        self.assertEqual({"frame.yaml"}, self.offered("twist", "--json", "fr"))
        self.assertEqual({"results"}, self.offered("start", ""))
        self.assertEqual(set(), self.offered("schema", ""))

    def test_a_command_of_several_files_offers_them_again(self):
        files = {"frame.yaml", "my frame.yml", "results"}
        self.assertEqual(files, self.offered("compare", "frame.yaml", ""))
        self.assertEqual(files, self.offered("vary", "--merge", "frame.yaml", ""))
        self.assertEqual({"--output", "--json", "--quiet", "--help"},
                         self.offered("compare", "frame.yaml", "-"))

    def test_options_come_after_a_dash_or_the_frame_except_those_given(self):
        everything = {"--output", "--case", "--second-order", "--large-displacement",
                      "--no-pictures", "--changes", "--json", "--quiet", "--help"}
        self.assertEqual(everything, self.offered("check", "-"))
        self.assertEqual(everything - {"--quiet", "--json"},
                         self.offered("check", "-q", "--case", "heavy", "frame.yaml", "--json", ""))
        self.assertEqual({"--help"}, self.offered("schema", "-"))

    def test_values_come_after_their_options(self):
        self.assertEqual({"free", "clamped"}, self.offered("twist", "frame.yaml", "--hold", ""))
        self.assertEqual({"clamped"}, self.offered("twist", "--hold", "=", "c"))
        self.assertEqual({"free", "clamped"}, self.offered("twist", "--hold", "="))
        self.assertEqual({"results"}, self.offered("check", "frame.yaml", "-o", ""))
        self.assertEqual({"results"}, self.offered("modes", "--output", "=", "r"))
        self.assertEqual(set(), self.offered("modes", "-n", ""))
        self.assertEqual({"bash", "zsh", "fish"}, self.offered("completion", ""))
        self.assertEqual({"frame.yaml", "my frame.yml", "results"},
                         self.offered("completion", "--cases", ""))

    def test_load_cases_are_those_of_the_frame_on_the_line(self):
        self.assertEqual({"light", "heavy"}, self.offered("check", "frame.yaml", "--case", ""))
        self.assertEqual({"heavy"}, self.offered("buckle", "-n", "3", "frame.yaml", "--case", "h"))
        self.assertEqual({"heavy"}, self.offered("check", "--case", "h", "frame.yaml", at=3))
        self.assertEqual({"light"}, self.offered("check", r"my\ frame.yml", "--case", "=", "l"))
        self.assertEqual({"light"}, self.offered("check", "'my frame.yml'", "--case", "l"))
        self.assertEqual({"light", "heavy"}, self.offered("check", "-o", "results", "frame.yaml",
                                                          "--case", "light", "--case", ""))

    def test_nothing_is_offered_and_nothing_said_where_there_is_no_frame(self):
        for frame in ("missing.yaml", "-", "results", "$(touch ran)", "--"):
            self.assertEqual(set(), self.offered("check", frame, "--case", ""))
        self.assertEqual(set(), self.offered("check", "--case", ""))
        self.assertFalse((self.directory / "ran").exists())

    def test_after_two_dashes_only_files_are_offered(self):
        self.assertEqual(set(), self.offered("check", "--", "-"))
        self.assertEqual({"frame.yaml"}, self.offered("check", "--", "fr"))

    def test_typed_in_an_interactive_shell(self):
        script = run("completion", "bash").stdout
        for typed, line in (("tubewright sch", "tubewright schema "),
                            ("tubewright check my", r"tubewright check my\ frame.yml "),
                            ("tubewright check frame.yaml -o re",
                             "tubewright check frame.yaml -o results/"),
                            ("tubewright check my\\ frame.yml --case he",
                             "tubewright check my\\ frame.yml --case heavy "),
                            ("tubewright check frame.yaml --case=he",
                             "tubewright check frame.yaml --case=heavy ")):
            self.assertEqual(line, line_after_tab("bash", script, typed, self.directory, PROGRAM))


class Zsh(CompletionTest):
    def test_the_script_is_sound(self):
        path = self.file(run("completion", "zsh").stdout, "_tubewright")
        process = subprocess.run(["zsh", "-f", "-n", path], capture_output=True, text=True)
        self.assertEqual((0, ""), (process.returncode, process.stderr))

    def test_typed_in_an_interactive_shell(self):
        script = run("completion", "zsh").stdout
        for typed, line in (("tubewright sch", "tubewright schema "),
                            ("tubewright --ver", "tubewright --version "),
                            ("tubewright check fr", "tubewright check frame.yaml "),
                            ("tubewright check my", r"tubewright check my\ frame.yml "),
                            ("tubewright check --sec", "tubewright check --second-order "),
                            ("tubewright twist --hold cl", "tubewright twist --hold clamped "),
                            ("tubewright check frame.yaml -o re",
                             "tubewright check frame.yaml -o results/"),
                            ("tubewright check my\\ frame.yml --case he",
                             "tubewright check my\\ frame.yml --case heavy "),
                            ("tubewright buckle -n 3 frame.yaml --case=li",
                             "tubewright buckle -n 3 frame.yaml --case=light "),
                            ("tubewright completion z", "tubewright completion zsh ")):
            self.assertEqual(line.rstrip(), line_after_tab(
                "zsh", script, typed, self.directory, PROGRAM).rstrip())

    def test_it_may_be_sourced_too(self):
        process = subprocess.run(
            ["zsh", "-f", "-c", 'autoload -U compinit; compinit -u -D; source "$1"; '
             'print $_comps[tubewright]', "zsh",
             self.file(run("completion", "zsh").stdout, "script")],
            capture_output=True, text=True, timeout=60)
        self.assertEqual(("_tubewright\n", ""), (process.stdout, process.stderr))


class Fish(CompletionTest):
    """fish tells by itself what it would offer for a line."""

    def offered(self, line):
        environment = dict(os.environ, HOME=str(self.directory), TERM="vt100",
                           XDG_CONFIG_HOME=str(self.directory / "fish-config"),
                           XDG_DATA_HOME=str(self.directory / "fish-data"),
                           PATH=os.path.dirname(PROGRAM) + ":" + os.environ["PATH"])
        script = run("completion", "fish").stdout
        self.file(script, "tubewright.fish")
        process = subprocess.run(
            ["fish", "--no-config", "-c", "source tubewright.fish; complete -C $argv[1]", line],
            cwd=self.directory, env=environment, text=True, capture_output=True, timeout=60)
        self.assertEqual("", process.stderr)
        return {entry.split("\t")[0] for entry in process.stdout.splitlines()}

    def test_the_script_is_sound(self):
        path = self.file(run("completion", "fish").stdout, "tubewright.fish")
        process = subprocess.run(["fish", "--no-config", "-n", path], capture_output=True,
                                 text=True)
        self.assertEqual((0, ""), (process.returncode, process.stderr))

    def test_it_offers_commands_frames_options_values_and_cases(self):
        self.assertEqual(commands_of_the_help(), self.offered("tubewright "))
        self.assertEqual({"frame.yaml"}, self.offered("tubewright check fr"))
        files = self.offered("tubewright check ")
        self.assertLessEqual({"frame.yaml", "my frame.yml", "results/"}, files)
        self.assertNotIn("notes.txt", files)
        self.assertLessEqual({"frame.yaml", "my frame.yml"},
                             self.offered("tubewright compare frame.yaml "))
        self.assertEqual({"--second-order"}, self.offered("tubewright check --sec"))
        self.assertEqual({"free", "clamped"}, self.offered("tubewright twist --hold "))
        self.assertEqual({"results/"}, self.offered("tubewright check -o re"))
        self.assertEqual({"bash", "zsh", "fish"}, self.offered("tubewright completion "))
        self.assertEqual({"light", "heavy"},
                         self.offered("tubewright check 'my frame.yml' --case "))
        self.assertEqual({"--case=heavy"},
                         self.offered("tubewright buckle -n 3 frame.yaml --case=he"))
        self.assertEqual(set(), self.offered("tubewright check missing.yaml --case "))


class Cases(CompletionTest):
    """`completion --cases`, which the scripts call."""

    def assertSays(self, names, *words, **options):
        process = run("completion", "--cases", *words, cwd=self.directory, **options)
        self.assertEqual((0, names, ""), (process.returncode, process.stdout, process.stderr))

    def test_it_prints_the_load_cases_one_a_line(self):
        self.assertSays("light\nheavy\n", "frame.yaml")

    def test_it_prints_the_standard_cases_of_a_vehicle_without_cases(self):
        names = run("completion", "--cases", EXAMPLES / "03_cargo_quad.yaml").stdout.split()
        done = run("check", "--json", EXAMPLES / "03_cargo_quad.yaml", "--case", names[-1])
        self.assertIn(done.returncode, (0, 1))

    def test_a_frame_with_faults_has_its_cases_all_the_same(self):
        self.assertSays("light\n", self.file(MISSPELT, "misspelt.yaml"))

    def test_it_never_complains(self):
        os.mkfifo(self.directory / "pipe.yaml")  # reading it would wait for ever
        self.file("frame: [", "broken.yaml")
        for name in ("missing.yaml", "results", "pipe.yaml", "broken.yaml", "notes.txt", "-"):
            self.assertSays("", name)


if __name__ == "__main__":
    unittest.main()
