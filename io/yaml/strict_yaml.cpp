#include "io/yaml/strict_yaml.h"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>
#include <string_view>
#include <unordered_map>

#include "io/text/utf8.h"
#include "io/yaml/text_check.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

/// Ends the parsing; the reason has been reported.
struct GivenUp {};

/// Turns the parser's byte positions into lines and characters. Positions come in rising order, so
/// a line is counted once however many values stand on it.
class PlaceFinder {
 public:
  explicit PlaceFinder(std::string_view text) : text_(text) {}

  SourceLocation at(const YAML::Mark& mark) {
    if (mark.pos < 0) return {1, 1};
    const std::size_t position = std::min(static_cast<std::size_t>(mark.pos), text_.size());
    if (position < position_) {
      position_ = 0;
      place_ = {1, 1};
    }
    for (; position_ < position; ++position_) {
      if (text_[position_] == '\n') {
        place_ = {place_.line + 1, 1};
      } else if (!is_continuation(text_[position_])) {
        ++place_.column;
      }
    }
    return place_;
  }

 private:
  std::string_view text_;
  std::size_t position_ = 0;
  SourceLocation place_{1, 1};
};

/// True unless the scalar written at the start of `source` opens a quotation mark that nothing
/// closes: the parser takes such a text to the end of the file without a word.
bool closes_its_quote(std::string_view source) {
  while (source.starts_with('&')) {
    const std::size_t name_end = std::min(source.find_first_of(" \n\r"), source.size());
    source.remove_prefix(std::min(source.find_first_not_of(" \n\r", name_end), source.size()));
  }
  if (source.empty() || (source[0] != '"' && source[0] != '\'')) return true;
  const char quote = source[0];
  for (std::size_t i = 1; i < source.size(); ++i) {
    if (quote == '"' && source[i] == '\\') {
      ++i;
    } else if (source[i] == quote) {
      if (quote == '"' || i + 1 == source.size() || source[i + 1] != quote) return true;
      ++i;
    }
  }
  return false;
}

/// Builds the tree from the parser's events.
class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(std::string_view text, Diagnostics& diagnostics)
      : text_(text), places_(text), problems_(diagnostics) {}

  std::optional<YamlNode> take_root() { return std::move(root_); }
  /// Where the parser gave up; of a bracket that nothing closes, the bracket.
  SourceLocation place_of(const YAML::Exception& e) {
    const bool unclosed = e.msg.find("flow not found") != std::string::npos;
    return unclosed && !open_.empty() ? open_.back().node.place : places_.at(e.mark);
  }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ > 0) give_up(mark, second_document());
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    add_leaf({YamlForm::empty, false, places_.at(mark), {}, {}, false, {}}, anchor);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    const SourceLocation place = places_.at(mark);
    check_tag(place, tag);
    if (tag == "!" && !closes_its_quote(text_.substr(static_cast<std::size_t>(mark.pos)))) {
      give_up(mark, unclosed_quote());
    }
    add_leaf({YamlForm::scalar, tag == "!", place, value, {}, false, {}}, anchor);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const auto anchored = anchored_.find(anchor);
    if (anchored == anchored_.end()) give_up(mark, alias_of_itself());
    const Anchored& target = anchored->second;
    count(target.nodes, places_.at(mark));
    if (static_cast<int>(open_.size()) + target.depth > deepest_nesting) {
      give_up(mark, too_deep(deepest_nesting));
    }
    deepen(target.depth);
    place_node(YamlNode(target.node), places_.at(mark));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, YamlForm::list);
  }
  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, YamlForm::map);
  }
  void OnMapEnd() override { close(); }

 private:
  /// A list or map whose end has not been met.
  struct Open {
    YamlNode node;
    YAML::anchor_t anchor = 0;
    std::size_t first_count = 0;  ///< values counted before it
    int depth = 1;                ///< levels within it, itself included
    bool key_is_next = true;
    bool keep_entry = true;                                ///< false after a key that was reported
    YamlEntry entry;                                       ///< the key waiting for its value
    std::unordered_map<std::string, SourceLocation> keys;  ///< empty while there are few
  };

  struct Anchored {
    YamlNode node;
    std::size_t nodes = 1;
    int depth = 0;
  };

  [[noreturn]] void give_up(const YAML::Mark& mark, Diagnostic diagnostic) {
    give_up(places_.at(mark), std::move(diagnostic));
  }
  [[noreturn]] void give_up(const SourceLocation& place, Diagnostic diagnostic) {
    problems_.push_back(error_at(place, std::move(diagnostic)));
    throw GivenUp{};
  }

  void check_tag(const SourceLocation& place, const std::string& tag) {
    const bool none = tag.empty() || tag == "?" || tag == "!";
    if (!none) problems_.push_back(error_at(place, tag_used()));
  }

  void count(std::size_t nodes, const SourceLocation& place) {
    count_ += nodes;
    if (count_ > most_nodes) give_up(place, too_many_values());
  }

  void deepen(int depth_below) {
    for (std::size_t i = 0; i < open_.size(); ++i) {
      const int depth = static_cast<int>(open_.size() - i) + depth_below;
      open_[i].depth = std::max(open_[i].depth, depth);
    }
  }

  void add_leaf(YamlNode&& node, YAML::anchor_t anchor) {
    count(1, node.place);
    if (anchor != 0) anchored_[anchor] = {node, 1, 0};
    const SourceLocation place = node.place;
    place_node(std::move(node), place);
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, YamlForm form) {
    const SourceLocation place = places_.at(mark);
    check_tag(place, tag);
    const std::size_t before = count_;
    count(1, place);
    if (open_.size() >= deepest_nesting) give_up(place, too_deep(deepest_nesting));
    open_.push_back(
        {{form, false, place, {}, {}, false, {}}, anchor, before, 1, true, true, {}, {}});
    deepen(0);
  }

  void close() {
    Open done = std::move(open_.back());
    open_.pop_back();
    if (done.anchor != 0) {
      const std::size_t nodes = count_ - done.first_count;
      count(nodes, done.node.place);  // the copy kept for aliases
      anchored_[done.anchor] = {done.node, nodes, done.depth};
    }
    const SourceLocation place = done.node.place;
    place_node(std::move(done.node), place);
  }

  /// Hands a finished node to the list or map it stands in. `here`: where it stands, which for an
  /// alias is not where it was written.
  void place_node(YamlNode&& node, const SourceLocation& here) {
    if (open_.empty()) {
      root_ = std::move(node);
    } else if (open_.back().node.form == YamlForm::list) {
      open_.back().node.items.push_back(std::move(node));
    } else if (open_.back().key_is_next) {
      take_key(open_.back(), node, here);
    } else {
      take_value(open_.back(), std::move(node));
    }
  }

  void take_key(Open& map, YamlNode& key, const SourceLocation& here) {
    map.key_is_next = false;
    map.keep_entry = false;
    if (key.form != YamlForm::scalar || key.text.find('\n') != std::string::npos) {
      problems_.push_back(error_at(here, odd_key()));
      map.node.incomplete = true;
    } else if (key.text == "<<") {
      problems_.push_back(error_at(here, merge_key()));
      map.node.incomplete = true;
    } else if (const std::optional<SourceLocation> first = place_of_key(map, key.text)) {
      problems_.push_back(error_at(here, duplicate_key(key.text, *first)));
    } else {
      map.entry = {std::move(key.text), here, {}};
      map.keep_entry = true;
    }
  }

  static std::optional<SourceLocation> place_of_key(Open& map, const std::string& key) {
    constexpr std::size_t few = 16;
    const std::vector<YamlEntry>& entries = map.node.entries;
    if (entries.size() < few) {
      const auto found = std::find_if(entries.begin(), entries.end(),
                                      [&](const YamlEntry& e) { return e.key == key; });
      return found == entries.end() ? std::nullopt : std::optional(found->place);
    }
    if (map.keys.empty()) {
      for (const YamlEntry& e : entries) map.keys.emplace(e.key, e.place);
    }
    const auto found = map.keys.find(key);
    return found == map.keys.end() ? std::nullopt : std::optional(found->second);
  }

  static void take_value(Open& map, YamlNode&& value) {
    map.key_is_next = true;
    if (!map.keep_entry) return;
    map.entry.value = std::move(value);
    if (!map.keys.empty()) map.keys.emplace(map.entry.key, map.entry.place);
    map.node.entries.push_back(std::move(map.entry));
  }

  std::string_view text_;
  PlaceFinder places_;
  Diagnostics& problems_;
  std::vector<Open> open_;
  std::unordered_map<YAML::anchor_t, Anchored> anchored_;
  std::optional<YamlNode> root_;
  std::size_t count_ = 0;
  int documents_ = 0;
};

}  // namespace

std::optional<YamlNode> parse_strict_yaml(const std::string& text, Diagnostics& diagnostics) {
  const std::string plain(without_byte_order_mark(text));
  if (plain.size() > most_bytes) {
    diagnostics.push_back(error_at({1, 1}, too_large(most_bytes >> 20U)));
    return {};
  }
  const Diagnostics text_faults = check_text(plain);
  diagnostics.insert(diagnostics.end(), text_faults.begin(), text_faults.end());
  if (!text_faults.empty()) return {};

  TreeBuilder builder(plain, diagnostics);
  try {
    std::istringstream stream(plain);
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const GivenUp&) {
    return {};
  } catch (const YAML::Exception& e) {
    diagnostics.push_back(error_at(builder.place_of(e), not_yaml(e.msg)));
    return {};
  }
  std::optional<YamlNode> root = builder.take_root();
  if (!root || root->form == YamlForm::empty) {
    diagnostics.push_back(error_at({1, 1}, empty_file()));
    return {};
  }
  return root;
}

}  // namespace tubewright
