#include "io/frame_file/check_scalar.h"

#include <algorithm>
#include <cmath>

#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

bool name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-' || c == '.';
}

bool contains(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

void check_choice(const ValueKind& kind, const YamlNode& node, const std::string& key,
                  CheckedValue& out, Diagnostics& diagnostics) {
  const auto found = std::find(kind.words.begin(), kind.words.end(), node.text);
  if (found == kind.words.end()) {
    diagnostics.push_back(error_at(node.place, not_a_choice(node.text, key, kind.words)));
  } else {
    out.index = static_cast<int>(found - kind.words.begin());
  }
}

void check_flag(const YamlNode& node, CheckedValue& out, Diagnostics& diagnostics) {
  out.index = node.text == "true" ? 1 : 0;
  if (node.in_quotes || (node.text != "true" && node.text != "false")) {
    diagnostics.push_back(error_at(node.place, not_a_switch(node.text)));
  }
}

/// `value` in the unit of the bounds. A bound survives the way through SI only up to rounding.
bool within(double value, const Bounds& bounds) {
  const double slack = 1e-12;
  if (bounds.least_excluded ? value <= bounds.least
                            : value < bounds.least - slack * std::abs(bounds.least)) {
    return false;
  }
  return value <= bounds.most + slack * std::abs(bounds.most);
}

}  // namespace

bool valid_name(const std::string& name, bool spaces_allowed) {
  if (name.empty() || name.front() == ' ' || name.back() == ' ') return false;
  return std::all_of(name.begin(), name.end(),
                     [&](char c) { return name_character(c) || (c == ' ' && spaces_allowed); });
}

void check_quantity(const ValueKind& kind, const YamlNode& node, const std::string& key,
                    CheckedValue& out, Diagnostics& diagnostics) {
  if (contains(kind.words, node.text)) return;
  out.text.clear();
  const QuantityReading reading = read_quantity(node.text, node.in_quotes, *kind.measure);
  if (const auto* diagnostic = reading.error()) {
    diagnostics.push_back(error_at(node.place, *diagnostic));
    return;
  }
  out.number = *reading;
  if (!within(out.number / kind.measure->to_si, kind.bounds)) {
    diagnostics.push_back(error_at(node.place, out_of_range(node.text, key, kind.bounds.in_words)));
  }
}

void check_scalar(const ValueKind& kind, const YamlNode& node, const std::string& key,
                  CheckedValue& out, Diagnostics& diagnostics) {
  out.text = node.text;
  if (kind.form == ValueForm::quantity) {
    check_quantity(kind, node, key, out, diagnostics);
  } else if (kind.form == ValueForm::choice) {
    check_choice(kind, node, key, out, diagnostics);
  } else if (kind.form == ValueForm::flag) {
    check_flag(node, out, diagnostics);
  } else if (kind.form == ValueForm::name) {
    if (!valid_name(node.text, kind.spaces_in_names)) {
      diagnostics.push_back(error_at(node.place, bad_name(node.text, kind.spaces_in_names)));
    }
  } else if (node.text.find_first_not_of(" \n") == std::string::npos) {
    diagnostics.push_back(error_at(node.place, no_value(key, kind.expected)));
  }
}

}  // namespace tubewright
