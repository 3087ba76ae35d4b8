"""The index of the cases, read as any XML is."""
import os
import xml.etree.ElementTree

import read_back
from read_back import ReadBack, path


class Index(ReadBack):
    def setUp(self):
        root = xml.etree.ElementTree.parse(path("cantilever", "loads.pvd")).getroot()
        self.assertEqual((root.tag, root.get("type")), ("VTKFile", "Collection"))
        self.entries = root.findall("Collection/DataSet")

    def test_each_case_is_one_time_step_of_two_parts(self):
        steps = [(float(e.get("timestep")), e.get("part")) for e in self.entries]
        self.assertEqual(steps, [(step, part) for step in (1, 2, 3, 4) for part in ("0", "1")])

    def test_it_lists_the_files_beside_it_and_nothing_is_left_half_written(self):
        listed = {entry.get("file") for entry in self.entries}
        written = set(os.listdir(path("cantilever")))
        self.assertEqual(listed, written - {"loads.pvd", "reported.txt"})


if __name__ == "__main__":
    read_back.main()
