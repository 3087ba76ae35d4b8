"""`tubewright check`: exit codes, streams, JSON."""

import math
import os
import pty
import subprocess
import unittest

from program import (CANTILEVER, EXAMPLES, MECHANISM, MISSPELT, OVERLOADED, PROGRAM, ProgramTest,
                     one_json_object, run)


class ExitCodes(ProgramTest):
    def test_a_frame_that_holds_gives_0(self):
        process = run("check", self.file(CANTILEVER))
        self.assertAnswer(0, process)
        self.assertIn("PASS", process.stdout)
        self.assertIn("exit code 0", process.stdout)
        self.assertEqual("", process.stderr)

    def test_a_frame_that_yields_gives_1_and_names_member_and_case(self):
        process = run("check", self.file(OVERLOADED))
        self.assertAnswer(1, process)
        self.assertIn("FAIL: arm in case heavy", process.stdout)
        self.assertIn("exit code 1", process.stdout)

    def test_a_mechanism_gives_2_and_no_results(self):
        process = run("check", self.file(MECHANISM))
        self.assertAnswer(2, process)
        self.assertEqual("", process.stdout)
        self.assertIn("error", process.stderr)

    def test_a_fault_in_the_file_gives_2_with_its_place(self):
        path = self.file(MISSPELT)
        process = run("check", path)
        self.assertAnswer(2, process)
        self.assertEqual("", process.stdout)
        self.assertIn(f"{path}:3:", process.stderr)
        self.assertIn("`wall`", process.stderr)

    def test_files_that_cannot_be_read_give_2(self):
        for path, reason in ((self.directory / "none.yaml", "No such file"),
                             (self.directory, "directory")):
            process = run("check", path)
            self.assertAnswer(2, process)
            self.assertIn("cannot read", process.stderr)
            self.assertIn(reason, process.stderr)

    def test_an_endless_file_gives_2(self):
        self.assertAnswer(2, run("check", "/dev/zero"))

    def test_a_frame_without_cases_gives_2_and_says_so(self):
        process = run("check", self.file(CANTILEVER[:CANTILEVER.index("cases:")]))
        self.assertAnswer(2, process)
        self.assertIn("no load cases", process.stderr)


class Examples(ProgramTest):
    def test_each_example_frame_passes_without_a_warning(self):
        frames = sorted(EXAMPLES.glob("*.yaml"))
        self.assertGreaterEqual(len(frames), 2)
        for frame in frames:
            process = run("check", frame)
            self.assertAnswer(0, process)
            idle = frame.name == "06_flat_barrow.yaml"  # what that example is there to show
            warnings = [line for line in process.stderr.splitlines()
                        if "warning:" in line or "likewise:" in line]
            self.assertEqual(6 if idle else 0, len(warnings), process.stderr)
            self.assertEqual(2 if idle else 0, process.stderr.count("warning:"))
            told = [w for w in warnings if "closes no torque tube" in w]
            self.assertEqual(4 if idle else 0, len(told), process.stderr)
            told = [w for w in warnings if "ends open" in w]
            self.assertEqual(2 if idle else 0, len(told), process.stderr)
            self.assertIn("PASS", process.stdout)


class Warnings(ProgramTest):
    def test_they_stand_below_the_answer_each_once_in_one_block_a_kind(self):
        barrow = EXAMPLES / "06_flat_barrow.yaml"
        panels = [f"panel `deck_{i}` closes no torque tube" for i in (1, 2, 3, 4)]
        for words in (["check"], ["floor"], ["twist"], ["modes"], ["cut"], ["check", "--json"],
                      ["twist", "--json"]):
            both = run(*words, barrow, stderr=subprocess.STDOUT).stdout
            answer = run(*words, barrow, stderr=subprocess.DEVNULL).stdout
            self.assertEqual(answer, both[:len(answer)])
            told = both[len(answer):]
            for panel in panels:
                self.assertEqual(1, told.count(panel), words)
            self.assertEqual(1, told.count("warning: panel"), words)
            self.assertEqual(3, told.count("likewise: panel"), words)


class Sheets(ProgramTest):
    """Half of 20 mm and half of 1.0 mm: 10.5 mm puts the barrow's deck on its tubes."""

    def barrow(self, offset):
        text = (EXAMPLES / "06_flat_barrow.yaml").read_text()
        self.assertIn("    offset: 10.5 ", text)
        return self.file(text.replace("    offset: 10.5 ", f"    offset: {offset} "))

    def test_a_deck_left_in_the_axes_is_told_once_by_each_command_and_passes(self):
        for command in ("check", "cut", "floor"):
            process = run(command, self.barrow(0))
            self.assertAnswer(0, process)
            about = [line for line in process.stderr.splitlines() if "sheet `deck`" in line]
            self.assertEqual(1, len(about), process.stderr)
            self.assertIn("has `offset: 0`", process.stderr)
            self.assertIn("without `offset` it lies on their outer face", process.stderr)

    def test_a_deck_of_which_nothing_is_said_lies_on_its_tubes(self):
        given = (EXAMPLES / "06_flat_barrow.yaml").read_text()
        line = next(line for line in given.splitlines() if line.startswith("    offset: 10.5 "))
        expected = one_json_object(run("check", self.file(given), "--json").stdout)
        for said in ("", "    side: top"):
            process = run("check", self.file(given.replace(line, said)), "--json")
            self.assertAnswer(0, process)
            self.assertNotIn("sheet `deck`", process.stderr)
            self.assertEqual(expected["cases"], one_json_object(process.stdout)["cases"])
        below = run("check", self.file(given.replace(line, "    side: bottom")), "--json")
        self.assertAnswer(0, below)
        # 4 panels of 1 mm, 21 mm lower: 1.4 m by 0.6 m.
        drop = expected["mass"]["centre"][2] - one_json_object(below.stdout)["mass"]["centre"][2]
        total = expected["mass"]["total"]
        self.assertAlmostEqual(21 * expected["mass"]["panels"] / total, drop, delta=1e-6)

    def test_a_side_that_says_nothing_is_refused_with_its_place(self):
        given = (EXAMPLES / "06_flat_barrow.yaml").read_text()
        line = next(line for line in given.splitlines() if line.startswith("    offset: 10.5 "))
        at = given.splitlines().index(line)
        process = run("check", self.file(given.replace(line, "    side: left")))
        self.assertAnswer(2, process)
        self.assertIn(f":{at + 1}:", process.stderr)
        process = run("check", self.file(given.replace(line, "    side: top\n    offset: -10.5")))
        self.assertAnswer(2, process)
        self.assertIn("sheet `deck` has a `side` and an `offset` below 0", process.stderr)

    def test_a_deck_within_its_tubes_or_far_off_them_is_not_proven(self):
        for offset in (5, -9, 31, 400):
            process = run("check", self.barrow(offset))
            self.assertAnswer(1, process)
            self.assertIn("NOT PROVEN", process.stdout.splitlines()[0])
            self.assertIn("sheet `deck`", process.stdout)
        for offset in (-10.5, 11, 20):
            self.assertAnswer(0, run("check", self.barrow(offset)))


class Vehicles(ProgramTest):
    def test_each_case_states_wheels_balance_and_pick_ups(self):
        results = one_json_object(
            run("check", EXAMPLES / "03_cargo_quad.yaml", "--json").stdout)
        weight = results["mass"]["total"] * 9.80665
        standing = results["cases"]["standing"]
        self.assertAlmostEqual(
            weight, sum(wheel["force"][2] for wheel in standing["wheels"].values()),
            delta=1e-6 * weight)
        self.assertIn("T_l", standing["pick_ups"])
        for name, case in results["cases"].items():
            self.assertEqual(4, len(case["wheels"]), name)
            self.assertLess(case["balance"]["restraint_force"], 1e-6, name)
            self.assertLess(case["residual"]["force"], 1e-9, name)
        self.assertTrue(results["cases"]["twist_front_left"]["wheels"]["front_left"]["lifted"])
        self.assertTrue(results["vehicle"]["sprung"])

    def test_an_upright_without_its_tie_rod_is_named(self):
        frame = (EXAMPLES / "03_cargo_quad.yaml").read_text()
        kept = frame.replace(", tie_rod_l]", "]")
        loose = "".join(line for line in kept.splitlines(True) if "tie_rod_l: " not in line)
        process = run("check", self.file(loose))
        self.assertAnswer(2, process)
        self.assertIn("the upright of wheel `front_left` is loose", process.stderr)
        self.assertIn("needs six restraints and has 5", process.stderr)

    def test_a_trailing_arm_without_its_spring_is_refused_and_blames_no_upright(self):
        frame = (EXAMPLES / "03_cargo_quad.yaml").read_text()
        loose = "".join(line for line in frame.splitlines(True) if "spring_r_l: " not in line)
        process = run("check", self.file(loose))
        self.assertAnswer(2, process)
        self.assertIn("without resistance", process.stderr)
        self.assertNotIn("upright", process.stderr)

    def test_a_wheel_that_holds_nothing_down_is_reported_off_the_ground(self):
        frame = (EXAMPLES / "04_school_trike.yaml").read_text()
        round_corners = self.file(frame.replace("corner: 0.3}", "corner: 0.6}"))
        process = run("check", round_corners, "--case", "bend")
        self.assertIn("off the ground", process.stdout)
        self.assertIn("turns over", process.stdout)


class Cases(ProgramTest):
    def test_only_the_case_asked_for_is_solved(self):
        process = run("check", self.file(OVERLOADED), "--case", "light")
        self.assertAnswer(0, process)
        self.assertNotIn("heavy", process.stdout)

    def test_an_unknown_case_gives_2_and_a_hint(self):
        process = run("check", self.file(OVERLOADED), "--case", "hevy")
        self.assertAnswer(2, process)
        self.assertIn("no case `hevy`", process.stderr)
        self.assertIn("did you mean `heavy`?", process.stderr)


class Input(ProgramTest):
    def test_a_dash_reads_standard_input(self):
        process = run("check", "-", text=CANTILEVER)
        self.assertAnswer(0, process)
        self.assertEqual(run("check", self.file(CANTILEVER)).stdout, process.stdout)

    def test_faults_in_standard_input_have_places(self):
        self.assertIn("<stdin>:3:", run("check", "-", text=MISSPELT).stderr)


class Json(ProgramTest):
    def test_one_object_with_the_agreed_keys(self):
        process = run("check", self.file(OVERLOADED), "--json")
        self.assertAnswer(1, process)
        results = one_json_object(process.stdout)
        self.assertEqual("tubewright-results/1", results["schema"])
        self.assertEqual("A cantilever", results["frame"])
        self.assertEqual({"tubes", "panels", "carried", "total", "centre"}, set(results["mass"]))
        self.assertEqual(["light", "heavy"], list(results["cases"]))
        case = results["cases"]["heavy"]
        self.assertLessEqual({"nodes", "reactions", "members", "panels", "wheels", "residual",
                              "worst"}, set(case))
        self.assertEqual({"force", "moment"}, set(case["residual"]))
        self.assertEqual({"check", "item", "utilisation"}, set(case["worst"]))
        self.assertEqual({"displacement", "rotation"}, set(case["nodes"]["tip"]))
        self.assertEqual(["wall"], list(case["reactions"]))
        member = case["members"]["arm"]
        self.assertEqual({"from", "to", "N", "stress", "where", "checks", "section_class"},
                         set(member))
        self.assertEqual({"axial", "bending", "shear", "von_mises"}, set(member["stress"]))
        self.assertLessEqual({"yield", "buckling", "weld"}, set(member["checks"]))
        self.assertFalse({"torsion", "floor", "modes", "buckling"} & set(results))

    def test_the_cantilever_obeys_statics(self):
        """Equilibrium: the wall carries P and P L; the arm's worst place is at the wall."""
        process = run("check", self.file(CANTILEVER), "--json")
        case = one_json_object(process.stdout)["cases"]["light"]
        force, moment = case["reactions"]["wall"]["force"], case["reactions"]["wall"]["moment"]
        for value, expected in zip(force + moment, [0, 0, 50, 0, -50, 0]):
            self.assertTrue(math.isclose(value, expected, abs_tol=1e-6), (force, moment))
        self.assertEqual(0, case["members"]["arm"]["where"])
        self.assertLess(case["nodes"]["tip"]["displacement"][2], 0)

    def test_an_error_is_one_object_too(self):
        for words in (["check", self.file(MISSPELT), "--json"],
                      ["check", self.file(MECHANISM, "m.yaml"), "--json"],
                      ["check", self.directory / "none.yaml", "--json"],
                      ["check", "--json"],
                      ["check", self.file(CANTILEVER, "c.yaml"), "--json", "--case", "x"],
                      ["chekc", "--json"]):
            process = run(*words)
            self.assertAnswer(2, process)
            results = one_json_object(process.stdout)
            self.assertEqual("tubewright-results/1", results["schema"])
            self.assertTrue(results["error"]["problems"][0]["message"])
            self.assertNotEqual("", process.stderr)

    def test_a_fault_in_the_file_keeps_its_place(self):
        path = self.file(MISSPELT)
        problem = one_json_object(run("check", path, "--json").stdout)["error"]["problems"][0]
        self.assertEqual((str(path), 3), (problem["file"], problem["line"]))


class Streams(ProgramTest):
    def test_quiet_prints_the_verdict_only(self):
        process = run("check", self.file(OVERLOADED), "-q")
        self.assertAnswer(1, process)
        self.assertEqual(1, process.stdout.count("\n"))
        self.assertTrue(process.stdout.startswith("FAIL"))
        self.assertEqual("", process.stderr)

    def on_terminal(self, **env):
        main, side = pty.openpty()
        process = run("check", self.file(CANTILEVER), env=env, stdout=side)
        os.close(side)
        self.assertAnswer(0, process)
        text = b""
        try:
            while block := os.read(main, 65536):
                text += block
        except OSError:  # a pty's way of saying end of file
            pass
        os.close(main)
        return text

    def test_colour_is_for_terminals(self):
        self.assertIn(b"\x1b[", self.on_terminal(TERM="xterm"))
        self.assertNotIn("\x1b[", run("check", self.file(CANTILEVER), env={"TERM": "xterm"}).stdout)

    def test_no_color_and_dumb_terminals_are_respected(self):
        self.assertNotIn(b"\x1b[", self.on_terminal(TERM="xterm", NO_COLOR="1"))
        self.assertNotIn(b"\x1b[", self.on_terminal(TERM="dumb"))

    def test_a_pipe_nobody_reads_gives_2_and_a_message(self):
        reading, writing = os.pipe()
        os.close(reading)
        process = run("check", self.file(CANTILEVER), stdout=writing)
        os.close(writing)
        self.assertAnswer(2, process)
        self.assertIn("Broken pipe", process.stderr)

    def test_closed_standard_output_gives_2(self):
        process = subprocess.run(["sh", "-c", '"$0" check "$1" >&-', PROGRAM,
                                  self.file(CANTILEVER)], stderr=subprocess.PIPE, text=True)
        self.assertAnswer(2, process)
        self.assertIn("standard output", process.stderr)

    def test_a_full_disk_behind_standard_output_gives_2(self):
        with open("/dev/full", "w") as full:
            process = run("check", self.file(CANTILEVER), stdout=full)
        self.assertAnswer(2, process)
        self.assertIn("No space left", process.stderr)

    def test_closed_standard_error_spoils_nothing(self):
        path = self.file(CANTILEVER)
        process = subprocess.run(["sh", "-c", '"$0" check "$1" -o "$2" 2>&-', PROGRAM, path,
                                  self.directory / "out"], stdout=subprocess.PIPE, text=True)
        self.assertEqual(0, process.returncode)
        one_json_object((self.directory / "out" / "results.json").read_text())


if __name__ == "__main__":
    unittest.main()
