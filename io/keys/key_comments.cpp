#include "io/keys/key_comments.h"

#include <algorithm>
#include <cassert>
#include <set>
#include <sstream>
#include <vector>

#include "io/keys/frame_keys.h"

namespace tubewright {

namespace {

constexpr std::size_t comment_column = 36;
constexpr std::size_t last_column = 98;  // two less than 100, for the "# " of a commented example

using Groups = std::vector<const KeyGroup*>;

/// What may stand at one depth of indentation: the keys of one of `groups`, or the user's names, or
/// the entries of a list.
struct Level {
  std::size_t indent = 0;
  Groups groups = {};
  std::string chosen_by = {};
  const ValueKind* element = nullptr;  ///< what each name or entry holds; nullptr: keys
};

Level level_of(const ValueKind& kind, std::size_t indent) {
  Level level{indent};
  if (kind.form == ValueForm::by_form) return level_of(*kind.map, indent);
  if (kind.form == ValueForm::entries || kind.form == ValueForm::list) {
    level.element = kind.element.get();
    return level;
  }
  for (const KeyGroup& group : kind.groups) level.groups.push_back(&group);
  level.chosen_by = kind.chosen_by;
  return level;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// "beam, link, cable, spring", or nothing where there is no choice or the help tells of each.
std::string choice_of(const std::vector<std::string>& words, const std::string& help) {
  const bool all_told = std::all_of(words.begin(), words.end(),
                                    [&](const std::string& word) { return contains(help, word); });
  if (words.size() < 2 || all_told) return "";
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
  return list;
}

/// The words that choose among the groups, each once.
std::vector<std::string> words_of(const Groups& groups) {
  std::vector<std::string> words;
  for (const KeyGroup* group : groups) {
    if (std::find(words.begin(), words.end(), group->word) == words.end()) {
      words.push_back(group->word);
    }
  }
  return words;
}

/// A line and its comment, which goes on in further lines where it is long.
std::string commented(const std::string& line, const std::string& comment) {
  if (comment.empty()) return line + "\n";
  const std::size_t column = std::max(comment_column, line.size() + 2);
  std::string text, current = line;
  std::istringstream words(comment);
  const auto begin_comment = [&] {
    current.resize(column, ' ');
    current += "#";
  };
  begin_comment();
  for (std::string word; words >> word;) {
    if (current.size() + 1 + word.size() > last_column) {
      text += current + "\n";
      current.clear();
      begin_comment();
    }
    current += " " + word;
  }
  return text + current + "\n";
}

class Commenter {
 public:
  Commenter() { levels_.push_back({0, {&frame_keys()}}); }

  std::string line(const std::string& text) {
    std::size_t indent = text.find_first_not_of(' ');
    if (indent == std::string::npos) return "\n";
    while (levels_.back().indent > indent) levels_.pop_back();
    if (text.compare(indent, 2, "- ") == 0) {
      indent += 2;
      levels_.push_back(level_of(*levels_.back().element, indent));
    }
    assert(levels_.back().indent == indent);
    const std::size_t colon = text.find(':', indent);
    assert(colon != std::string::npos);
    const std::string name = text.substr(indent, colon - indent);
    const std::size_t start = text.find_first_not_of(' ', colon + 1);
    const std::string value = start == std::string::npos ? "" : text.substr(start);
    std::string comment;
    const ValueKind* kind = held_by(name, value, comment);
    if (value.empty()) levels_.push_back(level_of(*kind, indent + 2));
    return commented(text, told_.insert(comment).second ? comment : "");
  }

 private:
  /// What the key or name holds; `comment`: what there is to say of it.
  const ValueKind* held_by(const std::string& name, const std::string& value,
                           std::string& comment) {
    Level& level = levels_.back();
    if (level.element != nullptr) {
      if (level.element->form == ValueForm::by_form) comment = level.element->expected;
      return level.element;
    }
    std::vector<std::string> words;
    if (name == level.chosen_by) {
      words = words_of(level.groups);
      std::erase_if(level.groups, [&](const KeyGroup* group) { return group->word != value; });
    }
    const Key* key = nullptr;
    for (const KeyGroup* group : level.groups) {
      if (key == nullptr) key = find_key(*group, name);
    }
    assert(key != nullptr);
    if (words.empty()) words = key->kind->words;
    comment = key->help;
    const std::string choice = choice_of(words, key->help);
    if (told_.insert(choice).second) comment += " (" + choice + ")";
    if (!key->otherwise.empty() && !contains(key->help, "absent")) {
      comment += "; absent: " + key->otherwise;
    }
    return key->kind.get();
  }

  std::vector<Level> levels_;
  std::set<std::string> told_ = {""};
};

}  // namespace

std::string with_key_comments(const std::string& example) {
  Commenter commenter;
  std::string text;
  std::istringstream lines(example);
  for (std::string line; std::getline(lines, line);) text += commenter.line(line);
  return text;
}

}  // namespace tubewright
