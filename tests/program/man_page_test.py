"""The manual page, as roff sees it."""

import re
import subprocess
import sys
import unittest

PAGE = sys.argv.pop(1)


class ManPage(unittest.TestCase):
    def test_roff_has_no_warning(self):
        process = subprocess.run(["groff", "-man", "-ww", "-z", "-Tutf8", PAGE],
                                 capture_output=True, text=True, timeout=60)
        self.assertEqual((0, "", ""), (process.returncode, process.stdout, process.stderr))

    def test_what_is_to_be_typed_comes_out_as_it_is_typed(self):
        text = subprocess.run(["groff", "-man", "-Tutf8", "-P-c", "-rLL=200n", PAGE],
                              capture_output=True, text=True, check=True, timeout=60).stdout
        plain = re.sub(".\b", "", text)  # bold and underlined letters are struck over
        self.assertIn("tubewright check frame.yaml -o results", plain)
        self.assertIn("-o, --output DIR", plain)
        self.assertIn("tubewright bench-test FRAME.yaml", plain)
        self.assertIn("tubewright's words", plain)


if __name__ == "__main__":
    unittest.main()
