"""`twist`, `floor`, `bench-test`: exit codes, streams, JSON."""

import json
import re
import unittest

from program import CANTILEVER, EXAMPLES, MECHANISM, ProgramTest, one_json_object, run

HAULER = EXAMPLES / "05_market_hauler.yaml"
BARROW = EXAMPLES / "06_flat_barrow.yaml"


def json_of(*words):
    return one_json_object(run(*words, "--json").stdout)


class Twist(ProgramTest):
    def test_json_holds_what_the_contract_names(self):
        torsion = json_of("twist", HAULER)["torsion"]
        self.assertEqual("free", torsion["hold"])
        self.assertAlmostEqual(torsion["couple"] / torsion["twist"], torsion["stiffness"],
                               delta=1e-9 * torsion["stiffness"])
        self.assertGreater(torsion["stiffness"], 5 * torsion["without_panels"])
        profile = torsion["profile"]
        self.assertEqual([-1500, -1000, -500, 0], [round(p["x"]) for p in profile])
        self.assertEqual(0, profile[0]["twist"])
        self.assertAlmostEqual(torsion["twist"], profile[-1]["twist"], delta=1e-12)
        self.assertEqual(1, sum(bay["weakest"] for bay in torsion["bays"]))
        shares = sum(torsion["member_energy"].values()) + sum(torsion["panel_energy"].values())
        self.assertAlmostEqual(1, shares, delta=1e-9)

    def test_both_ways_of_holding_are_told(self):
        free = json_of("twist", HAULER)["torsion"]
        clamped = json_of("twist", HAULER, "--hold", "clamped")["torsion"]
        self.assertEqual("clamped", clamped["hold"])
        self.assertEqual(free["stiffness"], clamped["stiffness_free"])
        self.assertEqual(free["stiffness_clamped"], clamped["stiffness"])

    def test_sprung_and_unsprung_vehicles_are_told_what_stiffness_is_for(self):
        text = (EXAMPLES / "03_cargo_quad.yaml").read_text()
        self.assertIn("torsion:", text)
        sprung = json_of("twist", EXAMPLES / "03_cargo_quad.yaml")["torsion"]["roll_support"]
        self.assertTrue(sprung["sprung"])
        self.assertTrue(0 < sprung["balance_kept"] < 1)
        unsprung = json_of("twist", HAULER)["torsion"]["roll_support"]
        self.assertFalse(unsprung["sprung"])
        self.assertIsNone(unsprung["balance_kept"])
        self.assertGreater(unsprung["lifting_bump"], 0)

    def test_a_frame_softer_than_asked_for_gives_1(self):
        text = HAULER.read_text().replace("torsional_stiffness: 300", "torsional_stiffness: 99000")
        process = run("twist", self.file(text))
        self.assertAnswer(1, process)
        self.assertIn("FAIL", process.stdout)

    def test_quiet_gives_one_line(self):
        process = run("twist", HAULER, "-q")
        self.assertAnswer(0, process)
        self.assertEqual(1, process.stdout.count("\n"))
        self.assertIn("N m/deg", process.stdout)

    def test_a_frame_without_torsion_is_told_what_to_add(self):
        process = run("twist", self.file(CANTILEVER), "--json")
        self.assertAnswer(2, process)
        self.assertIn("`torsion", process.stderr)
        self.assertIn("error", one_json_object(process.stdout))

    def test_a_frame_that_falls_apart_in_torsion_gives_2(self):
        text = HAULER.read_text().replace("[low1_l, low2_l, low3_l, low4_l], section: rail}",
                                          "[low1_l, low2_l, low3_l, low4_l], section: rail, "
                                          "release_from: [Fx, Fy, Fz, Mx, My, Mz]}")
        process = run("twist", self.file(text))
        self.assertIn(process.returncode, (0, 2))
        self.assertAnswer(2, run("twist", self.file(MECHANISM)))


class Floor(ProgramTest):
    def test_the_example_where_the_sheet_pays(self):
        process = run("floor", HAULER)
        self.assertAnswer(0, process)
        self.assertIn("Yes: it adds", process.stdout)
        floor = json_of("floor", HAULER)["floor"]
        self.assertEqual("pays", floor["answer"])
        for option in (floor["without"], floor["with"]["low"], floor["with"]["default"],
                       floor["with"]["high"], floor["diagonal"], floor["thicker_tubes"]):
            for key in ("mass", "stiffness", "frequency", "utilisation"):
                self.assertGreater(option[key], 0, key)
        self.assertAlmostEqual(floor["diagonal"]["mass"], floor["with"]["default"]["mass"],
                               delta=1e-6)
        self.assertAlmostEqual(floor["thicker_tubes"]["mass"], floor["with"]["default"]["mass"],
                               delta=1e-4)
        self.assertGreater(floor["per_kg"]["low"], floor["per_kg"]["diagonal"])

    def test_the_example_where_it_does_not(self):
        process = run("floor", BARROW)
        self.assertAnswer(0, process)
        self.assertIn("No: in torsion the sheet does next to nothing", process.stdout)
        self.assertIn("closes no torque tube", process.stderr)
        self.assertEqual("does not pay", json_of("floor", BARROW)["floor"]["answer"])

    def test_twist_and_floor_and_check_agree(self):
        floor, twist = json_of("floor", HAULER)["floor"], json_of("twist", HAULER)["torsion"]
        self.assertAlmostEqual(twist["stiffness"], floor["with"]["default"]["stiffness"],
                               delta=1e-9 * twist["stiffness"])
        self.assertAlmostEqual(twist["without_panels"], floor["without"]["stiffness"],
                               delta=1e-9 * twist["stiffness"])
        check = json_of("check", HAULER)
        worst = max(case["worst"]["utilisation"] for case in check["cases"].values())
        self.assertAlmostEqual(worst, floor["with"]["default"]["utilisation"], delta=1e-12)

    def test_all_that_is_missing_is_told_at_once(self):
        process = run("floor", self.file(CANTILEVER))
        self.assertAnswer(2, process)
        self.assertIn("no `panels`", process.stderr)
        self.assertIn("no `torsion`", process.stderr)


class BenchTest(ProgramTest):
    def bench(self, extra):
        bench_test = "bench_test:\n  weights: {tip: 5}\n  gauges: {tip: z}\n"
        return self.file(CANTILEVER + bench_test + extra)

    def test_the_reading_of_a_cantilever_is_foretold(self):
        bench = json_of("bench-test", self.bench(""))["bench_test"]
        self.assertEqual("supports", bench["held_by"])
        # P L^3/(3 E I) and a little shear; 25 x 25 x 2 by EN 10219-2: I = 1.48 cm4.
        self.assertAlmostEqual(-5 * 9.80665 * 1e9 / (3 * 210000 * 14800),
                               bench["gauges"]["tip"]["predicted"], delta=0.05)
        self.assertEqual([], bench["fits"])

    def test_a_soft_joint_is_fitted_to_a_reading(self):
        process = run("bench-test", self.bench("  readings: {tip: -8.0}\n"))
        self.assertAnswer(0, process)
        self.assertIn("flexibility of the welded joints", process.stdout)
        bench = json_of("bench-test", self.bench("  readings: {tip: -8.0}\n"))["bench_test"]
        fit = bench["fits"][0]
        self.assertEqual("found", fit["state"])
        self.assertAlmostEqual(-8.0, fit["predicted"][0], delta=1e-3)
        # The rest of the reading is P L^2/c.
        rest = 8.0 + bench["gauges"]["tip"]["predicted"]
        degree = 0.017453292519943295
        self.assertAlmostEqual(5 * 9.80665 / (rest / 1000) * degree, fit["joint_stiffness"],
                               delta=0.02)

    def test_a_frame_without_a_bench_test_is_told_what_to_add(self):
        process = run("bench-test", self.file(CANTILEVER))
        self.assertAnswer(2, process)
        self.assertIn("`bench_test: {weights:", process.stderr)


class Stability(ProgramTest):
    def test_a_cantilever_swings_at_the_frequencies_of_blevins_table(self):
        # 1.8751^2/(2 pi L^2) sqrt(EI/m), R. D. Blevins, Table 8-1 (from memory): 26.748 Hz for a
        # square tube of 25 x 25 x 2, 1 m long; both bending planes.
        modes = json_of("modes", self.file(CANTILEVER), "-n", "2")["modes"]
        self.assertEqual(2, len(modes))
        for mode in modes:
            self.assertFalse(mode["rigid"])
            self.assertAlmostEqual(26.748, mode["frequency"], delta=0.02 * 26.748)

    def test_a_vehicle_on_its_tyres_has_three_rigid_motions_and_three_of_the_body_first(self):
        results = json_of("modes", HAULER)
        self.assertFalse(results["modes_held"])
        self.assertTrue(results["modes_complete"])
        modes = results["modes"]
        self.assertEqual([True] * 3 + [False] * 3, [mode["rigid"] for mode in modes[:6]])
        self.assertEqual(["body bounce", "body pitch", "body roll"],
                         sorted(mode["name"] for mode in modes[3:6]))
        elastic = [mode["frequency"] for mode in modes[3:]]
        self.assertEqual(sorted(elastic), elastic)
        self.assertGreater(elastic[0], 1)

    def test_floor_compares_the_frames_own_lowest_frequency(self):
        own = [mode["frequency"] for mode in json_of("modes", HAULER)["modes"]
               if mode["frame_only"]]
        self.assertAlmostEqual(min(own), json_of("floor", HAULER)["floor"]["with"]["default"][
            "frequency"], delta=1e-9 * min(own))

    def test_a_frequency_below_the_target_gives_1(self):
        frame = self.file(CANTILEVER + "limits: {frequency: 50}\n")
        process = run("modes", frame)
        self.assertAnswer(1, process)
        self.assertIn("FAIL", process.stdout)

    def test_a_strut_buckles_at_its_euler_load(self):
        # Fixed-free: pi^2 E I/(4 L^2) = 30747.1/4 N (Timoshenko & Gere, from memory).
        frame = CANTILEVER + "  push: {kind: static, forces: {tip: [-1000, 0, 0]}}\n"
        results = json_of("buckle", self.file(frame), "--case", "push")
        self.assertAlmostEqual(30.7471 / 4, results["buckling"]["push"][0], delta=0.003 * 7.7)
        self.assertEqual(["arm"], sorted(set(results["buckling_details"]["push"]["members"])))
        self.assertAnswer(1, run("buckle", self.file(frame.replace("-1000", "-9000"))))
        pulled = json_of("buckle", self.file(frame.replace("-1000", "1000")), "--case", "push")
        self.assertEqual([], pulled["buckling"]["push"])

    def test_every_case_of_a_vehicle_is_answered(self):
        process = run("buckle", HAULER)
        self.assertAnswer(0, process)
        self.assertIn("no case buckles under its own loads", process.stdout)
        self.assertEqual({"standing", "pothole", "turn", "brake"},
                         set(json_of("buckle", HAULER)["buckling"]))


class Panels(ProgramTest):
    def test_each_panel_of_each_case_is_told(self):
        results = json_of("check", HAULER)
        for name, case in results["cases"].items():
            self.assertEqual({"floor_1", "floor_2", "floor_3"}, set(case["panels"]), name)
            for panel in case["panels"].values():
                self.assertAlmostEqual(panel["shear_flow"] / 1.0, panel["shear_stress"], delta=1e-9)
                self.assertEqual(1, panel["stiffness_kept"])
                self.assertGreater(panel["rivet_load"], 0)
                self.assertGreater(panel["bond_stress"], panel["bond_mean_stress"])
                for check in ("buckling", "yield", "rivet_shear", "rivet_bearing", "rivet_tear_out",
                              "inter_rivet_buckling", "bond"):
                    self.assertIsNotNone(panel["checks"][check], check)

    def test_their_vtk_files_hold_the_same_numbers(self):
        try:
            import vtk
        except ImportError:
            self.skipTest("python3-vtk9 is not installed")
        out = self.directory / "out"
        run("check", HAULER, "-o", out, "--no-pictures")
        panels = json_of("check", HAULER)["cases"]["pothole"]["panels"]
        reader = vtk.vtkXMLPolyDataReader()
        reader.SetFileName(str(next(out.glob("*_pothole_panels.vtp"))))
        reader.Update()
        data = reader.GetOutput()
        names = data.GetFieldData().GetAbstractArray("panel_names")
        flow = data.GetCellData().GetArray("shear_flow")
        self.assertEqual(3, data.GetNumberOfCells())
        for i in range(3):
            panel = panels[names.GetValue(i)]
            self.assertAlmostEqual(panel["shear_flow"], flow.GetValue(i), delta=1e-9)
        self.assertAlmostEqual(239.5, data.GetBounds()[4], delta=1e-9)  # 10.5 mm under the sills

    def test_a_thin_sheet_under_a_heavy_load_buckles_and_says_so(self):
        text = BARROW.read_text().replace("thickness: 1.0", "thickness: 0.3").replace(
            "cases:\n",
            "cases:\n  drag: {kind: static, forces: {A_l: [0, 1500, 0], A_r: [0, 1500, 0]}}\n")
        text += "supports:\n  E_l: fixed\n"
        process = run("check", self.file(text), "--case", "drag")
        self.assertIn("buckled beyond", process.stdout)
        cases = json_of("check", self.file(text), "--case", "drag")["cases"]
        panel = cases["drag"]["panels"]["deck_1"]
        self.assertLess(panel["stiffness_kept"], 1)
        self.assertGreater(panel["stiffness_kept"], 0.66)
        self.assertGreater(panel["edge_pull"], 0)
        self.assertGreater(panel["checks"]["buckling"], 1)


def members_of(piece, members):
    """The members that the name of a cut piece stands for, in order; in bends NAME.NODE.1, where
    a gusset parts a piece of a path NAME.1a."""
    span = re.fullmatch(r"(.*)\.(\d+)-(\d+)", piece)
    if span:
        return [f"{span[1]}.{i}" for i in range(int(span[2]), int(span[3]) + 1)]
    if piece in members:
        return [piece]
    part = re.escape(piece) + r"(\.\w+)?\.\d+[a-z]?"
    return [name for name in members if re.fullmatch(part, name)]


class Cut(ProgramTest):
    def test_pieces_go_by_the_names_of_the_members_that_check_knows(self):
        for frame in sorted(EXAMPLES.glob("*.yaml")):
            run("check", frame, "--no-pictures", "-o", self.directory)
            results = json.loads((self.directory / "results.json").read_text())
            members = list(next(iter(results["cases"].values()))["members"])
            page = (self.directory / "report.html").read_text()
            cut = json_of("cut", frame)["cut"]
            pieces = [name for piece in cut["pieces"].values() for name in piece["members"]]
            spelt = [name for piece in pieces for name in members_of(piece, members)]
            self.assertEqual(sorted(set(spelt)), sorted(spelt), frame.name)
            self.assertLessEqual(set(spelt), set(members), frame.name)
            for name in set(members) - set(spelt):  # bought by their length
                self.assertRegex(frame.read_text(), rf"\b{name[:-2]}_l: .*kind: (cable|spring)")
            for piece in pieces:
                self.assertTrue(members_of(piece, members), piece)
                self.assertIn(f'"{piece}"', page)

    def test_a_path_that_turns_is_cut_into_pieces_named_by_their_members(self):
        text = """\
frame: turning
sections: {t: {shape: square_tube, side: 20, wall: 2, material: S235}}
nodes: {A: [0, 0, 0], B: [300, 0, 0], C: [600, 0, 0], D: [600, 0, 300], E: [0, 200, 0]}
members:
  p: {path: [A, B, C, D], section: t}
  q: {path: [E, A], section: t}
supports: {A: fixed}
cases: {load: {kind: static, forces: {D: [0, 0, -50]}}}
"""
        cut = json_of("cut", self.file(text))["cut"]
        names = {name for piece in cut["pieces"].values() for name in piece["members"]}
        self.assertEqual({"p.1-2", "p.3", "q"}, names)

    def test_every_tube_is_on_the_list_and_on_a_bar(self):
        frame = EXAMPLES / "03_cargo_quad.yaml"
        cut = json_of("cut", frame)["cut"]
        counted = {label: 0 for label in cut["pieces"]}
        for order in cut["orders"]:
            self.assertGreaterEqual(order["bars"], order["least_bars"])
            self.assertEqual(order["optimal"], order["bars"] == order["least_bars"])
            for bar in order["cut_plan"]:
                used = sum(cut["pieces"][label]["long_point"] for label in bar["pieces"])
                self.assertLessEqual(used + 2 * (len(bar["pieces"]) - 1) + bar["rest"], 5960.001)
                for label in bar["pieces"]:
                    counted[label] += 1
        for label, piece in cut["pieces"].items():
            self.assertEqual(piece["count"], counted[label])
            self.assertEqual(piece["count"], len(piece["members"]))
            self.assertLessEqual(piece["short_point"], piece["long_point"])

    def test_left_and_right_are_one_piece_or_two_that_are_images(self):
        pieces = json_of("cut", EXAMPLES / "02_orchard_runabout.yaml")["cut"]["pieces"]
        group = {name: label for label, piece in pieces.items() for name in piece["members"]}
        pairs = 0
        for name, label in group.items():
            stem, dot, run_number = name.partition(".")
            if not stem.endswith("_l"):
                continue
            other = group[stem[:-1] + "r" + dot + run_number]
            self.assertTrue(label == other or pieces[label]["mirror_of"] == other
                            or pieces[other]["mirror_of"] == label, name)
            pairs += 1
        self.assertGreater(pairs, 20)

    def test_all_welds_are_in_the_order_and_their_shrinkage_is_said(self):
        frame = EXAMPLES / "02_orchard_runabout.yaml"
        cut = json_of("cut", frame)["cut"]
        self.assertEqual(sum(step["ends"] for step in cut["weld_order"]), cut["welds"])
        self.assertAlmostEqual(sum(step["weld_length"] for step in cut["weld_order"]),
                               cut["weld_length"], places=6)
        nodes = [node for step in cut["weld_order"] for node in step["nodes"]]
        self.assertEqual(len(nodes), len(set(nodes)))
        # Walls of 1.5 mm with a throat as thick: 0.1 x 1.5 an end.
        floor = next(p for p in cut["pieces"].values() if "floor_1_l" in p["members"])
        for end in floor["shrinkage"]:
            self.assertAlmostEqual(end, 0.15, places=9)
        self.assertGreater(cut["shrinkage"]["along"]["x"]["draw_in"], 0.5)
        text = run("cut", frame).stdout
        self.assertIn("Weld in this order", text)
        self.assertIn("mm along x by", text)

    def test_quiet_gives_bars_and_mass(self):
        process = run("cut", EXAMPLES / "01_wall_bracket.yaml", "-q")
        self.assertAnswer(0, process)
        self.assertRegex(process.stdout, r"^\d+ bars, \d+\.\d kg\n$")

    def test_a_bar_too_short_is_named(self):
        text = CANTILEVER + "stock: {length: 300}\n"
        process = run("cut", self.file(text))
        self.assertAnswer(0, process)
        self.assertIn("more than a bar gives", process.stderr)

    def test_check_writes_the_list_for_a_spreadsheet(self):
        import csv
        directory = self.directory / "cut"
        self.assertAnswer(0, run("check", EXAMPLES / "01_wall_bracket.yaml", "-o", directory,
                                 "--no-pictures"))
        with open(directory / "cut_list.csv", newline="") as file:
            rows = list(csv.DictReader(file))
        pieces = json_of("cut", EXAMPLES / "01_wall_bracket.yaml")["cut"]["pieces"]
        self.assertEqual(list(pieces), [row["label"] for row in rows])
        self.assertNotIn("thickness_mm", rows[0])
        for row in rows:
            self.assertAlmostEqual(pieces[row["label"]]["long_point"], float(row["long_point_mm"]),
                                   delta=0.051)
            self.assertAlmostEqual(sum(pieces[row["label"]]["shrinkage"]), float(row["shrink_mm"]),
                                   delta=0.0051)
            self.assertEqual(pieces[row["label"]]["mirror_of"] or "", row["mirror_of"])

    def test_plates_of_gussets_are_rows_of_the_list_for_a_spreadsheet(self):
        import csv
        directory = self.directory / "plates"
        drawbar = EXAMPLES / "07_trailer_drawbar.yaml"
        self.assertAnswer(0, run("cut", drawbar, "-o", directory))
        with open(directory / "cut_list.csv", newline="") as file:
            rows = {row["label"]: row for row in csv.DictReader(file)}
        cut = json_of("cut", drawbar)["cut"]
        self.assertEqual([*cut["pieces"], "P1"], list(rows))
        plates = cut["gussets"][0]
        self.assertEqual(4, plates["plates"])
        self.assertEqual("4", rows["P1"]["count"])
        self.assertEqual(plates["thickness"], float(rows["P1"]["thickness_mm"]))
        self.assertEqual(", ".join(plates["names"]), rows["P1"]["members"])
        self.assertEqual("frame", rows["P1"]["weldments"])
        self.assertAlmostEqual(plates["mass"], float(rows["P1"]["mass_kg"]), delta=0.00051)


if __name__ == "__main__":
    unittest.main()
