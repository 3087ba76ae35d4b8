// What is fixed to the frame: tabs, bushes, bolts and gussets, supports, carried masses, sheets and
// panels.
#include <string>

#include "io/frame_file/frame_parts.h"
#include "io/keys/choice_words.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

/// `fixed`, `pinned`, a list of directions, or a map of displacements.
void read_support(const CheckedValue& v, const FileAxes& axes, SupportEntry& support) {
  const bool fixed = v.text == "fixed";
  const bool pinned = v.text == "pinned";
  for (int d = 0; d < 6; ++d) support.restrained[d] = fixed || (pinned && d < 3);
  for (const CheckedValue& direction : v.items) {
    if (direction.index >= 0) support.restrained[direction.index] = true;
  }
  for (std::size_t d = 0; d < v.fields.size(); ++d) {
    if (!v.fields[d].given) continue;
    support.restrained[d] = true;
    support.displacement[d] = axes.component(static_cast<int>(d), v.fields[d].number);
  }
}

RivetJoint rivet_joint(const CheckedValue& v) {
  return {v["diameter"].number, v["pitch"].number, number_if_given(v["stiffness"]),
          number_if_given(v["shear_strength"])};
}

BondJoint bond_joint(const CheckedValue& v) {
  return {v["width"].number, v["thickness"].number, v["shear_modulus"].number,
          number_if_given(v["shear_strength"])};
}

void read_joint(const CheckedValue& v, Sheet& sheet, Diagnostics& diagnostics) {
  if (v.group == nullptr) return;
  if (!v["rivet"].given && !v["bond"].given) {
    diagnostics.push_back(error_at(v.place, joint_of_nothing()));
  }
  if (v["rivet"].sound) sheet.rivet = rivet_joint(v["rivet"]);
  if (v["bond"].sound) sheet.bond = bond_joint(v["bond"]);
}

/// "M8" in m.
double thread_diameter(const std::string& size) {
  constexpr double mm = 1e-3;
  double diameter = 0;
  for (const char c : size) {
    if (c >= '0' && c <= '9') diameter = 10 * diameter + (c - '0');
  }
  return diameter * mm;
}

/// Of a key that only some kinds have.
const CheckedValue* of_kind(const CheckedValue& v, const char* key) {
  return find_key(*v.group, key) == nullptr ? nullptr : &v[key];
}

std::optional<double> length_of_kind(const CheckedValue& v, const char* key) {
  const CheckedValue* found = of_kind(v, key);
  return found == nullptr ? std::nullopt : number_if_given(*found);
}

BoltEntry bolt_entry(const CheckedValue& v) {
  return {thread_diameter(v["size"].text), v["grade"].text, number_if_given(v["preload"]),
          number_if_given(v["washer"])};
}

void read_attachment(const CheckedValue& v, Attachment& a) {
  a.kind = value_for(attachment_kind_words, v["kind"].text);
  a.on = v["on"].text;
  a.at = number_if_given(v["at"]);
  a.node = v["node"].text;
  a.face = value_for(face_words, v["face"].text);
  a.hole = v["hole"].number;
  a.along = v["along"].number;
  a.aside = v["aside"].number;
  a.material = v["material"].text;
  a.thickness = length_of_kind(v, "thickness").value_or(0);
  const char* along_the_face = of_kind(v, "diameter") != nullptr ? "diameter" : "length";
  a.length = length_of_kind(v, along_the_face).value_or(0);
  a.gap = length_of_kind(v, "gap").value_or(0);
  a.edge = length_of_kind(v, "edge");
  a.weld_throat = length_of_kind(v, "weld_throat");
  if (const CheckedValue* spacer = of_kind(v, "spacer")) a.spacer = spacer->index == 1;
  if (const CheckedValue* bolt = of_kind(v, "bolt"); bolt != nullptr && bolt->group != nullptr) {
    a.bolt = bolt_entry(*bolt);
  }
}

}  // namespace

void read_attachments(const CheckedValue& top, Frame& frame) {
  for (const NamedValue& entry : top["attachments"].entries) {
    Attachment attachment;
    attachment.name = entry.name;
    attachment.place = entry.place;
    if (entry.value.group != nullptr) read_attachment(entry.value, attachment);
    frame.attachments.push_back(std::move(attachment));
  }
}

void read_gussets(const CheckedValue& top, Frame& frame) {
  for (const NamedValue& entry : top["gussets"].entries) {
    const CheckedValue& v = entry.value;
    Gusset gusset;
    gusset.name = entry.name;
    gusset.place = entry.place;
    if (v.group != nullptr) {
      gusset.node = v["at"].text;
      const std::vector<std::string> tubes = texts(v["between"]);
      const std::vector<CheckedValue>& lengths = v["legs"].items;
      for (std::size_t k = 0; k < tubes.size() && k < 2; ++k) {
        gusset.legs[k].tube = tubes[k];
        gusset.legs[k].length = k < lengths.size() ? lengths[k].number : v["legs"].number;
      }
      gusset.thickness = v["thickness"].number;
      gusset.at_sides = v["place"].index == 1;
      gusset.material = v["material"].text;
      gusset.weld_throat = number_if_given(v["weld_throat"]);
    }
    frame.gussets.push_back(std::move(gusset));
  }
}

void read_supports(const CheckedValue& top, const FileAxes& axes, Frame& frame) {
  for (const NamedValue& entry : top["supports"].entries) {
    SupportEntry support;
    support.node = entry.name;
    support.place = entry.place;
    read_support(entry.value, axes, support);
    frame.supports.push_back(std::move(support));
  }
}

void read_masses(const CheckedValue& top, const FileAxes& axes, Frame& frame) {
  for (const NamedValue& entry : top["masses"].entries) {
    const CheckedValue& v = entry.value;
    CarriedMass mass;
    mass.name = entry.name;
    mass.place = entry.place;
    if (v.group != nullptr) {
      mass.mass = v["mass"].number;
      mass.at = axes.vector(v["at"]);
      mass.on = texts(v["on"]);
      const auto& inertia = v["inertia"].vector;  // the same about turned axes
      mass.inertia = {inertia[0], inertia[1], inertia[2]};
    }
    frame.masses.push_back(std::move(mass));
  }
}

void read_sheets(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics) {
  for (const NamedValue& entry : top["sheets"].entries) {
    const CheckedValue& v = entry.value;
    Sheet sheet;
    sheet.name = entry.name;
    sheet.place = entry.place;
    if (v.group != nullptr) {
      sheet.material = v["material"].text;
      sheet.thickness = v["thickness"].number;
      sheet.edges = value_for(sheet_edge_words, v["edges"].text);
      sheet.side = value_for(sheet_side_words, v["side"].text);
      sheet.offset = number_if_given(v["offset"]);
      read_joint(v["joint"], sheet, diagnostics);
    }
    frame.sheets.push_back(std::move(sheet));
  }
}

void read_panels(const CheckedValue& top, Frame& frame) {
  for (const NamedValue& entry : top["panels"].entries) {
    PanelEntry panel;
    panel.name = entry.name;
    panel.place = entry.place;
    if (entry.value.group != nullptr) {
      panel.corners = texts(entry.value["corners"]);
      panel.sheet = entry.value["sheet"].text;
    }
    frame.panels.push_back(std::move(panel));
  }
}

}  // namespace tubewright
