// The keys of what is welded or bolted to a tube.

#include "io/keys/choice_words.h"
#include "io/keys/frame_key_parts.h"
#include "io/keys/frame_kinds.h"

namespace tubewright {

using namespace kinds;

namespace {

Key size_key(const std::string& key, const std::string& help) {
  return {key, quantity(measure::length, positive), required, "", help};
}

Key size_if_given(const std::string& key, const std::string& help) {
  return {key, quantity(measure::length, positive), optional, "", help};
}

Key bolt_key(bool is_needed) {
  using namespace measure;
  return {"bolt",
          group("bolt", "`bolt`",
                {{"size", choice({"M5", "M6", "M8", "M10", "M12", "M14", "M16", "M20"}), required,
                  "", "thread size"},
                 {"grade", choice({"4.6", "5.6", "5.8", "6.8", "8.8", "10.9"}), optional, "8.8",
                  "property class"},
                 {"preload", quantity(force, not_negative), optional, "",
                  "what it is tightened to, N; absent: as usual, 0.7 of its strength"},
                 size_if_given("washer", "outside diameter of its washers, mm; absent: ISO 7089")}),
          is_needed, "", "the bolt through its hole"};
}

/// Where it stands; `own`: the keys of its kind.
KeyGroup attachment(const std::string& kind, const std::string& help, std::vector<Key> own) {
  std::vector<Key> keys = {
      {"kind", choice({kind}), required, "", help},
      {"on", name("a member name"), optional, "", "the member, or whole tube, that it stands on"},
      {"at", quantity(measure::number, zero_to_one), optional, "",
       "fraction of that from its start; or give `node`"},
      {"node", name("a node name"), optional, "", "the node that it stands at"},
      {"face", choice(words_in(face_words)), required, "", "which way the tube's face looks there"},
      size_key("hole", "from the tube's outside to the middle of its hole, mm"),
      {"along", quantity(measure::length), optional, "0",
       "of the hole from its middle, towards the end of the tube, mm"},
      {"aside", quantity(measure::length), optional, "0",
       "of the hole from its middle, across the face to the left, else the front or the top, mm"},
      {"material", name_with_spaces("a material name"), optional, "", "absent: that of the tube"}};
  keys.insert(keys.end(), own.begin(), own.end());
  return {"attachment", "a " + kind, std::move(keys), kind};
}

Key throat() {
  return size_if_given("weld_throat",
                       "throat of its welds, mm; absent: 0.7 of the thinner of plate and wall");
}

Key edge() {
  return size_if_given("edge",
                       "from the middle of its hole to the nearest edge of the plate, mm; absent: "
                       "1.2 holes, the least that is allowed");
}

std::vector<Key> plate_keys(const std::string& length_help) {
  return {size_key("thickness", "of the plate, mm"), size_key("length", length_help), edge(),
          bolt_key(false), throat()};
}

std::vector<Key> pair_keys() {
  std::vector<Key> keys = plate_keys("of each plate along the tube, mm");
  keys.insert(keys.begin() + 2, size_key("gap", "clear distance between the plates, mm"));
  return keys;
}

std::vector<Key> boss_keys(const std::string& diameter_help) {
  return {size_key("diameter", diameter_help), bolt_key(false), throat()};
}

std::vector<Key> through_bolt_keys() {
  return {bolt_key(true),
          {"spacer", flag(), optional, "false",
           "true: a spacer tube inside the tube takes what the bolt is tightened to"}};
}

SharedKind legs_kind() {
  const std::string expected = "a length, 60, or one for each tube, [80, 50]";
  const SharedKind leg = quantity(measure::length, positive);
  return by_form(leg, sequence_of(leg, 2, expected, 2), nullptr, expected);
}

}  // namespace

SharedKind gussets_kind() {
  return entries_of(
      group(
          "gusset", "a gusset",
          {{"at", name("a node name"), required, "", "the node of its corner"},
           {"between", list_of(name("a member name"), 2, 2, "two member names, [post, rail_l.1]"),
            required, "", "the two tubes that meet there; of one that runs on the piece"},
           {"legs", legs_kind(), required, "", "its length along each tube, from face to end, mm"},
           size_key("thickness", "of the plate, mm"),
           {"place", choice({"middle", "sides"}), optional, "middle",
            "middle: one plate in the middle of the faces; sides: two, in line with the walls "
            "beside"},
           {"material", name_with_spaces("a material name"), optional, "",
            "absent: that of the first tube"},
           throat()}),
      "a map of names, {NAME: {at: NODE, between: [post, rail], legs: 60, thickness: 3}}");
}

SharedKind attachments_kind() {
  return entries_of(
      variants({attachment("tab", "a plate along the tube",
                           plate_keys("of the plate along the tube, mm")),
                attachment("cross_tab", "a plate across the tube",
                           plate_keys("of the plate across the tube, mm")),
                attachment("pair", "two plates along the tube, a bolt through both", pair_keys()),
                attachment("saddle",
                           "a strap bent round the tube, its two ears welded to the faces beside, "
                           "a bolt through both",
                           plate_keys("of the strap along the tube, mm")),
                attachment("through_plate",
                           "a plate along the tube that runs through it, welded "
                           "to both faces",
                           plate_keys("of the plate along the tube, mm")),
                attachment("nut", "a nut or boss welded into one wall",
                           boss_keys("outside diameter of the nut or boss, mm")),
                attachment("sleeve", "a bush through the tube, welded to both faces",
                           boss_keys("outside diameter of the bush, mm")),
                attachment("bolt", "a bolt through both walls", through_bolt_keys())},
               "kind"),
      "a map of names, {NAME: {kind: tab, on: MEMBER, at: 0.5, face: bottom, hole: 25, ...}}");
}

}  // namespace tubewright
