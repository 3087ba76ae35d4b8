// A frame as its builder describes it: named parts in plain data.
//
// Units are SI (m, N, N m, kg, Pa, rad, N/m), axes ISO 8855; the reader converts. Parts refer to
// each other by name. A frame is sound when validate() in cases/validate/validate.h finds no error
// in it.
#pragma once

#include <Eigen/Core>
#include <array>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "solver/elements/sheet_buckling.h"
#include "solver/model/material.h"
#include "solver/model/model.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double standard_gravity = 9.80665;  // m/s2, CGPM 1901

/// Directions x y z rx ry rz, and Fx Fy Fz Mx My Mz, in the order of a node's unknowns.
constexpr std::array<const char*, 6> direction_names = {"x", "y", "z", "rx", "ry", "rz"};
constexpr std::array<const char*, 6> release_names = {"Fx", "Fy", "Fz", "Mx", "My", "Mz"};

enum class Metal { steel, stainless, aluminium, other };

/// What the heat of a weld leaves of a material's strength, Pa; NaN where unknown.
struct HeatAffected {
  double yield = std::numeric_limits<double>::quiet_NaN();
  double ultimate = std::numeric_limits<double>::quiet_NaN();
};

/// Buckling class of an aluminium alloy and its temper, EN 1999-1-1 Table 3.2; B buckles earlier.
enum class AlloyClass { A, B };

struct MaterialEntry {
  std::string name;
  Material properties;
  SourceLocation place;
  Metal metal = Metal::steel;              ///< which standard's rules hold for it
  HeatAffected heat_affected;              ///< aluminium only
  AlloyClass alloy_class = AlloyClass::B;  ///< likewise; B where it is not known
};

enum class Shape { square_tube, rectangular_tube, round_tube, round_bar, flat_bar, properties };
enum class Corners { cold_formed, hot_finished, sharp };

struct SectionEntry {
  std::string name;
  Shape shape = Shape::square_tube;
  double height = 0;  ///< side of a square, diameter of a round
  double width = 0;   ///< side of a square, diameter of a round
  double wall = 0;    ///< tubes only
  Corners corners = Corners::cold_formed;
  bool shear = true;  ///< Timoshenko with Cowper's coefficient; false: Euler-Bernoulli
  Section given;      ///< Shape::properties only; shear areas `rigid` where absent
  std::string material;
  std::optional<double> weld_filler;  ///< f_u of the metal its ends are welded with, Pa
  SourceLocation place;
};

struct Node {
  std::string name;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  SourceLocation place;
};

enum class MemberKind { beam, link, cable, spring };

/// The part of a bent tube that a member is: an arc between its nodes.
struct MemberArc {
  double radius = 0;  ///< of its centre line, m
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  std::string corner;  ///< the node in the middle of the bend
};

struct Member {
  std::string name;
  MemberKind kind = MemberKind::beam;
  std::string from;
  std::string to;
  std::string section;  ///< empty for a spring
  double roll = 0;
  double rate = 0;                      ///< spring only, N/m
  double damping = 0;                   ///< spring only, N s/m: of the damper beside it
  EndConnection release_from = welded;  ///< 0 = free, finite = spring, `rigid` = joined
  EndConnection release_to = welded;
  std::string tube;  ///< the continuous tube (path) this is a piece of, else empty
  /// Effective length over length, for bending about y and z; absent: found.
  std::array<std::optional<double>, 2> buckling_length;
  std::optional<double> weld_throat;  ///< absent: the tube's wall
  std::array<bool, 2> capped{};       ///< a plate is welded on its end, at from, at to
  /// Where the path it is a piece of turns into the next one, m: radius of the bend. 0: mitred.
  double bend = 0;
  std::optional<MemberArc> arc;  ///< expand_bends() makes bends of these
  /// Length of the member that expand_attachments() parted it from, or of the bent tube it is a
  /// part of as far as nothing else meets it, m: it buckles as that. 0: whole.
  double parted_from = 0;
  SourceLocation place;
};

/// What is welded or bolted to a tube so that something else ends there; see
/// cases/attachments/expand_attachments.h.
enum class AttachmentKind {
  tab,            ///< one plate, standing along the tube
  cross_tab,      ///< one plate, standing across the tube
  pair,           ///< two tabs side by side, a bolt through both
  saddle,         ///< a strap bent round the tube, its two ears beside it, a bolt through both
  through_plate,  ///< a tab that runs through the tube, welded to both faces
  nut,            ///< a nut or boss welded into one wall
  sleeve,         ///< a bush through the tube, welded to both faces
  bolt            ///< a bolt through both walls
};
/// Way that a face of the tube looks.
enum class Face { top, bottom, left, right, front, rear };
/// In that order.
constexpr std::array<const char*, 6> face_names = {"top",   "bottom", "left",
                                                   "right", "front",  "rear"};

/// Bolt by its nominal diameter and property class; cases/attachment_checks/bolts.h has the rest.
struct BoltEntry {
  double diameter = 0;            ///< nominal, m
  std::string grade;              ///< "8.8"
  std::optional<double> preload;  ///< N; absent: tightened as usual
  std::optional<double> washer;   ///< outside diameter
};

struct Attachment {
  std::string name;  ///< also of the node at its hole
  AttachmentKind kind = AttachmentKind::tab;
  std::string on;            ///< member or whole tube; may be empty where `node` is given
  std::optional<double> at;  ///< fraction of it
  std::string node;          ///< instead of `at`
  Face face = Face::top;
  double hole = 0;       ///< from the tube's outside to the middle of the hole, where the load is
  double along = 0;      ///< of the hole from the middle of the attachment, towards the tube's end
  double aside = 0;      ///< across the face, towards the left, else the front or the top
  double thickness = 0;  ///< of a plate
  double length = 0;     ///< of a plate, along the face; diameter of a nut or sleeve
  double gap = 0;        ///< between the plates of a pair
  std::optional<double> edge;  ///< from the middle of the hole to the plate's nearest edge
  std::optional<double> weld_throat;
  std::string material;  ///< empty: the tube's
  bool spacer = false;   ///< a spacer tube round a bolt, inside the tube
  bool image = false;    ///< made by the mirror rule: `aside` is as seen in the mirror
  std::optional<BoltEntry> bolt;
  SourceLocation place;
  // Filled in by expand_attachments()
  std::string axis_node;                                 ///< on the tube's axis
  std::string face_node;                                 ///< in the middle of its foot
  std::string section;                                   ///< of the tube
  Eigen::Vector3d out = Eigen::Vector3d::Zero();         ///< normal of the face
  Eigen::Vector3d lengthwise = Eigen::Vector3d::Zero();  ///< from the tube's start to its end
  Eigen::Vector3d sideways = Eigen::Vector3d::Zero();    ///< as `aside`
  bool on_side = false;  ///< the face is square to the section's y axis, else to z
};

/// Where a gusset is welded along one of its tubes.
struct GussetLeg {
  std::string tube;   ///< member or whole tube that ends at its node
  double length = 0;  ///< of the weld
  // Filled in by expand_attachments()
  std::string axis_node;                            ///< on the tube's axis, where the leg ends
  std::string section;                              ///< of the tube
  Eigen::Vector3d along = Eigen::Vector3d::Zero();  ///< of the tube, from the node
  bool on_side = false;  ///< the face is square to the section's y axis, else to z
};

/// A three-cornered plate in the corner of two tubes; see cases/attachments/gusset_plate.h.
struct Gusset {
  std::string name;
  std::string node;
  std::array<GussetLeg, 2> legs;
  double thickness = 0;
  bool at_sides = false;  ///< two plates, in line with the walls beside; else one in the middle
  std::string material;   ///< empty: that of the first tube
  std::optional<double> weld_throat;
  SourceLocation place;
};

struct MirrorRule {
  std::string from;  ///< name ending that is copied, such as "_l"
  std::string to;    ///< name ending of the copy, such as "_r"
  SourceLocation place;
};

struct SupportEntry {
  std::string node;
  std::array<bool, 6> restrained = {};
  std::array<double, 6> displacement = {};
  SourceLocation place;
};

struct CarriedMass {
  std::string name;
  double mass = 0;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  std::vector<std::string> on;
  Eigen::Vector3d inertia = Eigen::Vector3d::Zero();  ///< about its own centre, kg m2
  SourceLocation place;
};

struct RivetJoint {
  double diameter = 0;
  double pitch = 0;
  std::optional<double> stiffness;       ///< of one rivet, N/m
  std::optional<double> shear_strength;  ///< N
};

struct BondJoint {
  double width = 0;
  double thickness = 0;
  double shear_modulus = 0;
  std::optional<double> shear_strength;  ///< Pa
};

/// Of its tubes: the one that the corners' order points to by the right hand, or the one with the
/// greater or lesser z.
enum class SheetSide { by_corners, top, bottom };

struct Sheet {
  std::string name;
  std::string material;
  double thickness = 0;
  SheetEdge edges = SheetEdge::simply_supported;
  SheetSide side = SheetSide::by_corners;
  /// From the plane of the axes toward `side`, m; below 0: away from it. Absent: the sheet touches
  /// the deepest of its tubes (cases/model/sheet_pieces.h).
  std::optional<double> offset;
  std::optional<RivetJoint> rivet;
  std::optional<BondJoint> bond;
  SourceLocation place;
};

struct PanelEntry {
  std::string name;
  std::vector<std::string> corners;  ///< in order round the panel
  std::string sheet;
  SourceLocation place;
};

enum class WheelHold { rigid_upright, spread };
enum class WheelBrake { outboard, inboard, none };
enum class Axle { front, rear };

struct Wheel {
  std::string name;
  Eigen::Vector3d contact = Eigen::Vector3d::Zero();
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  std::vector<std::string> carrier;
  WheelHold hold = WheelHold::rigid_upright;
  WheelBrake brake = WheelBrake::none;
  std::vector<std::string> brake_mount;  ///< nodes an inboard brake is fixed to
  Axle axle = Axle::front;
  std::optional<double> radius;        ///< of the tyre as it rolls over the ground in a ride, m
  std::optional<double> tyre_rate;     ///< N/m; absent: that of all tyres of the vehicle
  std::optional<double> tyre_damping;  ///< N s/m; absent: as of the vehicle
  SourceLocation place;
};

inline double wheel_radius(const Wheel& wheel) { return wheel.centre.z() - wheel.contact.z(); }

/// True if a rigid body joins the wheel's carriers.
inline bool has_rigid_upright(const Wheel& wheel) {
  return wheel.hold == WheelHold::rigid_upright && wheel.carrier.size() > 1;
}

/// Factors of the standard load cases that the file sets otherwise.
struct StandardFactors {
  std::optional<double> bump;         ///< times the static load
  std::optional<double> step_height;  ///< m
  std::optional<double> step;
  std::optional<double> nudge;
  std::optional<double> twist;
  std::optional<double> tipping;   ///< share of the tipping limit that a turn may use
  std::optional<double> combined;  ///< share of braking and turning taken together
  std::optional<double> downhill;  ///< tangent of the slope in the combined cases
};

struct Vehicle {
  std::vector<Wheel> wheels;
  bool brake_ideal = false;
  std::optional<double> brake_front_share;
  std::optional<double> roll_stiffness_front_share;
  double roll_centre_front = 0;
  double roll_centre_rear = 0;
  std::optional<double> tyre_rate;     ///< of each tyre, N/m
  std::optional<double> tyre_damping;  ///< of each tyre, N s/m; instead of the ratio
  double tyre_damping_ratio = 0.05;    ///< of what a tyre carries at rest, bouncing on it alone
  double structural_damping = 0.015;   ///< damping ratio of the frame's elastic modes
  std::optional<double> friction;
  StandardFactors standard;
  SourceLocation place;
};

enum class CaseKind { vehicle, fixed_supports, combine, ride };

struct NodeAction {
  std::string node;
  Eigen::Vector3d value = Eigen::Vector3d::Zero();  ///< N or N m
  SourceLocation place;
};

/// A load along a member or along a whole tube (path).
struct LineLoad {
  std::string member;
  Eigen::Vector3d load = Eigen::Vector3d::Zero();  ///< N per metre of member
  SourceLocation place;
};

struct PointLoad {
  std::string member;
  double at = 0;  ///< fraction of the member (or whole tube) from its start
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
  SourceLocation place;
};

struct CaseTerm {
  std::string name;
  double factor = 1;
  SourceLocation place;
};

/// What the road does to a wheel at an instant of a ride, N: forward at its centre, up at its
/// contact.
struct WheelForce {
  std::string wheel;
  double along = 0;
  double up = 0;
};

struct WheelFactor {
  std::string wheel;
  double factor = 1;
  SourceLocation place;
};

struct StepStrike {
  std::string wheel;
  double height = 0;
  double factor = 1;
  SourceLocation place;
};

/// Sliding sideways against a kerb.
struct KerbNudge {
  bool left = true;  ///< the side of the wheels that strike it
  double factor = 1;
  SourceLocation place;
};

/// Pulled (or, below zero, pushed) by nodes with a multiple of the weight, + forward.
struct Tow {
  std::vector<std::string> at;
  double pull = 0;
  SourceLocation place;
};

/// Lifted under nodes with a share of the weight; the wheels keep the rest.
struct Jack {
  std::vector<std::string> at;
  double share = 0;
  SourceLocation place;
};

/// Lashed down by nodes in a vehicle that brakes and turns: how hard it presses forward and to the
/// left, in multiples of g.
struct TieDown {
  std::vector<std::string> at;
  double forward = 0;
  double left = 0;
  SourceLocation place;
};

/// The vehicle comes to lie on its roll bar: a force on the bar, backward of straight down by
/// `angle`, and one from the side. Nothing else holds it.
struct RollOver {
  std::vector<std::string> at;
  double force = 0;  ///< N
  double angle = 0;  ///< rad
  double side = 0;   ///< N, + to the left
  SourceLocation place;
};

struct Case {
  std::string name;
  CaseKind kind = CaseKind::fixed_supports;
  bool rare = false;
  std::optional<double> yield_factor;  ///< instead of limits.yield_factor
  std::string note;
  SourceLocation place;
  // kind: static, and beside the wheels' forces kind: vehicle
  std::vector<NodeAction> forces;
  std::vector<NodeAction> moments;
  // kind: static
  std::vector<LineLoad> line_loads;
  std::vector<PointLoad> point_loads;                 ///< also of an instant of a ride
  Eigen::Vector3d gravity = Eigen::Vector3d::Zero();  ///< multiples of g
  // kind: combine
  std::vector<CaseTerm> of;
  // kind: vehicle
  double brake = 0;
  double corner = 0;
  double grade = 0;     ///< tangent of the slope, + = nose down
  double bank = 0;      ///< of the road across the vehicle, rad, + = left side lower
  double vertical = 1;  ///< factor on gravity normal to the road
  std::vector<WheelFactor> bump;
  std::optional<StepStrike> step;
  std::optional<KerbNudge> nudge;
  std::optional<Tow> tow;
  std::optional<Jack> jack;
  std::optional<TieDown> tie_down;
  std::optional<RollOver> roll_over;
  std::string lift;
  // kind: ride
  std::string ride;
  // kind: vehicle, as an instant of a ride
  std::string part_of;                   ///< name of the case that it comes from
  std::vector<WheelForce> wheel_forces;  ///< of all wheels, instead of what they do otherwise
  std::vector<std::string> doubts;       ///< why what passes in it is not proven
};

/// What a ride goes over.
enum class Ground {
  step,         ///< up by `height`; down where it is negative
  half_sine,    ///< a hump, h sin(pi x/L)
  versed_sine,  ///< a hump, h/2 (1 - cos(2 pi x/L))
  pothole,      ///< down by `height` over `length`, with upright edges
  drop,         ///< down by `height`
  random_road,  ///< after ISO 8608
  profile       ///< as measured
};
enum class RideSide { both, left, right };
/// How a tyre follows the ground: a rigid circle of its radius, a point, or the mean height under a
/// contact patch.
enum class Follower { circle, point, patch };

/// Heights of the left and the right track at a place along the road, m.
struct ProfileRow {
  double x = 0;
  double left = 0;
  double right = 0;
};

/// A ride over a road at constant speed.
struct RideEntry {
  std::string name;
  Ground ground = Ground::step;
  double height = 0;     ///< of a step or obstacle, m; depth of a pothole or drop
  double length = 0;     ///< of an obstacle, m
  double roughness = 0;  ///< Gd(n0) of a random road, m3
  std::string profile_file;
  std::vector<ProfileRow> profile;
  double speed = 0;                ///< m/s
  RideSide side = RideSide::both;  ///< whose wheels meet the step or obstacle
  Follower follower = Follower::circle;
  double patch = 0;                ///< length of the contact patch, m
  std::optional<double> duration;  ///< s; absent: until the last wheel is over it and 2 s more
  unsigned seed = 1;               ///< of a random road
  double repeat = 1;               ///< how often in the vehicle's life
  SourceLocation place;
};

struct TorsionTest {
  std::array<std::string, 2> front;
  std::array<std::string, 2> rear;
  double couple = 0;
  SourceLocation place;
};

/// How far a node may move in a case, along x, y and z either way, m.
struct DisplacementLimit {
  std::string load_case;
  std::string node;
  std::array<std::optional<double>, 3> most;
  SourceLocation place;
};

struct Limits {
  double yield_factor = 1.5;
  std::optional<double> torsional_stiffness;  ///< N m/rad
  std::optional<double> mass;
  std::optional<double> deflection;
  std::optional<double> frequency;
  std::vector<DisplacementLimit> displacements;
};

/// Part of what a frame goes through in its life.
struct LifeBlock {
  std::string load_case;  ///< one end of the cycle; empty: `vertical`
  std::string from;       ///< the other end; empty: standing, or unloaded without wheels
  double vertical = 0;    ///< times g, up and down from standing
  double cycles = 0;
  SourceLocation place;
};

/// How fatigue is screened. Without it in the file a vehicle gets a spectrum that does not count.
struct Life {
  double category = 36e6;  ///< Pa at 2 million cycles
  bool damage_tolerant = false;
  bool high_consequence = true;
  std::vector<LifeBlock> spectrum;
  SourceLocation place;
};

struct StockSize {
  Shape shape = Shape::square_tube;
  double height = 0;
  double width = 0;
  double wall = 0;
  std::optional<double> price;
  /// Shape::properties only; what the file does not give is 0, shear areas `rigid`.
  Section given = {};
};

struct Stock {
  double length = 6.0;
  double kerf = 0.002;
  double end_trim = 0.020;
  std::vector<StockSize> sizes;
  std::vector<double> dies;  ///< radii that tubes can be bent to, of the centre line; empty: any
};

/// Tubes that get one size, as the file groups them.
struct SizeGroup {
  std::string name;
  std::vector<std::string> members;  ///< members or whole tubes (paths)
  SourceLocation place;
};

/// Tubes whose size stays, members or whole tubes (paths).
struct KeptTubes {
  std::vector<std::string> members;
  SourceLocation place;
};

struct GaugeReading {
  std::string node;
  int direction = 2;
  std::optional<double> reading;
};

struct BenchTest {
  std::vector<std::pair<std::string, double>> weights;  ///< node, kg
  std::vector<GaugeReading> gauges;
};

/// Frame::joint_flexibility of a frame whose tubes meet rigidly where their axes do.
constexpr double rigid_joints = 0;

struct Frame {
  std::string title;
  double gravity = standard_gravity;
  double joint_flexibility = 1;          ///< of welded joints, times what their geometry gives them
  std::vector<MaterialEntry> materials;  ///< the file's own; see built_in_materials()
  std::vector<SectionEntry> sections;
  std::vector<Node> nodes;
  std::vector<Member> members;
  std::vector<Attachment> attachments;  ///< expand_attachments() makes their nodes
  std::vector<Gusset> gussets;          ///< and those
  std::optional<MirrorRule> mirror;     ///< already applied by expand_mirror()
  std::vector<SupportEntry> supports;
  std::vector<CarriedMass> masses;
  std::vector<Sheet> sheets;
  std::vector<PanelEntry> panels;
  std::optional<Vehicle> vehicle;
  std::vector<Case> cases;
  std::vector<RideEntry> rides;
  std::optional<TorsionTest> torsion;
  Limits limits;
  std::optional<Life> life;
  std::optional<Stock> stock;
  std::vector<SizeGroup> groups;
  KeptTubes keep;
  std::optional<BenchTest> bench_test;
};

}  // namespace tubewright
