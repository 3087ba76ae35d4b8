// The keys of what the frame has to do: vehicle, load cases, stock, bench test.

#include "io/keys/choice_words.h"
#include "io/keys/frame_key_parts.h"
#include "io/keys/frame_kinds.h"

namespace tubewright {

using namespace kinds;

namespace {

SharedKind by_node(SharedKind element, const std::string& example) {
  return entries_of(std::move(element), "a map of node names, " + example);
}

SharedKind wheels_kind() {
  using namespace measure;
  return entries_of(
      group("wheel", "a wheel",
            {{"contact", vector(length), required, "", "where the tyre meets the ground, mm"},
             {"centre", vector(length), required, "", "the middle of the wheel, mm"},
             {"carrier", list_of(name("a node name"), 1, 1000, "a list of node names, [A, B]"),
              required, "", "the nodes that the upright or hub is fixed to"},
             {"hold", choice(words_in(wheel_hold_words)), optional, "rigid",
              "rigid: a rigid upright joins the nodes; spread: statically equivalent forces"},
             {"brake", choice(words_in(wheel_brake_words)), optional, "none",
              "where the brake's moment goes: to the upright, to the frame, or no brake"},
             {"brake_mount", list_of(name("a node name"), 1, 1000, "a list of node names, [A, B]"),
              optional, "",
              "the nodes an inboard brake is fixed to; absent: where the wheel's links meet the "
              "frame"},
             {"axle", choice(words_in(axle_words)), required, "", "front or rear"},
             {"radius", quantity(length, positive), optional, "",
              "radius with which the tyre rolls over the ground in rides, mm"},
             {"tyre_rate", quantity(rate, positive), optional, "",
              "vertical stiffness of this tyre, N/mm; absent: that of all"},
             {"tyre_damping", quantity(damping, not_negative), optional, "",
              "damping of this tyre, N s/mm; absent: that of all"}}),
      "a map of wheel names, {NAME: {contact: [x, y, z], ...}}", 1);
}

std::vector<Key> with_common_keys(const std::string& kind, const std::string& help,
                                  std::vector<Key> keys) {
  keys.insert(keys.begin(), {"kind", choice({kind}), required, "", help});
  keys.push_back(
      {"rare", flag(), optional, "false", "true: yield factor 1.0 instead of limits.yield_factor"});
  keys.push_back({"yield_factor", quantity(measure::number, positive), optional, "",
                  "factor on the loads of this case, instead of limits.yield_factor"});
  keys.push_back({"note", text(), optional, "", "a remark for the report"});
  return keys;
}

SharedKind point_loads_kind() {
  using namespace measure;
  const std::string list = "a list of loads, [{at: 0.5, force: [x, y, z]}]";
  return entries_of(
      sequence_of(group("point load", "a point load",
                        {{"at", quantity(share, zero_to_one), required, "",
                          "fraction of the length from the member's start, 0 to 1"},
                         {"force", vector(force), optional, "", "force in global axes, N"},
                         {"moment", vector(moment), optional, "", "moment in global axes, N m"}}),
                  1, list),
      "a map of member names to " + list);
}

KeyGroup static_case() {
  using namespace measure;
  return {
      "case", "a static case",
      with_common_keys(
          "static", "loads on the frame held by `supports`",
          {{"forces", by_node(vector(force), "{NODE: [x, y, z]}"), optional, "",
            "forces on nodes, global axes, N"},
           {"moments", by_node(vector(moment), "{NODE: [x, y, z]}"), optional, "",
            "moments on nodes, global axes, N m"},
           {"line_loads",
            entries_of(vector(line_load), "a map of member names, {MEMBER: [x, y, z]}"), optional,
            "", "uniform loads along members, global axes, N/mm"},
           {"point_loads", point_loads_kind(), optional, "", "forces and moments within members"},
           {"gravity", vector(multiple_of_g), optional, "",
            "acceleration field on tubes, panels and masses, in g: [0, 0, -1] is at rest"}}),
      "static"};
}

KeyGroup vehicle_case() {
  using namespace measure;
  const auto handled_at = [] {
    return Key{"at", list_of(name("a node name"), 1, 1000, "a list of node names, [A, B]"),
               required, "", "the nodes that take it"};
  };
  const auto factor = [](const std::string& what) {
    return Key{"factor", quantity(number, positive), required, "", what};
  };
  return {
      "case", "a vehicle case",
      with_common_keys(
          "vehicle", "forces at the tyres, balanced by the inertia of all masses",
          {{"brake", quantity(multiple_of_g, not_negative), optional, "0",
            "deceleration along the ground, g"},
           {"corner", quantity(multiple_of_g), optional, "0",
            "sideways acceleration, g, positive in a left turn"},
           {"grade", quantity(slope), optional, "0", "slope of the road, %, positive nose down"},
           {"bump",
            entries_of(quantity(number, not_negative), "a map of wheel names, {WHEEL: 3.0}"),
            optional, "", "factor on a wheel's static load, the static load included"},
           {"step",
            group("step", "`step`",
                  {{"wheel", name("a wheel name"), required, "", "the wheel that strikes"},
                   {"height", quantity(length, positive), required, "", "height of the step, mm"},
                   factor("dynamic factor on the force of the strike")}),
            optional, "", "one wheel strikes a step"},
           {"lift", name("a wheel name"), optional, "", "the wheel that is just off the ground"},
           {"nudge",
            group(
                "nudge", "`nudge`",
                {{"side", choice({"left", "right"}), required, "", "the side that strikes a kerb"},
                 factor("dynamic factor on the side force")}),
            optional, "", "the vehicle slides sideways against a kerb"},
           {"bank", quantity(angle), optional, "0",
            "slope of the road across the vehicle, degrees, positive leaning into a left turn"},
           {"vertical", quantity(number, positive), optional, "1",
            "factor on the weight normal to the road, as in a dip"},
           {"tow",
            group("tow", "`tow`",
                  {handled_at(),
                   {"pull", quantity(number), required, "",
                    "pull in multiples of the weight, positive forward"}}),
            optional, "", "pulled or pushed by nodes of the frame"},
           {"jack",
            group("jack", "`jack`",
                  {handled_at(),
                   {"share", quantity(share, zero_to_one), required, "",
                    "share of the weight on the jack, 0 to 1"}}),
            optional, "", "lifted under nodes of the frame"},
           {"tie_down",
            group("tie_down", "`tie_down`",
                  {handled_at(),
                   {"forward", quantity(multiple_of_g), optional, "0", "pressing forward, g"},
                   {"left", quantity(multiple_of_g), optional, "0", "pressing to the left, g"}}),
            optional, "", "lashed down on another vehicle by nodes of the frame"},
           {"roll_over",
            group("roll_over", "`roll_over`",
                  {handled_at(),
                   {"force", quantity(force), required, "", "force on the roll bar, downward, N"},
                   {"angle", quantity(angle), optional, "0",
                    "how far the force tilts backward, degrees"},
                   {"side", quantity(force), optional, "0", "force from the side, N"}}),
            optional, "", "lying on its roll bar, held by nothing else"},
           {"forces", by_node(vector(force), "{NODE: [x, y, z]}"), optional, "",
            "more forces on nodes, N, balanced by inertia like those of the wheels"},
           {"moments", by_node(vector(moment), "{NODE: [x, y, z]}"), optional, "",
            "more moments on nodes, N m"}}),
      "vehicle"};
}

KeyGroup combined_case() {
  return {
      "case", "a combined case",
      with_common_keys(
          "combine", "a sum of other cases",
          {{"of",
            entries_of(quantity(measure::number), "a map of case names to factors, {CASE: 1.0}", 1),
            required, "", "the cases, each with its factor"}}),
      "combine"};
}

KeyGroup ride_case() {
  return {"case", "a ride case",
          with_common_keys("ride", "the worst instants of a ride, each a case of its own",
                           {{"ride", name("a ride name"), required, "", "one of `rides`"}}),
          "ride"};
}

}  // namespace

SharedKind vehicle_kind() {
  using namespace measure;
  return group(
      "vehicle", "`vehicle`",
      {{"wheels", wheels_kind(), required, "", "the wheels by name"},
       {"brake_front_share", quantity_or(share, zero_to_one, "ideal"), optional, "",
        "front share of the brake force, 0 to 1, or `ideal`: in proportion to the wheel loads"},
       {"roll_stiffness_front_share", quantity(share, zero_to_one), optional, "",
        "front share of the roll stiffness, 0 to 1"},
       {"roll_centre",
        group("roll_centre", "`roll_centre`",
              {{"front", quantity(length), optional, "0", "height above ground, mm"},
               {"rear", quantity(length), optional, "0", "height above ground, mm"}}),
        optional, "", "heights of the roll centres"},
       {"tyre_rate", quantity(rate, positive), optional, "", "vertical stiffness of a tyre, N/mm"},
       {"tyre_damping", quantity(damping, not_negative), optional, "",
        "damping of a tyre, for rides, N s/mm; instead of the ratio"},
       {"tyre_damping_ratio", quantity(share, zero_to_one), optional, "0.05",
        "damping ratio of what a tyre carries at rest, bouncing on it alone"},
       {"structural_damping", quantity(share, zero_to_one), optional, "0.015",
        "damping ratio of the frame's elastic modes in rides (judgement)"},
       {"friction", quantity(number, positive), optional, "", "friction of the tyres"},
       {"standard_cases",
        group("standard_cases", "`standard_cases`",
              {{"bump", quantity(number, positive), optional, "",
                "factor on a wheel's static load; absent: 3 with springs, 5 without"},
               {"step_height", quantity(length, positive), optional, "", "absent: 50 mm"},
               {"step", quantity(number, positive), optional, "", "dynamic factor; absent: 4.5"},
               {"nudge", quantity(number, positive), optional, "", "dynamic factor; absent: 1.75"},
               {"twist", quantity(number, positive), optional, "", "dynamic factor; absent: 1.3"},
               {"tipping", quantity(share, zero_to_one), optional, "",
                "share of the tipping limit that a turn may use; absent: 0.95"},
               {"combined", quantity(share, zero_to_one), optional, "",
                "share of braking and turning taken together; absent: 0.7"},
               {"downhill", quantity(slope), optional, "",
                "slope of the combined cases; absent: 10 %"}}),
        optional, "", "other factors for the load cases used where the file has no `cases`"}});
}

SharedKind cases_kind() {
  return entries_of(variants({static_case(), vehicle_case(), combined_case(), ride_case()}, "kind"),
                    "a map of case names, {NAME: {kind: static, ...}}");
}

SharedKind rides_kind() {
  using namespace measure;
  const std::string road = "a class, A to H, or {Gd: 256e-6}";
  const std::string follower = "rigid_circle, point or {patch: 100}";
  return entries_of(
      group("ride", "a ride",
            {{"step", quantity(length), optional, "",
              "a step up across the road, mm; negative: down"},
             {"obstacle", choice(words_in(obstacle_words)), optional, "",
              "a hump, a hole with upright edges, or a step down"},
             {"height", quantity(length, positive), optional, "",
              "of the obstacle, mm; depth of a pothole or drop"},
             {"length", quantity(length, positive), optional, "",
              "of the obstacle along the road, mm"},
             {"road",
              by_form(choice({"A", "B", "C", "D", "E", "F", "G", "H"}), nullptr,
                      group("road", "`road`",
                            {{"Gd", quantity(roughness, positive), required, "",
                              "displacement spectrum at 0.1 cycle/m, m3"}}),
                      road),
              optional, "", "a random road after ISO 8608"},
             {"profile", text(), optional, "",
              "a CSV file of measured heights, x, left, right in mm, beside the frame file"},
             {"speed", quantity(speed, positive), required, "", "constant speed, km/h"},
             {"side", choice(words_in(ride_side_words)), optional, "both",
              "whose wheels meet the step or obstacle"},
             {"follower",
              by_form(choice(words_in(follower_words)), nullptr,
                      group("follower", "`follower`",
                            {{"patch", quantity(length, positive), required, "",
                              "length of the contact patch, mm"}}),
                      follower),
              optional, "rigid_circle",
              "how a tyre follows the ground: a rigid circle of its `radius`, a point, or the mean "
              "under a contact patch"},
             {"duration", quantity(measure::time, positive), optional, "",
              "s; absent: until the last wheel is over it and 2 s more; 60 s on a random road"},
             {"seed", quantity(number, positive), optional, "1",
              "which of the random roads of its class, a whole number"},
             {"repeat", quantity(number, positive), optional, "1",
              "how often in the vehicle's life, for fatigue"}}),
      "a map of ride names, {kerb: {step: 50, speed: 10}}");
}

SharedKind life_kind() {
  using namespace measure;
  const std::string list = "a list of cycles, [{case: bump, cycles: 10000}]";
  return group(
      "life", "`life`",
      {{"category", quantity(stress, positive), optional, "36",
        "stress range at the weld toe that lasts 2 million cycles, MPa"},
       {"design", choice({"safe_life", "damage_tolerant"}), optional, "safe_life",
        "damage_tolerant: cracks are looked for, and found in time"},
       {"consequence", choice({"high", "low"}), optional, "high", "of a tube that breaks"},
       {"spectrum",
        sequence_of(
            group("cycle", "a cycle",
                  {{"case", name("a case name"), optional, "", "the load case at one end"},
                   {"from", name("a case name"), optional, "",
                    "the load case at the other end; absent: standing on its wheels, or unloaded"},
                   {"vertical", quantity(multiple_of_g, positive), optional, "",
                    "instead of `case`: shaken up and down by so many g"},
                   {"cycles", quantity(number, positive), required, "", "how often"}}),
            1, list),
        optional, "", "what the frame goes through; absent: 1 g up and down and the bumps"}});
}

SharedKind stock_kind() {
  using namespace measure;
  std::vector<KeyGroup> sizes;
  for (const auto& [word, shape] : shape_words) {
    KeyGroup size{"size", shape_title(word),
                  shape == Shape::properties ? stock_properties_keys() : shape_keys(word), word};
    size.keys.push_back({"price", quantity(price, not_negative), optional, "", "price of a bar"});
    sizes.push_back(std::move(size));
  }
  return group(
      "stock", "`stock`",
      {{"length", quantity(length, positive), optional, "6000", "length of a bar, mm"},
       {"kerf", quantity(length, not_negative), optional, "2", "width of a cut, mm"},
       {"end_trim", quantity(length, not_negative), optional, "20",
        "what is cut off a new bar's end, mm"},
       {"sizes",
        sequence_of(variants(std::move(sizes), "shape"), 1,
                    "a list of sizes, [{shape: square_tube, side: 20, wall: 1.5}]"),
        optional, "", "what can be bought; absent: a list of common tube"},
       {"dies", sequence_of(quantity(length, positive), 1, "a list of radii, [60, 100]"), optional,
        "", "radii of the centre line that tubes can be bent to, mm; absent: any"}});
}

SharedKind bench_test_kind() {
  using namespace measure;
  return group("bench_test", "`bench_test`",
               {{"weights", entries_of(quantity(mass), "a map of node names, {NODE: 20}", 1),
                 required, "", "weights hung on nodes, kg, negative: lifting"},
                {"gauges", entries_of(choice({"x", "y", "z"}), "a map of node names, {NODE: z}", 1),
                 required, "", "dial gauges, each with the direction it reads"},
                {"readings", by_node(quantity(length), "{NODE: -1.5}"), optional, "",
                 "what the gauges read, mm"}});
}

}  // namespace tubewright
