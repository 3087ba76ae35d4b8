"""The drawings of sheets: what `cut -o` writes, read back by programs that are not ours.

Needs the Debian package python3-ezdxf."""

import re
import unittest
import xml.etree.ElementTree as xml

from program import CANTILEVER, EXAMPLES, ProgramTest, one_json_object, run

HAULER = EXAMPLES / "05_market_hauler.yaml"
BARROW = EXAMPLES / "06_flat_barrow.yaml"
SVG = "{http://www.w3.org/2000/svg}"

# An L of three bays, its rivets far apart, in a title that wants escaping everywhere.
CORNER = """\
frame: 'Flügel & <L> "eins"'
sections:
  tube: {shape: square_tube, side: 20, wall: 1.5, material: S235}
nodes:
  a: [0, 0, 0]
  b: [300, 0, 0]
  c: [600, 0, 0]
  d: [0, 250, 0]
  e: [300, 250, 0]
  f: [600, 250, 0]
  g: [0, 500, 0]
  h: [300, 500, 0]
members:
  ab: {from: a, to: b, section: tube}
  bc: {from: b, to: c, section: tube}
  de: {from: d, to: e, section: tube}
  ef: {from: e, to: f, section: tube}
  gh: {from: g, to: h, section: tube}
  ad: {from: a, to: d, section: tube}
  dg: {from: d, to: g, section: tube}
  be: {from: b, to: e, section: tube}
  eh: {from: e, to: h, section: tube}
  cf: {from: c, to: f, section: tube}
sheets:
  wing:
    {material: EN AW-5754-H22, thickness: 1.2, offset: 10.6,
     joint: {rivet: {diameter: 3.2, pitch: 60}}}
panels:
  p1: {corners: [a, b, e, d], sheet: wing}
  p2: {corners: [b, c, f, e], sheet: wing}
  p3: {corners: [d, e, h, g], sheet: wing}
supports:
  a: fixed
cases:
  light: {kind: static, forces: {f: [0, 0, -50]}}
"""


def area(points):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


class Sheets(ProgramTest):
    def cut(self, frame):
        """The sheets by JSON, and the directory of their drawings."""
        out = self.directory / "out"
        process = run("cut", frame, "--json", "-o", out)
        self.assertAnswer(0, process)
        return one_json_object(process.stdout)["cut"]["sheets"], out

    def frames(self):
        return HAULER, BARROW, self.file(CORNER)

    def test_outline_mass_and_holes_agree_with_each_other(self):
        # Density of EN AW-5754: 2660 to 2700 kg/m3 (handbooks, from memory).
        for frame in self.frames():
            for sheet in self.cut(frame)[0]:
                self.assertAlmostEqual(area(sheet["outline"]), sheet["area"],
                                       delta=1e-6 * sheet["area"] + 1)
                density = sheet["mass"] / (sheet["area"] * sheet["thickness"]) * 1e9
                self.assertTrue(2650 < density < 2710, density)
                self.assertEqual(sheet["rivets"], len(sheet["holes"]))
                for axis, side in ((0, "width"), (1, "height")):
                    at = [p[axis] for p in sheet["outline"]]
                    self.assertAlmostEqual(0, min(at), delta=1e-3)
                    self.assertAlmostEqual(sheet[side], max(at), delta=2e-3)

    def test_the_l_is_one_piece_flush_with_its_tubes(self):
        sheets, out = self.cut(self.file(CORNER))
        self.assertEqual(["wing"], [s["name"] for s in sheets])
        self.assertEqual(["p1", "p2", "p3"], sheets[0]["panels"])
        # By hand: 620 by 520 less the missing bay, 300 by 250.
        self.assertEqual([620, 520], [sheets[0]["width"], sheets[0]["height"]])
        self.assertAlmostEqual(620 * 520 - 300 * 250, sheets[0]["area"], delta=1e-3)
        self.assertEqual(6, len(sheets[0]["outline"]))
        self.assertAlmostEqual(3.3, sheets[0]["holes"][0][2])
        self.assertEqual({"cut_list.csv", "sheet_wing.dxf", "sheet_wing.svg"},
                         {p.name for p in out.iterdir()})

    def test_a_reader_of_dxf_finds_outline_holes_and_tubes(self):
        try:
            import ezdxf
            from ezdxf.lldxf.encoding import decode_dxf_unicode
        except ImportError:
            self.skipTest("python3-ezdxf is not installed")
        for frame in self.frames():
            for sheet in (found := self.cut(frame))[0]:
                document = ezdxf.readfile(found[1] / f"{sheet['file']}.dxf")
                self.assertEqual("AC1009", document.dxfversion)  # release 12
                self.assertEqual([], document.audit().errors)
                space = document.modelspace()
                self.assertTrue({"OUTLINE", "RIVETS", "TUBES", "TEXT"}
                                <= {layer.dxf.name for layer in document.layers})
                outlines = list(space.query('POLYLINE[layer=="OUTLINE"]'))
                self.assertEqual(1, len(outlines))
                self.assertTrue(outlines[0].is_closed)
                points = [(v.dxf.location.x, v.dxf.location.y) for v in outlines[0].vertices]
                self.assertAlmostEqual(sheet["area"], area(points), delta=1)
                holes = sorted((c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius)
                               for c in space.query('CIRCLE[layer=="RIVETS"]'))
                self.assertEqual(sheet["rivets"], len(holes))
                for drawn, told in zip(holes, sorted(sheet["holes"])):
                    for a, b in zip(drawn, told):
                        self.assertAlmostEqual(a, b, delta=2e-3)
                self.assertEqual(len(sheet["tubes"]), len(space.query('LINE[layer=="TUBES"]')))
                self.assertEqual({"OUTLINE", "RIVETS", "TUBES", "TEXT"},
                                 {e.dxf.layer for e in space})
                words = " ".join(t.dxf.text for t in space.query("TEXT"))
                for part in (sheet["name"], f"{sheet['rivets']} holes", sheet["material"], "mm"):
                    self.assertIn(part, words)
                if sheet["name"] == "wing":
                    self.assertIn("Flügel & <L>", decode_dxf_unicode(words))

    def test_the_svg_is_well_formed_and_in_true_scale(self):
        for frame in self.frames():
            for sheet in (found := self.cut(frame))[0]:
                root = xml.parse(found[1] / f"{sheet['file']}.svg").getroot()
                box = root.get("viewBox").split()
                self.assertEqual([box[2] + "mm", box[3] + "mm"],
                                 [root.get("width"), root.get("height")])
                groups = {g.get("id"): g for g in root.findall(SVG + "g")}
                path = groups["outline"].find(SVG + "path").get("d")
                numbers = [float(n) for n in re.findall(r"-?[\d.]+", path)]
                for at, side in ((numbers[0::2], "width"), (numbers[1::2], "height")):
                    self.assertAlmostEqual(sheet[side], max(at) - min(at), delta=3e-3)
                    self.assertGreater(min(at), 0)
                self.assertLess(max(numbers[0::2]), float(box[2]))
                self.assertLess(max(numbers[1::2]), float(box[3]))
                holes = groups["rivets"].findall(SVG + "circle")
                self.assertEqual(sheet["rivets"], len(holes))
                left, low = min(numbers[0::2]), max(numbers[1::2])
                drawn = sorted((float(h.get("cx")) - left, low - float(h.get("cy")),
                                2 * float(h.get("r"))) for h in holes)
                for circle, told in zip(drawn, sorted(sheet["holes"])):
                    for a, b in zip(circle, told):
                        self.assertAlmostEqual(a, b, delta=3e-3)
                self.assertEqual(len(sheet["tubes"]), len(groups["tubes"].findall(SVG + "line")))
                words = " ".join(groups["text"].itertext())
                for part in (f"{sheet['width']:.1f}", f"{sheet['height']:.1f}",
                             f"{sheet['rivets']} holes", sheet["material"]):
                    self.assertIn(part, words)

    def test_check_writes_the_same_drawings(self):
        out = self.cut(HAULER)[1]
        process = run("check", HAULER, "-o", self.directory / "check")
        self.assertAnswer(0, process)
        self.assertIn("sheet_floor.dxf", process.stderr)
        for name in ("cut_list.csv", "sheet_floor.dxf", "sheet_floor.svg"):
            self.assertEqual((out / name).read_bytes(),
                             (self.directory / "check" / name).read_bytes())

    def test_the_text_tells_what_to_buy(self):
        process = run("cut", HAULER)
        self.assertRegex(process.stdout,
                         r"floor +1520\.0 +520\.0 +2\.11 +128  1\.0 mm EN AW-5754-H22")

    def test_a_frame_without_sheets_has_no_drawings(self):
        sheets, out = self.cut(self.file(CANTILEVER))
        self.assertEqual([], sheets)
        self.assertEqual(["cut_list.csv"], [p.name for p in out.iterdir()])

    def test_a_place_that_cannot_be_written_gives_2(self):
        process = run("cut", HAULER, "-o", self.file("", "taken"))
        self.assertAnswer(2, process)
        self.assertIn("cannot write", process.stderr)
        self.assertAnswer(2, run("cut", HAULER, "-o", ""))


if __name__ == "__main__":
    unittest.main()
