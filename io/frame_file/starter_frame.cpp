#include "io/frame_file/starter_frame.h"

#include <sstream>

#include "io/keys/key_comments.h"

namespace tubewright {

namespace {

constexpr const char* frame =
    R"(# A frame to begin with: the load bed of a cargo trike. Change it step by step and run
#   tubewright check THIS_FILE
# after each step. Lengths in mm, forces in N, masses in kg, stresses in MPa; a string may carry
# another unit: "1 in", "3 kN". All other keys are explained at the end of this file.
# x points forward, y to the left, z up. Names are yours to choose.
frame: Cargo trike load bed

sections:
  rail:  {shape: square_tube, side: 30, wall: 2, material: S235}
  brace: {shape: square_tube, side: 20, wall: 1.5, material: S235}

# Only the left half is written; see `mirror` below.
nodes:
  front_l:  [0, 300, 400]
  middle_l: [-450, 300, 400]
  rear_l:   [-900, 300, 400]

members:
  # One tube through three nodes: its two pieces are called rail_l.1 and rail_l.2.
  rail_l: {path: [front_l, middle_l, rear_l], section: rail, cap: both}
  cross_front:  {from: front_l, to: front_r, section: rail}
  cross_middle: {from: middle_l, to: middle_r, section: rail}
  cross_rear:   {from: rear_l, to: rear_r, section: rail}
  # One diagonal in each bay keeps it square.
  brace_front: {from: front_l, to: middle_r, section: brace}
  brace_rear:  {from: middle_r, to: rear_l, section: brace}

# Everything whose name ends in _l gets a copy on the right, its name ending in _r.
mirror: {plane: xz, from: _l, to: _r}

# Bolted to the trike in front, resting on the axle behind.
supports:
  front_l: pinned
  rear_l: [z]

# What the frame carries, spread over the named nodes.
masses:
  cargo: {mass: 80, at: [-450, 0, 550], on: [front_l, front_r, middle_l, middle_r, rear_l, rear_r]}

# What it has to bear. Gravity counts in g: [0, 0, -3] is three times the weight of everything.
cases:
  standing: {kind: static, gravity: [0, 0, -1]}
  pothole:  {kind: static, gravity: [0, 0, -3], note: "both rear wheels drop into a hole"}
  turning:  {kind: static, gravity: [0, 0.5, -1], note: "a fast right-hand bend"}
  stepping_on_it: {kind: static, forces: {middle_l: [0, 0, -900]}, note: "someone climbs on"}

# Stresses stay below the yield strength divided by this factor.
limits: {yield_factor: 1.5}
)";

constexpr const char* more_keys_heading = R"(
# More keys
# =========
# Each with what it does. To use one, take the comment signs off and put it under its heading above
# where there is one already: a key may stand only once in a file. Numbers are examples.
)";

// Every key of the table; a test holds it against that.
constexpr const char* examples = R"(axes: iso8855
gravity: 9.80665
joints: welded

materials:
  my_steel:
    E: 210000
    G: 81000
    density: 7850
    yield: 235
    ultimate: 360
    metal: steel
  my_aluminium:
    E: 70000
    nu: 0.33
    density: 2700
    yield: 240
    ultimate: 280
    heat_affected_yield: 115
    heat_affected_ultimate: 175

sections:
  post:
    shape: square_tube
    side: 25
    wall: 2
    corners: cold_formed
    shear: true
    material: S235
    weld_filler: 480
  sill:
    shape: rectangular_tube
    height: 40
    width: 20
    wall: 2
    material: E235
  hoop:
    shape: round_tube
    diameter: 26.9
    wall: 2.3
    material: S235
  rod: {shape: round_bar, diameter: 8, material: S235}
  strap:
    shape: flat_bar
    height: 20
    width: 3
    material: S235
  from_a_catalogue:
    shape: properties
    A: 173.7
    Iy: 14835
    Iz: 14835
    It: 25256
    Wy: 1187
    Wz: 1187
    Wt: 1804
    Ay: 87
    Az: 87
    Wply: 1450
    Wplz: 1450
    material: S235

nodes:
  top_l: [-450, 300, 900]

members:
  roll_bar:
    path: [middle_l, top_l, top_r, middle_r]
    bend: 80
    section: rail
  stay_l:
    kind: beam
    from: rear_l
    to: top_l
    section: brace
    roll: 0
    release_from: [My, Mz]
    release_to:
      Fx: 5000
      Fy: 5000
      Fz: 5000
      Mx: 500
      My: 500
      Mz: 500
    buckling_length: 1
    weld_throat: 2
    cap: [to]
  strut_l:
    kind: link
    from: front_l
    to: top_l
    section: brace
  wire:
    kind: cable
    from: top_l
    to: middle_r
    section: brace
  shackle_l:
    kind: spring
    from: front_l
    to: top_r
    rate: 30
    damping: 0.5

attachments:
  seat_tab_l:
    kind: tab
    on: rail_l
    at: 0.25
    face: top
    hole: 25
    along: 0
    aside: 0
    material: S235
    thickness: 4
    length: 40
    edge: 15
    bolt:
      size: M8
      grade: 8.8
      preload: 9000
      washer: 16
    weld_throat: 3
  lug:
    kind: cross_tab
    node: middle_l
    face: left
    hole: 20
    thickness: 4
    length: 25
  shock_ears:
    kind: pair
    on: cross_rear
    at: 0.5
    face: rear
    hole: 25
    thickness: 4
    length: 40
    gap: 12
    bolt: {size: M8}
  spring_saddle:
    kind: saddle
    on: cross_front
    at: 0.5
    face: top
    hole: 20
    thickness: 3
    length: 40
    bolt: {size: M8}
  wishbone_fin_l:
    kind: through_plate
    on: rail_l
    at: 0.75
    face: bottom
    hole: 25
    thickness: 4
    length: 40
  bottle_cage_l:
    kind: nut
    on: rail_l
    at: 0.3
    face: right
    hole: 5
    diameter: 12
    bolt: {size: M6}
  axle_bush_l:
    kind: sleeve
    on: rail_l
    at: 0.9
    face: left
    hole: 15
    diameter: 16
    bolt: {size: M8}
  mudguard_l:
    kind: bolt
    on: rail_l
    at: 0.8
    face: left
    hole: 5
    bolt: {size: M6, preload: 2000}
    spacer: true

gussets:
  rear_corner_l:
    at: rear_l
    between: [rail_l, cross_rear]
    legs: [60, 40]
    thickness: 3
    place: middle
    material: S235
    weld_throat: 1.4

supports:
  top_l: fixed
  middle_l:
    x: 0
    y: 0
    z: -2
    rx: 0
    ry: 0.5
    rz: 0

masses:
  battery:
    mass: 12
    at: [-450, 0, 450]
    on: [middle_l, middle_r]
    inertia: [0.1, 0.2, 0.2]

sheets:
  floor:
    material: EN AW-5754-H22
    thickness: 1.2
    edges: simply_supported
    side: bottom
    offset: 15.6
    joint:
      rivet:
        diameter: 4
        pitch: 40
        stiffness: 5
        shear_strength: 850
      bond:
        width: 20
        thickness: 0.3
        shear_modulus: 1000
        shear_strength: 5

panels:
  floor_front:
    corners: [front_l, front_r, middle_r, middle_l]
    sheet: floor

vehicle:
  wheels:
    front:
      contact: [600, 0, 0]
      centre: [600, 0, 330]
      carrier: [front_l, front_r]
      hold: spread
      brake: outboard
      axle: front
      radius: 330
    rear_left:
      contact: [-800, 450, 0]
      centre: [-800, 450, 250]
      carrier: [middle_l, rear_l]
      hold: spread
      brake: inboard
      brake_mount: [rear_l, rear_r]
      axle: rear
      radius: 250
      tyre_rate: 110
      tyre_damping: 0.4
    rear_right:
      contact: [-800, -450, 0]
      centre: [-800, -450, 250]
      carrier: [middle_r, rear_r]
      hold: spread
      axle: rear
      radius: 250
  brake_front_share: ideal
  roll_stiffness_front_share: 0.5
  roll_centre:
    front: 0
    rear: 100
  tyre_rate: 120
  tyre_damping: 0.4
  tyre_damping_ratio: 0.05
  structural_damping: 0.015
  friction: 0.8
  standard_cases:
    bump: 5
    step_height: 50
    step: 4.5
    nudge: 1.75
    twist: 1.3
    tipping: 0.95
    combined: 0.7
    downhill: 10

cases:
  leaning_on_it:
    kind: static
    forces:
      middle_l: [0, 0, -100]
    moments:
      middle_l: [0, 50, 0]
    line_loads:
      cross_middle: [0, 0, -0.25]
    point_loads:
      cross_rear:
        - at: 0.5
          force: [0, 0, -500]
          moment: [0, 10, 0]
    gravity: [0, 0, -1]
    rare: true
    note: not every day
  hard_ride:
    kind: vehicle
    brake: 0.3
    corner: 0.2
    grade: 10
    bank: 2
    vertical: 1.2
    bump:
      front: 3
    yield_factor: 1.2
    forces:
      rear_l: [-200, 0, 0]
    moments:
      rear_l: [0, 0, 20]
  step:
    kind: vehicle
    step:
      wheel: front
      height: 50
      factor: 4.5
  kerb:
    kind: vehicle
    nudge:
      side: left
      factor: 1.75
  twist_road:
    kind: vehicle
    lift: rear_left
  towed:
    kind: vehicle
    tow:
      at: [front_l, front_r]
      pull: 0.5
  jacked_up:
    kind: vehicle
    jack:
      at: [rear_l]
      share: 0.6
  on_a_van:
    kind: vehicle
    tie_down:
      at: [front_l, front_r, rear_l, rear_r]
      forward: 0.8
      left: 0.5
  upside_down:
    kind: vehicle
    roll_over:
      at: [middle_l, middle_r]
      force: 3000
      angle: 10
      side: 500
  both_at_once:
    kind: combine
    of:
      standing: 1
      stepping_on_it: 1
  hard_ground:
    kind: ride
    ride: kerb

rides:
  kerb:
    step: 50
    speed: 10
    side: left
    follower:
      patch: 100
  plank:
    obstacle: half_sine
    height: 25
    length: 150
    speed: 15
    follower: rigid_circle
  gravel:
    road: C
    speed: 20
    duration: 60
    seed: 1
    repeat: 5000
  worse_gravel:
    road:
      Gd: 0.0005
    speed: 10
  measured:
    profile: my_track.csv
    speed: 12

torsion:
  front: [front_l, front_r]
  rear: [rear_l, rear_r]
  couple: 100

limits:
  yield_factor: 1.5
  torsional_stiffness: 50
  mass: 30
  deflection: 10
  frequency: 5
  displacement:
    stepping_on_it:
      middle_l:
        x: 5
        y: 5
        z: 10

life:
  category: 36
  design: safe_life
  consequence: high
  spectrum:
    - case: pothole
      from: standing
      cycles: 10000
    - vertical: 1
      cycles: 1000000

stock:
  length: 6000
  kerf: 2
  end_trim: 20
  dies: [60, 80]
  sizes:
    - shape: square_tube
      side: 20
      wall: 1.5
      price: 12.5
    - shape: properties
      A: 250
      Iy: 30000
      Iz: 20000
      It: 40000
      Wy: 1500
      Wz: 1300
      Wt: 2000
      Ay: 120
      Az: 130
      Wply: 1800
      Wplz: 1600
      price: 20

groups:
  rails: [rail_l, rail_r]
  crossings: [cross_middle, cross_rear]
keep: [cross_front]

bench_test:
  weights:
    middle_l: 20
    middle_r: -20
  gauges:
    middle_l: z
    middle_r: z
  readings:
    middle_l: -0.5
    middle_r: 0.5
)";

}  // namespace

std::string more_keys() { return with_key_comments(examples); }

std::string starter_frame() {
  std::string text = std::string(frame) + more_keys_heading;
  text += "#\n";
  std::istringstream lines(more_keys());
  for (std::string line; std::getline(lines, line);)
    text += line.empty() ? "#\n" : "# " + line + "\n";
  return text;
}

}  // namespace tubewright
