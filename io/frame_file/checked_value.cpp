#include "io/frame_file/checked_value.h"

#include <algorithm>
#include <cassert>
#include <unordered_set>

#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "io/frame_file/check_scalar.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

/// What messages call the value at hand.
struct Naming {
  std::string key;       ///< the key or name it stands under
  std::string owner;     ///< "section `rail`", for a group
  SourceLocation place;  ///< of the key
};

std::string found_form(const YamlNode& node) {
  switch (node.form) {
    case YamlForm::empty:
      return "empty";
    case YamlForm::list:
      return "a list";
    case YamlForm::map:
      return "a map";
    case YamlForm::scalar:
      break;
  }
  return node.in_quotes || !looks_like_number(node.text) ? "a text" : "a number";
}

std::vector<std::string> key_names(const KeyGroup& group) {
  std::vector<std::string> names;
  for (const Key& key : group.keys) names.push_back(key.name);
  return names;
}

const YamlEntry* find_entry(const YamlNode& map, const std::string& key) {
  for (const YamlEntry& e : map.entries) {
    if (e.key == key) return &e;
  }
  return nullptr;
}

/// Walks the tree and the table together.
class Checker {
 public:
  explicit Checker(Diagnostics& diagnostics) : problems_(diagnostics) {}

  CheckedValue value(const ValueKind& kind, const YamlNode& node, const Naming& naming) {
    const std::size_t before = faults();
    CheckedValue checked;
    checked.place = node.place;
    checked.given = true;
    if (node.form == YamlForm::empty) {
      report(naming.place, no_value(naming.key, kind.expected));
    } else {
      by_form(kind, node, naming, checked);
    }
    if (node.incomplete) ++incomplete_;
    checked.sound = faults() == before;
    return checked;
  }

  CheckedValue top(const YamlNode& node) {
    static const ValueKind kind{.form = ValueForm::group, .groups = {frame_keys()}};
    if (node.form != YamlForm::map) {
      report(node.place, not_a_map_of_keys(found_form(node)));
      return {};
    }
    return value(kind, node, {"frame", "the frame file", node.place});
  }

 private:
  /// Grows with every fault met, also with those that were reported before.
  std::size_t faults() const { return problems_.size() + incomplete_; }

  void report(const SourceLocation& place, Diagnostic diagnostic) {
    problems_.push_back(error_at(place, std::move(diagnostic)));
  }

  void by_form(const ValueKind& kind, const YamlNode& node, const Naming& naming,
               CheckedValue& out) {
    switch (kind.form) {
      case ValueForm::text:
      case ValueForm::name:
      case ValueForm::flag:
      case ValueForm::choice:
      case ValueForm::quantity:
        if (is(YamlForm::scalar, kind, node, naming))
          check_scalar(kind, node, naming.key, out, problems_);
        return;
      case ValueForm::vector:
        if (is(YamlForm::list, kind, node, naming)) vector(kind, node, naming, out);
        return;
      case ValueForm::list:
        if (is(YamlForm::list, kind, node, naming)) list(kind, node, naming, out);
        return;
      case ValueForm::entries:
        if (is(YamlForm::map, kind, node, naming)) entries(kind, node, naming, out);
        return;
      case ValueForm::group:
        if (is(YamlForm::map, kind, node, naming)) group(kind.groups[0], node, naming, out);
        return;
      case ValueForm::variants:
        if (is(YamlForm::map, kind, node, naming)) variants(kind, node, naming, out);
        return;
      case ValueForm::by_form:
        one_of_forms(kind, node, naming, out);
        return;
    }
  }

  bool is(YamlForm form, const ValueKind& kind, const YamlNode& node, const Naming& naming) {
    if (node.form == form) return true;
    report(node.place, wrong_form(naming.key, found_form(node), kind.expected));
    return false;
  }

  void one_of_forms(const ValueKind& kind, const YamlNode& node, const Naming& naming,
                    CheckedValue& out) {
    const SharedKind& chosen = node.form == YamlForm::scalar ? kind.scalar
                               : node.form == YamlForm::list ? kind.list
                                                             : kind.map;
    if (chosen == nullptr) {
      report(node.place, wrong_form(naming.key, found_form(node), kind.expected));
    } else {
      by_form(*chosen, node, naming, out);
    }
  }

  void vector(const ValueKind& kind, const YamlNode& node, const Naming& naming,
              CheckedValue& out) {
    if (node.items.size() != 3) {
      report(node.place, wrong_count(naming.key, node.items.size(), kind.expected));
      return;
    }
    for (std::size_t i = 0; i < 3; ++i) {
      const YamlNode& item = node.items[i];
      if (item.form != YamlForm::scalar) {
        report(item.place,
               wrong_form(naming.key, "a list that holds " + found_form(item), kind.expected));
        continue;
      }
      CheckedValue component;
      check_quantity(kind, item, naming.key, component, problems_);
      out.vector[i] = component.number;
    }
  }

  void list(const ValueKind& kind, const YamlNode& node, const Naming& naming, CheckedValue& out) {
    if (node.items.size() < kind.least || node.items.size() > kind.most) {
      report(node.place, wrong_count(naming.key, node.items.size(), kind.expected));
    }
    std::unordered_set<std::string> met;
    for (const YamlNode& item : node.items) {
      if (item.form == YamlForm::empty) {
        report(item.place, wrong_form(naming.key, "a list with an empty entry", kind.expected));
        continue;
      }
      if (!kind.repeats && item.form == YamlForm::scalar && !met.insert(item.text).second) {
        report(item.place, given_twice(item.text));
      }
      out.items.push_back(value(*kind.element, item, {naming.key, naming.owner, item.place}));
    }
  }

  void entries(const ValueKind& kind, const YamlNode& node, const Naming& naming,
               CheckedValue& out) {
    if (node.entries.size() < kind.least) {
      report(naming.place, wrong_count(naming.key, node.entries.size(), kind.expected));
    }
    out.entries.reserve(node.entries.size());
    const std::string noun = noun_of(*kind.element);
    for (const YamlEntry& e : node.entries) {
      // A word without a value is a missing colon rather than a bad name.
      if (e.value.form != YamlForm::empty && !valid_name(e.key, kind.spaces_in_names)) {
        report(e.place, bad_name(e.key, kind.spaces_in_names));
      }
      const std::string owner = noun.empty() ? naming.owner : noun + " " + quoted(e.key);
      out.entries.push_back(
          {e.key, e.place, value(*kind.element, e.value, {e.key, owner, e.place})});
    }
  }

  static std::string noun_of(const ValueKind& kind) {
    if (kind.element != nullptr) return noun_of(*kind.element);
    return kind.groups.empty() ? "" : kind.groups.front().noun;
  }

  void variants(const ValueKind& kind, const YamlNode& node, const Naming& naming,
                CheckedValue& out) {
    const YamlEntry* chooser = find_entry(node, kind.chosen_by);
    if (chooser == nullptr && kind.chosen_otherwise.empty()) {
      if (!node.incomplete) {
        report(naming.place,
               missing_key(naming.owner, kind.chosen_by, "which is " + either(words_of(kind))));
      }
      return;
    }
    const std::string word = chooser == nullptr ? kind.chosen_otherwise : chooser->value.text;
    const KeyGroup* chosen = nullptr;
    for (const KeyGroup& g : kind.groups) {
      if (g.word != word) continue;
      const bool marked = !g.marked_by.empty() && find_entry(node, g.marked_by) != nullptr;
      if (chosen == nullptr || marked) chosen = &g;
    }
    if (chosen != nullptr) {
      group(*chosen, node, naming, out, &kind);
    } else if (chooser->value.form == YamlForm::scalar) {
      report(chooser->value.place, not_a_choice(word, kind.chosen_by, words_of(kind)));
    } else {
      report(chooser->place, no_value(kind.chosen_by, either(words_of(kind))));
    }
  }

  static std::vector<std::string> words_of(const ValueKind& kind) {
    std::vector<std::string> words;
    for (const KeyGroup& g : kind.groups) {
      if (words.empty() || words.back() != g.word) words.push_back(g.word);
    }
    return words;
  }

  /// `siblings`: the variants that `keys` is one of.
  void group(const KeyGroup& keys, const YamlNode& node, const Naming& naming, CheckedValue& out,
             const ValueKind* siblings = nullptr) {
    out.group = &keys;
    out.place = naming.place;
    out.fields.resize(keys.keys.size());
    std::unordered_set<std::string> misspelt;
    for (const YamlEntry& e : node.entries) {
      const Key* key = find_key(keys, e.key);
      if (key == nullptr) {
        misspelt.insert(unknown(keys, e, siblings));
        continue;
      }
      const auto index = static_cast<std::size_t>(key - keys.keys.data());
      const std::string owner = key->kind->groups.empty() ? naming.owner : quoted(key->name);
      out.fields[index] = value(*key->kind, e.value, {key->name, owner, e.place});
    }
    for (std::size_t i = 0; i < keys.keys.size(); ++i) {
      const Key& key = keys.keys[i];
      if (out.fields[i].given) continue;
      // A key that was only misspelt is not reported a second time as missing.
      if (key.required && !node.incomplete && !misspelt.contains(key.name)) {
        report(naming.place, missing_key(naming.owner, key.name, key.help));
      }
      if (!key.otherwise.empty()) out.fields[i] = default_of(key);
    }
  }

  /// Reports a key the group does not have; returns the key that was probably meant, or "".
  std::string unknown(const KeyGroup& keys, const YamlEntry& e, const ValueKind* siblings) {
    const std::vector<std::string> known = key_names(keys);
    const bool elsewhere =
        siblings != nullptr &&
        std::any_of(siblings->groups.begin(), siblings->groups.end(),
                    [&](const KeyGroup& g) { return find_key(g, e.key) != nullptr; });
    if (elsewhere) {
      report(e.place, key_of_another_kind(e.key, keys.title, known));
      return "";
    }
    if (e.value.form == YamlForm::empty && looks_like_number(e.key)) {
      report(e.place, stray_number(e.key));
      return "";
    }
    if (e.value.form == YamlForm::empty && e.key.find(' ') != std::string::npos) {
      report(e.place, no_value(e.key, ""));
      return e.key.substr(0, e.key.find(' '));
    }
    // Looking for near names takes its time; nobody reads that many.
    constexpr std::size_t enough = 1000;
    if (problems_.size() > enough) {
      report(e.place, unknown_key(e.key, keys.title, {}));
      return "";
    }
    report(e.place, unknown_key(e.key, keys.title, known));
    return nearest_name(e.key, known);
  }

  CheckedValue default_of(const Key& key) {
    CheckedValue value;
    value.sound = true;
    YamlNode written;
    written.form = YamlForm::scalar;
    written.text = key.otherwise;
    check_scalar(*key.kind, written, key.name, value, problems_);
    return value;
  }

  Diagnostics& problems_;
  std::size_t incomplete_ = 0;  ///< maps whose keys were left out by the parser
};

}  // namespace

const CheckedValue& CheckedValue::operator[](const char* key) const {
  assert(group != nullptr);
  std::size_t i = 0;
  while (group->keys[i].name != key) ++i;
  return fields[i];
}

CheckedValue check_frame_keys(const YamlNode& node, Diagnostics& diagnostics) {
  return Checker(diagnostics).top(node);
}

}  // namespace tubewright
