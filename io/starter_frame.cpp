#include "io/starter_frame.h"

namespace tubewright {

const char* const starter_frame =
    R"(# A frame to begin with: the load bed of a cargo trike. Change it step by step and run
#   tubewright check THIS_FILE
# after each step. Lengths in mm, forces in N, masses in kg, stresses in MPa.
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
  rail_l: {path: [front_l, middle_l, rear_l], section: rail}
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

}  // namespace tubewright
