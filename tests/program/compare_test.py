"""`compare`: two frames side by side, in words, JSON and a page in a headless Chromium."""

import html.parser
import json
import unittest

from selenium import webdriver

from program import CANTILEVER, EXAMPLES, MECHANISM, MISSPELT, ProgramTest, one_json_object, run

HAULER = EXAMPLES / "05_market_hauler.yaml"
SWITCHES = ("--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run",
            "--disable-background-networking", "--disable-component-update")


class CompareTest(ProgramTest):
    def setUp(self):
        super().setUp()
        text = HAULER.read_text()
        self.assertIn("brace: {shape: square_tube, side: 15, wall: 1.5", text)
        self.assertIn("high2_l: [-500, 250, 500]", text)
        self.changed = self.file(
            text.replace("brace: {shape: square_tube, side: 15, wall: 1.5",
                         "brace: {shape: square_tube, side: 15, wall: 1").replace(
                "high2_l: [-500, 250, 500]", "high2_l: [-500, 250, 540]"), "changed.yaml")


class Numbers(CompareTest):
    def test_pairs_are_what_the_other_commands_answer_for_each(self):
        process = run("compare", HAULER, self.changed, "--json")
        self.assertAnswer(0, process)
        compare = one_json_object(process.stdout)["compare"]
        for i, frame in enumerate((HAULER, self.changed)):
            check = one_json_object(run("check", frame, "--json").stdout)
            twist = one_json_object(run("twist", frame, "--json").stdout)["torsion"]
            modes = one_json_object(run("modes", frame, "--json").stdout)["modes"]
            cut = one_json_object(run("cut", frame, "--json").stdout)["cut"]
            worst = max((case["worst"] for case in check["cases"].values()),
                        key=lambda w: w["utilisation"])
            self.assertEqual(check["mass"]["tubes"] + check["mass"]["panels"], compare["mass"][i])
            self.assertEqual(check["mass"]["total"], compare["mass_total"][i])
            self.assertEqual(twist["stiffness"], compare["stiffness"][i])
            self.assertEqual(min(m["frequency"] for m in modes if m["frame_only"]),
                             compare["frequency"][i])
            self.assertEqual(compare["frequency"][i], compare["frequencies"][i][0])
            self.assertEqual((worst["utilisation"], worst["item"], worst["check"]),
                             tuple(compare[key][i] for key in ("utilisation", "item", "check")))
            self.assertEqual(check["verdict"]["answer"], compare["verdict"][i])
            self.assertEqual(sum(order["bars"] for order in cut["orders"]), compare["bars"][i])
            for name, case in check["cases"].items():
                self.assertEqual(case["worst"]["utilisation"],
                                 compare["cases"][name]["utilisation"][i])

    def test_changes_are_told_with_their_mirror_images(self):
        compare = one_json_object(run("compare", HAULER, self.changed, "--json").stdout)["compare"]
        self.assertEqual([], compare["added"] + compare["removed"])
        self.assertEqual({"15.0 x 15.0 x 1.0 S235"}, {r["to"] for r in compare["resized"]})
        self.assertEqual({"high2_l", "high2_r"}, {m["name"] for m in compare["moved"]})
        back = one_json_object(run("compare", self.changed, HAULER, "--json").stdout)["compare"]
        self.assertEqual(compare["mass"], back["mass"][::-1])
        self.assertEqual([r["from"] for r in compare["resized"]],
                         [r["to"] for r in back["resized"]])

    def test_the_first_words_say_what_changes(self):
        process = run("compare", HAULER, self.changed, "-q")
        self.assertAnswer(0, process)
        self.assertEqual(1, process.stdout.count("\n"))
        self.assertRegex(process.stdout, r"^B is \d+\.\d\d kg lighter and .* softer; its worst "
                                         r"item is .*, at 0\.\d\d against 0\.\d\d.*; both pass$")
        self.assertIn("From A to B", run("compare", HAULER, self.changed).stdout)

    def test_a_frame_beside_itself_comes_to_the_same(self):
        process = run("compare", HAULER, HAULER)
        self.assertAnswer(0, process)
        self.assertTrue(process.stdout.startswith("B is as heavy as A and as stiff; "))
        self.assertIn("No tube, node, sheet or mass was added, removed, resized or moved\n",
                      process.stdout)

    def test_bars_cost_what_stock_says(self):
        stock = ("stock: {sizes: [{shape: square_tube, side: 25, wall: 2, price: 12.5}, "
                 "{shape: square_tube, side: 25, wall: 3, price: 18}]}\n")
        process = run("compare", self.file(CANTILEVER + stock, "a.yaml"),
                      self.file(CANTILEVER.replace("wall: 2,", "wall: 3,") + stock, "b.yaml"),
                      "--json")
        self.assertEqual([12.5, 18], one_json_object(process.stdout)["compare"]["cost"])

    def test_the_exit_code_is_that_of_the_second_frame(self):
        sound, heavy = self.file(CANTILEVER, "a.yaml"), self.file(
            CANTILEVER.replace("[0, 0, -50]", "[0, 0, -900]"), "b.yaml")
        self.assertAnswer(1, run("compare", sound, heavy))
        self.assertAnswer(0, run("compare", heavy, sound))

    def test_one_frame_may_be_a_mechanism_and_one_may_come_through_standard_input(self):
        process = run("compare", self.file(MECHANISM), "-", "--json", text=CANTILEVER)
        self.assertAnswer(0, process)
        compare = one_json_object(process.stdout)["compare"]
        self.assertEqual(["no_answer", "pass"], compare["verdict"])
        self.assertIsNone(compare["utilisation"][0])
        self.assertIn("`tip` can move", compare["reason"][0])
        self.assertEqual(compare["mass"][0], compare["mass"][1])


class Refused(CompareTest):
    def test_faults_of_both_files_are_told_each_with_its_name(self):
        a = self.file(MISSPELT, "first.yaml")
        b = self.file(CANTILEVER.replace("section: tube", "section: tub"), "second.yaml")
        process = run("compare", a, b, "--json")
        self.assertAnswer(2, process)
        self.assertIn("first.yaml:3:", process.stderr)
        self.assertIn("second.yaml:8:", process.stderr)
        problems = one_json_object(process.stdout)["error"]["problems"]
        self.assertEqual({str(a), str(b)}, {problem["file"] for problem in problems})

    def test_a_file_that_is_not_there_and_one_with_faults_are_told_together(self):
        process = run("compare", self.directory / "none.yaml", self.file(MISSPELT), "--json")
        self.assertAnswer(2, process)
        self.assertIn("cannot read", process.stderr)
        self.assertIn("frame.yaml:3:", process.stderr)
        self.assertLess(1, len(one_json_object(process.stdout)["error"]["problems"]))

    def test_two_mechanisms_have_no_answer(self):
        process = run("compare", self.file(MECHANISM, "a.yaml"), self.file(MECHANISM, "b.yaml"),
                      "--json")
        self.assertAnswer(2, process)
        problems = one_json_object(process.stdout)["error"]["problems"]
        self.assertLess(1, len(problems))
        for name in ("a.yaml", "b.yaml"):
            self.assertIn(name, process.stderr)

    def test_a_directory_that_cannot_be_written_gives_2(self):
        self.assertAnswer(2, run("compare", HAULER, HAULER, "-o", self.changed))


class Balanced(html.parser.HTMLParser):
    """Every element is closed by its own name."""
    void = {"meta", "link", "br"}

    def __init__(self):
        super().__init__()
        self.open = []

    def handle_starttag(self, tag, attrs):
        if tag not in self.void:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag


class Page(CompareTest):
    def setUp(self):
        super().setUp()
        process = run("compare", HAULER, self.changed, "-o", self.directory / "out")
        self.assertAnswer(0, process)
        self.page = self.directory / "out" / "compare.html"

    def test_it_is_well_formed_and_small(self):
        text = self.page.read_text()
        parser = Balanced()
        parser.feed(text)
        self.assertEqual([], parser.open)
        self.assertLess(len(text), 50_000)

    def test_a_browser_shows_both_figures_side_by_side_and_on_a_phone_below_each_other(self):
        options = webdriver.ChromeOptions()
        for switch in SWITCHES:
            options.add_argument(switch)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
        with webdriver.Chrome(options=options) as browser:
            places, papers = {}, {}
            for width, scheme in ((1200, "light"), (390, "dark")):
                browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
                    "width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 600})
                browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {
                    "features": [{"name": "prefers-color-scheme", "value": scheme}]})
                browser.get(self.page.as_uri())
                self.assertLessEqual(browser.execute_script(
                    "return document.documentElement.scrollWidth"), width)
                places[width] = json.loads(browser.execute_script(
                    "return JSON.stringify([...document.querySelectorAll('svg.frame')].map("
                    "s => [s.getBoundingClientRect().x, s.getBoundingClientRect().y]))"))
                papers[scheme] = browser.execute_script(
                    "return getComputedStyle(document.body).backgroundColor")
            (left_x, left_y), (right_x, right_y) = places[1200]
            self.assertLess(left_x, right_x)
            self.assertAlmostEqual(left_y, right_y, delta=1)
            (first_x, first_y), (second_x, second_y) = places[390]
            self.assertAlmostEqual(first_x, second_x, delta=1)
            self.assertLess(first_y, second_y)
            self.assertNotEqual(papers["light"], papers["dark"])
            self.assertEqual([], browser.get_log("browser"))


if __name__ == "__main__":
    unittest.main()
