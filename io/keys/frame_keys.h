// The keys of the frame file: one table that the reader, the JSON Schema and the help text share.
//
// A key has a name, a kind of value, whether it is needed or what stands in for it, and a line of
// help. Kinds nest: a group of fixed keys, a map whose keys are the user's names, a list.
#pragma once

#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "io/yaml/quantity.h"

namespace tubewright {

struct ValueKind;
using SharedKind = std::shared_ptr<const ValueKind>;

enum class ValueForm {
  text,      ///< free text on one line
  name,      ///< a name of this file, or a word that refers to one
  flag,      ///< true or false
  choice,    ///< one of `words`
  quantity,  ///< a number or a quantity, or one of `words`
  vector,    ///< three quantities: x, y, z
  list,      ///< [element, ...]
  entries,   ///< {NAME: element, ...}
  group,     ///< the fixed keys of `groups[0]`
  variants,  ///< the fixed keys of one of `groups`, chosen by the key `chosen_by`
  by_form    ///< a scalar, a list or a map, each with a kind of its own
};

/// Bounds of a quantity, in the unit of its measure.
struct Bounds {
  double least = -std::numeric_limits<double>::infinity();
  double most = std::numeric_limits<double>::infinity();
  bool least_excluded = false;
  const char* in_words = "";
};

struct Key {
  std::string name;
  SharedKind kind;
  bool required = false;
  std::string otherwise;  ///< default as it would be written, "" = none
  std::string help;
};

struct KeyGroup {
  std::string noun;   ///< "section": messages say "section `rail` has no `wall`"
  std::string title;  ///< "a round bar": messages say "a round bar has the keys ..."
  std::vector<Key> keys;
  std::string word = {};       ///< of variants: the word that chooses this group
  std::string marked_by = {};  ///< of variants with the same word: the key whose presence decides
};

struct ValueKind {
  ValueForm form = ValueForm::text;
  const Measure* measure = nullptr;
  Bounds bounds = {};
  std::vector<std::string> words = {};
  SharedKind element = nullptr;
  std::size_t least = 0;  ///< entries of a list or map
  std::size_t most = std::numeric_limits<std::size_t>::max();
  bool repeats = true;  ///< a list may hold the same entry twice
  bool spaces_in_names = false;
  std::vector<KeyGroup> groups = {};
  std::string chosen_by = {};
  std::string chosen_otherwise = {};  ///< the word where `chosen_by` is absent, "" = it is required
  SharedKind scalar = nullptr;
  SharedKind list = nullptr;
  SharedKind map = nullptr;
  std::string expected = {};  ///< for messages: "a list of node names, [A, B]"
};

/// The keys at the top of a frame file; all others hang below them.
const KeyGroup& frame_keys();

/// The key of that name in the group, nullptr if there is none.
const Key* find_key(const KeyGroup& group, const std::string& name);

}  // namespace tubewright
