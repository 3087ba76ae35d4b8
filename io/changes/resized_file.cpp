#include "io/changes/resized_file.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>
#include <unordered_map>
#include <vector>

#include "cases/frame/find_parts.h"
#include "cases/frame/mirror.h"
#include "io/changes/resized_errors.h"
#include "io/frame_file/read_frame.h"
#include "io/text/utf8.h"
#include "io/yaml/quantity.h"
#include "io/yaml/source_text.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

namespace {

bool same_number(double a, double b) {
  constexpr double rounding = 1e-9;
  if (!std::isfinite(a) || !std::isfinite(b)) return a == b;
  return a == b || std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b));
}

/// A dimension of a section: its key, and its value in a section entry.
struct Dimensioned {
  const char* key;
  const Measure* measure;
  double value;
};

std::vector<Dimensioned> dimensions(const SectionEntry& s) {
  using namespace measure;
  switch (s.shape) {
    case Shape::square_tube:
      return {{"side", &length, s.height}, {"wall", &length, s.wall}};
    case Shape::rectangular_tube:
      return {
          {"height", &length, s.height}, {"width", &length, s.width}, {"wall", &length, s.wall}};
    case Shape::round_tube:
      return {{"diameter", &length, s.height}, {"wall", &length, s.wall}};
    case Shape::round_bar:
      return {{"diameter", &length, s.height}};
    case Shape::flat_bar:
      return {{"height", &length, s.height}, {"width", &length, s.width}};
    case Shape::properties:
      break;
  }
  const Section& g = s.given;
  return {{"A", &area, g.A},
          {"Iy", &second_moment, g.Iy},
          {"Iz", &second_moment, g.Iz},
          {"It", &second_moment, g.It},
          {"Wy", &section_modulus, g.Wy},
          {"Wz", &section_modulus, g.Wz},
          {"Wt", &section_modulus, g.Wt},
          {"Ay", &area, g.Ay},
          {"Az", &area, g.Az},
          {"Wply", &section_modulus, g.Wply},
          {"Wplz", &section_modulus, g.Wplz}};
}

bool same_size(const SectionEntry& a, const SectionEntry& b) {
  if (a.shape != b.shape || a.corners != b.corners || a.shear != b.shear ||
      a.material != b.material || a.weld_filler != b.weld_filler) {
    return false;
  }
  const std::vector<Dimensioned> of_a = dimensions(a), of_b = dimensions(b);
  return std::equal(
      of_a.begin(), of_a.end(), of_b.begin(),
      [](const Dimensioned& x, const Dimensioned& y) { return same_number(x.value, y.value); });
}

/// The fewest digits that read back as the number, to its rounding; no exponent where a person
/// would write none.
std::string shortest(double value) {
  constexpr double rounding = 1e-13, longest = 1e15;
  std::array<char, 64> text{};
  double rounded = value;
  for (int digits = 1; digits <= 17; ++digits) {
    std::snprintf(text.data(), text.size(), "%.*g", digits, value);
    rounded = std::strtod(text.data(), nullptr);
    if (std::abs(rounded - value) <= rounding * std::abs(value)) break;
  }
  if (std::abs(rounded) >= longest) return text.data();
  const auto end =
      std::to_chars(text.data(), text.data() + text.size(), rounded, std::chars_format::fixed);
  return end.ec == std::errc() ? std::string(text.data(), end.ptr) : std::string(text.data());
}

std::string in_own_unit(const Dimensioned& d) { return shortest(d.value / d.measure->to_si); }

/// "rail_30x30x2": section and size, of letters that a name may have.
std::string new_name(const std::string& section, const SectionEntry& size,
                     const std::set<std::string>& taken) {
  std::string text;
  for (const Dimensioned& d : dimensions(size)) {
    text += (text.empty() ? "_" : "x") + in_own_unit(d);
    if (size.shape == Shape::properties) break;  // the area tells them apart
  }
  std::erase(text, '+');
  std::string name = section + text;
  for (int next = 2; taken.contains(name); ++next)
    name = section + text + "_" + std::to_string(next);
  return name;
}

const YamlEntry* entry_of(const YamlNode& map, const std::string& key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const YamlEntry& e) { return e.key == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

/// A member as the file writes it, and the section that it is to have.
struct WrittenUse {
  const YamlEntry* member = nullptr;
  std::string section;
  SectionEntry wanted;
};

/// Those of one section that are to get one size.
struct SizeClass {
  SectionEntry wanted;
  std::vector<const YamlEntry*> members;
};

class FileResizer {
 public:
  FileResizer(std::string text, const YamlNode& root, const Frame& frame, const Frame& resized)
      : source_(std::move(text)), root_(root), frame_(frame), resized_(resized) {
    for (const SectionEntry& s : frame.sections) names_.insert(s.name);
  }

  Result<std::string> run() {
    std::vector<WrittenUse> uses;
    if (Diagnostics faults = find_uses(uses); !faults.empty()) return faults;
    for (const SectionEntry& section : frame_.sections) {
      std::vector<SizeClass> classes;
      for (const WrittenUse& use : uses) {
        if (use.section == section.name) add_to_class(classes, use);
      }
      resize(section, classes);
    }
    if (!diagnostics_.empty()) return diagnostics_;
    std::optional<std::string> edited = with_edits(source_.text(), std::move(edits_));
    if (!edited) return Diagnostics{one_text_for_two_sizes()};
    return std::move(*edited);
  }

 private:
  /// The entry under `members` that a member comes from: itself, its path, or what it is the image
  /// of.
  const YamlEntry* written_as(const YamlNode& members, const Member& m) const {
    const std::string& name = m.tube.empty() ? m.name : m.tube;
    const YamlEntry* entry = entry_of(members, name);
    if (entry == nullptr && frame_.mirror) {
      entry = entry_of(members, swap_ending(name, *frame_.mirror));
    }
    return entry;
  }

  Diagnostics find_uses(std::vector<WrittenUse>& uses) const {
    const YamlEntry* members = entry_of(root_, "members");
    std::unordered_map<const YamlEntry*, std::size_t> use_of;
    for (std::size_t i = 0; members != nullptr && i < frame_.members.size(); ++i) {
      const Member& m = frame_.members[i];
      if (m.section.empty()) continue;
      const YamlEntry* entry = written_as(members->value, m);
      if (entry == nullptr) return Diagnostics{size_not_writable(m.name)};
      const SectionEntry& wanted = find_section(resized_, resized_.members[i].section);
      const auto [found, is_new] = use_of.emplace(entry, uses.size());
      if (is_new) {
        uses.push_back({entry, m.section, wanted});
      } else if (!same_size(uses[found->second].wanted, wanted)) {
        return Diagnostics{error_at(entry->place, two_sizes_for_one_entry(entry->key))};
      }
    }
    return {};
  }

  static void add_to_class(std::vector<SizeClass>& classes, const WrittenUse& use) {
    const auto found = std::find_if(classes.begin(), classes.end(), [&](const SizeClass& c) {
      return same_size(c.wanted, use.wanted);
    });
    if (found != classes.end()) {
      found->members.push_back(use.member);
    } else {
      classes.push_back({use.wanted, {use.member}});
    }
  }

  /// The first size takes the section over unless some members keep it as it is.
  void resize(const SectionEntry& section, const std::vector<SizeClass>& classes) {
    const bool kept = std::any_of(classes.begin(), classes.end(),
                                  [&](const SizeClass& c) { return same_size(c.wanted, section); });
    bool in_place = !kept && !is_shared(section.name);
    for (const SizeClass& c : classes) {
      if (same_size(c.wanted, section)) continue;
      const bool done = in_place ? edit_section(section, c.wanted) : add_section(section, c);
      in_place = false;
      if (!done) {
        add_fault(*c.members.front());
      }
    }
  }

  void add_fault(const YamlEntry& member) {
    diagnostics_.push_back(error_at(member.place, size_not_writable(member.key)));
  }

  const YamlEntry* section_entry(const std::string& name) const {
    const YamlEntry* sections = entry_of(root_, "sections");
    return sections == nullptr ? nullptr : entry_of(sections->value, name);
  }

  /// Written as an alias of another, or repeated as one.
  bool is_shared(const std::string& name) const {
    const YamlEntry* entry = section_entry(name);
    const YamlEntry* sections = entry_of(root_, "sections");
    if (entry == nullptr) return false;
    const SourceLocation here = entry->value.place;
    return std::any_of(sections->value.entries.begin(), sections->value.entries.end(),
                       [&](const YamlEntry& other) {
                         return other.key != name && other.value.place.line == here.line &&
                                other.value.place.column == here.column;
                       });
  }

  /// A unit stays where it is the file's own, as in "25 mm"; another one goes.
  static std::string rewritten(const YamlNode& old, const Dimensioned& d) {
    std::string number = in_own_unit(d);
    const std::size_t unit = old.text.find_first_not_of("0123456789+-.eE ");
    if (unit == std::string::npos || old.text.substr(unit) != d.measure->unit) return number;
    const std::size_t last_digit = old.text.find_last_of("0123456789.", unit - 1);
    return number + old.text.substr(last_digit + 1);
  }

  bool edit_section(const SectionEntry& section, const SectionEntry& wanted) {
    const YamlEntry* entry = section_entry(section.name);
    if (entry == nullptr || section.shape != wanted.shape) return false;
    const std::optional<WrittenValue> map = source_.value_of(*entry);
    if (!map || (map->writing != Writing::flow && map->writing != Writing::block)) return false;
    const std::vector<Dimensioned> before = dimensions(section), after = dimensions(wanted);
    const YamlEntry* last = nullptr;
    for (std::size_t i = 0; i < after.size(); ++i) {
      const YamlEntry* dimension = entry_of(entry->value, after[i].key);
      if (dimension != nullptr) last = dimension;
      if (same_number(before[i].value, after[i].value)) continue;
      if (dimension != nullptr ? !edit_value(*dimension, after[i])
                               : !add_key(last, after[i], map->writing == Writing::block)) {
        return false;
      }
    }
    return true;
  }

  bool edit_value(const YamlEntry& dimension, const Dimensioned& d) {
    const std::optional<WrittenValue> value = source_.value_of(dimension);
    if (!value) return false;
    TextSpan span = value->span;
    std::string text = rewritten(dimension.value, d);
    if (value->writing == Writing::alias) {
      text = in_own_unit(d);
    } else if (value->writing == Writing::quoted && text.find(' ') == std::string::npos &&
               text == in_own_unit(d)) {
      span = {span.begin - 1, span.end + 1};  // a bare number in quotes is refused
    }
    edits_.push_back({span, text});
    return true;
  }

  /// A property that the section left open, behind the last that it gives.
  bool add_key(const YamlEntry* behind, const Dimensioned& d, bool block) {
    const std::optional<std::size_t> end =
        behind == nullptr ? std::nullopt : source_.end_of(*behind);
    if (!end) return false;
    const std::string key = std::string(d.key) + ": " + in_own_unit(d);
    if (block) {
      const std::size_t at = source_.line_end(*end);
      edits_.push_back(
          {{at, at}, source_.new_line() + source_.indent_at(source_.at(behind->place)) + key});
    } else {
      edits_.push_back({{*end, *end}, ", " + key});
    }
    return true;
  }

  /// A copy of the section in another size behind it, and the members' `section` changed to it.
  bool add_section(const SectionEntry& section, const SizeClass& c) {
    const YamlEntry* entry = section_entry(section.name);
    const YamlEntry* sections = entry_of(root_, "sections");
    if (entry == nullptr || section.shape != c.wanted.shape) return false;
    const std::string name = new_name(section.name, c.wanted, names_);
    names_.insert(name);
    const std::optional<WrittenValue> list = source_.value_of(*sections),
                                      value = source_.value_of(*entry);
    const std::optional<std::size_t> end = source_.end_of(*entry);
    if (!list || !value || !end) return false;
    if (list->writing == Writing::flow) {
      edits_.push_back({{*end, *end}, ", " + name + ": " + flow_copy(*entry, section, c.wanted)});
    } else {
      const std::string line = source_.new_line() + source_.indent_at(source_.at(entry->place));
      const std::string copy = value->writing == Writing::block
                                   ? block_copy(*entry, section, c.wanted)
                                   : " " + flow_copy(*entry, section, c.wanted);
      const std::size_t at = source_.line_end(*end);
      edits_.push_back({{at, at}, line + name + ":" + copy});
    }
    for (const YamlEntry* member : c.members) {
      const YamlEntry* reference = entry_of(member->value, "section");
      const std::optional<WrittenValue> written =
          reference == nullptr ? std::nullopt : source_.value_of(*reference);
      if (!written) {
        add_fault(*member);
        continue;
      }
      edits_.push_back({written->span, name});
    }
    return true;
  }

  /// The entry's keys and values with the dimensions of another size, what that adds at the end.
  static std::vector<std::string> copied_keys(const YamlEntry& entry, const SectionEntry& section,
                                              const SectionEntry& wanted) {
    const std::vector<Dimensioned> before = dimensions(section), after = dimensions(wanted);
    std::map<std::string, std::string> changed;
    for (std::size_t i = 0; i < after.size(); ++i) {
      if (!same_number(before[i].value, after[i].value))
        changed[after[i].key] = in_own_unit(after[i]);
    }
    std::vector<std::string> keys;
    for (const YamlEntry& key : entry.value.entries) {
      const auto size = changed.find(key.key);
      keys.push_back(key.key + ": " +
                     (size == changed.end() ? as_written(key.value) : size->second));
      if (size != changed.end()) changed.erase(size);
    }
    for (const auto& [key, value] : changed) keys.push_back(key + ": " + value);
    return keys;
  }

  /// A word of the section, in quotes where it stood in some: a material may be named `8.8: old`.
  static std::string as_written(const YamlNode& scalar) {
    if (!scalar.in_quotes) return scalar.text;
    std::string text = "\"";
    for (const char c : scalar.text)
      text += (c == '"' || c == '\\' ? "\\" : "") + std::string(1, c);
    return text + '"';
  }

  static std::string flow_copy(const YamlEntry& entry, const SectionEntry& section,
                               const SectionEntry& wanted) {
    std::string text;
    for (const std::string& key : copied_keys(entry, section, wanted))
      text += (text.empty() ? "" : ", ") + key;
    return "{" + text + "}";
  }

  std::string block_copy(const YamlEntry& entry, const SectionEntry& section,
                         const SectionEntry& wanted) const {
    const std::string line =
        source_.new_line() + source_.indent_at(source_.at(entry.value.entries.front().place));
    std::string text;
    for (const std::string& key : copied_keys(entry, section, wanted)) text += line + key;
    return text;
  }

  SourceText source_;
  const YamlNode& root_;
  const Frame& frame_;
  const Frame& resized_;
  std::set<std::string> names_;
  std::vector<TextEdit> edits_;
  Diagnostics diagnostics_;
};

/// The first member that does not have its section; nothing where all have.
std::optional<std::string> first_other(const Frame& read, const Frame& resized) {
  if (read.members.size() != resized.members.size()) return resized.members.front().name;
  for (std::size_t i = 0; i < read.members.size(); ++i) {
    const Member &a = read.members[i], &b = resized.members[i];
    const bool alike = a.name == b.name && a.section.empty() == b.section.empty() &&
                       (a.section.empty() ||
                        same_size(find_section(read, a.section), find_section(resized, b.section)));
    if (!alike) return b.name;
  }
  return std::nullopt;
}

}  // namespace

Result<std::string> resized_file(const FrameText& file, const Frame& frame, const Frame& resized) {
  const std::string plain(without_byte_order_mark(file.text));
  Diagnostics diagnostics;
  const std::optional<YamlNode> root = parse_strict_yaml(plain, diagnostics);
  if (!root) return diagnostics;
  Result<std::string> edited = FileResizer(plain, *root, frame, resized).run();
  if (!edited) return edited;
  FrameReading reading = read_frame(FrameText{file.name, *edited});
  if (!reading.sound()) return std::move(reading.diagnostics);
  if (const auto other = first_other(reading.frame, resized)) {
    return Diagnostics{read_back_otherwise(*other)};
  }
  return file.text.substr(0, file.text.size() - plain.size()) + *edited;
}

}  // namespace tubewright
