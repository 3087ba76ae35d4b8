"""The lines of the tubes, read by VTK as a 3D viewer does."""
import read_back
from read_back import Cantilever, ReadBack, path

vtk = read_back.need("vtk", "python3-vtk9")
numpy = read_back.need("numpy", "python3-numpy")
numpy_support = read_back.need("vtk.util.numpy_support", "python3-vtk9")

CASES = ["tip-down.1", "mid", "twist_rare", "pull"]
SHAPE = {
    "displacement": (3, "mm"),
    "rotation": (3, "rad"),
    "axial_force": (1, "N"),
    "shear_force": (3, "N"),
    "bending_moment": (3, "N m"),
    "torsion": (1, "N m"),
    "von_mises": (1, "MPa"),
    "stress_normal": (1, "MPa"),
    "utilisation": (1, "1"),
}


def read(directory, step, case):
    reader = vtk.vtkXMLPolyDataReader()
    reader.SetFileName(path(directory, f"loads_{step:02d}_{case}_tubes.vtp"))
    reader.Update()
    assert reader.GetErrorCode() == 0
    return reader.GetOutput()


def cantilever(case):
    return read("cantilever", CASES.index(case) + 1, case)


def array(data, name):
    return numpy_support.vtk_to_numpy(data.GetPointData().GetArray(name))


def points(data):
    return numpy_support.vtk_to_numpy(data.GetPoints().GetData())


def strings(data, name):
    values = data.GetFieldData().GetAbstractArray(name)
    return [values.GetValue(i) for i in range(values.GetNumberOfValues())]


def members(data):
    """{name: indices of its points}, by the line's cell."""
    names = strings(data, "member_names")
    found = {}
    for cell in range(data.GetNumberOfCells()):
        ids = data.GetCell(cell).GetPointIds()
        name = names[data.GetCellData().GetArray("member").GetValue(cell)]
        found[name] = [ids.GetId(i) for i in range(ids.GetNumberOfIds())]
    return found


class Tubes(ReadBack):
    def test_every_array_has_its_components_and_states_its_unit(self):
        data = cantilever("mid")
        self.assertEqual(data.GetPointData().GetNumberOfArrays(), len(SHAPE))
        for name, (components, unit) in SHAPE.items():
            values = data.GetPointData().GetArray(name)
            self.assertEqual(values.GetNumberOfComponents(), components, name)
            label = values.GetInformation().Get(vtk.vtkDataArray.UNITS_LABEL())
            self.assertEqual(label, unit, name)

    def test_every_number_is_finite(self):
        files = [cantilever(case) for case in CASES] + [read("mixed", 1, "down")]
        for data in files:
            self.assertTrue(numpy.isfinite(points(data)).all())
            for name in SHAPE:
                self.assertTrue(numpy.isfinite(array(data, name)).all(), name)

    def test_members_share_no_points_and_have_at_least_nine(self):
        data = read("mixed", 1, "down")
        found = members(data)
        self.assertEqual(len(found), 8)
        ids = [i for line in found.values() for i in line]
        self.assertEqual(len(ids), len(set(ids)))
        self.assertEqual(len(ids), data.GetNumberOfPoints())
        for name, line in found.items():
            self.assertGreaterEqual(len(line), 9, name)
            self.assertEqual(data.GetCellType(list(found).index(name)), vtk.VTK_POLY_LINE)

    def test_a_member_runs_straight_from_node_to_node_in_millimetres(self):
        at = points(cantilever("mid"))
        self.assertEqual(at[0].tolist(), [0, 0, 0])
        self.assertEqual(at[-1].tolist(), [1000, 0, 0])
        self.assertTrue((numpy.diff(at[:, 0]) > 0).all())
        self.assertTrue((at[:, 1:] == 0).all())
        self.assertIn(500.0, at[:, 0])

    def test_warping_moves_the_tip_by_the_closed_form(self):
        data = cantilever("tip-down.1")
        self.assertEqual(data.GetPointData().GetVectors().GetName(), "displacement")
        warp = vtk.vtkWarpVector()
        warp.SetInputData(data)
        warp.SetInputArrayToProcess(0, 0, 0, vtk.vtkDataObject.FIELD_ASSOCIATION_POINTS,
                                    "displacement")
        warp.Update()
        tip = points(warp.GetOutput())[-1]
        self.assertRelative(tip[0], 1000)
        self.assertRelative(tip[2], -Cantilever.tip_deflection(300))

    def test_the_deflected_line_is_the_cubic_of_beam_theory(self):
        # w(x) = P x^2 (3 L - x) / 6EI + P x / (kappa G A); slope 3 P L^2 / 6EI at the tip.
        c, P = Cantilever, 300
        data = cantilever("tip-down.1")
        x = points(data)[:, 0]
        w = P * x**2 * (3 * c.L - x) / (6 * c.E * c.I) + P * x / (c.kappa * c.G * c.A)
        numpy.testing.assert_allclose(-array(data, "displacement")[:, 2], w, rtol=1e-9, atol=1e-9)
        self.assertRelative(array(data, "rotation")[-1, 1], P * c.L**2 / (2 * c.E * c.I))

    def test_moment_and_shear_are_those_of_the_load_beyond_the_cut(self):
        data = cantilever("tip-down.1")
        x = points(data)[:, 0]
        numpy.testing.assert_allclose(array(data, "shear_force"), [[0, 0, -300]] * len(x),
                                      atol=1e-6)
        # r x F of the load about the cut: (L - x) along x with -300 along z is +y; N m.
        moment = array(data, "bending_moment")
        numpy.testing.assert_allclose(moment[:, 1], 300 * (1000 - x) / 1000, atol=1e-6)
        numpy.testing.assert_allclose(moment[:, [0, 2]], 0, atol=1e-6)

    def test_the_root_is_stressed_by_PL_over_W_and_used_to_match(self):
        data = cantilever("tip-down.1")
        stress = Cantilever.root_stress(300)
        self.assertRelative(array(data, "stress_normal")[0], stress)
        von_mises = array(data, "von_mises")
        self.assertGreaterEqual(von_mises[0], stress)
        self.assertLess(von_mises[0], 1.01 * stress)  # transverse shear adds little
        used = von_mises * Cantilever.yield_factor / Cantilever.yield_strength
        numpy.testing.assert_allclose(array(data, "utilisation"), used, rtol=1e-12)

    def test_a_pull_is_a_positive_axial_force_over_the_area(self):
        data = cantilever("pull")
        numpy.testing.assert_allclose(array(data, "axial_force"), 1000, rtol=1e-9)
        numpy.testing.assert_allclose(array(data, "stress_normal"), 1000 / Cantilever.A, rtol=1e-9)

    def test_a_rare_case_is_measured_against_yield_itself(self):
        data = cantilever("twist_rare")
        numpy.testing.assert_allclose(array(data, "torsion"), 50, rtol=1e-9)
        used = array(data, "von_mises") / Cantilever.yield_strength
        numpy.testing.assert_allclose(array(data, "utilisation"), used, rtol=1e-12)

    def test_the_greatest_von_mises_of_a_member_is_what_the_results_state(self):
        for directory, steps in (("cantilever", CASES), ("mixed", ["down"])):
            table = read_back.reported(directory)
            for step, case in enumerate(steps, start=1):
                data = read(directory, step, case)
                for name, ids in members(data).items():
                    if (case, name) not in table:
                        continue
                    stress, used = table[case, name]
                    self.assertRelative(array(data, "von_mises")[ids].max(), stress)
                    self.assertRelative(array(data, "utilisation")[ids].max(), used)

    def test_springs_have_no_section_and_no_stress(self):
        data = read("mixed", 1, "down")
        section = data.GetCellData().GetArray("section")
        line = list(members(data)).index("shock")
        self.assertEqual(section.GetValue(line), -1)
        ids = members(data)["shock"]
        self.assertTrue((array(data, "von_mises")[ids] == 0).all())
        self.assertTrue((array(data, "axial_force")[ids] != 0).all())
        names = strings(data, "section_names")
        self.assertEqual(names[section.GetValue(list(members(data)).index("stay"))], "rod")

    def test_the_case_its_step_and_the_units_stand_in_the_field_data(self):
        reader = vtk.vtkXMLPolyDataReader()
        reader.SetFileName(path("cantilever", "loads_02_mid_tubes.vtp"))
        reader.UpdateInformation()
        time_steps = vtk.vtkStreamingDemandDrivenPipeline.TIME_STEPS()
        steps = reader.GetOutputInformation(0).Get(time_steps)
        self.assertEqual(steps, (2.0,))
        data = cantilever("mid")
        self.assertEqual(strings(data, "case_name"), ["mid"])
        self.assertEqual(strings(data, "frame"), ['Cantilever & "tip" <load>'])
        self.assertEqual(strings(data, "units"), ["mm, N, N m, MPa, rad"])
        self.assertIn("0 where no check is possible", " ".join(strings(data, "notes")))

    def test_the_suggested_warp_draws_the_largest_move_within_a_twentieth_of_the_frame(self):
        largest = max(
            numpy.linalg.norm(array(cantilever(case), "displacement"), axis=1).max()
            for case in CASES
        )
        for case in CASES:
            scale = cantilever(case).GetFieldData().GetArray("warp_scale_suggested").GetValue(0)
            self.assertLessEqual(scale * largest, 50)
            self.assertGreater(2.5 * scale * largest, 50)

    def test_the_tube_filter_makes_a_tube_of_every_member(self):
        data = read("mixed", 1, "down")
        tube = vtk.vtkTubeFilter()
        tube.SetInputData(data)
        tube.SetRadius(12.5)
        tube.SetNumberOfSides(6)
        tube.Update()
        self.assertEqual(tube.GetOutput().GetNumberOfCells(), 8 * 6)  # one strip a side


if __name__ == "__main__":
    read_back.main()
