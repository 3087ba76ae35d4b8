"""`vary`: values set, combinations, shards and their merging, by GNU parallel too."""

import csv
import io
import os
import pathlib
import subprocess
import unittest
import xml.etree.ElementTree as xml

from program import CANTILEVER, EXAMPLES, MECHANISM, PROGRAM, ProgramTest, one_json_object, run

HAULER = EXAMPLES / "05_market_hauler.yaml"
WALLS = ("--set", "sections.tube.wall=1.5,2,2.5")
LENGTHS = ("--set", "nodes.tip.x=800..1200/3")


def rows_of(*words):
    return one_json_object(run("vary", *words, "--json").stdout)["vary"]


class Rows(ProgramTest):
    def test_all_combinations_are_made_and_the_last_set_varies_fastest(self):
        rows = rows_of(self.file(CANTILEVER), *WALLS, *LENGTHS)
        self.assertEqual(list(range(9)), [row["combination"] for row in rows])
        self.assertEqual([(wall, x) for wall in (1.5, 2, 2.5) for x in (800, 1000, 1200)],
                         [tuple(row["set"].values()) for row in rows])
        self.assertEqual({"sections.tube.wall", "nodes.tip.x"}, set(rows[0]["set"]))
        for row in rows:
            # A cantilever: mass and the worst moment grow in proportion to its length, the shear
            # beside the moment stays.
            same_wall = rows[row["combination"] // 3 * 3]
            longer = row["set"]["nodes.tip.x"] / 800
            self.assertAlmostEqual(longer, row["mass"] / same_wall["mass"], delta=1e-9)
            self.assertAlmostEqual(longer, row["utilisation"] / same_wall["utilisation"],
                                   delta=1e-3)
            self.assertEqual(("arm", "pass"), (row["item"], row["verdict"]))
            self.assertIsNone(row["stiffness"])

    def test_a_row_has_the_numbers_of_the_file_with_that_value_in_it(self):
        row = rows_of(HAULER, "--set", "sheets.floor.thickness=0.8,1.2",
                      "--set", "sections.rail.wall=2")[1]
        text = HAULER.read_text()
        self.assertIn("thickness: 1.0", text)
        self.assertIn("rail:  {shape: square_tube, side: 20, wall: 1.5", text)
        frame = self.file(text.replace("thickness: 1.0", "thickness: 1.2").replace(
            "rail:  {shape: square_tube, side: 20, wall: 1.5",
            "rail:  {shape: square_tube, side: 20, wall: 2"))
        check = one_json_object(run("check", frame, "--json").stdout)
        twist = one_json_object(run("twist", frame, "--json").stdout)["torsion"]
        modes = one_json_object(run("modes", frame, "--json").stdout)["modes"]
        worst = max((case["worst"] for case in check["cases"].values()),
                    key=lambda w: w["utilisation"])
        self.assertEqual(check["mass"]["tubes"] + check["mass"]["panels"], row["mass"])
        self.assertEqual(twist["stiffness"], row["stiffness"])
        self.assertEqual(min(m["frequency"] for m in modes if m["frame_only"]), row["frequency"])
        self.assertEqual((worst["utilisation"], worst["item"]), (row["utilisation"], row["item"]))
        self.assertEqual(check["verdict"]["answer"], row["verdict"])

    def test_the_mirror_image_follows(self):
        rows = rows_of(HAULER, "--set", "nodes.low2_l.y=250,300")
        text = HAULER.read_text()
        self.assertIn("low2_l:  [-500, 250, 250]", text)
        frame = self.file(text.replace("low2_l:  [-500, 250, 250]", "low2_l:  [-500, 300, 250]"))
        mass = one_json_object(run("check", frame, "--json").stdout)["mass"]
        self.assertEqual(mass["tubes"] + mass["panels"], rows[1]["mass"])
        self.assertNotEqual(rows[0]["mass"], rows[1]["mass"])

    def test_a_combination_without_answer_is_a_row_that_says_why(self):
        process = run("vary", self.file(CANTILEVER), "--set", "supports.wall=fixed,pinned",
                      "--json")
        self.assertAnswer(0, process)
        held, loose = one_json_object(process.stdout)["vary"]
        self.assertEqual("pass", held["verdict"])
        self.assertEqual("no_answer", loose["verdict"])
        self.assertIn("`tip` can move", loose["reason"])
        for key in ("mass", "stiffness", "frequency", "utilisation", "item"):
            self.assertIsNone(loose[key])

    def test_where_none_passes_the_exit_code_is_1(self):
        frame = self.file(CANTILEVER.replace("[0, 0, -50]", "[0, 0, -900]"))
        process = run("vary", frame, *WALLS)
        self.assertAnswer(1, process)
        self.assertTrue(process.stdout.startswith("None of the 3 combinations passes: 3 fail\n"))
        shard = run("vary", frame, *WALLS, "--shard", "0/2")
        self.assertAnswer(0, shard)  # the others may

    def test_quiet_gives_the_lightest_in_one_line(self):
        process = run("vary", self.file(CANTILEVER), *WALLS, "-q")
        self.assertAnswer(0, process)
        self.assertEqual(1, process.stdout.count("\n"))
        self.assertIn("sections.tube.wall = 1.5", process.stdout)

    def test_the_frame_may_come_through_standard_input(self):
        process = run("vary", "-", *WALLS, "-q", text=CANTILEVER)
        self.assertAnswer(0, process)


class Refused(ProgramTest):
    def assertRefused(self, words, *hints, frame=CANTILEVER):
        process = run("vary", self.file(frame), *words, "--json")
        self.assertAnswer(2, process)
        problems = one_json_object(process.stdout)["error"]["problems"]
        for hint in hints:
            self.assertIn(hint, process.stderr)
        return problems

    def test_faults_of_several_sets_are_told_all_at_once(self):
        problems = self.assertRefused(
            ("--set", "sektions.tube.wall=1", "--set", "nodes.tip.q=1,2", "--set",
             "sections.tube.side=25..40", "--set", "sections.tube.wall=abc,2", "--shard", "3/3"),
            "did you mean `sections`?", "x, y and z", "25..40/5", "`abc` is not a length",
            "here 0 to 2")
        self.assertEqual(5, len(problems))

    def test_without_a_set_an_example_of_the_frame_is_given(self):
        self.assertRefused((), "--set 'sections.tube.wall=1.5,2,2.5'")

    def test_too_many_combinations_are_refused_with_the_number_of_shards_to_take(self):
        many = ("--set", "nodes.tip.x=800..1200/1000", "--set", "sections.tube.side=20..30/250")
        self.assertRefused(many, "250000 combinations", "--shard 0/3")
        self.assertRefused((*many, "--shard", "0/2"), "250000 combinations", "--shard 0/3")

    def test_a_frame_with_faults_is_told_with_its_places(self):
        process = run("vary", self.file(CANTILEVER.replace("wall: 2,", "wal: 2,")), *WALLS)
        self.assertAnswer(2, process)
        self.assertIn("frame.yaml:3:", process.stderr)

    def test_a_frame_that_is_a_mechanism_may_be_mended_by_a_set(self):
        rows = rows_of(self.file(MECHANISM), "--set", "supports.wall=pinned,fixed")
        self.assertEqual(["no_answer", "pass"], [row["verdict"] for row in rows])


class Shards(ProgramTest):
    def setUp(self):
        super().setUp()
        self.frame = self.file(CANTILEVER)
        # Numbers with long fractions, one combination that fails, one without answer.
        self.words = ("--set", "sections.tube.wall=1..2.7/4", "--set", "supports.wall=fixed,pinned",
                      "--set", "cases.light.note=a,'b, c'")
        self.out = self.directory / "out"

    def shards(self, count):
        for i in range(count):
            process = run("vary", self.frame, *self.words, "--shard", f"{i}/{count}",
                          "-o", self.out, "-q")
            self.assertAnswer(0, process)
        return sorted(self.out.glob(f"vary_*_of_{count}.json"))

    def test_merged_shards_are_the_whole_run_byte_for_byte(self):
        whole = {form: run("vary", self.frame, *self.words, *form).stdout
                 for form in ((), ("--json",), ("--csv",), ("-q",))}
        self.assertEqual(16, len(one_json_object(whole[("--json",)])["vary"]))
        for count in (1, 3, 7, 20):  # of 20, four are empty
            files = self.shards(count)
            self.assertEqual(count, len(files))
            for form, text in whole.items():
                merged = run("vary", "--merge", *files, *form)
                self.assertAnswer(0, merged)
                self.assertEqual(text, merged.stdout)

    def test_csv_of_shards_sorted_by_its_first_column_is_the_whole_run(self):
        whole = run("vary", self.frame, *self.words, "--csv").stdout
        for count in (1, 3, 7):
            self.shards(count)
            merged = subprocess.run(
                f"head -qn 1 vary_0_of_{count}.csv; "
                f"tail -qn +2 vary_*_of_{count}.csv | sort -n", shell=True, cwd=self.out,
                text=True, stdout=subprocess.PIPE, check=True).stdout
            self.assertEqual(whole, merged)

    def test_a_shard_that_is_run_again_changes_nothing(self):
        files = self.shards(3)
        before = [file.read_bytes() for file in files]
        self.assertEqual(before, [file.read_bytes() for file in self.shards(3)])
        once = run("vary", "--merge", *files, "--json").stdout
        self.assertEqual(once, run("vary", "--merge", *files, files[1], "--json").stdout)

    def test_a_shard_that_is_missing_or_of_another_frame_is_told(self):
        files = self.shards(3)
        process = run("vary", "--merge", files[0], files[2])
        self.assertAnswer(2, process)
        self.assertIn("5 of 16 combinations are missing, number 1 the first", process.stderr)
        self.frame.write_text(CANTILEVER.replace("1000", "1001"))
        run("vary", self.frame, *self.words, "--shard", "1/3", "-o", self.out, "-q")
        process = run("vary", "--merge", *files)
        self.assertAnswer(2, process)
        self.assertIn("different questions", process.stderr)
        process = run("vary", "--merge", self.directory / "none.json", self.frame, "--json")
        self.assertAnswer(2, process)
        self.assertEqual(1, len(one_json_object(process.stdout)["error"]["problems"]))

    def test_all_files_of_a_directory_are_written(self):
        process = run("vary", self.frame, *self.words, "-o", self.out, "--json")
        self.assertAnswer(0, process)
        self.assertEqual(process.stdout, (self.out / "vary.json").read_text())
        rows = list(csv.DictReader(io.StringIO((self.out / "vary.csv").read_text())))
        self.assertEqual([str(i) for i in range(16)], [row["combination"] for row in rows])
        self.assertEqual("b, c", rows[1]["cases.light.note"])
        picture = xml.parse(self.out / "vary.svg").getroot()
        titles = [t for t in picture.iter("{http://www.w3.org/2000/svg}title")
                  if t.text.startswith("number ")]
        self.assertEqual(8, len(titles))

    def test_a_directory_that_cannot_be_written_gives_2(self):
        process = run("vary", self.frame, *self.words, "-o", self.frame)
        self.assertAnswer(2, process)
        self.assertIn("frame.yaml", process.stderr)


class Jobs(ProgramTest):
    """The ready-made scripts in cases/; GNU parallel is the real one."""

    def script(self, name, *words, **variables):
        env = {**os.environ, "TUBEWRIGHT": str(pathlib.Path(PROGRAM).resolve()), **variables}
        return subprocess.run(["bash", EXAMPLES / name, *map(str, words)], env=env, text=True,
                              capture_output=True, timeout=120, stdin=subprocess.DEVNULL)

    def setUp(self):
        super().setUp()
        self.frame = self.file(CANTILEVER, "my frame.yaml")
        self.words = ("--set", "sections.tube.wall=1..2/3",
                      "--set", "cases.light.note='it is, $HOME',b")
        self.whole = run("vary", self.frame, *self.words, "--json").stdout
        self.out = self.directory / "the results"

    def test_gnu_parallel_gives_what_one_run_gives(self):
        process = self.script("vary_parallel.sh", 4, self.out, self.frame, *self.words)
        self.assertEqual(0, process.returncode, process.stderr)
        self.assertTrue(process.stdout.startswith("The lightest of the 6 combinations"))
        self.assertEqual(self.whole, (self.out / "vary.json").read_text())

    def test_started_again_it_makes_what_is_missing_and_begins_anew_for_another_frame(self):
        self.script("vary_parallel.sh", 2, self.out, self.frame, *self.words)
        log = next(self.out.glob("jobs_*.log"))
        self.assertEqual(3, len(log.read_text().splitlines()))
        first = (self.out / "vary_0_of_2.json").stat().st_mtime_ns
        process = self.script("vary_parallel.sh", 2, self.out, self.frame, *self.words)
        self.assertEqual(0, process.returncode, process.stderr)
        self.assertEqual(first, (self.out / "vary_0_of_2.json").stat().st_mtime_ns)
        self.frame.write_text(CANTILEVER.replace("1000", "1100"))
        process = self.script("vary_parallel.sh", 2, self.out, self.frame, *self.words)
        self.assertEqual(0, process.returncode, process.stderr)
        self.assertEqual(run("vary", self.frame, *self.words, "--json").stdout,
                         (self.out / "vary.json").read_text())

    def test_a_set_that_is_refused_is_told_through_gnu_parallel_too(self):
        process = self.script("vary_parallel.sh", 2, self.out, self.frame, "--set", "nodes.tap.x=1")
        self.assertNotEqual(0, process.returncode)
        self.assertIn("did you mean `tip`?", process.stderr)

    def assertMerges(self, count):
        merged = run("vary", "--merge", *self.out.glob(f"vary_*_of_{count}.json"), "--json")
        self.assertEqual(self.whole, merged.stdout)

    def test_each_task_of_a_job_array_is_a_shard(self):
        for task in (5, 7, 9):
            process = self.script("vary_slurm.sh", self.out, self.frame, *self.words,
                                  SLURM_ARRAY_TASK_ID=str(task), SLURM_ARRAY_TASK_MIN="5",
                                  SLURM_ARRAY_TASK_COUNT="3", SLURM_ARRAY_TASK_STEP="2")
            self.assertEqual(0, process.returncode, process.stderr)
        self.assertMerges(3)

    def test_each_rank_is_a_shard_whoever_started_it(self):
        names = (("OMPI_COMM_WORLD_RANK", "OMPI_COMM_WORLD_SIZE"), ("PMI_RANK", "PMI_SIZE"),
                 ("SLURM_PROCID", "SLURM_NTASKS"))
        for count, (rank, size) in enumerate(names, start=1):
            for i in range(count):
                process = self.script("vary_mpi.sh", self.out, self.frame, *self.words,
                                      **{rank: str(i), size: str(count)})
                self.assertEqual(0, process.returncode, process.stderr)
            self.assertMerges(count)
        self.assertEqual(2, self.script("vary_mpi.sh", self.out, self.frame,
                                        *self.words).returncode)

    def test_a_script_without_its_words_says_how_to_call_it(self):
        for name in ("vary_parallel.sh", "vary_slurm.sh", "vary_mpi.sh"):
            process = self.script(name)
            self.assertEqual(2, process.returncode)
            self.assertIn(name, process.stderr)


if __name__ == "__main__":
    unittest.main()
