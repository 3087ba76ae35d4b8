"""The Debian packages: what they are called, hold and depend on."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

BUILD_DIR, CPACK = sys.argv.pop(1), sys.argv.pop(1)


def output(*words):
    return subprocess.run(words, check=True, capture_output=True, text=True).stdout


class Packages(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        output(CPACK, "--config", BUILD_DIR + "/CPackConfig.cmake", "-G", "DEB", "-B",
               cls.scratch.name)
        cls.files = {output("dpkg-deb", "-f", str(path), "Package").strip(): str(path)
                     for path in pathlib.Path(cls.scratch.name).glob("*.deb")}

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def test_there_is_one_package_for_the_program_and_one_for_the_library(self):
        self.assertEqual(sorted(self.files), ["tubewright", "tubewright-dev"])

    def test_the_program_is_installed_under_usr_and_runs(self):
        self.assertIn("./usr/bin/tubewright\n", output("dpkg-deb", "-c", self.files["tubewright"]))
        with tempfile.TemporaryDirectory() as root:
            output("dpkg-deb", "-x", self.files["tubewright"], root)
            version = output(root + "/usr/bin/tubewright", "--version")
            self.assertTrue(version.startswith("tubewright "))

    def test_the_installed_program_finds_the_one_that_draws(self):
        bracket = next((pathlib.Path(__file__).parents[2] / "cases").glob("01_*.yaml"))
        with tempfile.TemporaryDirectory() as root:
            output("dpkg-deb", "-x", self.files["tubewright"], root)
            subprocess.run([root + "/usr/bin/tubewright", "check", str(bracket), "--case", "both",
                            "-o", root + "/out"], check=True, capture_output=True,
                           env=dict(os.environ, DISPLAY=""))
            self.assertTrue(pathlib.Path(root, "out", "loads_01_both.png").is_file())

    def test_shells_and_man_find_what_is_for_them(self):
        # Debian: bash-completion, zsh and fish read what packages bring under /usr/share; zsh looks
        # in vendor-completions there, in site-functions under /usr/local/share (its $fpath).
        listing = output("dpkg-deb", "-c", self.files["tubewright"])
        for path in ("bash-completion/completions/tubewright",
                     "zsh/vendor-completions/_tubewright", "zsh/site-functions/_tubewright",
                     "fish/vendor_completions.d/tubewright.fish", "man/man1/tubewright.1"):
            self.assertIn("./usr/share/" + path + "\n", listing)
        with tempfile.TemporaryDirectory() as root:
            output("dpkg-deb", "-x", self.files["tubewright"], root)
            for shell, path in (("bash", "bash-completion/completions/tubewright"),
                                ("zsh", "zsh/vendor-completions/_tubewright"),
                                ("fish", "fish/vendor_completions.d/tubewright.fish")):
                self.assertEqual(output(root + "/usr/bin/tubewright", "completion", shell),
                                 pathlib.Path(root, "usr/share", path).read_text())

    def test_licence_and_readme_with_its_chapters_come_along(self):
        listing = output("dpkg-deb", "-c", self.files["tubewright"])
        for path in ("copyright", "LICENSE", "README.md", "CHANGELOG.md", "io/README.md",
                     "cases/01_wall_bracket.yaml", "cases/pictures/hauler_report.png"):
            self.assertIn("./usr/share/doc/tubewright/" + path + "\n", listing)
        self.assertIn("./usr/share/doc/tubewright-dev/copyright\n",
                      output("dpkg-deb", "-c", self.files["tubewright-dev"]))

    def test_the_program_depends_on_the_shared_libraries_it_uses(self):
        fields = output("dpkg-deb", "-f", self.files["tubewright"])
        self.assertIn("Section: science", fields)
        self.assertRegex(fields, "Depends: .*libyaml-cpp")
        self.assertRegex(fields, "Depends: .*libutf8proc")
        self.assertRegex(fields, "Depends: .*libvtk9")

    def test_the_library_package_holds_headers_and_the_cmake_package(self):
        listing = output("dpkg-deb", "-c", self.files["tubewright-dev"])
        self.assertIn("/usr/include/tubewright/solver/statics/statics.h\n", listing)
        self.assertIn("/tubewright-config.cmake\n", listing)
        self.assertNotIn("/usr/bin/", listing)


if __name__ == "__main__":
    unittest.main()
