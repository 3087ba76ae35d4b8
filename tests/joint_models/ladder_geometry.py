"""A quarter of a flat ladder of tubes as a .geo file for gmsh (OpenCASCADE kernel).

One rail along x with its axis at y = z = 0, cross tubes that run from its face at y = -across/2 to
the middle of the ladder at y = -width/2. The planes x = 0 and y = -width/2 are those of symmetry:
the other three quarters are images. Corners: EN 10219, outer radius 2 t, inner t. Cross tubes are
cut to the rail's profile and fused to it; `weld`: a fillet with legs sqrt(2) t on both sides of
each along the flat of the rail's face. mm.
"""

import dataclasses
import math

from joint_geometry import Text, box_field


@dataclasses.dataclass(frozen=True)
class Ladder:
    across: float  # the rail's size along y
    high: float  # and along z
    cross: float  # side of the square cross tubes, no more than `high`
    places: tuple  # x of the cross tubes, from the middle of the ladder on
    width: float  # between the axes of the rails
    wall: float = 1.5
    capped: bool = False  # the rail's ends, by a plate of its wall
    weld: bool = True
    near: float = 1.3  # size of elements at joints and away from them, in walls
    far: float = 2.5

    @property
    def end(self):
        """x of the rail's end, flush with the last cross tube."""
        return self.places[-1] + self.cross / 2


def bar_along_y(text, x, side, radius, start, end):
    s = text.new("news")
    text.add(f"Rectangle({s}) = {{{-side / 2}, {-side / 2}, 0, {side}, {side}, {radius}}};")
    text.add(f"Rotate {{{{1, 0, 0}}, {{0, 0, 0}}, Pi/2}} {{ Surface{{{s}}}; }}")
    text.add(f"Translate {{{x}, {start}, 0}} {{ Surface{{{s}}}; }}")
    text.add(f"o{s}[] = Extrude {{0, {end - start}, 0}} {{ Surface{{{s}}}; }};")
    return f"o{s}[1]"


def fillet(text, ladder, x, side):
    """A prism in the corner between the rail's face and one side of a cross tube."""
    t, leg = ladder.wall, math.sqrt(2) * ladder.wall
    flat = ladder.high - 4 * t
    edge, face = x + side * ladder.cross / 2, -ladder.across / 2
    inside = 0.3 * t
    corners = ((edge - side * inside, face + inside), (edge + side * leg, face + inside),
               (edge - side * inside, face - leg))
    points, lines = [], []
    for px, py in corners:
        points.append(text.new("newp"))
        text.add(f"Point({points[-1]}) = {{{px}, {py}, {-flat / 2}}};")
    for k in range(3):
        lines.append(text.new("newc"))
        text.add(f"Line({lines[-1]}) = {{{points[k]}, {points[(k + 1) % 3]}}};")
    loop, surface = text.new("newreg"), text.new("news")
    text.add(f"Curve Loop({loop}) = {{{', '.join(lines)}}};")
    text.add(f"Plane Surface({surface}) = {{{loop}}};")
    text.add(f"o{surface}[] = Extrude {{0, 0, {flat}}} {{ Surface{{{surface}}}; }};")
    return f"o{surface}[1]"


def volumes(names):
    return " ".join(f"Volume{{{name}}};" for name in names)


def geo_text(ladder):
    text = Text()
    t, c = ladder.wall, ladder.cross
    rail = text.bar("x", ladder.across, ladder.high, 2 * t, -5, ladder.end)
    hollow = text.bar("x", ladder.across - 2 * t, ladder.high - 2 * t, t, -6,
                      ladder.end - (t if ladder.capped else -t))
    parts, voids = [], []
    inside = -(ladder.across / 2 - 2.5 * t)
    for x in ladder.places:
        parts.append(bar_along_y(text, x, c, 2 * t, -ladder.width / 2, inside))
        voids.append(bar_along_y(text, x, c - 2 * t, t, -ladder.width / 2 - 1, inside))
        for side in (-1, 1):
            toe = x + side * (c / 2 + 2 * t)
            if ladder.weld and 0 < toe < ladder.end:
                parts.append(fillet(text, ladder, x, side))
    text.add(f"voids[] = BooleanDifference{{ {volumes(voids)} Delete; }}{{ Volume{{{rail}}}; }};")
    text.add(f"outside[] = BooleanUnion{{ Volume{{{rail}}}; Delete; }}"
             f"{{ {volumes(parts)} Delete; }};")
    text.add(f"solid[] = BooleanDifference{{ Volume{{outside[]}}; Delete; }}"
             f"{{ Volume{{{hollow}}}; Volume{{voids[]}}; Delete; }};")
    box = text.new("newv")
    far = 10 * ladder.end
    text.add(f"Box({box}) = {{0, {-ladder.width / 2}, {-far}, {ladder.end}, {far}, {2 * far}}};")
    text.add(f"solid[] = BooleanIntersection{{ Volume{{solid[]}}; Delete; }}"
             f"{{ Volume{{{box}}}; Delete; }};")
    text.add("Physical Volume(1) = {solid[]};")
    for i, x in enumerate(ladder.places):
        limits = (x - c / 2 - 2 * t, x + c / 2 + 2 * t, -ladder.across / 2 - 2 * t,
                  -ladder.across / 2 + 3 * t, -ladder.high / 2, ladder.high / 2)
        box_field(text, 1 + i, limits, ladder.near * t, ladder.far * t,
                  0.6 * max(ladder.across, ladder.high))
    fields = ", ".join(str(1 + i) for i in range(len(ladder.places)))
    text.add(f"Field[99] = Min; Field[99].FieldsList = {{{fields}}}; Background Field = 99;")
    for option in ("MeshSizeExtendFromBoundary = 0", "MeshSizeFromPoints = 0", "Algorithm = 6",
                   "Algorithm3D = 10", "ElementOrder = 2", "MshFileVersion = 2.2", "Binary = 0",
                   "HighOrderOptimize = 0", "Optimize = 1"):
        text.add(f"Mesh.{option};")
    return "\n".join(text.lines) + "\n"
