"""Pictures and solid models of load cases, and the window: drawn without a monitor, read back by
VTK's own readers."""

import itertools
import json
import os
import pathlib
import shutil
import signal
import struct
import subprocess
import tempfile
import time
import unittest

import numpy
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkIOGeometry import vtkGLTFReader
from vtkmodules.vtkIOImage import vtkPNGReader

from program import CANTILEVER, EXAMPLES, OVERLOADED, PROGRAM, ProgramTest, run

NO_DISPLAY = {"DISPLAY": ""}
PNG = b"\x89PNG\r\n\x1a\n"


def pixels(path):
    """(height, width, 3) of 0..255, the first row at the bottom."""
    reader = vtkPNGReader()
    reader.SetFileName(str(path))
    reader.Update()
    width, height, _ = reader.GetOutput().GetDimensions()
    return vtk_to_numpy(reader.GetOutput().GetPointData().GetScalars()).reshape(height, width, 3)


def near(image, colour, reach=12):
    """How many pixels are nearly of this colour."""
    return int((abs(image.astype(int) - colour).max(axis=2) <= reach).sum())


def glb_parts(path):
    """JSON and buffer of a .glb file, by the layout of glTF 2.0, 4.4."""
    raw = path.read_bytes()
    magic, version, length = struct.unpack("<4sII", raw[:12])
    assert (magic, version, length) == (b"glTF", 2, len(raw))
    json_length, kind = struct.unpack("<I4s", raw[12:20])
    assert kind == b"JSON" and json_length % 4 == 0
    at = 20 + json_length
    length, kind = struct.unpack("<I4s", raw[at:at + 8])
    assert kind == b"BIN\0" and length % 4 == 0 and at + 8 + length == len(raw)
    return json.loads(raw[20:at]), raw[at + 8:]


class Pictures(ProgramTest):
    def check(self, text, code=0, env=NO_DISPLAY, *words):
        out = self.directory / "out"
        process = run("check", self.file(text), "-o", out, *words, env=env)
        self.assertAnswer(code, process)
        return out, process

    def test_each_case_becomes_a_picture_that_is_not_blank(self):
        out, process = self.check(OVERLOADED, 1)
        self.assertIn(".png", process.stderr)
        names = sorted(p.name for p in out.glob("*.png"))
        self.assertEqual(["loads_01_light.png", "loads_02_heavy.png"], names)
        for name in names:
            image = pixels(out / name)
            self.assertEqual((800, 1280, 3), image.shape)
            self.assertGreater(near(image, (255, 255, 255)), 0.5 * image.shape[0] * image.shape[1])
            frame = image[100:650, :1000]  # without title, small print and legend
            self.assertGreater((frame.min(axis=2) < 250).sum(), 5000)
        self.assertFalse((pixels(out / names[0]) == pixels(out / names[1])).all())

    def test_the_legend_shows_the_whole_scale(self):
        out, _ = self.check(CANTILEVER)
        legend = pixels(out / "loads_01_light.png")[200:700, 1100:1240]
        for end in ((0x44, 0x01, 0x54), (0x1f, 0x9e, 0x89), (0xfd, 0xe7, 0x25)):
            self.assertGreater(near(legend, end), 20, end)

    def test_the_tube_is_painted_dark_at_the_tip_and_light_at_the_wall(self):
        # Bending of a cantilever grows from nothing at the tip to its greatest at the wall.
        out, _ = self.check(CANTILEVER)
        image = pixels(out / "loads_01_light.png")[100:650, :1000].astype(int)
        painted = image.max(axis=2) - image.min(axis=2) > 40  # neither paper nor grey ink
        columns = painted.any(axis=0).nonzero()[0]
        left, right = columns.min(), columns.max()

        def green(at):
            return image[:, at][painted[:, at]][:, 1].mean()

        width = right - left
        self.assertGreater(width, 300)
        # Forward, and so the tip, lies at the left.
        values = [green(left + width // 10), green((left + right) // 2), green(right - width // 10)]
        self.assertEqual(sorted(values), values)

    def test_pictures_of_an_earlier_run_do_not_survive_one_without(self):
        out, _ = self.check(CANTILEVER)
        self.assertTrue((out / "loads_01_light.png").exists())
        _, process = self.check(CANTILEVER, 0, NO_DISPLAY, "--no-pictures")
        self.assertEqual([], list(out.glob("*.png")) + list(out.glob("*.glb")))
        self.assertNotIn(".png", process.stderr)

    def test_without_display_and_server_the_rest_is_written_and_the_reason_said(self):
        empty = self.directory / "empty"
        empty.mkdir()
        out, process = self.check(CANTILEVER, 0, {"DISPLAY": "", "PATH": str(empty)})
        self.assertIn("no pictures: there is no display", process.stderr)
        self.assertIn("xvfb", process.stderr)
        self.assertEqual([], list(out.glob("*.png")))
        self.assertTrue((out / "report.html").exists())
        self.assertTrue((out / "loads_01_light.glb").exists())  # needs no display

    def test_a_server_that_cannot_draw_costs_the_pictures_only(self):
        fake = self.directory / "bin"
        fake.mkdir()
        (fake / "Xvfb").write_text("#!/bin/sh\nexit 3\n")
        (fake / "Xvfb").chmod(0o755)
        out, process = self.check(CANTILEVER, 0, {"DISPLAY": "", "PATH": f"{fake}:/usr/bin:/bin"})
        self.assertIn("no pictures:", process.stderr)
        self.assertTrue((out / "results.json").exists())

    def test_no_server_is_left_running(self):
        marker = self.directory / "bin"
        marker.mkdir()
        # The real server, under a name of this test's own.
        (marker / "Xvfb").write_text(
            f"#!/bin/sh\necho $$ > {marker}/pid\nexec {shutil.which('Xvfb')} \"$@\"\n")
        (marker / "Xvfb").chmod(0o755)
        self.check(CANTILEVER, 0, {"DISPLAY": "", "PATH": f"{marker}:/usr/bin:/bin"})
        with self.assertRaises(ProcessLookupError):
            os.kill(int((marker / "pid").read_text()), 0)


class SolidModels(ProgramTest):
    def model(self, frame=None, case="01_light"):
        out = self.directory / "out"
        path = frame or self.file(CANTILEVER)
        process = run("check", path, "-o", out, env=NO_DISPLAY)
        self.assertIn(process.returncode, (0, 1), process.stderr)
        return out / f"loads_{case}.glb"

    def test_the_file_keeps_to_the_layout_of_gltf(self):
        head, buffer = glb_parts(self.model())
        self.assertEqual("2.0", head["asset"]["version"])
        sizes = {5121: 1, 5125: 4, 5126: 4}
        parts = {"SCALAR": 1, "VEC3": 3, "VEC4": 4}
        for accessor in head["accessors"]:
            view = head["bufferViews"][accessor["bufferView"]]
            self.assertEqual(0, view["byteOffset"] % 4)
            self.assertEqual(view["byteLength"], accessor["count"] * parts[accessor["type"]]
                             * sizes[accessor["componentType"]])
            self.assertLessEqual(view["byteOffset"] + view["byteLength"], len(buffer))
        for mesh in head["meshes"]:
            part = mesh["primitives"][0]
            points = head["accessors"][part["attributes"]["POSITION"]]
            view = head["bufferViews"][head["accessors"][part["indices"]]["bufferView"]]
            corners = struct.unpack_from(f"<{view['byteLength'] // 4}I", buffer, view["byteOffset"])
            self.assertLess(max(corners), points["count"])
            self.assertEqual(0, len(corners) % 3)

    def test_places_are_metres_with_y_up_and_the_vehicle_facing_z(self):
        head, _ = glb_parts(self.model())
        tubes = next(m for m in head["meshes"] if m["name"] == "tubes")["primitives"][0]
        box = head["accessors"][tubes["attributes"]["POSITION"]]
        # 25 mm square along x from 0 to 1 m; glTF x = left, y = up, z = forward.
        self.assertAlmostEqual(0, box["min"][2], places=6)
        self.assertAlmostEqual(1, box["max"][2], places=6)
        for axis in (0, 1):
            self.assertAlmostEqual(-0.0125, box["min"][axis], places=6)
            self.assertAlmostEqual(0.0125, box["max"][axis], places=6)

    def test_the_shape_is_moved_by_the_deflection_as_often_as_the_scene_says(self):
        head, _ = glb_parts(self.model())
        times = head["scenes"][0]["extras"]["deflection_drawn_times"]
        tubes = next(m for m in head["meshes"] if m["name"] == "tubes")
        self.assertEqual([1], tubes["weights"])
        moves = head["accessors"][tubes["primitives"][0]["targets"][0]["POSITION"]]
        # Tip of a cantilever, Euler-Bernoulli: F L^3 / 3 E I, I of EN 10219-2 25 x 25 x 2 with
        # rounded corners 1.48 cm4 (from memory); shear adds less than 1 %.
        tip = 50 * 1.0**3 / (3 * 210e9 * 1.48e-8)
        self.assertAlmostEqual(1, -moves["min"][1] / (times * tip), delta=0.02)

    def test_vtk_reads_models_with_sheets_and_their_colours(self):
        frame = next(EXAMPLES.glob("05_*.yaml"))
        path = self.model(frame, "02_pothole")
        reader = vtkGLTFReader()
        reader.SetFileName(str(path))
        reader.Update()
        self.assertEqual("deflection", reader.GetAnimationName(0))
        blocks, queue = [], [reader.GetOutput()]
        while queue:
            block = queue.pop(0)
            if block is None:
                continue
            if block.IsA("vtkMultiBlockDataSet"):
                queue += [block.GetBlock(i) for i in range(block.GetNumberOfBlocks())]
            else:
                blocks.append(block)
        self.assertEqual(3, len(blocks))  # tubes, sheets, legend
        painted = [b for b in blocks if b.GetPointData().HasArray("COLOR_0")]
        self.assertEqual(2, len(painted))
        for block in painted:
            colours = vtk_to_numpy(block.GetPointData().GetArray("COLOR_0"))
            self.assertGreater(len(set(map(tuple, colours.tolist()))), 20)
        head, _ = glb_parts(path)
        self.assertEqual("pothole", head["scenes"][0]["extras"]["case"])
        self.assertEqual("MPa", head["scenes"][0]["extras"]["unit"])

    def test_the_same_frame_gives_the_same_bytes(self):
        first = self.model().read_bytes()
        self.assertEqual(first, self.model().read_bytes())


class Screen:
    """An X server without a monitor, its picture in a file."""

    def __init__(self, directory):
        self.directory = directory
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x800x24", "-fbdir", directory],
            pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as pipe:
            self.display = ":" + pipe.readline().strip()
        self.env = {"DISPLAY": self.display}

    def close(self):
        self.server.terminate()
        self.server.wait()

    def do(self, *words):
        # The X server has no window manager: keys go to the window under the pointer.
        subprocess.run(["xdotool", *map(str, words)], check=True, env={**os.environ, **self.env},
                       stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def colours(self):
        """Count of each colour on the screen, from the server's XWD file (X Window Dump, 7)."""
        raw = (pathlib.Path(self.directory) / "Xvfb_screen0").read_bytes()
        header = struct.unpack(">25I", raw[:100])
        start, colours = header[0], header[19]
        data = raw[start + 12 * colours:]
        values, counts = numpy.unique(numpy.frombuffer(data[:len(data) // 4 * 4], numpy.uint32),
                                      return_counts=True)
        return dict(zip(values.tolist(), counts.tolist()))

    def wait_for(self, condition, limit=60, pause=0.2):
        """The screen's colours once they meet the condition."""
        end = time.monotonic() + limit
        while time.monotonic() < end:
            seen = self.colours()
            if condition(seen):
                return seen
            time.sleep(pause)
        raise AssertionError("the screen never showed it")


class Window(ProgramTest):
    def setUp(self):
        super().setUp()
        self.screen = Screen(tempfile.mkdtemp(dir=self.directory))
        self.addCleanup(self.screen.close)
        self.temporary = self.directory / "temporary"
        self.temporary.mkdir()

    def view(self, *words):
        process = subprocess.Popen(
            [PROGRAM, "view", *map(str, words)], text=True, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            env={**os.environ, **self.screen.env, "TMPDIR": str(self.temporary)})
        self.addCleanup(process.communicate)
        self.addCleanup(process.kill)
        return process

    def drawn(self, seen):
        return len(seen) > 200  # an empty screen is black

    def test_keys_change_what_is_seen_and_q_closes(self):
        process = self.view(self.file(OVERLOADED))
        first = self.screen.wait_for(self.drawn)
        self.assertEqual(1, len(list(self.temporary.iterdir())))
        self.screen.do("mousemove", 500, 60)
        seen = first
        for key in ("Right", "c", "Up", "0", "Left"):
            self.screen.do("key", key)
            before = seen
            seen = self.screen.wait_for(lambda now: now != before and self.drawn(now))
        self.screen.do("key", "q")
        out, err = process.communicate(timeout=60)
        self.assertEqual(1, process.returncode, err)  # as `check`: heavy fails
        self.assertIn("FAIL", out)
        self.assertEqual([], list(self.temporary.iterdir()))

    def test_a_click_tells_the_numbers_of_a_tube(self):
        process = self.view(self.file(CANTILEVER), "--times", 0)
        first = self.screen.wait_for(self.drawn)
        down_the_middle = itertools.cycle(range(150, 650, 6))  # across the tube

        def clicked(now):
            if now == first:  # a click before the window listens is lost: again, a place on
                self.screen.do("mousemove", 520, next(down_the_middle), "click", 1)
            return now != first

        self.screen.wait_for(clicked, pause=0.05)
        process.send_signal(signal.SIGTERM)

    def test_without_a_display_there_is_no_window_and_the_answer_is_2(self):
        process = run("view", self.file(CANTILEVER), env=NO_DISPLAY)
        self.assertAnswer(2, process)
        self.assertIn("no window: there is no display", process.stderr)

    def test_faults_of_the_request_are_told_before_anything_opens(self):
        path = self.file(CANTILEVER)
        process = run("view", path, "--colour", "heat", env=NO_DISPLAY)
        self.assertAnswer(2, process)
        self.assertIn("`stress`, `utilisation`, `axial` or `normal`", process.stderr)
        for colour in ("stress", "utilisation", "axial", "normal"):
            process = run("view", path, "--colour", colour, env=NO_DISPLAY)
            self.assertIn("no window: there is no display", process.stderr)
        process = run("view", path, "--case", "lihgt", env=NO_DISPLAY)
        self.assertAnswer(2, process)
        self.assertIn("light", process.stderr)
        self.assertAnswer(2, run("view", path, "--times", "-1", env=NO_DISPLAY))
        self.assertAnswer(2, run("view", env=NO_DISPLAY))


if __name__ == "__main__":
    unittest.main()
