"""The animation of the modes, read by VTK as a 3D viewer does."""
import math
import os
import xml.etree.ElementTree

import read_back
from read_back import ReadBack, path

vtk = read_back.need("vtk", "python3-vtk9")
numpy = read_back.need("numpy", "python3-numpy")
numpy_support = read_back.need("vtk.util.numpy_support", "python3-vtk9")

SHAPE = {
    "displacement": (3, "mm"),
    "rotation": (3, "rad"),
    "mode_shape_magnitude": (1, "1"),
}
MODES = {
    "many_members": 3,
    "one_member_2": 1,
    "one_member_3": 1,
    "one_member_4": 1,
    "hinged": 1,
    "hinged_2": 1,
    "mixed": 12,
    "clad": 4,
    "clad_2": 4,
    "twist": 1,
    "fitted": 3,
}


def reader_of(directory, mode, phase):
    reader = vtk.vtkXMLPolyDataReader()
    reader.SetFileName(path("modes", directory, f"modes_{mode:02d}_{phase}.vtp"))
    reader.Update()
    assert reader.GetErrorCode() == 0
    return reader


def read(directory, mode, phase=0):
    return reader_of(directory, mode, phase).GetOutput()


def bodies(mode, phase=0):
    """What is fitted to the tubes of the frame `fitted`."""
    return reader_of("fitted", mode, f"{phase}_attachments").GetOutput()


def every_step():
    for directory, modes in MODES.items():
        for mode in range(1, modes + 1):
            for phase in range(8):
                yield read(directory, mode, phase)


def array(data, name):
    return numpy_support.vtk_to_numpy(data.GetPointData().GetArray(name))


def points(data):
    return numpy_support.vtk_to_numpy(data.GetPoints().GetData())


def strings(data, name):
    values = data.GetFieldData().GetAbstractArray(name)
    return [values.GetValue(i) for i in range(values.GetNumberOfValues())]


def number(data, name):
    values = data.GetFieldData().GetArray(name)
    assert values.GetNumberOfValues() == 1
    return values.GetValue(0)


def members(data):
    """{name: indices of its points}, by the line's cell."""
    names = strings(data, "member_names")
    found = {}
    for cell in range(data.GetNumberOfCells()):
        ids = data.GetCell(cell).GetPointIds()
        name = names[data.GetCellData().GetArray("member").GetValue(cell)]
        found[name] = [ids.GetId(i) for i in range(ids.GetNumberOfIds())]
    return found


def size(vectors):
    return numpy.linalg.norm(vectors, axis=1)


class PinnedBeam:
    """40 x 20 x 2 mm tube with sharp corners, 2 m, bending sideways. SI, shapes in mm."""

    L, E, density = 2.0, 210e9, 7850.0
    A = 0.040 * 0.020 - 0.036 * 0.016
    I = (0.040 * 0.020**3 - 0.036 * 0.016**3) / 12
    amplitude = 0.05 * 2000  # a twentieth of the frame's diagonal

    # Mode n of a pinned-pinned beam: sin(n pi x/L), f = n^2 pi/(2 L^2) sqrt(EI/(rho A)). R. D.
    # Blevins, Formulas for Natural Frequency and Mode Shape (1979), table 8-1. MEMORY. The shear
    # flexibility of so slender a beam leaves the shape and lowers f by less than 0.5 %.
    @classmethod
    def frequency(cls, n):
        return n**2 * math.pi / (2 * cls.L**2) * math.sqrt(cls.E * cls.I / (cls.density * cls.A))

    @classmethod
    def shape(cls, n, x):
        return cls.amplitude * numpy.sin(n * math.pi * x / 1000 / cls.L)

    @classmethod
    def slope(cls, n, x):
        k = n * math.pi / cls.L
        return cls.amplitude / 1000 * k * numpy.cos(k * x / 1000)


class Index(ReadBack):
    def entries(self, directory):
        root = xml.etree.ElementTree.parse(path("modes", directory, "modes.pvd")).getroot()
        self.assertEqual((root.tag, root.get("type")), ("VTKFile", "Collection"))
        return root.findall("Collection/DataSet")

    def test_each_mode_is_eight_steps_from_its_number_to_seven_eighths_more(self):
        for directory, modes in MODES.items():
            expected = [mode + k / 8 for mode in range(1, modes + 1) for k in range(8)]
            for part in ("0", "1") if directory == "fitted" else ("0",):
                steps = [float(e.get("timestep")) for e in self.entries(directory)
                         if e.get("part") == part]
                self.assertEqual(steps, expected, directory)
            self.assertLessEqual({e.get("part") for e in self.entries(directory)}, {"0", "1"})

    def test_it_lists_the_files_beside_it_and_nothing_is_left_half_written(self):
        for directory in MODES:
            listed = [e.get("file") for e in self.entries(directory)]
            self.assertEqual(len(listed), len(set(listed)))
            written = set(os.listdir(path("modes", directory)))
            self.assertEqual(set(listed), written - {"modes.pvd"})

    def test_a_file_states_the_time_that_the_index_gives_it(self):
        for directory in MODES:
            for entry in self.entries(directory):
                reader = vtk.vtkXMLPolyDataReader()
                reader.SetFileName(path("modes", directory, entry.get("file")))
                reader.UpdateInformation()
                key = vtk.vtkStreamingDemandDrivenPipeline.TIME_STEPS()
                times = reader.GetOutputInformation(0).Get(key)
                self.assertEqual(times, (float(entry.get("timestep")),))


class Steps(ReadBack):
    def test_every_array_has_its_components_and_states_its_unit(self):
        for data in every_step():
            self.assertEqual(data.GetPointData().GetNumberOfArrays(), len(SHAPE))
            for name, (components, unit) in SHAPE.items():
                values = data.GetPointData().GetArray(name)
                self.assertEqual(values.GetNumberOfComponents(), components, name)
                self.assertEqual(values.GetNumberOfTuples(), data.GetNumberOfPoints(), name)
                label = values.GetInformation().Get(vtk.vtkDataArray.UNITS_LABEL())
                self.assertEqual(label, unit, name)
                self.assertTrue(numpy.isfinite(array(data, name)).all(), name)
            self.assertEqual(data.GetPointData().GetVectors().GetName(), "displacement")

    def test_the_mode_and_its_units_stand_in_the_field_data(self):
        data = read("many_members", 2, 3)
        self.assertEqual(number(data, "mode_number"), 2)
        frequency = data.GetFieldData().GetArray("frequency_hz")
        label = frequency.GetInformation().Get(vtk.vtkDataArray.UNITS_LABEL())
        self.assertEqual(label, "Hz")
        self.assertEqual(strings(data, "words"), ["first vertical bending"])
        self.assertGreater(number(data, "energy_share"), 0.99)
        self.assertLessEqual(number(data, "energy_share"), 1)
        self.assertEqual(number(data, "warp_scale_suggested"), 1)
        self.assertEqual(strings(data, "units"), ["mm, rad, Hz"])
        self.assertEqual(strings(data, "frame"), ['Cantilever & "tip" <load>'])
        self.assertIn("no size of its own", " ".join(strings(data, "notes")))

    def test_members_share_no_points_and_have_at_least_nine(self):
        for directory in MODES:
            data = read(directory, 1)
            found = members(data)
            self.assertEqual(len(found), len(strings(data, "member_names")))
            ids = [i for line in found.values() for i in line]
            self.assertEqual(len(ids), len(set(ids)))
            self.assertEqual(len(ids), data.GetNumberOfPoints())
            for cell, (name, line) in enumerate(found.items()):
                self.assertGreaterEqual(len(line), 9, name)
                self.assertEqual(data.GetCellType(cell), vtk.VTK_POLY_LINE)

    def test_a_section_is_named_but_for_springs(self):
        data = read("mixed", 1)
        names = strings(data, "section_names")
        section = data.GetCellData().GetArray("section")
        of = {name: section.GetValue(cell) for cell, name in enumerate(members(data))}
        self.assertEqual(of["shock"], -1)
        self.assertEqual(names[of["sill"]], "tall")
        self.assertEqual(names[of["stay"]], "rod")

    def test_the_mesh_is_undeformed_in_millimetres_in_every_step(self):
        for directory, modes in MODES.items():
            still = points(read(directory, 1))
            for mode in range(1, modes + 1):
                for phase in range(8):
                    numpy.testing.assert_array_equal(points(read(directory, mode, phase)), still)
        x = points(read("many_members", 1))
        self.assertEqual(x[0].tolist(), [0, 0, 0])
        self.assertEqual(x[-1].tolist(), [2000, 0, 0])
        self.assertTrue((x[:, 1:] == 0).all())

    def test_the_steps_of_a_mode_are_one_swing(self):
        for directory, modes in MODES.items():
            for mode in range(1, modes + 1):
                first = read(directory, mode)
                for phase in range(8):
                    step = read(directory, mode, phase)
                    for name in ("displacement", "rotation"):
                        out = array(first, name)
                        expected = math.cos(2 * math.pi * phase / 8) * out
                        atol = 1e-12 * numpy.abs(out).max()
                        numpy.testing.assert_allclose(array(step, name), expected, rtol=1e-12,
                                                      atol=atol)
                    name = "mode_shape_magnitude"
                    numpy.testing.assert_array_equal(array(step, name), array(first, name))
                opposite = array(read(directory, mode, 4), "rotation")
                numpy.testing.assert_array_equal(opposite, -array(first, "rotation"))
                self.assertGreater(numpy.abs(opposite).max(), 0)

    def test_the_greatest_translation_is_a_twentieth_of_the_diagonal(self):
        # A clad box 1.5 x 0.5 x 0.25 m; the other frames' diagonals are their own lengths.
        diagonals = {"clad_2": 1000 * math.sqrt(1.5**2 + 0.5**2 + 0.25**2)}
        diagonals |= {"hinged": 1200, "hinged_2": 1200}
        diagonals |= {name: 2000 for name in MODES if "member" in name}
        for directory, diagonal in diagonals.items():
            for mode in range(1, MODES[directory] + 1):
                data = read(directory, mode)
                moves = size(array(data, "displacement"))
                self.assertRelative(moves.max(), diagonal / 20)
                shares = array(data, "mode_shape_magnitude")
                numpy.testing.assert_allclose(shares, moves / moves.max(), rtol=1e-12, atol=1e-12)

    def test_nothing_swings_further_than_that(self):
        for directory, modes in MODES.items():
            for mode in range(1, modes + 1):
                data = read(directory, mode)
                at = points(data)
                diagonal = numpy.linalg.norm(at.max(axis=0) - at.min(axis=0))
                moves = size(array(data, "displacement"))
                self.assertLess(moves.max(), diagonal / 20 * (1 + 1e-12))
                self.assertLessEqual(array(data, "mode_shape_magnitude").max(), 1 + 1e-12)

    def test_members_move_together_where_they_meet(self):
        for directory in ("many_members", "hinged", "hinged_2", "mixed", "clad", "clad_2"):
            for mode in range(1, MODES[directory] + 1):
                data = read(directory, mode)
                at, moves = points(data), array(data, "displacement")
                joints = {}
                for line in members(data).values():
                    for end in (line[0], line[-1]):
                        joints.setdefault(tuple(at[end].round(6)), []).append(moves[end])
                self.assertTrue(any(len(ends) > 1 for ends in joints.values()))
                for ends in joints.values():
                    for end in ends:
                        numpy.testing.assert_allclose(end, ends[0], atol=1e-6)


class Bodies(ReadBack):
    """A tab on a tube and a gusset between that and another: read as VTK's bodies."""

    def ends(self, mode):
        """{place of a tube's end: how it moves and turns}"""
        data = read("fitted", mode)
        at = points(data)
        moves, turns = array(data, "displacement"), array(data, "rotation")
        return {tuple(at[i].round(6)): (moves[i], turns[i])
                for line in members(data).values() for i in (line[0], line[-1])}

    def test_both_are_there_undeformed_in_every_step_and_named(self):
        still = points(bodies(1))
        for mode in range(1, MODES["fitted"] + 1):
            for phase in range(8):
                data = bodies(mode, phase)
                numpy.testing.assert_array_equal(points(data), still)
                self.assertEqual(strings(data, "attachment_names"), ["ear", "g"])
                number_of = data.GetCellData().GetArray("attachment")
                found = {number_of.GetValue(i) for i in range(number_of.GetNumberOfTuples())}
                self.assertEqual(found, {0, 1})
                self.assertEqual(number(data, "mode_number"), mode)
                for name, (components, unit) in SHAPE.items():
                    values = data.GetPointData().GetArray(name)
                    self.assertEqual(values.GetNumberOfComponents(), components, name)
                    label = values.GetInformation().Get(vtk.vtkDataArray.UNITS_LABEL())
                    self.assertEqual(label, unit, name)

    def test_they_swing_with_the_tubes_step_by_step(self):
        for mode in range(1, MODES["fitted"] + 1):
            out = array(bodies(mode), "displacement")
            self.assertGreater(size(out).max(), 1)
            for phase in range(8):
                expected = math.cos(2 * math.pi * phase / 8) * out
                numpy.testing.assert_allclose(array(bodies(mode, phase), "displacement"),
                                              expected, rtol=1e-12, atol=1e-12)
            shares = array(bodies(mode), "mode_shape_magnitude")
            tubes = size(array(read("fitted", mode), "displacement")).max()
            numpy.testing.assert_allclose(shares * tubes, size(out), rtol=1e-9, atol=1e-9)

    def test_a_gussets_corners_move_with_the_ends_of_its_legs_as_a_stiff_body_would(self):
        # Its points are the last six, of both sides: its corner and the ends of both legs.
        for mode in range(1, MODES["fitted"] + 1):
            data, ends = bodies(mode), self.ends(mode)
            at, moves = points(data)[-6:], array(data, "displacement")[-6:]
            for k in range(6):
                axis = [(0, 0, 0), (at[k][0], 0, 0), (0, 0, at[k][2])][k % 3]
                move, turn = ends[tuple(numpy.round(axis, 6))]
                expected = move + numpy.cross(turn, at[k] - numpy.array(axis))
                numpy.testing.assert_allclose(moves[k], expected, rtol=0, atol=1e-6)

    def test_a_tab_stands_on_its_tube_as_that_moves_and_turns(self):
        for mode in range(1, MODES["fitted"] + 1):
            data, ends = bodies(mode), self.ends(mode)
            at, moves = points(data), array(data, "displacement")
            ids = [i for i in range(len(at) - 6) if abs(at[i][2] - at[-6][2]) < 1e-6]
            self.assertTrue(ids)
            foot = next(p for p in ends if p[0] > 100 and abs(p[2]) < 1e-6
                        and abs(p[0] - at[ids, 0].mean()) < 1)
            move, turn = ends[foot]
            for i in ids:
                expected = move + numpy.cross(turn, at[i] - numpy.array(foot))
                numpy.testing.assert_allclose(moves[i], expected, rtol=0,
                                              atol=0.002 * size(moves).max())


class Beams(ReadBack):
    def assertHalfSines(self, data, n, tolerance):
        """Sideways in n half sines, and slopes to match, within a share of the greatest."""
        x = points(data)[:, 0]
        moves, turns = array(data, "displacement"), array(data, "rotation")
        sign = math.copysign(1, turns[0, 2])
        # The greatest drawn is at a station, which need not be where the sine is greatest.
        shape, slope = PinnedBeam.shape(n, x), PinnedBeam.slope(n, x)
        fit = PinnedBeam.amplitude / numpy.abs(shape).max()
        within = tolerance * PinnedBeam.amplitude
        numpy.testing.assert_allclose(moves[:, 1], sign * fit * shape, rtol=0, atol=within)
        numpy.testing.assert_allclose(moves[:, [0, 2]], 0, rtol=0, atol=1e-3)
        within = tolerance * numpy.abs(slope).max()
        numpy.testing.assert_allclose(turns[:, 2], sign * fit * slope, rtol=0, atol=within)

    def test_a_pinned_beam_of_many_members_swings_in_a_half_sine_and_then_in_two(self):
        for mode, n in ((1, 1), (3, 2)):
            data = read("many_members", mode)
            self.assertRelative(number(data, "frequency_hz"), PinnedBeam.frequency(n), 0.005)
            self.assertHalfSines(data, n, 0.01)
        self.assertEqual(strings(read("many_members", 1), "words"), ["first lateral bending"])
        self.assertEqual(strings(read("many_members", 3), "words"), ["second lateral bending"])

    def test_a_pinned_beam_of_one_member_does_so_where_the_shape_has_nodes_inside(self):
        # Two cubics follow a sine no closer; the slope at the ends is off most.
        for pieces, tolerance in ((2, 0.025), (3, 0.01), (4, 0.01)):
            data = read(f"one_member_{pieces}", 1)
            self.assertEqual(data.GetNumberOfCells(), 1)
            x = points(data)[:, 0]
            self.assertTrue((numpy.diff(x) > 0).all())
            self.assertEqual((x[0], x[-1]), (0, 2000))
            self.assertHalfSines(data, 1, tolerance)

    def test_warping_by_one_draws_the_swing(self):
        warp = vtk.vtkWarpVector()
        warp.SetInputData(read("many_members", 1))
        warp.Update()
        bent = points(warp.GetOutput())
        self.assertRelative(numpy.abs(bent[:, 1]).max(), PinnedBeam.amplitude)

    def test_a_hinged_end_turns_by_itself_and_is_not_bent(self):
        # Two equal cantilevers joined at their tips: the shape is the mirror image of itself.
        # Without nodes inside, a tube lacks what it swings by itself: the line of a tip load is
        # within 2.5 % of the tip's motion of a cantilever's first mode.
        for directory, tolerance in (("hinged", 0.025), ("hinged_2", 0.005)):
            data = read(directory, 1)
            found = members(data)
            left = array(data, "displacement")[found["clamp_l"]][:, 1]
            right = array(data, "displacement")[found["clamp_r"]][:, 1]
            turn_l = array(data, "rotation")[found["clamp_l"]][:, 2]
            turn_r = array(data, "rotation")[found["clamp_r"]][:, 2]
            within = tolerance * numpy.abs(left).max()
            numpy.testing.assert_allclose(right, left[::-1], rtol=0, atol=within)
            self.assertGreater(abs(turn_l[-1]), 0.05)
            self.assertLess(abs(turn_r[0] + turn_l[-1]), 0.15 * abs(turn_l[-1]))
            # Curvature by second differences: nothing at the hinge, so an eighth on at most a
            # seventh of that an eighth before the clamp.
            bend = numpy.diff(right, 2)
            self.assertLess(abs(bend[0]), 1.05 / 7 * abs(bend[-1]))

    def test_links_cables_and_springs_stay_straight(self):
        swung = 0
        for mode in range(1, MODES["mixed"] + 1):
            data = read("mixed", mode)
            at, moves, turns = points(data), array(data, "displacement"), array(data, "rotation")
            found = members(data)
            for name in ("stay", "tie", "arm", "shock"):
                line = found[name]
                s = numpy.linspace(0, 1, len(line))[:, None]
                straight = (1 - s) * moves[line[0]] + s * moves[line[-1]]
                numpy.testing.assert_allclose(moves[line], straight, rtol=0, atol=1e-9)
                chord = at[line[-1]] - at[line[0]]
                along = chord / numpy.linalg.norm(chord)
                apart = moves[line[-1]] - moves[line[0]]
                across = apart - along * numpy.dot(apart, along)
                for turn in turns[line]:
                    numpy.testing.assert_allclose(numpy.cross(turn, chord), across, rtol=0,
                                                  atol=1e-6)
                swung = max(swung, numpy.linalg.norm(across))
        self.assertGreater(swung, 1)  # mm: some of them did move

    def test_a_shape_that_only_twists_is_drawn_by_its_turn_and_not_by_its_rounding(self):
        data = read("twist", 1)
        self.assertLess(numpy.abs(array(data, "displacement")).max(), 1e-6)
        self.assertLess(array(data, "mode_shape_magnitude").max(), 1e-6)
        turns = array(data, "rotation")
        s = numpy.linspace(0, 1, len(turns))
        numpy.testing.assert_allclose(turns[:, 0], 0.05 * s, rtol=0, atol=1e-9)
        numpy.testing.assert_allclose(turns[:, 1:], 0, rtol=0, atol=1e-9)


if __name__ == "__main__":
    read_back.main()
