#include "io/keys/frame_keys.h"

#include <algorithm>

#include "io/keys/frame_key_parts.h"
#include "io/keys/frame_kinds.h"

namespace tubewright {
namespace {

using namespace kinds;

SharedKind mirror_kind() {
  return group("mirror", "`mirror`",
               {{"plane", choice({"xz"}), optional, "xz", "the plane of symmetry, y = 0"},
                {"from", name("a name ending, such as _l"), required, "",
                 "the ending of the names that are copied, such as _l"},
                {"to", name("a name ending, such as _r"), required, "",
                 "the ending that the copies get, such as _r"}});
}

SharedKind torsion_kind() {
  const auto pair = [] {
    return list_of(name("a node name"), 2, 2, "two node names, [LEFT, RIGHT]");
  };
  return group("torsion", "`torsion`",
               {{"front", pair(), required, "", "the two front nodes, left then right"},
                {"rear", pair(), required, "", "the two rear nodes, left then right"},
                {"couple", quantity(measure::moment, positive), optional, "100",
                 "the couple that twists the frame, N m"}});
}

constexpr std::size_t most_members = 1'000'000;
constexpr const char* member_list = "a list of member names, [rail_l, rail_r]";

SharedKind displacements_kind() {
  const auto along = [](const std::string& axis) {
    return Key{axis, quantity(measure::length, positive), optional, "",
               "greatest displacement along " + axis + ", either way, mm"};
  };
  const SharedKind by_node =
      entries_of(group("node", "a limit of displacement", {along("x"), along("y"), along("z")}),
                 "a map of node names, {NODE: {z: 5}}", 1);
  return entries_of(by_node, "a map of case names to nodes, {CASE: {NODE: {z: 5}}}", 1);
}

SharedKind limits_kind() {
  return group(
      "limits", "`limits`",
      {{"yield_factor", quantity(measure::number, positive), optional, "1.5",
        "factor on yield that every case not `rare` keeps"},
       {"torsional_stiffness", quantity(measure::turning_rate, positive), optional, "",
        "least torsional stiffness, N m/deg"},
       {"mass", quantity(measure::mass, positive), optional, "", "greatest mass of the frame, kg"},
       {"deflection", quantity(measure::length, positive), optional, "",
        "greatest displacement of any node, mm"},
       {"frequency", quantity(measure::frequency, positive), optional, "",
        "least natural frequency of the frame alone, Hz"},
       {"displacement", displacements_kind(), optional, "",
        "how far nodes may move in a load case, along x, y and z"}});
}

SharedKind groups_kind() {
  return entries_of(list_of(name("a member name"), 1, most_members, member_list),
                    "a map of group names to member names, {rails: [rail_l, rail_r]}");
}

KeyGroup all_keys() {
  return {
      "frame file",
      "a frame file",
      {{"frame", text(), required, "", "the title of the frame"},
       {"axes", choice({"iso8855", "sae_j670"}), optional, "iso8855",
        "iso8855: x forward, y left, z up; sae_j670: x forward, y right, z down"},
       {"gravity", quantity(measure::acceleration, positive), optional, "9.80665",
        "acceleration of free fall, m/s2"},
       {"joints", choice({"welded", "rigid"}), optional, "welded",
        "welded: where one tube is welded to another the walls give way, by their geometry; rigid: "
        "tubes meet rigidly where their axes do"},
       {"materials", materials_kind(), optional, "", "materials that are not built in"},
       {"sections", sections_kind(), optional, "", "tubes and bars by name"},
       {"nodes",
        entries_of(vector(measure::length), "a map of node names to positions, {A: [x, y, z]}", 1),
        required, "", "the joints, each with its position in mm"},
       {"members", members_kind(), required, "", "the tubes, bars and cables between the nodes"},
       {"attachments", attachments_kind(), optional, "",
        "tabs, bushes and bolts on tubes, each with a node of its name at its hole"},
       {"gussets", gussets_kind(), optional, "", "plates in the corners of two tubes"},
       {"mirror", mirror_kind(), optional, "",
        "half the frame is described, the rest is its image"},
       {"supports", supports_kind(), optional, "", "nodes that are held"},
       {"masses", masses_kind(), optional, "", "carried masses, which add no stiffness"},
       {"sheets", sheets_kind(), optional, "", "sheet and the way its edges are joined, by name"},
       {"panels", panels_kind(), optional, "", "where sheet is fitted"},
       {"vehicle", vehicle_kind(), optional, "", "wheels, brakes and what they load"},
       {"cases", cases_kind(), optional, "", "load cases by name"},
       {"rides", rides_kind(), optional, "", "roads to ride over, by name"},
       {"torsion", torsion_kind(), optional, "", "how the torsional stiffness is measured"},
       {"limits", limits_kind(), optional, "", "targets that the frame has to meet"},
       {"life", life_kind(), optional, "", "how often what happens to it: fatigue"},
       {"stock", stock_kind(), optional, "", "the bars that can be bought"},
       {"groups", groups_kind(), optional, "",
        "tubes that `size` gives one size, by name; absent from all: a tube goes with its image "
        "and the rest of its path"},
       {"keep", list_of(name("a member name"), 1, most_members, member_list), optional, "",
        "tubes whose size `size` leaves as it is"},
       {"bench_test", bench_test_kind(), optional, "", "a test with weights and dial gauges"}}};
}

}  // namespace

const KeyGroup& frame_keys() {
  static const KeyGroup keys = all_keys();
  return keys;
}

const Key* find_key(const KeyGroup& group, const std::string& name) {
  const auto found = std::find_if(group.keys.begin(), group.keys.end(),
                                  [&](const Key& k) { return k.name == name; });
  return found == group.keys.end() ? nullptr : &*found;
}

}  // namespace tubewright
