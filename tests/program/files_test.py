"""Files that the program writes: -o, start; whole or not there, and never a crash without them."""

import os
import resource
import unittest
import xml.etree.ElementTree as xml

from program import CANTILEVER, OVERLOADED, ProgramTest, one_json_object, run


class OutputDirectory(ProgramTest):
    def test_everything_is_written(self):
        out = self.directory / "deep" / "results"
        self.assertAnswer(1, run("check", self.file(OVERLOADED), "-o", out))
        self.assertEqual(["light", "heavy"],
                         list(one_json_object((out / "results.json").read_text())["cases"]))
        listed = [entry.get("file") for entry in xml.parse(out / "loads.pvd").iter("DataSet")]
        self.assertTrue(listed)
        for name in listed:
            self.assertTrue((out / name).is_file(), name)

    def test_the_file_holds_what_json_prints(self):
        path, out = self.file(CANTILEVER), self.directory / "out"
        process = run("check", path, "-o", out, "--json", "--no-pictures")
        self.assertAnswer(0, process)
        self.assertEqual(process.stdout, (out / "results.json").read_text())

    def test_a_second_run_replaces_the_first(self):
        out = self.directory / "out"
        self.assertAnswer(1, run("check", self.file(OVERLOADED), "-o", out, "--no-pictures"))
        self.assertAnswer(0, run("check", self.file(CANTILEVER), "-o", out, "--no-pictures"))
        results = one_json_object((out / "results.json").read_text())
        self.assertEqual(["light"], list(results["cases"]))

    def assertCannotWrite(self, out, **options):
        path = self.file(CANTILEVER)
        process = run("check", path, "-o", out, "--json", "--no-pictures", **options)
        self.assertAnswer(2, process)
        self.assertIn("cannot write", process.stderr)
        error = one_json_object(process.stdout)["error"]
        self.assertIn("cannot write", error["problems"][0]["message"])
        process = run("check", path, "-o", out, "--no-pictures", **options)
        self.assertAnswer(2, process)
        self.assertEqual("", process.stdout)

    def test_a_file_where_the_directory_should_be_gives_2(self):
        self.assertCannotWrite(self.file("x", "taken"))
        self.assertCannotWrite(self.directory / "taken" / "below")

    def test_a_directory_that_cannot_be_made_gives_2(self):
        self.assertCannotWrite("/proc/tubewright")

    @unittest.skipIf(os.geteuid() == 0, "root may write everywhere")
    def test_a_directory_without_permission_gives_2(self):
        out = self.directory / "locked"
        out.mkdir(mode=0o500)
        self.assertCannotWrite(out)

    def test_a_directory_where_a_file_should_be_gives_2(self):
        for name in ("results.json", "loads.pvd"):
            out = self.directory / ("out_" + name)
            (out / name).mkdir(parents=True)
            self.assertCannotWrite(out)

    def test_a_disk_that_fills_up_gives_2_and_leaves_no_half_file(self):
        def small_files_only():
            resource.setrlimit(resource.RLIMIT_FSIZE, (512, 512))
        out = self.directory / "out"
        self.assertCannotWrite(out, preexec_fn=small_files_only)
        self.assertEqual([], [path.name for path in out.iterdir() if path.is_file()])


class Start(ProgramTest):
    def test_the_starter_frame_passes_without_a_warning(self):
        path = self.directory / "new.yaml"
        self.assertAnswer(0, run("start", path))
        process = run("check", path)
        self.assertAnswer(0, process)
        self.assertEqual("", process.stderr)

    def test_an_existing_file_is_left_alone(self):
        path = self.file("mine")
        process = run("start", path)
        self.assertAnswer(2, process)
        self.assertIn("never replaces", process.stderr)
        self.assertEqual("mine", path.read_text())

    def test_a_missing_directory_gives_2(self):
        process = run("start", self.directory / "none" / "new.yaml")
        self.assertAnswer(2, process)
        self.assertIn("No such file or directory", process.stderr)

    def test_a_dash_prints_it(self):
        process = run("start", "-")
        self.assertAnswer(0, process)
        self.assertAnswer(0, run("check", "-", text=process.stdout))


if __name__ == "__main__":
    unittest.main()
