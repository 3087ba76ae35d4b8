// The names that one part of a frame may use to refer to another.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/frame/wording.h"

namespace tubewright {

/// Names of one kind and where they stand in their list.
class NameIndex {
 public:
  /// `kind` as in "node", `key` the key of the file that defines them.
  NameIndex(std::string kind, std::string key) : kind_(std::move(kind)), key_(std::move(key)) {}

  /// False if the name is there already; the first stays.
  bool add(const std::string& name, int index);

  /// -1 if there is none of that name.
  int find(const std::string& name) const;

  /// As find(), and reports a missing one: "`subject` names node `X`, which does not exist".
  int find(const std::string& name, const std::string& subject, const SourceLocation& place,
           Diagnostics& diagnostics) const;

  const std::string& kind() const { return kind_; }

 private:
  std::string advice_for(const std::string& name) const;

  std::string kind_;
  std::string key_;
  std::vector<std::string> names_;
  std::unordered_map<std::string, int> index_;
  mutable int suggestions_left_ = 100;  // each looks at every name
};

struct FrameNames {
  NameIndex nodes{"node", "nodes"};
  NameIndex sections{"section", "sections"};
  NameIndex materials{"material", "materials"};  ///< the file's, then the built-in ones
  NameIndex members{"member", "members"};
  NameIndex loadable{"member", "members"};  ///< members and whole tubes -> first member
  NameIndex sheets{"sheet", "sheets"};
  NameIndex panels{"panel", "panels"};
  NameIndex wheels{"wheel", "vehicle.wheels"};
  NameIndex cases{"case", "cases"};
  NameIndex rides{"ride", "rides"};
  std::vector<bool> joined;  ///< one a node: a member ends there, or an upright so held holds it
};

/// Reports names that are given twice.
FrameNames names_of(const Frame& frame, Diagnostics& diagnostics);

/// Index of a node that at least one member joins, else -1 and a report.
int joined_node(const FrameNames& names, const std::string& node, const std::string& subject,
                const SourceLocation& place, Diagnostics& diagnostics);

}  // namespace tubewright
