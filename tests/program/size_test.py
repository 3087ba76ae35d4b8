"""`size`: its answer against every choice of sizes checked one by one, the file that it writes, and
what it says of files that it cannot choose sizes for."""

import itertools
import re
import time
import unittest

from program import CANTILEVER, ProgramTest, one_json_object, read_yaml, run

SIZES = ((20, 1.5), (25, 1.5), (25, 2), (30, 2))
BOX = """\
# A box of two bays, as wide as a seat.
frame: A box of two bays   # rings and rails
joints: rigid
sections:
  # All of one section at first.
  rail: {shape: square_tube, side: 30, wall: 2, corners: sharp, material: S235}   # in the shed
  ring:
    shape: square_tube
    side: 30 mm   # as the rails
    wall: 2
    corners: sharp
    material: S235
nodes:
  lb0: [0, 200, 0]
  rb0: [0, -200, 0]
  rt0: [0, -200, 300]
  lt0: [0, 200, 300]
  lb1: [600, 200, 0]
  rb1: [600, -200, 0]
  rt1: [600, -200, 300]
  lt1: [600, 200, 300]
  lb2: [1200, 200, 0]
  rb2: [1200, -200, 0]
  rt2: [1200, -200, 300]
  lt2: [1200, 200, 300]
members:
  lb: {path: [lb0, lb1, lb2], section: rail}
  rb: {path: [rb0, rb1, rb2], section: rail}
  rt: {path: [rt0, rt1, rt2], section: 'rail'}   # quoted, as it may be
  lt: {path: [lt0, lt1, lt2], section: rail}
  # Rings.
  b1: {from: lb1, to: rb1, section: ring}
  r1: {from: rb1, to: rt1, section: ring}
  t1: {from: rt1, to: lt1, section: ring}
  l1: {from: lt1, to: lb1, section: ring}
  b2: {from: lb2, to: rb2, section: ring}
  r2: {from: rb2, to: rt2, section: ring}
  t2: {from: rt2, to: lt2, section: ring}
  l2: {from: lt2, to: lb2, section: ring}
supports: {lb0: pinned, rb0: pinned, rt0: pinned, lt0: pinned}
cases:
  twist: {kind: static, forces: {lb2: [0, 0, 500], rb2: [0, 0, -500]}}
  bend: {kind: static, gravity: [0, 0, -1], forces: {lb2: [0, 0, -200], rb2: [0, 0, -200]}}
limits:
  displacement: {twist: {lb2: {z: %s}}, bend: {rb2: {z: 4}}}
stock:
  sizes:
    - {shape: square_tube, side: 20, wall: 1.5, price: 11}
    - {shape: square_tube, side: 25, wall: 1.5, price: 19}
    - {shape: square_tube, side: 25, wall: 2, price: 16}
    - {shape: square_tube, side: 30, wall: 2, price: 24}
groups:
  rails: [lb, rb, rt, lt]
  middle: [b1, r1, t1, l1]
  end: [b2, r2, t2, l2]
"""
GROUPS = {"rails": ("lb", "rb", "rt", "lt"), "middle": ("b1", "r1", "t1", "l1"),
          "end": ("b2", "r2", "t2", "l2")}
TRUSS = """\
frame: Two rods
joints: rigid
sections:
  thick: {shape: properties, A: 800, Iy: 1e5, Iz: 1e5, It: 2e5, Wy: 4e3, Wz: 4e3, Wt: 8e3,
    material: S235}
  thin: {shape: properties, A: 800, Iy: 1e5, Iz: 1e5, It: 2e5, Wy: 4e3, Wz: 4e3, Wt: 8e3,
    material: S235}
nodes: {A: [0, 0, 0], B: [0, 0, 1000], C: [1000, 0, 0]}
members:
  AC: {kind: cable, from: A, to: C, section: thin}
  BC: {kind: cable, from: B, to: C, section: thick}
supports: {A: fixed, B: fixed, C: [y, rx, ry, rz]}
cases: {load: {kind: static, forces: {C: [70000, 0, -40000]}}}
stock:
  sizes: [{shape: properties, A: 300}, {shape: properties, A: 500}, {shape: properties, A: 700}]
"""


def resized(text, choice):
    """The file with a section of its own for each group."""
    tree = read_yaml(text)
    for group, (side, wall) in choice.items():
        tree["sections"][group] = {"shape": "square_tube", "side": side, "wall": wall,
                                   "corners": "sharp", "material": "S235"}
        for member in GROUPS[group]:
            tree["members"][member]["section"] = group
    del tree["sections"]["rail"], tree["sections"]["ring"]
    return str(tree)


class Sizes(ProgramTest):
    def size(self, text, *words, code=0):
        process = run("size", self.file(text), "--json", *words)
        self.assertEqual(code, process.returncode, process.stderr)
        return one_json_object(process.stdout)

    def every_choice(self, text):
        """Mass, cost, whether nothing fails, and the sizes of each."""
        prices = {(s["side"], s["wall"]): s["price"] for s in read_yaml(text)["stock"]["sizes"]}
        lengths = {"rails": 4.8, "middle": 1.4, "end": 1.4}
        rows = []
        for sizes in itertools.product(SIZES, repeat=3):
            choice = dict(zip(GROUPS, sizes))
            answer = one_json_object(run("check", self.file(resized(text, choice), "one.yaml"),
                                         "--json").stdout)
            cost = sum(prices[size] * lengths[group] / 6 for group, size in choice.items())
            rows.append((answer["mass"]["tubes"], cost, answer["verdict"]["answer"] != "fail",
                         choice))
        return rows

    def test_the_lightest_and_the_cheapest_are_those_of_every_choice_checked(self):
        text = BOX % 6
        rows = self.every_choice(text)
        passing = [row for row in rows if row[2]]
        self.assertTrue(0 < len(passing) < len(rows))
        for words, what, key in (((), 0, "mass"), (("--cheapest",), 1, "cost")):
            with self.subTest(key):
                found = self.size(text, *words)["size"]
                best = min(row[what] for row in passing)
                self.assertTrue(found["proved"])
                self.assertEqual(0, found["gap"])
                self.assertAlmostEqual(best, found[key], delta=1e-9 * best)
                chosen = {g: (s["side"], s["wall"]) for g, s in found["sizes"].items()}
                self.assertIn(chosen, [row[3] for row in passing
                                       if row[what] < best * (1 + 1e-9)])
                ties = [row for row in passing if row[what] < best * (1 + 1e-9)]
                self.assertEqual(len(ties) - 1, len(found["ties"]))
                self.assertEqual(len(rows), found["designs"])
                lighter = [row[what] for row in rows if row[what] < best * (1 - 1e-9)]
                if lighter:
                    self.assertAlmostEqual(max(lighter), found["next"][key],
                                           delta=1e-9 * best)
                    self.assertTrue(found["next"]["breaks"])

    def test_it_says_what_governs_each_group(self):
        found = self.size(BOX % 6)["size"]
        self.assertEqual(set(GROUPS), set(found["governs"]))
        for group, text in found["governs"].items():
            self.assertRegex(text, r"would break \w+|lightest size of the list", group)

    def test_the_file_in_other_sizes_keeps_its_comments_and_checks_out(self):
        text = BOX % 6
        written = self.directory / "lighter.yaml"
        process = run("size", self.file(text), "-o", written)
        self.assertAnswer(0, process)
        self.assertIn(f"wrote {written}", process.stderr)
        out = written.read_text()
        found = self.size(text)["size"]
        for comment in re.findall(r"#.*", text):
            self.assertIn(comment + "\n", out)
        self.assertEqual(text.split("sections:")[0], out.split("sections:")[0])
        self.assertEqual(text.split("supports:")[1], out.split("supports:")[1])
        tree = read_yaml(out)
        for group, members in GROUPS.items():
            size = found["sizes"][group]
            for member in members:
                section = tree["sections"][tree["members"][member]["section"]]
                self.assertEqual(float(size["wall"]), float(section["wall"]))
                self.assertEqual(float(size["side"]), float(str(section["side"]).split()[0]))
        answer = one_json_object(run("check", written, "--json").stdout)
        self.assertNotEqual("fail", answer["verdict"]["answer"])
        self.assertAlmostEqual(found["mass"], answer["mass"]["tubes"], delta=1e-9)

    def test_a_file_is_never_replaced(self):
        frame = self.file(BOX % 6)
        before = frame.read_text()
        process = run("size", frame, "-o", frame)
        self.assertAnswer(2, process)
        self.assertIn("`size` never replaces a file", process.stderr)
        self.assertEqual(before, frame.read_text())

    def test_a_directory_that_is_not_there_is_told(self):
        process = run("size", self.file(BOX % 6), "-o", self.directory / "none" / "a.yaml")
        self.assertAnswer(2, process)
        self.assertIn("cannot write", process.stderr)

    def test_the_first_line_is_the_answer(self):
        process = run("size", self.file(BOX % 6))
        self.assertAnswer(0, process)
        lines = process.stdout.splitlines()
        self.assertEqual("A box of two bays", lines[0])
        self.assertIn("lighter than the file's", " ".join(lines[1:3]))
        self.assertIn("no lighter choice exists: proved", " ".join(lines[1:3]))
        quiet = run("size", self.file(BOX % 6), "-q")
        self.assertEqual(1, quiet.stdout.count("\n"))
        self.assertEqual("", quiet.stderr)
        self.assertEqual(self.size(BOX % 6)["size"]["answer"] + "\n", quiet.stdout)

    def test_where_nothing_passes_the_limit_is_told_and_no_file_written(self):
        written = self.directory / "none.yaml"
        process = run("size", self.file(BOX % 0.5), "-o", written)
        self.assertAnswer(1, process)
        self.assertIn("no choice of sizes passes: proved", process.stdout)
        self.assertIn("displacement of lb2 z in twist", process.stdout)
        self.assertIn("no sizes that pass were found", process.stderr)
        self.assertFalse(written.exists())
        answer = self.size(BOX % 0.5, code=1)
        self.assertFalse(answer["passes"])
        found = answer["size"]
        self.assertIsNone(found["mass"])
        self.assertTrue(found["proved"])
        self.assertEqual(30, found["heaviest"]["sizes"]["rails"]["side"])
        self.assertTrue(found["heaviest"]["breaks"])
        self.assertIn("displacement of lb2 z in twist", found["least_violated"]["breaks"][0])

    def test_kept_tubes_keep_their_size(self):
        text = (BOX % 6).replace("  end: [b2, r2, t2, l2]\n", "keep: [b2, r2, t2, l2]\n")
        found = self.size(text)["size"]
        self.assertEqual({"rails", "middle"}, set(found["sizes"]))
        self.assertGreater(found["kept_mass"], 0)

    def test_a_path_and_its_image_are_one_group_by_themselves(self):
        text = (BOX % 6).split("groups:")[0]
        found = one_json_object(run("size", self.file(text), "--json", "--seconds", "1").stdout)
        found = found["size"]
        rails = [members for members in found["groups"].values() if "lb.1" in members]
        self.assertEqual([{"lb.1", "lb.2", "rb.1", "rb.2"}], [set(m) for m in rails])

    def test_an_image_goes_with_what_it_is_the_image_of(self):
        starter = run("start", "-").stdout
        for line, kept in (("groups: {rails: [rail_l]}", False), ("keep: [rail_l]", True)):
            with self.subTest(line):
                text = starter.replace("limits: {yield_factor: 1.5}\n",
                                       "limits: {yield_factor: 1.5}\n" + line + "\n", 1)
                written = self.directory / f"kept_{kept}.yaml"
                found = self.size(text, "-o", written)["size"]
                groups = {name: set(members) for name, members in found["groups"].items()}
                rails = {"rail_l.1", "rail_l.2", "rail_r.1", "rail_r.2"}
                self.assertEqual(None if kept else rails, groups.get("rails"))
                self.assertFalse(kept and rails & set().union(*groups.values()))
                mass = one_json_object(run("check", written, "--json").stdout)["mass"]["tubes"]
                self.assertAlmostEqual(found["mass"], mass, delta=1e-9)
                self.assertEqual(re.findall(r"#.*", text), re.findall(r"#.*", written.read_text()))

    def test_given_properties_are_sized_by_area_and_written_so(self):
        # By hand: BC holds 40 kN over sin 45 = 56.57 kN, AC 70 kN less 40 kN, and
        # S235 over a factor of 1.5 asks for N over 156.7 MPa: 361 and 191 mm2.
        written = self.directory / "lighter.yaml"
        found = self.size(TRUSS, "-o", written)["size"]
        self.assertTrue(found["proved"])
        tree = read_yaml(written.read_text())
        for group, section in found["sizes"].items():
            self.assertEqual("properties", section["shape"])
            name = tree["members"][group]["section"]
            self.assertAlmostEqual(section["A"], tree["sections"][name]["A"], delta=1e-9)
        self.assertEqual(500, found["sizes"]["BC"]["A"])
        self.assertEqual(300, found["sizes"]["AC"]["A"])

    def test_fail_safe_asks_for_more(self):
        plain = self.size(BOX % 6)["size"]
        safe = one_json_object(run("size", self.file(BOX % 6), "--json", "--fail-safe").stdout)
        if safe["size"]["mass"] is not None:
            self.assertGreaterEqual(safe["size"]["mass"], plain["mass"] - 1e-9)
        else:
            broken = safe["size"]["least_violated"]["breaks"]
            self.assertTrue(any("broken weld" in text for text in broken))

    def test_the_time_limit_is_kept(self):
        start = time.monotonic()
        process = run("size", self.file((BOX % 6).split("groups:")[0]), "--json", "--seconds",
                      "0.001")
        self.assertLess(time.monotonic() - start, 20)
        self.assertIn(process.returncode, (0, 1))
        answer = one_json_object(process.stdout)
        self.assertEqual(process.returncode == 0,
                         answer["passes"] and answer["size"]["proved"])
        if not answer["size"]["proved"]:
            self.assertTrue(answer["size"]["answer"].startswith("not proven: "))


class Refused(ProgramTest):
    def refused(self, text, *hints, words=()):
        process = run("size", self.file(text), *words)
        self.assertAnswer(2, process)
        self.assertEqual("", process.stdout)
        for hint in hints:
            self.assertIn(hint, process.stderr)

    def test_a_list_of_no_sizes(self):
        self.refused(CANTILEVER + "stock: {sizes: []}\n", "`sizes`")

    def test_groups_of_different_shapes(self):
        square = "  ring:\n    shape: square_tube\n    side: 30 mm   # as the rails\n"
        text = (BOX % 6).replace(square, "  ring:\n    shape: round_tube\n    diameter: 30\n")
        text = text.replace("    corners: sharp\n    material", "    material")
        text = text.replace("  middle: [b1, r1, t1, l1]\n", "  middle: [lb, b1]\n")
        text = text.replace("rails: [lb, rb, rt, lt]", "rails: [rb, rt, lt]")
        self.refused(text, "different shapes")

    def test_no_size_of_a_groups_shape(self):
        text = re.sub(r"stock:\n  sizes:\n(    - .*\n)+",
                      "stock: {sizes: [{shape: round_bar, diameter: 10}]}\n", BOX % 6)
        self.refused(text, "`stock.sizes` has no `square_tube`")

    def test_prices_that_are_missing_where_cost_counts(self):
        self.refused((BOX % 6).replace(", price: 24", ""), "price", words=("--cheapest",))

    def test_nothing_that_limits_the_sizes(self):
        text = BOX % 6
        text = text[:text.index("cases:")] + text[text.index("stock:"):]
        self.refused(text, "add `cases`, or `limits`")

    def test_everything_kept(self):
        text = (BOX % 6).split("groups:")[0]
        self.refused(text + "keep: [lb, rb, rt, lt, b1, r1, t1, l1, b2, r2, t2, l2]\n", "keep")

    def test_a_displacement_of_a_case_that_is_not_there(self):
        self.refused((BOX % 6).replace("{twist: {lb2", "{twits: {lb2"), "did you mean `twist`?")

    def test_a_group_of_an_unknown_member(self):
        self.refused((BOX % 6).replace("end: [b2,", "end: [b22,"), "group `end`", "did you mean")


if __name__ == "__main__":
    unittest.main()
