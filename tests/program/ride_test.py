"""`ride` from the frame file to the wheels, against an independent integration of rigid bodies."""

import json
import re
import unittest
import xml.etree.ElementTree

from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkIOXML import vtkXMLPolyDataReader

from program import EXAMPLES, ProgramTest, one_json_object, run

QUAD = EXAMPLES / "03_cargo_quad.yaml"
PLACES = {"front_left": (700, 350), "front_right": (700, -350),
          "rear_left": (-700, 350), "rear_right": (-700, -350)}


def rigid_vehicle(rides, more=""):
    """120 kg, 30 and 10 kg m2 in pitch and roll, on four tyres of 90 N/mm and 0.3 N s/mm."""
    lines = ["frame: Rigid cart", "joints: rigid", "gravity: 9.81",
             "materials: {light: {E: 2100000, nu: 0.3, density: 0.001, yield: 100000, "
             "ultimate: 200000, metal: steel}}",
             "sections: {s: {shape: properties, A: 1e6, Iy: 1e10, Iz: 1e10, It: 1e10, Wy: 1e8, "
             "Wz: 1e8, Wt: 1e8, material: light}}", "nodes:", "  c: [0, 0, 300]"]
    lines += [f"  n_{name}: [{x}, {y}, 300]" for name, (x, y) in PLACES.items()]
    lines.append("members:")
    lines += [f"  m_{name}: {{from: c, to: n_{name}, section: s}}" for name in PLACES]
    lines += ["masses: {body: {mass: 120, at: [0, 0, 300], on: [c], inertia: [10, 30, 35]}}",
              "vehicle:", "  tyre_rate: 90", "  tyre_damping: 0.3", "  wheels:"]
    for name, (x, y) in PLACES.items():
        axle = name.split("_", maxsplit=1)[0]
        lines.append(f"    {name}: {{contact: [{x}, {y}, 0], centre: [{x}, {y}, 250], "
                     f"carrier: [n_{name}], hold: spread, axle: {axle}{more}}}")
    lines += ["cases: {still: {kind: vehicle}}", f"rides: {{{rides}}}"]
    return "\n".join(lines) + "\n"


HUMP = "hump: {obstacle: half_sine, height: 20, length: 400, speed: 3 m/s, follower: point%s}"


class Rides(ProgramTest):
    def ride(self, text, name="hump"):
        answer = one_json_object(run("ride", self.file(text), "--json").stdout)
        return answer["rides"][name]

    def test_a_rigid_vehicle_over_a_hump_does_what_an_independent_integration_says(self):
        # Road study 2.9, test V1 (derived: Runge-Kutta, steps of 1e-5 s). Off the ground in s of a
        # window of 1 s; it calms down later.
        for side, peaks, in_the_air in (
                ("", (1304.8, 1304.8, 1303.2, 1303.2), (0.2655, 0.2655, 0.2846, 0.2846)),
                (", side: left", (1141.3, 996.0, 1126.9, 890.5), (0.2028, 0.1720, 0.2139, 0.1789))):
            ride = self.ride(rigid_vehicle(HUMP % side))
            self.assertTrue(ride["converged"])
            for wheel, peak, air in zip(PLACES, peaks, in_the_air):
                found = ride["wheels"][wheel]
                self.assertAlmostEqual(294.3, found["standing"], delta=0.1)
                self.assertAlmostEqual(peak, found["peak"], delta=0.005 * peak)
                self.assertAlmostEqual(found["peak"] / found["standing"], found["factor"], 9)
                self.assertAlmostEqual(air, found["off_ground"] * ride["duration"], delta=0.01)

    def test_a_single_mass_on_a_rigid_wheel_meets_a_step_as_the_table_says(self):
        # Road study 2.7 (derived): 46 kg a tyre of 120 N/mm, zeta 0.08, R 0.25, step of 50 mm: 6.23
        # times at 5 km/h, 9.36 at 10. All four wheels at once would be such a mass; in a vehicle
        # the rear axle comes later, so pitch is made heavy: wheels at its ends carry theirs alone.
        text = rigid_vehicle("slow: {step: 50, speed: 5}, fast: {step: 50, speed: 10}",
                             ", radius: 250")
        text = text.replace("tyre_rate: 90", "tyre_rate: 120")
        text = text.replace("tyre_damping: 0.3", "tyre_damping_ratio: 0.08")
        text = text.replace("mass: 120", "mass: 184").replace("inertia: [10, 30, 35]",
                                                              "inertia: [23, 90.16, 100]")
        # I = m a^2: neither the two axles nor the two sides feel each other.
        answer = one_json_object(run("ride", self.file(text), "--json").stdout)["rides"]
        for name, factor in (("slow", 6.23), ("fast", 9.36)):
            wheel = answer[name]["wheels"]["front_left"]
            self.assertAlmostEqual(factor, wheel["factor"], delta=0.03 * factor)
        # The standard set's step is the same one, met by one wheel.
        text = text.replace("cases: {still: {kind: vehicle}}\n", "")
        cases = one_json_object(run("check", self.file(text), "--json").stdout)["cases"]
        found = re.search(r"this wheel has ([0-9.]+) times its load at rest; 4.5 otherwise",
                          cases["step_front_left"]["note"])
        self.assertAlmostEqual(9.36, float(found[1]), delta=0.03 * 9.36)

    def test_a_case_of_kind_ride_is_the_worst_instants_of_the_ride(self):
        # The peaks of V1 again, as load cases; 5 % of what is hit hardest may be missed.
        text = rigid_vehicle(HUMP % "")
        text = text.replace("cases: {", "cases: {hard: {kind: ride, ride: hump}, ")
        path = self.file(text)
        process = run("check", path, "--json")
        answer = one_json_object(process.stdout)
        names = [name for name in answer["cases"] if name != "still"]
        self.assertEqual([f"hard_{i + 1}" for i in range(len(names))], names)
        self.assertGreater(len(names), 1)
        for axle, peak in (("front", 1304.8), ("rear", 1303.2)):
            loads = [answer["cases"][name]["wheels"][axle + "_left"]["force"][2]
                     for name in names]
            self.assertLess(max(loads), 1.005 * peak)
            self.assertGreater(max(loads), 0.94 * peak)
        chosen = one_json_object(run("check", path, "--case", "hard", "--json").stdout)
        self.assertEqual(names, list(chosen["cases"]))
        chosen = one_json_object(run("check", path, "--case", "hard_1", "--json").stdout)
        self.assertEqual(["hard_1"], list(chosen["cases"]))

    def test_the_contract_of_the_json(self):
        answer = one_json_object(run("ride", QUAD, "--json").stdout)
        self.assertEqual(["kerb", "gravel"], list(answer["rides"]))
        for ride in answer["rides"].values():
            self.assertEqual({"front_left", "front_right", "rear_left", "rear_right"},
                             set(ride["wheels"]))
            self.assertLessEqual({"peak", "factor", "off_ground"},
                                 set(ride["wheels"]["front_left"]))
            self.assertLessEqual({"rms", "peak"}, set(ride["masses"]["rider"]))
            self.assertLessEqual({"utilisation", "item", "time"}, set(ride["members"]["stub_l"]))
            self.assertIn("damage", ride["fatigue"])
            self.assertIs(True, ride["converged"])

    def test_the_same_answer_twice_and_files_that_agree_with_it(self):
        text = rigid_vehicle(HUMP % "")
        file = self.file(text)
        first, again = (run("ride", file, "--json").stdout for _ in range(2))
        self.assertEqual(first, again)
        folder = self.directory / "out"
        self.assertAnswer(1, run("ride", file, "-o", folder, "-q"))  # no strength to check
        self.assertEqual(first, (folder / "rides.json").read_text())
        rows = (folder / "ride_hump.csv").read_text().splitlines()
        peak = max(float(row.split(",")[2]) for row in rows[1:])
        self.assertAlmostEqual(json.loads(first)["rides"]["hump"]["wheels"]["front_left"]["peak"],
                               peak, delta=0.01)
        # The worst instant is drawn, as load cases are by `check -o`.
        self.assertEqual(["loads_01_hump"],
                         [file.stem.split("_at_")[0] for file in folder.glob("loads_*.png")])
        self.assertEqual(1, len(list(folder.glob("loads_*.glb"))))

    def test_what_cannot_be_driven_is_told_with_its_place(self):
        for rides, more, words in (
                ("r: {step: 50, speed: 0}", "", "speed"),
                ("r: {step: 50, speed: -3}", "", "speed"),
                ("r: {step: 50, speed: 10}", "", "has no `radius`"),
                ("r: {step: 250, speed: 10}", ", radius: 250", "cannot climb"),
                ("r: {speed: 10}", "", "does not say what it goes over"),
                ("r: {profile: nowhere.csv, speed: 10}", "", "`nowhere.csv` of ride `r`"),
                ("r: {obstacle: half_sine, height: 20, length: 9000, speed: 5, duration: 1, "
                 "follower: point}", "", "before all wheels are over"),
                ("r: {road: Z, speed: 10, follower: point}", "", "A"),
                ("r: [step]", "", "ride")):
            with self.subTest(rides=rides):
                process = run("ride", self.file(rigid_vehicle(rides, more)))
                self.assertAnswer(2, process)
                self.assertIn(words, process.stderr)
                self.assertRegex(process.stderr, r":\d+:\d+: error")
                self.assertEqual("", process.stdout)
        text = re.sub("  tyre_rate: 90\n", "", rigid_vehicle(HUMP % ""))
        process = run("ride", self.file(text))
        self.assertAnswer(2, process)
        self.assertIn("`front_left` has no tyre", process.stderr)
        process = run("ride", EXAMPLES / "01_wall_bracket.yaml")
        self.assertAnswer(2, process)
        self.assertIn("describes no ride", process.stderr)

    def test_a_road_that_no_wheel_follows_is_not_proven(self):
        text = rigid_vehicle("wild: {road: G, speed: 60, duration: 5, follower: point}")
        process = run("ride", self.file(text))
        self.assertAnswer(1, process)
        self.assertIn("in the air most of the time", process.stdout)

    def test_a_measured_profile_beside_the_file_is_ridden(self):
        file = self.file(rigid_vehicle("r: {profile: track.csv, speed: 10, follower: {patch: 80}}"))
        (file.parent / "track.csv").write_text("x,left,right\n0,0,0\n300,20,0\n600,0,0\n")
        wheels = one_json_object(run("ride", file, "--json").stdout)["rides"]["r"]["wheels"]
        self.assertGreater(wheels["front_left"]["peak"], 1.5 * wheels["front_left"]["standing"])
        self.assertGreater(wheels["front_left"]["peak"], wheels["front_right"]["peak"])


class Film(ProgramTest):
    """`ride_NAME.pvd`, read by VTK as a 3D viewer does."""

    def setUp(self):
        super().setUp()
        self.folder = self.directory / "film"
        run("ride", self.file(rigid_vehicle(HUMP % "")), "-o", self.folder, "-q")
        self.ride = json.loads((self.folder / "rides.json").read_text())["rides"]["hump"]

    def images(self, part):
        """(time of the index, data, its own time) of the files of a part: tubes or wheels."""
        root = xml.etree.ElementTree.parse(self.folder / "ride_hump.pvd").getroot()
        for entry in root.findall("Collection/DataSet"):
            if entry.get("file").endswith(f"_{part}.vtp"):
                reader = vtkXMLPolyDataReader()
                reader.SetFileName(str(self.folder / entry.get("file")))
                reader.Update()
                self.assertEqual(0, reader.GetErrorCode())
                data = reader.GetOutput()
                own = data.GetFieldData().GetArray("TimeValue").GetValue(0)
                yield float(entry.get("timestep")), data, own

    def test_the_index_tells_seconds_10_ms_apart_and_the_files_the_same(self):
        for part in ("tubes", "wheels"):
            times = []
            for time, _, own in self.images(part):
                self.assertEqual(time, own)
                times.append(time)
            self.assertGreater(len(times), 25)
            self.assertLessEqual(len(times), 41)
            for before, after in zip(times, times[1:]):
                self.assertAlmostEqual(0.01, after - before, places=8)
            self.assertGreaterEqual(times[0], 0)
            self.assertLessEqual(times[-1], self.ride["duration"])

    def test_a_wheel_rises_by_the_road_less_what_its_tyre_is_squeezed_more_than_at_rest(self):
        # 294.3 N at rest on 90 N/mm.
        most = 0
        for _, data, _ in self.images("wheels"):
            cells = data.GetCellData()
            wheel, road, squeezed, force = (vtk_to_numpy(cells.GetArray(name)) for name in
                                            ("wheel", "road", "tyre_deflection", "tyre_force"))
            self.assertEqual([0, 0, 1, 1, 2, 2, 3, 3], wheel.tolist())
            moved = vtk_to_numpy(data.GetPointData().GetArray("displacement"))[:, 2]
            up = [moved[data.GetCell(k).GetPointId(0)] for k in range(8)]
            for circle in range(0, 8, 2):
                self.assertEqual([0, 1], road[circle:circle + 2].tolist())
                self.assertAlmostEqual(up[circle + 1] - (squeezed[circle] - 294.3 / 90), up[circle],
                                       delta=2e-3)
                self.assertLessEqual(force[circle],
                                     self.ride["wheels"][list(PLACES)[circle // 2]]["peak"] + 1e-6)
                most = max(most, up[circle])
        self.assertGreater(most, 10)  # of a hump of 20 mm

    def test_tubes_have_forces_and_stresses_and_move_as_one_where_they_are_rigid(self):
        for _, data, _ in self.images("tubes"):
            points = data.GetPointData()
            for name, unit in (("axial_force", "N"), ("stress_normal", "MPa"),
                               ("displacement", "mm")):
                self.assertIsNotNone(points.GetArray(name), name)
                label = points.GetArray(name).GetInformation().Get(
                    points.GetArray(name).UNITS_LABEL())
                self.assertEqual(unit, label)
            moved = vtk_to_numpy(points.GetArray("displacement"))
            # Pitch and heave alone: left and right go up together, nothing goes across.
            self.assertLess(abs(moved[:, 1]).max(), 0.05)
            ends = [moved[data.GetCell(k).GetPointId(data.GetCell(k).GetNumberOfPoints() - 1), 2]
                    for k in range(4)]
            self.assertAlmostEqual(ends[0], ends[1], delta=0.01)
            self.assertAlmostEqual(ends[2], ends[3], delta=0.01)


if __name__ == "__main__":
    unittest.main()
