"""The page of report.html in a headless Chromium: what it shows, how it is used, what it must not
do.

The program's path comes in the environment variable TUBEWRIGHT. Needs the Debian packages chromium,
chromium-driver and python3-selenium."""

import base64
import copy
import hashlib
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import time
import unittest

from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.support.ui import Select

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["TUBEWRIGHT"]
EXAMPLES = ROOT / "cases"
DATE = "2026-01-31"
HOSTILE = ("</script ><script >window.taken = 1</script ><!-- <script "
           "<img src=x onerror='window.taken = 1'>"
           " %%STYLE%% &amp; \u2028")
SWITCHES = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--window-size=1280,900"]
WITH_WEBGL = ["--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]


DATA = re.compile(r'(<script type="application/json"[^>]*>)(.*?)(</script>)', re.S)


def report(path, directory, *more):
    """The page that `check` writes for a frame file."""
    return page_of("check", path, directory, "--no-pictures", *more)


def page_of(command, path, directory, *more):
    run = subprocess.run([PROGRAM, command, str(path), "-o", str(directory), "-q", *more],
                         env=dict(os.environ, SOURCE_DATE_EPOCH="1769817600"), capture_output=True,
                         text=True, check=False)
    assert run.returncode in (0, 1), run.stderr
    return (directory / "report.html").read_text(encoding="utf-8")


def with_data(page, data):
    """The same page with other data, escaped as DATA.md asks."""
    text = json.dumps(data, ensure_ascii=False)
    for character in "<>&\u2028\u2029":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return DATA.sub(lambda found: found[1] + text + found[3], page, count=1)


def hostile_file(directory):
    """The bracket by someone who writes scripts into titles, notes and comments."""
    text = (EXAMPLES / "01_wall_bracket.yaml").read_text()
    ill = HOSTILE.replace(" \u2028", "")
    text = text.replace("frame: Timber rack bracket", "frame: " + json.dumps(ill))
    text = text.replace("note: someone stands on one arm", "note: " + json.dumps(ill))
    path = directory / "hostile.yaml"
    path.write_text(text + "# " + ill + "\n")
    return path


def overloaded(directory):
    """The hauler with a pothole that it cannot take."""
    text = (EXAMPLES / "05_market_hauler.yaml").read_text()
    path = directory / "overloaded.yaml"
    path.write_text(text.replace("bump: {front_left: 3.0}", "bump: {front_left: 16.0}"))
    return path


def fitted(directory):
    """The drawbar with one plate for its coupling, which a case pushes across its plane."""
    text = (EXAMPLES / "07_trailer_drawbar.yaml").read_text()
    path = directory / "fitted.yaml"
    single = text.replace("kind: pair, on: drawbar, at: 0.9", "kind: tab, on: drawbar, at: 0.9")
    path.write_text(single.replace(" gap: 22,", ""))
    return path


def thin_gussets(directory):
    """The drawbar with gussets whose free edges buckle."""
    text = (EXAMPLES / "07_trailer_drawbar.yaml").read_text()
    path = directory / "thin_gussets.yaml"
    path.write_text(text.replace("thickness: 3, place: sides", "thickness: 1, place: sides"))
    return path


def priced(directory):
    """The bracket with a price for one of its two sizes."""
    path = directory / "priced.yaml"
    path.write_text((EXAMPLES / "01_wall_bracket.yaml").read_text()
                    + "stock: {sizes: [{shape: square_tube, side: 20, wall: 1.5, price: 12.5}]}\n")
    return path


def larger(data, members, cases):
    """The same data with members and cases repeated until there are so many."""
    data = copy.deepcopy(data)
    known = len(data["members"])
    kept = data["members"]
    data["members"] = [dict(kept[i % known], name=f"{kept[i % known]['name']}_{i}")
                       for i in range(members)]
    for case in data["cases"]:
        case["members"] = [case["members"][i % known] for i in range(members)]
    some = len(data["cases"])
    data["cases"] = [dict(data["cases"][i % some], name=f"case_{i}") for i in range(cases)]
    return data


def hostile(data):
    data = copy.deepcopy(data)
    data["title"] += HOSTILE
    data["input"]["text"] += HOSTILE
    data["cases"][0]["note"] = HOSTILE
    data["members"][0]["name"] += HOSTILE
    data["warnings"] = [{"message": HOSTILE}]
    return data


def turned(turn):
    """How the page says by how much a piece is turned between its ends."""
    if turn is None:
        return ""
    sided = 0.5 < abs(turn) < 179.5
    way = "" if not sided else " clockwise" if turn > 0 else " anticlockwise"
    return f", turned {abs(turn):.0f}\u00b0{way}"


class Pages:
    """The pages, each made once."""

    def __init__(self):
        self.directory = pathlib.Path(tempfile.mkdtemp())
        self.data = {}
        files = {"bracket": EXAMPLES / "01_wall_bracket.yaml",
                 "quad": EXAMPLES / "03_cargo_quad.yaml",
                 "hauler": EXAMPLES / "05_market_hauler.yaml", "fail": overloaded(self.directory),
                 "hostile_file": hostile_file(self.directory), "priced": priced(self.directory),
                 "fitted": fitted(self.directory), "thin": thin_gussets(self.directory)}
        for name, path in files.items():
            self.add(name, report(path, self.directory / name))
        self.add("changes", report(EXAMPLES / "06_flat_barrow.yaml", self.directory / "changes",
                                   "--changes"))
        self.add("rides", page_of("ride", EXAMPLES / "05_market_hauler.yaml",
                                  self.directory / "rides"))
        quad, bracket = ((self.directory / f"{n}.html").read_text(encoding="utf-8")
                         for n in ("quad", "bracket"))
        self.add("large", with_data(quad, larger(self.data["quad"], 200, 20)))
        self.add("uncut", with_data(bracket, dict(self.data["bracket"], cut=None)))
        self.add("hostile", with_data(bracket, hostile(self.data["bracket"])))

    def add(self, name, page):
        self.data[name] = json.loads(DATA.search(page)[2])
        (self.directory / f"{name}.html").write_text(page, encoding="utf-8")

    def address(self, name):
        return (self.directory / f"{name}.html").as_uri()


def browser(profile, switches):
    options = Options()
    options.binary_location = shutil.which("chromium")
    for switch in SWITCHES + switches + [f"--user-data-dir={profile}"]:
        options.add_argument(switch)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    return webdriver.Chrome(service=Service(shutil.which("chromedriver")), options=options)


class PageTest(unittest.TestCase):
    switches = WITH_WEBGL

    @classmethod
    def setUpClass(cls):
        if not hasattr(PageTest, "pages"):
            PageTest.pages = Pages()
            unittest.addModuleCleanup(shutil.rmtree, PageTest.pages.directory)
        profile = tempfile.mkdtemp()
        cls.addClassCleanup(shutil.rmtree, profile, ignore_errors=True)
        cls.b = browser(profile, cls.switches)
        cls.addClassCleanup(cls.b.quit)

    def open(self, name, width=1280, height=900, dark=False):
        self.command("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=1, mobile=width < 600)
        self.command("Emulation.setEmulatedMedia", media="", features=[
            {"name": "prefers-color-scheme", "value": "dark" if dark else "light"},
            {"name": "prefers-reduced-motion", "value": "reduce"}])
        self.b.get_log("browser")
        self.b.get_log("performance")
        self.b.get(self.pages.address(name))
        self.data = self.pages.data[name]
        self.until("return document.querySelectorAll('.figure-print svg').length"
                   f" === {len(self.data['cases'])}"
                   " && !!document.querySelector('#figure-for-print svg')"
                   " && !!document.querySelector('.stage svg *')")

    def command(self, name, **arguments):
        return self.b.execute_cdp_cmd(name, arguments)

    def script(self, text, *arguments):
        return self.b.execute_script(text, *arguments)

    def until(self, text, seconds=20):
        end = time.monotonic() + seconds
        while not self.script(text):
            self.assertLess(time.monotonic(), end, f"never came true: {text}")
            time.sleep(0.05)

    def next_frame(self):
        self.b.execute_async_script("const f = arguments[0];"
                                    "requestAnimationFrame(() => requestAnimationFrame(f))")

    def says(self, css, part):
        """That the text of an element has a part; the whole page is not a message."""
        text = self.text(css)
        self.assertTrue(part in text, f"{part!r} is not in {css}: {text[:300]!r}")

    def find(self, css):
        return self.b.find_element(By.CSS_SELECTOR, css)

    def text(self, css):
        return self.script("return document.querySelector(arguments[0]).textContent", css)

    def picked(self):
        return self.text("#picked")

    def choose_case(self, name):
        number = [c["name"] for c in self.data["cases"]].index(name)
        Select(self.find("#case-select")).select_by_value(str(number))
        self.next_frame()

    def choose_colour(self, mode):
        self.find(f"input[name=mode][value={mode}]").click()
        self.next_frame()

    def worst_of(self, case):
        result = next(c for c in self.data["cases"] if c["name"] == case)
        return max((u, m["name"]) for m, r in zip(self.data["members"], result["members"])
                   for u in r["used"] if u is not None)

    def click_on(self, member, share=0.5):
        """Clicks where the axis of a member is drawn, by the page's own camera as it starts."""
        x, y = self.script("""
            const data = JSON.parse(document.getElementById('report-data').textContent);
            const stage = document.getElementById('stage'), p = FrameFigure.prepare(data);
            const camera = new FrameFigure.Camera(p);
            const m = data.members.find((m) => m.name === arguments[0]);
            const a = data.nodes[m.from].at, b = data.nodes[m.to].at;
            const q = camera.projector(stage.clientWidth, stage.clientHeight)(
              a.map((v, k) => v + arguments[1] * (b[k] - v)));
            return [q[0] - stage.clientWidth / 2, q[1] - stage.clientHeight / 2];""", member, share)
        stage = self.find("#stage")
        self.script("arguments[0].scrollIntoView({block: 'center'})", stage)
        mouse = ActionChains(self.b)
        mouse.move_to_element_with_offset(stage, round(x), round(y)).click().perform()
        self.next_frame()

    def undeflected(self):
        slider = self.find("#factor")
        slider.send_keys(Keys.HOME)
        self.next_frame()

    def accessible(self):
        nodes = self.command("Accessibility.getFullAXTree")["nodes"]
        return [(n["role"]["value"], n.get("name", {}).get("value", "")) for n in nodes
                if not n.get("ignored")]


class Drawn(PageTest):
    """With WebGL."""

    def picture(self):
        """The canvas alone, as the browser shows it, and how many colours it has."""
        self.next_frame()
        seen = self.script("""
            const canvas = document.querySelector('.stage canvas');
            const copy = document.createElement('canvas');
            copy.width = canvas.width; copy.height = canvas.height;
            const flat = copy.getContext('2d');
            flat.drawImage(canvas, 0, 0);
            const image = flat.getImageData(0, 0, copy.width, copy.height);
            const pixels = new Uint32Array(image.data.buffer);
            return {colours: new Set(pixels).size, data: copy.toDataURL()};""")
        return {**seen, "data": hashlib.sha256(seen["data"].encode()).hexdigest()}

    def test_the_canvas_shows_something_and_changes_with_everything_that_is_set(self):
        self.open("quad")
        self.assertEqual(self.find("#stage").get_attribute("data-drawn-by"), "webgl")
        seen = [self.picture()]
        self.assertGreater(seen[0]["colours"], 50)
        steps = [lambda: self.choose_colour("axial"), lambda: self.choose_colour("von_mises"),
                 lambda: self.choose_case("bump_front_left"), self.undeflected,
                 lambda: self.find("#stage").send_keys(Keys.ARROW_LEFT),
                 lambda: self.find("#stage").send_keys("+"),
                 lambda: self.find("#stage").send_keys(Keys.SHIFT + Keys.ARROW_UP),
                 lambda: self.find("#stage").send_keys("n"),
                 lambda: self.find("button[aria-label='Look from above']").click()]
        for number, step in enumerate(steps):
            step()
            seen.append(self.picture())
            self.assertNotEqual(seen[-1]["data"], seen[-2]["data"],
                                f"step {number} changed nothing")

    def test_what_the_browser_shows_of_the_figure_is_not_blank(self):
        self.open("hauler")
        first = base64.b64decode(self.find("#stage").screenshot_as_base64)
        self.choose_colour("axial")
        second = base64.b64decode(self.find("#stage").screenshot_as_base64)
        self.assertGreater(len(first), 5000)
        self.assertNotEqual(first, second)

    def test_dragging_turns_and_does_not_pick(self):
        self.open("hauler")
        before = self.picture()["data"]
        ActionChains(self.b).drag_and_drop_by_offset(self.find("#stage"), 60, 20).perform()
        self.assertNotEqual(self.picture()["data"], before)
        self.assertIn("Click a tube", self.picked())

    def test_two_fingers_zoom(self):
        self.open("hauler", width=390, height=844)
        before = self.picture()["data"]
        box = self.script("const r = document.getElementById('stage'); r.scrollIntoView();"
                          "const q = r.getBoundingClientRect();"
                          "return [q.x + q.width / 2, q.y + q.height / 2]")
        x, y = box
        for kind, spread in [("touchStart", 20), ("touchMove", 50), ("touchMove", 90)]:
            self.command("Input.dispatchTouchEvent", type=kind, touchPoints=[
                {"x": x - spread, "y": y, "id": 0}, {"x": x + spread, "y": y, "id": 1}])
        self.command("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.assertNotEqual(self.picture()["data"], before)

    def test_a_click_on_a_tube_tells_its_numbers(self):
        self.open("bracket")
        self.undeflected()
        self.assertIn("Click a tube", self.picked())
        for member in ("strut.2", "arm_r.1", "arm_l.2"):
            self.click_on(member)
            self.assertTrue(self.picked().startswith(member), self.picked())
            number = [m["name"] for m in self.data["members"]].index(member)
            case = self.data["verdict"]["worst"]["case"]
            result = next(c for c in self.data["cases"] if c["name"] == case)["members"][number]
            used = max(u for u in result["used"] if u is not None)
            self.assertIn(f"{used:.2f} of its", self.picked())
            self.assertIn(f"von Mises {result['von_mises']:.1f} MPa", self.picked())
        self.assertEqual(self.find("#picked").get_attribute("aria-live"), "polite")

    def test_the_list_and_the_keyboard_pick_too(self):
        self.open("quad")
        case = self.data["verdict"]["worst"]["case"]
        used, worst = self.worst_of(case)
        self.find("#stage").send_keys("n")
        self.assertTrue(self.picked().startswith(worst), self.picked())
        self.assertIn(f"{used:.2f} of its", self.picked())
        self.find("#stage").send_keys("n")
        self.assertFalse(self.picked().startswith(worst))
        self.find("#stage").send_keys("p")
        self.assertTrue(self.picked().startswith(worst))
        self.find("#stage").send_keys(Keys.ESCAPE)
        self.assertIn("Click a tube", self.picked())
        Select(self.find("#tube-select")).select_by_value("3")
        self.assertTrue(self.picked().startswith(self.data["members"][3]["name"]))

    def test_switching_the_case_changes_numbers_everywhere(self):
        self.open("quad")
        for name in ("standing", "braking"):
            self.choose_case(name)
            used, worst = self.worst_of(name)
            self.assertTrue(self.text("#tube-select").startswith(f"{worst}: {used:.2f}"))
            shown = [s.get_attribute("id") for s in self.b.find_elements(By.CSS_SELECTOR, ".case")
                     if s.is_displayed()]
            number = [c["name"] for c in self.data["cases"]].index(name)
            self.assertEqual(shown, [f"case-{number}"])
            row = self.text(f"#case-{number} table.members tbody tr")
            self.assertTrue(row.startswith(worst), row)
            self.assertIn(f"{used:.2f}", row)
            self.assertEqual(Select(self.find("#case-select-2")).first_selected_option
                             .get_attribute("value"), str(number))
        self.find("#all-cases").click()
        cases = self.b.find_elements(By.CSS_SELECTOR, ".case")
        self.assertTrue(all(s.is_displayed() for s in cases))

    def test_members_can_be_sorted(self):
        self.open("quad")
        table = ".case:not([hidden]) table.members"
        button = self.find(f"{table} thead th button")
        button.click()
        names = self.script("return [...document.querySelectorAll(arguments[0])]"
                            ".map((e) => e.textContent)",
                            f"{table} tbody th")
        self.assertEqual(names, sorted(names))
        self.assertEqual(self.find(f"{table} thead th").get_attribute("aria-sort"), "ascending")


class Page(PageTest):
    """What is the same however the figure is drawn."""

    def test_the_verdict_comes_first_and_says_what_the_data_say(self):
        for name, word in (("quad", "PASS"), ("fail", "FAIL")):
            self.open(name)
            first = self.text("main > section")
            self.assertIn(word, first)
            self.assertIn(self.data["verdict"]["sentence"], first)
            self.assertIn(f"{self.data['verdict']['worst']['utilisation']:.2f} of 1", first)
            fatigue = max(m["utilisation"] or 0 for m in self.data["fatigue"]["members"])
            self.assertRegex(first, f"Fatigue screening{fatigue:.2f} of 1(does not count|counts)")

    def test_the_first_frequency_told_is_the_frames_own(self):
        self.open("quad")
        own = min(m["frequency"] for m in self.data["modes"] if m["frame_only"])
        self.assertGreater(own, min(m["frequency"] for m in self.data["modes"] if not m["rigid"]))
        self.says("main > section", f"{own:.1f} Hz")
        self.says("main > section", "frame's own first torsion")
        self.says("#studies", "wheel hop, rear_left")

    def test_changes_are_told_where_they_were_asked_for(self):
        self.open("bracket")
        self.assertTrue(self.script("return document.getElementById('changes').hidden"))
        self.assertFalse(self.script("return !!document.querySelector('input[value=worth]')"))
        self.open("changes")
        self.says("#changes", f"Pays most: {self.data['rank']['best']}.")
        self.says("#changes", "must hold")
        rows = self.script("return document.querySelectorAll('#changes table')[0].rows.length")
        self.assertEqual(len(self.data["rank"]["groups"]) + 1, rows)
        inspect = [self.data["losses"]["losses"][i]["name"] for i in self.data["losses"]["inspect"]]
        self.assertTrue(inspect)
        names = self.script("""
            const t = [...document.querySelectorAll('#changes table')].find((table) =>
              table.caption.textContent.startsWith('Welds that must hold'));
            return [...t.tBodies[0].rows].map((r) => r.cells[0].textContent);""")
        self.assertEqual(inspect, names)
        self.says("#plots-body", "Torsional stiffness gained for a kg")

    def test_tubes_are_coloured_by_their_worth_and_by_their_loss(self):
        self.open("changes")
        worth = self.data["rank"]["worth"]
        worst = self.data["cases"][self.script(
            "return Number(document.getElementById('case-select').value)")]["worst"]["item"]
        number = [m["name"] for m in self.data["members"]].index(worst)
        self.choose_colour("worth")
        self.says("#legend", "for a kg of wall")
        self.says(".stage svg", f"{worst} {worth[number]:.3g}")
        self.choose_colour("losses")
        self.says("#legend", "Black hatching")

    def test_rides_are_told_first_in_their_own_report_and_in_no_other(self):
        self.open("hauler")
        self.assertTrue(self.script("return document.getElementById('rides').hidden"))
        self.open("rides")
        seen = self.script("return [...document.querySelectorAll('main > section')]"
                           ".filter((s) => !s.hidden).map((s) => s.id)")
        self.assertEqual(["verdict", "rides", "figure"], seen[:3])
        for chapter in ("fatigue", "studies", "cut", "changes", "otherwise"):
            self.assertNotIn(chapter, seen)
        self.says("#cases-heading", "The worst instants")
        for caution in self.data["cautions"]:
            self.says("#cautions", caution)
        self.says("#cautions", "drive test")

    def test_a_ride_has_its_doubts_before_its_numbers_and_these_are_those_of_the_data(self):
        self.open("rides")
        text = self.text("#rides")
        after = 0
        for ride in self.data["rides"]["rides"]:
            start = text.index(f"Ride {ride['name']}: {ride['word']}", after)
            wheels = text.index("Factor: peak over the load at rest", start)
            for doubt in ride["not_proven"]:
                self.assertLess(start, text.index(doubt[1:], start))
                self.assertLess(text.index(doubt[1:], start), wheels)
            after = wheels
        self.assertTrue(any(ride["not_proven"] for ride in self.data["rides"]["rides"]))
        tables = self.script("""
            return [...document.querySelectorAll('#rides table')].map((t) =>
              [t.parentNode.getAttribute('aria-label'),
               [...t.tBodies[0].rows].map((r) => [...r.cells].map((c) => c.textContent))]);""")
        tables = dict(tables)
        for ride in self.data["rides"]["rides"]:
            rows = tables[f"Wheels in ride {ride['name']}"]
            for (name, wheel), row in zip(ride["wheels"].items(), rows, strict=True):
                self.assertEqual(name.replace("_", " "), row[0])
                for cell, value, step in zip(row[1:], (
                        wheel["standing"], wheel["peak"], wheel["factor"],
                        wheel["standard_factor"], 100 * wheel["off_ground"],
                        wheel["tyre_deflection"]), (1, 1, 0.01, 0.01, 0.1, 0.1), strict=True):
                    self.assertAlmostEqual(value, float(cell), delta=0.501 * step)
            rows = tables[f"Carried masses in ride {ride['name']}"]
            for mass, row in zip(ride["masses"].values(), rows, strict=True):
                self.assertAlmostEqual(mass["rms"], float(row[1]), delta=0.00501)
                self.assertAlmostEqual(mass["peak"] / 9.80665, float(row[4]), delta=0.00501)
            rows = tables[f"Nearest their limits in ride {ride['name']}"]
            for worst, row in zip(ride["nearest"], rows, strict=True):
                self.assertEqual(worst["item"], row[0])
                self.assertAlmostEqual(worst["utilisation"], float(row[1]), delta=0.00501)
        rows = tables["Fatigue by the rides"]
        self.assertEqual([m["name"] for m in self.data["rides"]["life"]["members"]],
                         [row[0] for row in rows])

    def test_wheel_forces_are_drawn_as_far_as_their_peaks(self):
        self.open("rides")
        for i, ride in enumerate(self.data["rides"]["rides"]):
            paths = self.script("return [...document.querySelectorAll(arguments[0])]"
                                ".map((p) => [p.getBBox().y, p.getBBox().height])",
                                f"[data-ride='{i}'] path.force")
            self.assertEqual(len(ride["wheels"]), len(paths))
            # From the least force, below which nothing is drawn, one scale for all wheels.
            scales = []
            for k, (_, height) in enumerate(paths):
                trace = ride["trace"]
                span = (max(f for f in trace["greatest"][k] if f is not None)
                        - min(f for f in trace["least"][k] if f is not None))
                scales.append(height / span)
            for scale in scales:
                self.assertAlmostEqual(1, scale / scales[0], delta=0.02)
            words = self.find(f"[data-ride='{i}'] svg").get_attribute("aria-label")
            for wheel in ride["wheels"].values():
                self.assertIn(f"{wheel['factor']:.2f} times its load at rest", words)

    def test_the_figure_shows_the_worst_over_the_rides_and_a_time_shows_that_instant(self):
        self.open("rides")
        self.assertTrue(self.find("input[name=mode][value=rides]").is_selected())
        worst = self.data["verdict"]["worst"]
        number = [m["name"] for m in self.data["members"]].index(worst["item"])
        self.assertAlmostEqual(worst["utilisation"], self.data["rides"]["worst"][number])
        self.says(".stage svg", f"{worst['item']} {worst['utilisation']:.2f}")
        last = self.data["rides"]["rides"][-1]
        buttons = self.b.find_elements(By.CSS_SELECTOR, "#rides table button")
        self.assertEqual(sum(len(r["nearest"]) for r in self.data["rides"]["rides"]), len(buttons))
        self.script("arguments[0].scrollIntoView({block: 'center'})", buttons[-1])
        buttons[-1].click()
        self.assertEqual(str(last["nearest"][-1]["case"]),
                         self.find("#case-select").get_attribute("value"))
        self.says(".case:not([hidden]) h3", self.data["cases"][last["nearest"][-1]["case"]]["name"])

    def test_what_fails_is_marked_by_more_than_colour(self):
        self.open("fail")
        self.says("#cases-overview", "FAILS")
        worst = self.data["verdict"]["worst"]
        self.says(".stage svg", f"{worst['item']} {worst['utilisation']:.2f}, worst")
        self.assertTrue(self.script("return !!document.querySelector('#plots-body [fill^=url]')"))
        self.assertTrue(self.script(
            "return !!document.querySelector('#figure-for-print path[stroke-dasharray]')"))

    def test_every_member_check_has_a_number_or_a_reason(self):
        for name in ("quad", "hauler", "bracket"):
            self.open(name)
            for i, case in enumerate(self.data["cases"]):
                rows = self.script("""
                    const rows = `#case-${arguments[0]} table.members tbody tr`;
                    return [...document.querySelectorAll(rows)].map(
                      (r) => [...r.children].map((c) => c.textContent));""", i)
                self.assertEqual(len(rows), len(self.data["members"]))
                for row in rows:
                    number = [m["name"] for m in self.data["members"]].index(row[0])
                    result = case["members"][number]
                    for cell, used, why in zip(row[4:9], result["used"], result["why"]):
                        if used is None:
                            self.assertIn("\u2013", cell)
                            self.assertGreater(len(cell), 0 if why is None else 1)
                        else:
                            self.assertRegex(cell, r"^<?\d")
                for reason in {w for m in case["members"] for w in m["why"] if w is not None}:
                    self.says(f"#case-{i} .notes", self.data["reasons"][reason])

    def rows_of(self, case, what):
        """The cells of each row of the table `what` of a case."""
        return self.script("""
            const t = [...document.querySelectorAll(`#case-${arguments[0]} .fitted`)].find(
              (e) => e.parentNode.getAttribute("aria-label").startsWith(arguments[1]));
            return [...t.tBodies[0].rows].map((r) => [...r.cells].map((c) => c.textContent));""",
                           case, what)

    def test_attachments_and_gussets_have_tables_and_what_was_not_checked_stands_first(self):
        self.open("fitted")
        for kind, checks in (("attachments", "attachment_checks"), ("gussets", "gusset_checks")):
            names = [c["name"].replace("_", " ") for c in self.data[checks]]
            places = {a["name"]: i for i, a in enumerate(self.data[kind])}
            for number, case in enumerate(self.data["cases"]):
                rows = self.rows_of(number, kind.capitalize())
                self.assertEqual(sorted(places), sorted(r[0] for r in rows))
                order = []
                for row in rows:
                    result = case[kind][places[row[0]]]
                    force = result["force"]
                    size = math.hypot(*force) if kind == "attachments" else force
                    shown = float(row[3].replace("\u2212", "-"))
                    self.assertAlmostEqual(size, shown, delta=0.51)
                    for k, cell in enumerate(row[6:6 + len(names)]):
                        if k in result["lacks"]:
                            self.assertTrue(cell.startswith("not made"), cell)
                            self.assertIn(f"no {names[k]} check", row[2])
                        elif result["used"][k] is None:
                            self.assertTrue(cell.startswith("\u2013"), cell)
                        else:
                            self.assertRegex(cell, r"^(<?\d\.\d\d|\d\.\d{3})")
                    order.append((-len(result["lacks"][:1]),
                                  -max(u for u in result["used"] if u is not None)))
                self.assertEqual(order, sorted(order))
        swing = [c["name"] for c in self.data["cases"]].index("swing")
        self.assertIn("no weak way check", self.rows_of(swing, "Attachments")[0][2])
        self.says(f"#case-{swing}", "turned about its own foot")
        self.says(f"#case-{swing}", "face EN 1993-1-8 Table 7.13")
        self.assertEqual(["drawbar, top"],
                         [r[5] for r in self.rows_of(swing, "Attachments")
                          if r[0] == "coupling_ears"])

    def test_an_attachment_or_a_gusset_that_is_worst_is_named_wherever_a_tube_would_be(self):
        for page, item in (("fitted", "coupling_ears"), ("thin", "corner_l")):
            self.open(page)
            worst = self.data["verdict"]["worst"]
            self.assertEqual(worst["item"], item)
            self.says("#cases-overview", item)
            self.says("#verdict", f"of {item}, case {worst['case']}")
            self.says(".stage svg", f"{item} {worst['utilisation']:.2f}, worst")
            self.says("#plots-body", f"{worst['utilisation']:.2f}  {item}")

    def test_a_table_of_fitted_parts_fits_the_paper(self):
        self.open("fitted")
        self.command("Emulation.setDeviceMetricsOverride", width=703, height=1000,
                     deviceScaleFactor=1, mobile=False)
        self.command("Emulation.setEmulatedMedia", media="print", features=[])
        for box in self.b.find_elements(By.CSS_SELECTOR, ".case table.fitted"):
            self.assertLessEqual(box.size["width"], 703)

    def test_every_chapter_is_there(self):
        self.open("hauler")
        for section, text in [("otherwise", "walls 10 % thinner"), ("fatigue", "Miner"),
                              ("studies", "Natural frequencies"), ("cut", "Bars to buy"),
                              ("not-checked", "joint"), ("sources", "EN 1993-1-8"),
                              ("assumptions", "S235"), ("assumptions", "produce 70 kg"),
                              ("cautions", "licensed engineering"),
                              ("input", "low2_l:  [-500, 250, 250]"),
                              ("plots", "Is the floor worth its weight?")]:
            self.says("#" + section, text)
        self.says("#title-block", DATE)
        self.says("#title-block", self.data["version"])
        self.assertEqual(len(self.b.find_elements(By.CSS_SELECTOR, "#plots-body figure svg")), 4)
        wheels = self.script("return [...document.querySelectorAll('#case-1 table')]"
                             ".map((t) => t.textContent)")
        load = self.data["cases"][1]["wheels"][0]["force"][2]
        self.assertTrue(any(f"{load:.0f}" in t for t in wheels))

    def test_the_cut_list_shows_every_piece_bar_and_sheet(self):
        for name in ("hauler", "quad", "bracket"):
            self.open(name)
            cut = self.data["cut"]
            rows = self.script("return [...document.querySelectorAll('#cut .pieces tbody tr')]"
                               ".map((r) => [...r.children].map((c) => c.textContent))")
            # One table, or one a weldment and one for what nothing is welded to.
            parts = [[w] for w in cut["weldments"] if not w["single"]]
            parts.append([w for w in cut["weldments"] if w["single"]])
            shown = []
            for part in parts:
                for label, piece in cut["pieces"].items():
                    members = [m for w in part for m in w["pieces"].get(label, [])]
                    if members:
                        shown.append((label, {**piece, "members": members,
                                              "count": len(members)}))
            self.assertEqual([label for label, _ in shown], [r[0] for r in rows])
            for row, (_, piece) in zip(rows, shown):
                self.assertEqual([str(piece["count"]), f"{piece['long_point']:.1f}",
                                  f"{piece['short_point']:.1f}"],
                                 [row[1], row[3], row[4]])
                self.assertEqual(", ".join(piece["members"]), row[9])
                if None in piece["shrinkage"]:
                    self.assertEqual("\u2013", row[5])
                else:
                    self.assertAlmostEqual(sum(piece["shrinkage"]), float(row[5]), delta=0.00501)
                image = piece["mirror_of"]
                self.assertEqual([f"mirror image of {image}", ""] if image
                                 else [piece["ends"][0]["text"],
                                       piece["ends"][1]["text"] + turned(piece["turn"])],
                                 row[6:8])
            # Each bar is drawn to scale, with a box a piece, and told in words.
            patterns = [list(dict.fromkeys(" ".join(bar["pieces"]) for bar in o["cut_plan"]))
                        for o in cut["orders"]]
            drawn = self.b.find_elements(By.CSS_SELECTOR, "#cut .bars svg")
            self.assertEqual(sum(map(len, patterns)), len(drawn))
            for svg, labels in zip(drawn, [p.split() for order in patterns for p in order]):
                boxes = svg.find_elements(By.CSS_SELECTOR, ".piece")
                self.assertEqual(len(labels), len(boxes))
                track = float(svg.find_element(By.CSS_SELECTOR, ".track").get_attribute("width"))
                for box, label in zip(boxes, labels):
                    length = cut["pieces"][label]["long_point"]
                    self.assertAlmostEqual(length / cut["stock"]["length"],
                                           float(box.get_attribute("width")) / track, delta=1e-3)
                    self.assertIn(label + " ", svg.get_attribute("aria-label"))
            sheets = self.b.find_elements(By.CSS_SELECTOR, "#cut .sheet-figure svg")
            self.assertEqual(len(cut["sheets"]), len(sheets))
            for svg, sheet in zip(sheets, cut["sheets"]):
                self.assertEqual(sheet["rivets"], len(svg.find_elements(By.CSS_SELECTOR, ".hole")))
                self.assertIn(f"{sheet['width']:.1f} by {sheet['height']:.1f}",
                              svg.get_attribute("aria-label"))
            self.says("#cut", f"{cut['weld_length'] / 1000:.2f} m")
            self.says("#cut", "Cut one of each and try it on the jig")
            self.assertEqual(len(cut["jig"]), self.script(
                "return document.querySelectorAll("
                "'#cut [aria-label=\"Diagonals on the jig\"] tbody tr').length"))
            steps = self.script("return [...document.querySelectorAll("
                                "'#cut [aria-label=\"Order of welding\"] tbody tr')]"
                                ".map((r) => r.cells[1].textContent)")
            self.assertEqual([", ".join(w["nodes"]) for w in cut["weld_order"]], steps)
            for axis, d in cut["shrinkage"]["along"].items():
                row = self.script("return [...document.querySelectorAll("
                                  "'#cut [aria-label=\"Shrinkage of the welds\"] tbody tr')]"
                                  ".map((r) => [...r.cells].map((c) => c.textContent))"
                                  ".find((r) => r[0] === arguments[0])", axis)
                self.assertAlmostEqual(d["draw_in"], float(row[1]), delta=0.0501)
                self.assertEqual([axis, str(d["welds"]), ", ".join(d["row"])], [row[0], *row[2:]])

    def test_a_frame_too_large_for_the_cut_list_says_so(self):
        self.open("uncut")
        self.says("#cut", "tubewright cut makes it")
        self.assertEqual(self.b.find_elements(By.CSS_SELECTOR, "#cut svg, #cut table"), [])

    def test_prices_are_added_where_the_file_gives_them(self):
        self.open("priced")
        cut = self.data["cut"]
        self.says("#cut", f"{sum(o['price'] for o in cut['orders'] if o['price']):.2f}")
        self.says("#cut", "without 1 size that the file gives no price for")

    def test_nothing_is_asked_of_the_network_and_nothing_goes_wrong(self):
        for name in ("bracket", "quad", "hauler", "fail", "large", "fitted", "rides"):
            self.open(name)
            for select in ("axial", "von_mises"):
                self.choose_colour(select)
            severe = [e for e in self.b.get_log("browser") if e["level"] == "SEVERE"]
            self.assertEqual(severe, [])
            asked = [json.loads(e["message"])["message"] for e in self.b.get_log("performance")]
            addresses = [m["params"]["request"]["url"] for m in asked
                         if m["method"] == "Network.requestWillBeSent"]
            self.assertIn(self.pages.address(name), addresses)
            self.assertEqual([a for a in addresses if a != self.pages.address(name)
                              and not a.startswith("data:")], [])

    def test_what_the_user_wrote_is_text(self):
        self.open("hostile")
        self.assertIsNone(self.script("return window.taken || null"))
        self.assertEqual(self.b.find_elements(By.CSS_SELECTOR, "img"), [])
        self.assertEqual(len(self.b.find_elements(By.CSS_SELECTOR, "script")), 3)
        for css in ("#title", "#input pre", "#cases-overview", "#cautions", "#case-0"):
            self.says(css, HOSTILE)
        self.open("hostile_file")
        self.assertIsNone(self.script("return window.taken || null"))
        self.assertEqual(len(self.b.find_elements(By.CSS_SELECTOR, "script")), 3)
        for css in ("#title", "#input pre", "#cases-overview"):
            self.says(css, HOSTILE.replace(" \u2028", ""))
        self.assertTrue(self.b.title.startswith(self.data["title"].strip()))

    def test_every_control_has_a_name(self):
        self.open("hauler")
        self.find("#stage").send_keys("n")
        roles = {"button", "radio", "slider", "checkbox", "combobox", "ListBox", "listbox",
                 "image", "img", "application", "link", "region", "navigation", "group",
                 "radiogroup", "table"}
        found = [entry for entry in self.accessible() if entry[0] in roles]
        self.assertGreater(len(found), 40)
        unnamed = [entry for entry in found
                   if not entry[1].strip() and entry[0] not in ("group", "table")]
        self.assertEqual(unnamed, [])
        names = {name for _, name in found}
        for name in ("Utilisation", "Axial force", "Deflection drawn", "Load case, most used first",
                     "Tubes, most used first", "The frame in three dimensions", "Nearer"):
            self.assertIn(name, names)

    def test_headings_and_tables_are_well_formed(self):
        for name in ("hauler", "rides"):
            self.open(name)
            self.check_headings_and_tables()

    def check_headings_and_tables(self):
        levels = self.script("return [...document.querySelectorAll("
                             "'#report h1, #report h2, #report h3, #report h4')]"
                             ".map((h) => Number(h.tagName[1]))")
        self.assertEqual(levels.count(1), 1)
        self.assertTrue(all(b <= a + 1 for a, b in zip(levels, levels[1:])), levels)
        self.assertEqual(self.script(
            "return document.querySelectorAll('#report th:not([scope])').length"), 0)
        self.assertEqual(self.script(
            "return [...document.querySelectorAll('#report tbody tr')]"
            ".filter((r) => !r.querySelector('th')).length"), 0)
        repeated = self.script("const ids = "
                               "[...document.querySelectorAll('[id]')].map((e) => e.id);"
                               "return ids.filter((id, i) => ids.indexOf(id) !== i)")
        self.assertEqual(repeated, [])

    def test_focus_can_be_seen(self):
        self.open("bracket")
        for _ in range(25):
            ActionChains(self.b).send_keys(Keys.TAB).perform()
            style = self.script("const e = document.activeElement, s = getComputedStyle(e);"
                                "return [e.tagName, s.outlineStyle, parseFloat(s.outlineWidth)]")
            if style[0] == "BODY":
                break
            self.assertNotEqual(style[1], "none", style)
            self.assertGreaterEqual(style[2], 1, style)

    def test_a_phone_need_not_scroll_sideways(self):
        for name in ("quad", "hauler", "fail", "hostile", "fitted", "rides"):
            for width in (390, 320):
                self.open(name, width=width, height=844)
                self.find("#stage").send_keys("n")
                self.find("#all-cases").click()
                self.next_frame()
                wide = self.script("return [document.documentElement.scrollWidth, innerWidth]")
                self.assertEqual(wide, [width, width], name)
        self.open("quad", width=390, height=844)
        self.assertTrue(self.script(
            "const s = document.querySelector('.case:not([hidden]) table.members').parentNode;"
            "return s.scrollWidth > s.clientWidth && getComputedStyle(s).overflowX === 'auto'"))

    def test_text_stands_out_in_light_and_dark(self):
        ratio = """
            const bytes = (c) => c.match(/[\\d.]+/g).slice(0, 3).map(Number);
            const linear = (v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
            const light = (c) => bytes(c).map((v) => v / 255).map(linear)
              .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
            const paper = light(getComputedStyle(document.body).backgroundColor);
            return arguments[0].map((css) => {
              const ink = light(getComputedStyle(document.querySelector(css)).color);
              return (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
            });"""
        papers = []
        for dark in (False, True):
            self.open("hauler", dark=dark)
            seen = ["body", ".hint", "a", "caption", ".facts dt", "thead small"]
            for value in self.script(ratio, seen):
                self.assertGreater(value, 4.5)
            papers.append(self.script("return getComputedStyle(document.body).backgroundColor"))
        self.assertNotEqual(*papers)

    def test_print_has_every_case_and_no_controls(self):
        self.open("hauler", dark=True)
        self.command("Emulation.setEmulatedMedia", media="print", features=[])
        self.assertEqual(self.script("return getComputedStyle(document.body).backgroundColor"),
                         "rgb(255, 255, 255)")
        for css in ("#controls", "#stage", "#case-switch", "#view-buttons", "#contents"):
            self.assertFalse(self.find(css).is_displayed(), css)
        cases = self.b.find_elements(By.CSS_SELECTOR, ".case")
        self.assertEqual(len(cases), len(self.data["cases"]))
        for case in cases:
            self.assertTrue(case.is_displayed())
            self.assertEqual(case.value_of_css_property("break-before"), "page")
            lines = case.find_elements(By.CSS_SELECTOR, ".figure-print svg path")
            self.assertGreater(len(lines), 40)
            self.assertTrue(case.find_element(By.CSS_SELECTOR, "table.members").is_displayed())
            self.assertTrue(case.find_element(By.CSS_SELECTOR, ".figure-print svg").is_displayed())
        paper = self.command("Page.printToPDF", printBackground=True,
                             preferCSSPageSize=True)["data"]
        pages = base64.b64decode(paper).count(b"/Type /Page\n")
        self.assertGreater(pages, len(self.data["cases"]) + 3)

    def test_the_same_data_give_the_same_page(self):
        seen = []
        for _ in range(2):
            self.open("hauler")
            self.next_frame()
            seen.append(self.script("return document.getElementById('report').outerHTML"))
        self.assertEqual(*seen)

    def test_many_members_and_cases(self):
        self.open("large")
        self.choose_case("case_19")
        for many in ("#case-19 table.members tbody tr", "#tube-select option"):
            self.assertEqual(
                self.script("return document.querySelectorAll(arguments[0]).length", many), 200)

    def test_without_scripts_verdict_figure_and_summary_remain(self):
        self.command("Emulation.setScriptExecutionDisabled", value=True)
        try:
            self.b.get(self.pages.address("hauler"))
            plain = self.find("main.plain")
            for part in (self.pages.data["hauler"]["verdict"]["sentence"],
                         "low2_l:  [-500, 250, 250]",
                         "exit code 0: answered, everything was checked"):
                self.assertTrue(part in plain.text, part)
            drawn = plain.find_element(By.CSS_SELECTOR, "svg path").get_attribute("d")
            self.assertEqual(drawn.count("M"), len(self.pages.data["hauler"]["members"]))
            self.assertFalse(self.find("#report").is_displayed())
        finally:
            self.command("Emulation.setScriptExecutionDisabled", value=False)


class PageWithoutWebGL(Page):
    """Everything that does not need WebGL, without it; and the figure as SVG."""
    switches = ["--disable-3d-apis"]

    def drawing(self):
        self.next_frame()
        return self.script("return document.querySelector('.stage svg').innerHTML").strip()

    def test_the_figure_is_svg_and_can_be_used_all_the_same(self):
        self.open("bracket")
        self.assertEqual(self.find("#stage").get_attribute("data-drawn-by"), "svg")
        self.assertEqual(self.b.find_elements(By.CSS_SELECTOR, ".stage canvas"), [])
        edges = self.b.find_elements(By.CSS_SELECTOR, ".stage .fig-edge")
        self.assertEqual(len(edges), len(self.data["members"]))
        seen = [self.drawing()]
        for step in (lambda: self.choose_colour("axial"), lambda: self.choose_case("planks"),
                     lambda: self.find("#stage").send_keys(Keys.ARROW_UP), self.undeflected):
            step()
            seen.append(self.drawing())
            self.assertNotEqual(seen[-1], seen[-2])
        self.find("#stage").send_keys("0")
        self.click_on("strut.2")
        self.assertTrue(self.picked().startswith("strut.2"), self.picked())


if __name__ == "__main__":
    unittest.main()
