"""A welded joint of square or rectangular tubes as a .geo file for gmsh (OpenCASCADE kernel).

The chord runs along x, its middle is the origin; the brace's axis starts there and runs to +z, or
leans to +x by `angle` (over 90: to -x). The face stood on is at z = h0/2, b0 wide (y). The brace is
b1 wide (y) and h1 along the chord. Any unit of length. Corners: EN 10219, outer 2 t, inner t.

Weld: full contact of the profiled brace with the chord, and round it a fillet whose legs are
sqrt(2) t1, one on the brace, the other along the chord's face, where that is flat. With `on_corner`
it goes on along the chord's round corner to where that meets the side wall.
"""

import dataclasses
import math


@dataclasses.dataclass(frozen=True)
class Joint:
    kind: str = "tee"  # tee | mitre | pair (a second brace on the face at y = b0/2)
    b0: float = 20
    h0: float = 20
    t0: float = 1.5
    b1: float = 20
    h1: float = 20
    t1: float = 1.5
    angle: float = 90
    end: str = "through"  # through | open | capped
    weld: float = 1  # legs as a multiple of sqrt(2) t1; 0: none
    on_corner: int = 0  # 1: the weld also takes hold of the chord's round corner
    near: float = 1.0  # size of elements at the joint, times the smaller wall
    far: float = 2.5  # and away from it, times the wall of the tube
    chord_length: float = 4.0  # clear of the joint, times the larger side
    brace_length: float = 3.0

    @property
    def half_along(self):
        """Half the brace's length along the chord."""
        return self.h1 / 2 / math.sin(math.radians(self.angle))

    @property
    def lean(self):
        """x at which the brace's axis leaves the chord."""
        return 0 if self.angle == 90 else self.h0 / 2 / math.tan(math.radians(self.angle))

    @property
    def chord_end(self):
        """x of the chord's free end, or of its clamped far end."""
        if self.kind == "mitre":
            return self.h0 / 2
        if self.end == "through":
            return -self.chord_start
        # An inclined brace's edge on the chord's very edge is too much for the kernel.
        return self.lean + self.half_along + (0 if self.angle == 90 else 0.05 * self.t0)

    @property
    def chord_start(self):
        return min(0, self.lean) - self.half_along - self.chord_length * max(self.b0, self.h0)

    @property
    def brace_end(self):
        """Along the brace's axis, from the chord's axis."""
        sin = math.sin(math.radians(self.angle))
        return (self.h0 / 2 / sin + abs(self.h1 / 2 / math.tan(math.radians(self.angle)))
                + self.brace_length * max(self.b1, self.h1))

    @property
    def halved_x(self):
        return self.end == "through" and self.angle == 90 and self.kind != "mitre"

    @property
    def halved_y(self):
        return self.kind != "pair"


def toe_on_chord(j, leg):
    """(y, z) of the weld's toe beside the brace."""
    r = 2 * j.t0
    flat = j.b0 / 2 - r
    reach = j.b1 / 2 + leg  # on the flat, or from where the brace's side meets the corner
    if reach <= flat:
        return reach, j.h0 / 2
    start = math.asin(min(1, max(0, (j.b1 / 2 - flat) / r)))
    run = leg - max(0, flat - j.b1 / 2)
    turn = min(math.pi / 2, start + run / r)
    return flat + r * math.sin(turn), j.h0 / 2 - r * (1 - math.cos(turn))


class Text:
    """Lines of a .geo file; gmsh gives the tags, which variables keep."""

    def __init__(self):
        self.lines = ['SetFactory("OpenCASCADE");']
        self.count = 0

    def add(self, line):
        self.lines.append(line)

    def new(self, kind):
        """A variable with a free tag of gmsh: newc, news, newv or newreg."""
        self.count += 1
        name = f"{kind[3]}{self.count}"
        self.add(f"{name} = {kind};")
        return name

    def bar(self, axis, side_1, side_2, radius, start, end):
        """A solid bar of rounded section along x (sides y, z) or z (sides x, y)."""
        s = self.new("news")
        self.add(f"Rectangle({s}) = {{{-side_1 / 2}, {-side_2 / 2}, 0, {side_1}, {side_2},"
                 f" {radius}}};")
        if axis == "x":  # x y z of the rectangle become y z x
            self.add(f"Rotate {{{{1, 1, 1}}, {{0, 0, 0}}, 2*Pi/3}} {{ Surface{{{s}}}; }}")
            self.add(f"Translate {{{start}, 0, 0}} {{ Surface{{{s}}}; }}")
            vector = f"{end - start}, 0, 0"
        else:
            self.add(f"Translate {{0, 0, {start}}} {{ Surface{{{s}}}; }}")
            vector = f"0, 0, {end - start}"
        self.add(f"o{s}[] = Extrude {{{vector}}} {{ Surface{{{s}}}; }};")
        return f"o{s}[1]"

    def ring(self, x, z, half_x, half_y, rx, ry):
        """A wire round a rectangle with elliptical corners, at height z."""
        cx, cy = half_x - rx, half_y - ry
        arcs = [(1, 1), (-1, 1), (-1, -1), (1, -1)]
        points, names = [], []
        for quarter, (sx, sy) in enumerate(arcs):
            mx, my = x + sx * cx, sy * cy
            ends = [(mx + sx * rx, my), (mx, my + sy * ry)]
            if quarter % 2:
                ends.reverse()
            for px, py in ends:
                points.append(self.new("newp"))
                self.add(f"Point({points[-1]}) = {{{px}, {py}, {z}}};")
            m = self.new("newp")
            self.add(f"Point({m}) = {{{mx}, {my}, {z}}};")
            c = self.new("newc")
            kind = "Circle" if abs(rx - ry) < 1e-9 else "Ellipse"
            on_major = points[-2] if quarter % 2 == 0 else points[-1]
            major = f"{on_major}, " if kind == "Ellipse" else ""
            self.add(f"{kind}({c}) = {{{points[-2]}, {m}, {major}{points[-1]}}};")
            names.append(c)
        for quarter in range(4):
            c = self.new("newc")
            self.add(f"Line({c}) = {{{points[2 * quarter + 1]},"
                     f" {points[(2 * quarter + 2) % 8]}}};")
            names.insert(2 * quarter + 1, c)
        wire = self.new("newreg")
        self.add(f"Wire({wire}) = {{{', '.join(names)}}};")
        return wire


def add_weld(text, j):
    """The brace's outline at the top of the weld, widened to its toes, as a solid."""
    leg = j.weld * math.sqrt(2) * j.t1
    if leg == 0:
        return None
    sin = math.sin(math.radians(j.angle))
    cot = 1 / math.tan(math.radians(j.angle)) if j.angle != 90 else 0
    top = j.h0 / 2 + leg
    bottom = j.h0 / 2 - 2 * j.t0
    y, z = toe_on_chord(j, leg) if j.on_corner else (j.b1 / 2 + leg, j.h0 / 2)
    grow_x = top - bottom
    grow_y = max(0, y - j.b1 / 2) / (top - z) * (top - bottom)
    r = 2 * j.t1
    upper = text.ring(top * cot, top, j.half_along, j.b1 / 2, r / sin, r)
    round_by = 0
    lower = text.ring(bottom * cot, bottom, j.half_along + grow_x, j.b1 / 2 + grow_y,
                      r / sin + round_by, r + round_by)
    v = text.new("newv")
    text.add(f"Ruled ThruSections({v}) = {{{lower}, {upper}}};")
    box = text.new("newv")
    wide = j.b0 if j.on_corner else j.b0 / 2 - 2 * j.t0
    far = 10 * j.brace_end
    end = far if j.end == "through" else j.chord_end
    text.add(f"Box({box}) = {{{-far}, {-wide}, {bottom}, {end + far}, {2 * wide}, {top}}};")
    text.add(f"weld[] = BooleanIntersection{{ Volume{{{v}}}; Delete; }}"
             f"{{ Volume{{{box}}}; Delete; }};")
    return "weld[0]"


def add_tee(text, j):
    big = 10 * (j.b0 + j.h0 + j.brace_end)
    chord = text.bar("x", j.b0, j.h0, 2 * j.t0, j.chord_start, j.chord_end)
    cap = j.t0 if j.end == "capped" else -j.t0
    inner = text.bar("x", j.b0 - 2 * j.t0, j.h0 - 2 * j.t0, j.t0, j.chord_start - j.t0,
                     j.chord_end - cap)
    sin, cos = math.sin(math.radians(j.angle)), math.cos(math.radians(j.angle))
    start = (j.h0 / 2 - 2.5 * j.t0 - j.h1 / 2 * abs(cos)) / sin
    brace = text.bar("z", j.h1, j.b1, 2 * j.t1, start, j.brace_end)
    hollow = text.bar("z", j.h1 - 2 * j.t1, j.b1 - 2 * j.t1, j.t1, start, j.brace_end + j.t1)
    if j.angle != 90:
        turn = math.radians(90 - j.angle)
        text.add(f"Rotate {{{{0, 1, 0}}, {{0, 0, 0}}, {turn}}}"
                 f" {{ Volume{{{brace}}}; Volume{{{hollow}}}; }}")
    weld = add_weld(text, j)
    parts = f"Volume{{{brace}}};" + (f" Volume{{{weld}}};" if weld else "")
    text.add(f"void[] = BooleanDifference{{ Volume{{{hollow}}}; Delete; }}"
             f"{{ Volume{{{chord}}}; }};")
    if j.kind == "pair":
        # The second brace is the first, seen in the mirror y = z.
        text.add(f"b2[] = Symmetry {{0, 1, -1, 0}} {{ Duplicata{{ {parts} }} }};")
        text.add("v2[] = Symmetry {0, 1, -1, 0} { Duplicata{ Volume{void[]}; } };")
        parts += " Volume{b2[]};"
        text.add("void[] += v2[];")
    text.add(f"outside[] = BooleanUnion{{ Volume{{{chord}}}; Delete; }}"
             f"{{ {parts} Delete; }};")
    text.add(f"solid[] = BooleanDifference{{ Volume{{outside[]}}; Delete; }}"
             f"{{ Volume{{{inner}}}; Volume{{void[]}}; Delete; }};")
    if j.end != "through" and j.angle != 90:
        # What of a brace that leans inward would stand beyond the chord's end, below its face.
        beyond = text.new("newv")
        text.add(f"Box({beyond}) = {{{j.chord_end}, {-big}, {j.h0 / 2 - big}, {big}, {2 * big},"
                 f" {big}}};")
        text.add(f"solid[] = BooleanDifference{{ Volume{{solid[]}}; Delete; }}"
                 f"{{ Volume{{{beyond}}}; Delete; }};")
    left = 0 if j.halved_x else -big
    right = j.chord_end if j.end != "through" and j.angle == 90 else big
    front = 0 if j.halved_y else -big
    box = text.new("newv")
    text.add(f"Box({box}) = {{{left}, {front}, {-big}, {right - left}, {big - front}, {2 * big}}};")
    text.add(f"solid[] = BooleanIntersection{{ Volume{{solid[]}}; Delete; }}"
             f"{{ Volume{{{box}}}; Delete; }};")


def add_mitre(text, j):
    """Chord x <= -z, brace z >= -x, joined all over the cut."""
    big = 10 * (j.b0 + j.h0 + j.brace_end)
    chord = text.bar("x", j.b0, j.h0, 2 * j.t0, j.chord_start, j.h0 / 2)
    inner = text.bar("x", j.b0 - 2 * j.t0, j.h0 - 2 * j.t0, j.t0, j.chord_start, j.h0 / 2)
    brace = text.bar("z", j.h0, j.b0, 2 * j.t0, -j.h0 / 2, j.brace_end)
    hollow = text.bar("z", j.h0 - 2 * j.t0, j.b0 - 2 * j.t0, j.t0, -j.h0 / 2, j.brace_end)
    for name, outer, void, low in (("c", chord, inner, -1), ("b", brace, hollow, 1)):
        text.add(f"{name}1[] = BooleanDifference{{ Volume{{{outer}}}; Delete; }}"
                 f"{{ Volume{{{void}}}; Delete; }};")
        box = text.new("newv")
        begin = 0 if low > 0 else -big
        # The box lies beyond or before the plane x' = 0, turned to x + z = 0.
        text.add(f"Box({box}) = {{{begin}, 0, {-big}, {big}, {big}, {2 * big}}};")
        text.add(f"Rotate {{{{0, 1, 0}}, {{0, 0, 0}}, -Pi/4}} {{ Volume{{{box}}}; }}")
        text.add(f"{name}2[] = BooleanIntersection{{ Volume{{{name}1[]}}; Delete; }}"
                 f"{{ Volume{{{box}}}; Delete; }};")
    text.add("solid[] = BooleanUnion{ Volume{c2[]}; Delete; }{ Volume{b2[]}; Delete; };")


def box_field(text, number, limits, inside, outside, thickness):
    names = ("XMin", "XMax", "YMin", "YMax", "ZMin", "ZMax")
    text.add(f"Field[{number}] = Box;")
    for name, value in zip(names, limits):
        text.add(f"Field[{number}].{name} = {value};")
    text.add(f"Field[{number}].VIn = {inside}; Field[{number}].VOut = {outside};"
             f" Field[{number}].Thickness = {thickness};")


def add_sizes(text, j):
    thin = min(j.t0, j.t1)
    near = j.near * thin
    leg = math.sqrt(2) * j.t1
    reach = max(j.b0, j.h0)
    if j.kind == "mitre":
        m = j.h0 / 2
        boxes = [(-m, m, -m, m, -m, m)]
    else:
        boxes = [(j.lean - j.half_along - leg - j.t0, j.lean + j.half_along + leg + j.t0,
                  -j.b0 / 2, j.b0 / 2, j.h0 / 2 - 3 * j.t0, j.h0 / 2 + leg + j.t1)]
    if j.kind == "pair":
        x1, x2, y1, y2, z1, z2 = boxes[0]
        boxes.append((x1, x2, z1, z2, y1, y2))
    for i, box in enumerate(boxes):
        box_field(text, 1 + i, box, near, j.far * thin, 0.6 * reach)
    fields = list(range(1, 1 + len(boxes)))
    text.add(f"Field[10] = Min; Field[10].FieldsList = {{{', '.join(map(str, fields))}}};")
    text.add("Background Field = 10;")


def geo_text(j):
    text = Text()
    if j.kind == "mitre":
        add_mitre(text, j)
    else:
        add_tee(text, j)
    text.add("Physical Volume(1) = {solid[]};")
    add_sizes(text, j)
    for option in ("MeshSizeExtendFromBoundary = 0", "MeshSizeFromPoints = 0", "Algorithm = 6",
                   "Algorithm3D = 10", "ElementOrder = 2", "MshFileVersion = 2.2", "Binary = 0",
                   "HighOrderOptimize = 0", "Optimize = 1"):
        text.add(f"Mesh.{option};")
    return "\n".join(text.lines) + "\n"
