"""`rank`, `break`: their answers against those of the other commands on a file that is edited."""

import re
import unittest

from program import CANTILEVER, EXAMPLES, ProgramTest, one_json_object, run

BARROW = EXAMPLES / "06_flat_barrow.yaml"


def json_of(*words):
    return one_json_object(run(*words, "--json").stdout)


class Rank(ProgramTest):
    def test_the_next_size_is_what_the_file_with_it_gives(self):
        text = BARROW.read_text()
        rank = json_of("rank", BARROW)["rank"]
        for tube in ("cross_A", "cross_C"):
            for way in ("next_up", "next_down"):
                found = rank["tubes"][tube][way]
                keys = ", ".join(f"{key}: {value}" for key, value in found["section"].items())
                edited = text.replace(f"  {tube}: {{", f"  {tube}: {{", 1)
                edited = re.sub(rf"(  {tube}: .*section: )cross\b", r"\1other", edited)
                edited = edited.replace("sections:\n",
                                        f"sections:\n  other: {{{keys}, material: S235}}\n", 1)
                file = self.file(edited)
                twisted = json_of("twist", file)["torsion"]["stiffness"]
                self.assertAlmostEqual(twisted, found["stiffness"], delta=1e-8 * twisted)
                worst = max(c["worst"]["utilisation"]
                            for c in json_of("check", file)["cases"].values())
                self.assertAlmostEqual(worst, found["utilisation"], delta=1e-8)

    def test_the_slope_with_the_wall_is_that_of_two_files(self):
        text = BARROW.read_text()
        rank = json_of("rank", BARROW)["rank"]
        wall = float(re.search(r"  rail: .*wall: ([0-9.]+)", text).group(1))
        found = []
        for step in (-0.00002, 0.00002):  # the joints have a kink a little beyond
            edited = re.sub(r"(  rail: .*wall: )[0-9.]+", rf"\g<1>{wall + step}", text)
            found.append(json_of("twist", self.file(edited))["torsion"]["stiffness"])
        slope = (found[1] - found[0]) / 0.00004
        self.assertAlmostEqual(slope, rank["groups"]["rail_l.1"]["stiffness_per_wall"],
                               delta=1e-3 * abs(slope))

    def test_a_section_that_is_not_there_is_told(self):
        process = run("rank", BARROW, "--diagonal", "raill")
        self.assertAnswer(2, process)
        self.assertIn("did you mean `rail`?", process.stderr)

    def test_quiet_gives_the_change_that_pays_most(self):
        process = run("rank", BARROW, "-q")
        self.assertAnswer(0, process)
        self.assertEqual(1, process.stdout.count("\n"))
        best = json_of("rank", BARROW)["rank"]["best"]
        self.assertEqual(best + "\n", process.stdout)


class Break(ProgramTest):
    def test_a_tube_lost_is_what_the_file_without_it_gives(self):
        text = BARROW.read_text()
        lost = json_of("break", BARROW)["break"]["tubes"]["cross_C"]
        edited = re.sub(r"  cross_C: .*\n", "", text)
        edited = re.sub(r"  deck_[23]: .*\n", "", edited)  # they end on it
        edited = re.sub(r"yield_factor: [0-9.]+", "yield_factor: 1.0", edited)
        edited = re.sub(r", rare: true", "", edited)
        file = self.file(edited)
        twisted = json_of("twist", file)["torsion"]["stiffness"]
        self.assertAlmostEqual(twisted, lost["stiffness"], delta=1e-8 * twisted)

    def test_a_cantilever_must_not_lose_its_weld(self):
        process = run("break", self.file(CANTILEVER))
        self.assertAnswer(1, process)
        self.assertIn("can move freely", process.stdout)

    def test_the_redundancies_sum_to_the_indeterminacy(self):
        answer = json_of("break", EXAMPLES / "01_wall_bracket.yaml")["break"]
        self.assertAlmostEqual(answer["redundancy_sum"],
                               sum(t["redundancy"] for t in answer["tubes"].values()), delta=1e-6)
        self.assertAlmostEqual(answer["redundancy_sum"], round(answer["redundancy_sum"]),
                               delta=1e-6)

    def test_left_and_right_are_alike(self):
        answer = json_of("break", EXAMPLES / "01_wall_bracket.yaml")["break"]
        for name, end in answer["ends"].items():
            image = re.sub(r"_l\b", "_r", name)
            self.assertEqual(end["mechanism"], answer["ends"][image]["mechanism"], name)


if __name__ == "__main__":
    unittest.main()
