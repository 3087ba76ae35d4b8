"""The checks of `check` as a user meets them: keys, options, JSON, files."""

import math
import unittest
import xml.etree.ElementTree as ET

from program import CANTILEVER, EXAMPLES, ProgramTest, one_json_object, run

MAST = """frame: mast
sections: {t: {shape: square_tube, side: 25, wall: 2, material: S235, shear: false}}
nodes: {foot: [0, 0, 0], head: [0, 0, 1000]}
members: {mast: {from: foot, to: head, section: t%s}}
supports: {foot: fixed}
cases: {load: {kind: static, forces: {head: [50, 0, -3000]}%s}}
limits: {yield_factor: 1}
"""
EI = 210000 * 14835  # N mm2, 25x25x2 of EN 10219-2


def mast(member="", case=""):
    return MAST % (member, case)


class Checks(ProgramTest):
    def answer(self, text, *options):
        process = run("check", self.file(text), "--json", *options)
        self.assertIn(process.returncode, (0, 1), process.stderr)
        return one_json_object(process.stdout)

    def checks(self, text, *options):
        return self.answer(text, *options)["cases"]["load"]["members"]["mast"]["checks"]

    def test_every_check_has_a_number_or_a_reason(self):
        results = one_json_object(run("check", EXAMPLES / "03_cargo_quad.yaml", "--json").stdout)
        for case in results["cases"].values():
            for name, member in case["members"].items():
                checks = member["checks"]
                for check in ("yield", "section", "buckling", "weld", "joint"):
                    if checks[check] is None:
                        self.assertTrue(checks["reason"][check], f"{name} {check}")
                    else:
                        self.assertGreaterEqual(checks[check], 0)
        for check in ("yield", "section", "buckling", "weld"):
            self.assertTrue(results["rules"][check])

    def test_a_given_length_and_throat_are_used(self):
        usual, short = self.checks(mast()), self.checks(mast(", buckling_length: [0.5, 0.5]"))
        self.assertLess(short["buckling"], usual["buckling"])
        self.assertEqual(self.checks(mast(", buckling_length: 0.5"))["buckling"], short["buckling"])
        # On a wall below 4 mm a throat beyond the wall adds nothing (EN 1993-1-3 8.5.2).
        self.assertAlmostEqual(usual["weld"], self.checks(mast(", weld_throat: 4"))["weld"],
                               delta=1e-9)
        self.assertAlmostEqual(usual["weld"] * 2, self.checks(mast(", weld_throat: 1"))["weld"],
                               delta=1e-9)
        self.assertEqual("from", usual["weld_at"])

    def test_a_case_may_set_its_own_factor(self):
        self.assertAlmostEqual(1.25 * self.checks(mast())["yield"],
                               self.checks(mast(case=", yield_factor: 1.25"))["yield"], delta=1e-12)

    def test_second_order_amplifies_as_the_closed_form_says(self):
        results = self.answer(mast(), "--second-order")
        self.assertEqual("second_order", results["analysis"])
        a = math.sqrt(3000 * 1000**2 / EI)  # AISC 360-10 C2, case 2: M = H L tan a/a
        moment = abs(results["cases"]["load"]["members"]["mast"]["from"][4])
        self.assertAlmostEqual(50 * math.tan(a) / a, moment, delta=0.01 * moment)
        self.assertGreater(results["cases"]["load"]["second_order"]["growth"], 1.5)

    def test_large_displacements_agree_with_second_order_while_they_are_small(self):
        text = mast().replace("[50, 0, -3000]", "[5, 0, -3000]")
        second = self.answer(text, "--second-order")["cases"]["load"]["nodes"]["head"]
        large = self.answer(text, "--large-displacement")["cases"]["load"]["nodes"]["head"]
        self.assertAlmostEqual(second["displacement"][0], large["displacement"][0],
                               delta=0.01 * second["displacement"][0])

    def test_both_at_once_are_refused(self):
        process = run("check", self.file(mast()), "--second-order", "--large-displacement")
        self.assertAnswer(2, process)
        self.assertIn("exclude each other", process.stderr)

    def test_a_mast_beyond_its_critical_load_fails(self):
        results = self.answer(mast().replace("-3000", "-9000"))
        self.assertGreater(results["cases"]["load"]["worst"]["utilisation"], 1)
        self.assertLess(results["cases"]["load"]["sway_factor"], 1)

    def test_the_table_of_what_may_come_out_otherwise(self):
        rows = {r["change"]: r for r in self.answer(mast())["uncertainty"]}
        self.assertGreater(rows["walls 10 % thinner"]["utilisation"],
                           rows["as drawn"]["utilisation"])

    def test_a_life_counts_and_is_explained(self):
        life = "life: {spectrum: [{case: load, cycles: %s}]}\n"
        long, short = (run("check", self.file(mast() + life % n)) for n in ("1e7", "1"))
        self.assertAnswer(1, long)
        self.assertIn("of its fatigue range", long.stdout)
        self.assertAnswer(0, short)
        fatigue = self.answer(mast() + life % "1e7")["fatigue"]
        self.assertTrue(fatigue["counts"])
        self.assertGreater(fatigue["members"]["mast"]["damage"], 1)

    def test_a_life_of_an_unknown_case_gives_2_with_a_hint(self):
        process = run("check", self.file(mast() + "life: {spectrum: [{case: laod, cycles: 5}]}\n"))
        self.assertAnswer(2, process)
        self.assertIn("did you mean `load`", process.stderr)

    def test_faults_in_the_new_keys_are_told_at_once(self):
        text = mast(", buckling_length: [1, 2, 3], weld_throat: 0") + \
            "life: {design: forever, spectrum: [{cycles: 5}]}\n"
        process = run("check", self.file(text))
        self.assertAnswer(2, process)
        for word in ("buckling_length", "weld_throat", "forever"):
            self.assertIn(word, process.stderr)


class Modes(ProgramTest):
    def steps(self, directory):
        index = ET.parse(directory / "modes.pvd")
        entries = list(index.iter("DataSet"))
        for entry in entries:
            self.assertTrue((directory / entry.get("file")).is_file())
        return entries

    def test_the_animation_has_eight_steps_a_mode(self):
        directory = self.directory / "modes"
        process = run("modes", self.file(CANTILEVER), "-n", "3", "-o", directory)
        self.assertAnswer(0, process)
        self.assertIn("wrote modes.pvd", process.stderr)
        steps = self.steps(directory)
        self.assertEqual(0, len(steps) % 8)
        self.assertGreaterEqual(len(steps), 3 * 8)

    def test_check_writes_it_too(self):
        directory = self.directory / "all"
        process = run("check", EXAMPLES / "01_wall_bracket.yaml", "-o", directory,
                      "--no-pictures")
        self.assertAnswer(0, process)
        self.assertEqual(6 * 8, len(self.steps(directory)))

    def test_a_place_that_cannot_be_written_gives_2(self):
        process = run("modes", self.file(CANTILEVER), "-o", "/dev/null/modes")
        self.assertAnswer(2, process)
        self.assertIn("cannot write", process.stderr)


if __name__ == "__main__":
    unittest.main()
