#include "cases/frame/frame_names.h"

#include "cases/frame/built_in_materials.h"
#include "cases/frame/frame_errors.h"
#include "cases/frame/nearest_name.h"

namespace tubewright {
namespace {

template <typename Entries>
void add_all(NameIndex& index, const Entries& entries, Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (index.add(entries[i].name, static_cast<int>(i))) continue;
    add_error(diagnostics, entries[i].place, name_given_twice(index.kind(), entries[i].name));
  }
}

void add_members(FrameNames& names, const Frame& frame, Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    const int index = static_cast<int>(i);
    if (!names.members.add(m.name, index)) {
      add_error(diagnostics, m.place, member_given_twice(m.name));
    }
    names.loadable.add(m.name, index);
  }
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (!m.tube.empty()) names.loadable.add(m.tube, static_cast<int>(i));
  }
}

}  // namespace

bool NameIndex::add(const std::string& name, int index) {
  if (!index_.emplace(name, index).second) return false;
  names_.push_back(name);
  return true;
}

int NameIndex::find(const std::string& name) const {
  const auto found = index_.find(name);
  return found == index_.end() ? -1 : found->second;
}

int NameIndex::find(const std::string& name, const std::string& subject,
                    const SourceLocation& place, Diagnostics& diagnostics) const {
  const int index = find(name);
  if (index < 0) {
    add_error(diagnostics, place, unknown_name(subject, kind_, name, advice_for(name)));
  }
  return index;
}

std::string NameIndex::advice_for(const std::string& name) const {
  if (suggestions_left_ > 0) {
    --suggestions_left_;
    std::string suggestion = did_you_mean(name, names_);
    if (!suggestion.empty()) return suggestion;
  }
  return what_to_name(kind_, key_, names_);
}

namespace {

/// A rigid upright joins its carriers, as long as some member holds it.
void join_uprights(const Frame& frame, FrameNames& names) {
  if (!frame.vehicle) return;
  for (const Wheel& w : frame.vehicle->wheels) {
    if (!has_rigid_upright(w)) continue;
    std::vector<int> carriers;
    bool held = false;
    for (const std::string& name : w.carrier) {
      const int node = names.nodes.find(name);
      if (node < 0) continue;
      carriers.push_back(node);
      held = held || names.joined[node];
    }
    for (const int node : carriers) names.joined[node] = names.joined[node] || held;
  }
}

}  // namespace

FrameNames names_of(const Frame& frame, Diagnostics& diagnostics) {
  FrameNames names;
  add_all(names.nodes, frame.nodes, diagnostics);
  add_all(names.sections, frame.sections, diagnostics);
  add_all(names.materials, frame.materials, diagnostics);
  int next = static_cast<int>(frame.materials.size());
  for (const MaterialEntry& m : built_in_materials()) names.materials.add(m.name, next++);
  add_members(names, frame, diagnostics);
  add_all(names.sheets, frame.sheets, diagnostics);
  add_all(names.panels, frame.panels, diagnostics);
  if (frame.vehicle) add_all(names.wheels, frame.vehicle->wheels, diagnostics);
  add_all(names.cases, frame.cases, diagnostics);
  add_all(names.rides, frame.rides, diagnostics);

  names.joined.assign(frame.nodes.size(), false);
  for (const Member& m : frame.members) {
    for (const std::string& end : {m.from, m.to}) {
      if (const int node = names.nodes.find(end); node >= 0) names.joined[node] = true;
    }
  }
  for (const Attachment& a : frame.attachments) {
    for (const std::string& end : {a.name, a.axis_node, a.face_node}) {
      if (const int node = names.nodes.find(end); node >= 0) names.joined[node] = true;
    }
  }
  join_uprights(frame, names);
  return names;
}

int joined_node(const FrameNames& names, const std::string& node, const std::string& subject,
                const SourceLocation& place, Diagnostics& diagnostics) {
  const int index = names.nodes.find(node, subject, place, diagnostics);
  if (index < 0) return -1;
  if (names.joined[index]) return index;
  add_error(diagnostics, place, node_without_members(subject, node));
  return -1;
}

}  // namespace tubewright
