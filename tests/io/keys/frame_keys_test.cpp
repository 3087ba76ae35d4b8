// The table of keys held against itself: names, units in the help, defaults of their own kind.
#include "io/keys/frame_keys.h"

#include <algorithm>
#include <functional>
#include <regex>
#include <set>

#include "tests/catch.h"

namespace tubewright::frame_keys_test {

namespace {

void for_each_group(const ValueKind& kind, const std::function<void(const KeyGroup&)>& visit);

void for_each_group(const KeyGroup& group, const std::function<void(const KeyGroup&)>& visit) {
  visit(group);
  for (const Key& key : group.keys) for_each_group(*key.kind, visit);
}

void for_each_group(const ValueKind& kind, const std::function<void(const KeyGroup&)>& visit) {
  for (const KeyGroup& group : kind.groups) for_each_group(group, visit);
  for (const SharedKind& part : {kind.element, kind.scalar, kind.list, kind.map}) {
    if (part != nullptr) for_each_group(*part, visit);
  }
}

/// What the numbers under a key measure, nullptr where there are none or groups below it.
const Measure* measure_of(const ValueKind& kind) {
  return kind.element == nullptr ? kind.measure : measure_of(*kind.element);
}

/// The units that a line of help names, the longest first: "N m" is no "N".
std::set<std::string> units_in(std::string help) {
  std::set<std::string> found;
  for (const char* unit : {"N m/deg", "N s/mm", "kg/m3",   "kN/mm", "kg m2", "m/s2", "N/mm", "km/h",
                           "MPa",     "N m",    "degrees", "mm2",   "mm3",   "mm4",  "mm",   "m3",
                           "kg",      "Hz",     "N",       "g",     "s",     "%"}) {
    const std::regex word("(^|[ ,])" + std::string(unit) + "(?=$|[ ,;:])");
    if (!std::regex_search(help, word)) continue;
    found.insert(unit);
    help = std::regex_replace(help, word, " ");
  }
  return found;
}

bool accepts(const ValueKind& kind, const std::string& text) {
  const auto& words = kind.words;
  const bool a_word = std::find(words.begin(), words.end(), text) != words.end();
  switch (kind.form) {
    case ValueForm::choice:
      return a_word;
    case ValueForm::flag:
      return text == "true" || text == "false";
    case ValueForm::quantity: {
      const QuantityReading reading = read_number(text);
      const double* value = reading.get();
      return a_word ||
             (value != nullptr && *value >= kind.bounds.least && *value <= kind.bounds.most);
    }
    case ValueForm::by_form:
      return kind.scalar != nullptr && accepts(*kind.scalar, text);
    default:
      return false;
  }
}

}  // namespace

TEST_CASE("each key is found by its name in its group, and no other") {
  int groups = 0;
  for_each_group(frame_keys(), [&](const KeyGroup& group) {
    ++groups;
    INFO(group.title);
    for (const Key& key : group.keys) CHECK(find_key(group, key.name) == &key);
    CHECK(find_key(group, "") == nullptr);
    CHECK(find_key(group, group.keys.front().name + "x") == nullptr);
  });
  CHECK(groups > 30);
  CHECK(find_key(frame_keys(), "members")->required);
  CHECK(find_key(frame_keys(), "side") == nullptr);  // hangs below
}

TEST_CASE("names of keys are plain words, each once in its group") {
  for_each_group(frame_keys(), [&](const KeyGroup& group) {
    std::set<std::string> names;
    for (const Key& key : group.keys) {
      INFO(group.title << " " << key.name);
      CHECK(std::regex_match(key.name, std::regex("[A-Za-z][A-Za-z_]*")));
      CHECK(names.insert(key.name).second);
    }
  });
}

TEST_CASE("the help of a key names the unit that its bare numbers are in") {
  int with_unit = 0;
  for_each_group(frame_keys(), [&](const KeyGroup& group) {
    for (const Key& key : group.keys) {
      const Measure* measure = measure_of(*key.kind);
      if (measure == nullptr || measure->unit[0] == '\0') continue;
      INFO(group.title << " " << key.name << ": " << key.help);
      const std::string unit = measure->unit;
      CHECK(units_in(key.help).contains(unit == "deg" ? "degrees" : unit));
      ++with_unit;
    }
  });
  CHECK(with_unit > 60);
}

TEST_CASE("what stands in for an absent key is a value that could be written there") {
  int defaults = 0;
  for_each_group(frame_keys(), [&](const KeyGroup& group) {
    for (const Key& key : group.keys) {
      if (key.otherwise.empty()) continue;
      INFO(group.title << " " << key.name << ": " << key.otherwise);
      CHECK(accepts(*key.kind, key.otherwise));
      ++defaults;
    }
  });
  CHECK(defaults > 25);
}

TEST_CASE("of several kinds of a part each is chosen by a word or marked by a key that it has") {
  const std::function<void(const ValueKind&)> visit = [&](const ValueKind& kind) {
    if (kind.form == ValueForm::variants) {
      std::set<std::pair<std::string, std::string>> met;
      for (const KeyGroup& group : kind.groups) {
        INFO(group.title);
        CHECK(met.insert({group.word, group.marked_by}).second);
        const Key* chooser = find_key(group, kind.chosen_by);
        REQUIRE(chooser != nullptr);
        CHECK(chooser->kind->words == std::vector<std::string>{group.word});
        if (!group.marked_by.empty()) CHECK(find_key(group, group.marked_by) != nullptr);
        // Without a word that stands in, the word has to be written.
        if (kind.chosen_otherwise.empty()) CHECK(chooser->required);
      }
    }
    for (const KeyGroup& group : kind.groups) {
      for (const Key& key : group.keys) visit(*key.kind);
    }
    for (const SharedKind& part : {kind.element, kind.scalar, kind.list, kind.map}) {
      if (part != nullptr) visit(*part);
    }
  };
  for (const Key& key : frame_keys().keys) visit(*key.kind);
}

}  // namespace tubewright::frame_keys_test
