#include "io/variants/yaml_path.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>
#include <utility>

#include "io/variants/set_errors.h"
#include "io/yaml/quantity.h"

namespace tubewright {

namespace {

bool is_coordinates(const YamlNode& node) {
  constexpr std::size_t axes = 3;
  return node.items.size() == axes &&
         std::all_of(node.items.begin(), node.items.end(), [](const YamlNode& item) {
           return item.form == YamlForm::scalar && looks_like_number(item.text);
         });
}

std::optional<std::size_t> place_in_list(const YamlNode& list, std::string_view word) {
  constexpr std::string_view axes = "xyz";
  if (word.size() == 1 && axes.find(word) != std::string_view::npos && is_coordinates(list)) {
    return axes.find(word);
  }
  std::size_t place = 0;
  const auto read = std::from_chars(word.data(), word.data() + word.size(), place);
  if (read.ec != std::errc() || read.ptr != word.data() + word.size()) return std::nullopt;
  return place < list.items.size() ? std::optional(place) : std::nullopt;
}

std::vector<std::string> keys_of(const YamlNode& map) {
  std::vector<std::string> keys;
  for (const YamlEntry& entry : map.entries) keys.push_back(entry.key);
  return keys;
}

/// Goes down the tree along a path, and remembers how far it came at best.
class Walker {
 public:
  explicit Walker(std::string_view path) : path_(path) {}

  /// From `node`, which the path's first `done` characters and the dot behind them lead to.
  bool walk(const YamlNode& node, std::size_t done) {
    note(node, done);
    const std::string_view rest = path_.substr(done);
    if (node.form == YamlForm::list) {
      const std::size_t length = std::min(rest.find('.'), rest.size());
      const auto place = place_in_list(node, rest.substr(0, length));
      return place && step(*place, node.items[*place], done + length);
    }
    if (node.form != YamlForm::map) return false;
    std::vector<std::size_t> fitting;
    for (std::size_t i = 0; i < node.entries.size(); ++i) {
      const std::string& key = node.entries[i].key;
      const bool whole =
          rest.size() == key.size() || (rest.size() > key.size() && rest[key.size()] == '.');
      if (whole && rest.starts_with(key)) fitting.push_back(i);
    }
    std::stable_sort(fitting.begin(), fitting.end(), [&](std::size_t a, std::size_t b) {
      return node.entries[a].key.size() > node.entries[b].key.size();
    });
    return std::any_of(fitting.begin(), fitting.end(), [&](std::size_t i) {
      return step(i, node.entries[i].value, done + node.entries[i].key.size());
    });
  }

  std::vector<std::size_t> steps;

  /// Of the node that the greatest part of the path leads to.
  const YamlNode* farthest = nullptr;
  std::vector<std::size_t> farthest_steps;
  std::size_t farthest_done = 0;

 private:
  bool step(std::size_t place, const YamlNode& below, std::size_t done) {
    steps.push_back(place);
    if (done == path_.size() || walk(below, done + 1)) return true;
    steps.pop_back();
    return false;
  }

  void note(const YamlNode& node, std::size_t done) {
    if (farthest != nullptr && done <= farthest_done) return;
    farthest = &node;
    farthest_steps = steps;
    farthest_done = done;
  }

  std::string_view path_;
};

YamlNode& node_at(YamlNode& root, const YamlTarget& target) {
  YamlNode* node = &root;
  for (const std::size_t step : target.steps) {
    node = node->form == YamlForm::list ? &node->items[step] : &node->entries[step].value;
  }
  return *node;
}

}  // namespace

Result<YamlTarget> find_target(const YamlNode& root, const std::string& path) {
  Walker walker(path);
  if (walker.walk(root, 0)) return YamlTarget{std::move(walker.steps), ""};
  const YamlNode& last = *walker.farthest;
  const std::string rest = path.substr(walker.farthest_done);
  const std::string within =
      path.substr(0, walker.farthest_done - (walker.farthest_done > 0 ? 1 : 0));
  const std::string word = rest.substr(0, rest.find('.'));
  if (last.form == YamlForm::list) {
    return Diagnostics{no_such_entry(path, word, within, last.items.size(), is_coordinates(last))};
  }
  if (last.form != YamlForm::map) return Diagnostics{nothing_below(path, within)};
  if (word != rest || word.empty()) {
    return Diagnostics{no_such_part(path, word, within, keys_of(last))};
  }
  return YamlTarget{std::move(walker.farthest_steps), rest};
}

bool overlap(const YamlTarget& a, const YamlTarget& b) {
  const auto holds = [](const YamlTarget& outer, const YamlTarget& inner) {
    return outer.new_key.empty() && outer.steps.size() <= inner.steps.size() &&
           std::equal(outer.steps.begin(), outer.steps.end(), inner.steps.begin());
  };
  return a == b || holds(a, b) || holds(b, a);
}

std::vector<std::string> names_beside(const YamlNode& root, const YamlTarget& target) {
  if (target.new_key.empty()) return {};
  YamlNode copy = root;
  return keys_of(node_at(copy, target));
}

void put(YamlNode& root, const YamlTarget& target, const SetValue& value) {
  YamlNode& node = node_at(root, target);
  YamlNode scalar;
  scalar.form = YamlForm::scalar;
  scalar.in_quotes = value.in_quotes;
  scalar.place = node.place;
  scalar.text = value.text;
  if (target.new_key.empty()) {
    node = std::move(scalar);
  } else {
    const SourceLocation place = node.place;
    node.entries.push_back({target.new_key, place, std::move(scalar)});
  }
}

std::string example_path(const YamlNode& root) {
  for (const YamlEntry& part : root.entries) {
    if (part.key != "sections") continue;
    for (const YamlEntry& section : part.value.entries) {
      for (const YamlEntry& size : section.value.entries) {
        if (size.key == "wall") return "sections." + section.key + ".wall";
      }
    }
  }
  return {};
}

}  // namespace tubewright
