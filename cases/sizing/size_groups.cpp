#include "cases/sizing/size_groups.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cases/changes/stock_sizes.h"
#include "cases/changes/tube_groups.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/mirror.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "cases/sizing/size_errors.h"

namespace tubewright {

namespace {

/// Which group each member is in, by its place; -1: in none.
constexpr int in_none = -1;

struct Grouping {
  std::vector<std::string> names;
  std::vector<SourceLocation> places;
  std::vector<int> group_of;  ///< a member
  std::vector<bool> kept;     ///< a member
};

const Member& member_at(const Frame& frame, int m) { return frame.members[static_cast<size_t>(m)]; }

/// As the file names it: a piece by its whole tube.
const std::string& written_name(const Member& member) {
  return member.tube.empty() ? member.name : member.tube;
}

/// The image that the mirror rule makes of a member, all pieces of a tube; empty: it makes none.
std::vector<int> made_by_mirror(const Frame& frame, const NumberedFrame& numbered,
                                const Member& member) {
  const std::string& name = written_name(member);
  if (!frame.mirror || !name.ends_with(frame.mirror->from)) return {};
  const auto image = numbered.members.find(swap_ending(name, *frame.mirror));
  return image == numbered.members.end() ? std::vector<int>{} : image->second;
}

Grouping grouping_of(const Frame& frame, const NumberedFrame& numbered) {
  Grouping grouping;
  grouping.group_of.assign(frame.members.size(), in_none);
  grouping.kept.assign(frame.members.size(), false);
  for (const SizeGroup& group : frame.groups) {
    const int number = static_cast<int>(grouping.names.size());
    grouping.names.push_back(group.name);
    grouping.places.push_back(group.place);
    for (const std::string& name : group.members) {
      for (const int m : numbered.members.at(name))
        grouping.group_of[static_cast<size_t>(m)] = number;
    }
  }
  for (const std::string& name : frame.keep.members) {
    for (const int m : numbered.members.at(name)) grouping.kept[static_cast<size_t>(m)] = true;
  }
  // Images that the mirror rule makes go with what they are images of.
  for (size_t m = 0; m < frame.members.size(); ++m) {
    for (const int i : made_by_mirror(frame, numbered, frame.members[m])) {
      const auto other = static_cast<size_t>(i);
      if (grouping.group_of[other] == in_none) grouping.group_of[other] = grouping.group_of[m];
      if (grouping.kept[m]) grouping.kept[other] = true;
    }
  }
  for (const TubeGroup& alike : tube_groups(frame)) {
    int number = in_none;
    for (const int m : alike.members) {
      const auto at = static_cast<size_t>(m);
      if (grouping.group_of[at] != in_none || grouping.kept[at]) continue;
      if (number == in_none) {
        number = static_cast<int>(grouping.names.size());
        grouping.names.push_back(member_at(frame, m).name);
        grouping.places.push_back(member_at(frame, m).place);
      }
      grouping.group_of[at] = number;
    }
  }
  return grouping;
}

/// Pieces of a tube in different groups, or some of them kept.
void check_whole_tubes(const Frame& frame, const Grouping& grouping, Diagnostics& errors) {
  const auto name_of = [&](size_t m) {
    const int group = grouping.group_of[m];
    return grouping.kept[m] || group == in_none ? std::string("keep")
                                                : grouping.names[static_cast<size_t>(group)];
  };
  std::map<std::string, size_t> first_piece;
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const Member& member = frame.members[m];
    if (member.tube.empty() || member.section.empty()) continue;
    const size_t first = first_piece.emplace(member.tube, m).first->second;
    if (name_of(first) == name_of(m)) continue;
    errors.push_back(
        error_at(member.place, tube_in_two_groups(member.tube, name_of(first), name_of(m))));
    return;
  }
}

void check_images(const Frame& frame, const NumberedFrame& numbered, const Grouping& grouping,
                  Diagnostics& errors) {
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const Member& member = frame.members[m];
    const std::vector<int> image = made_by_mirror(frame, numbered, member);
    if (image.empty()) continue;
    const auto other = static_cast<size_t>(image.front());
    if (grouping.group_of[other] == grouping.group_of[m] &&
        grouping.kept[other] == grouping.kept[m]) {
      continue;
    }
    errors.push_back(
        error_at(member.place,
                 images_in_two_groups(written_name(member), written_name(frame.members[other]))));
    return;
  }
}

bool bends(const StockSize& size) {
  const Section& s = size.given;
  return s.Iy > 0 && s.Iz > 0 && s.It > 0 && s.Wy > 0 && s.Wz > 0 && s.Wt > 0;
}

/// The listed sizes of the group's shape; where the file lists none also those it has now, which
/// can be had.
std::vector<StockSize> sizes_for(const Frame& frame, const SizedTubes& group) {
  std::vector<StockSize> sizes;
  for (const StockSize& size : stock_sizes(frame)) {
    if (size.shape == group.now.shape) sizes.push_back(size);
  }
  if (frame.stock && !frame.stock->sizes.empty()) return sizes;
  if (sizes.empty() || group.now.shape == Shape::properties) return sizes;
  for (const int m : group.members) {
    const SectionEntry& own = find_section(frame, member_at(frame, m).section);
    const bool listed = std::any_of(sizes.begin(), sizes.end(),
                                    [&](const StockSize& size) { return is_size(own, size); });
    if (!listed) sizes.push_back({own.shape, own.height, own.width, own.wall, std::nullopt, {}});
  }
  return sizes;
}

/// The members as a group of the sizes of their shape; errors where they do not go together.
void fill_group(const Frame& frame, const NumberedFrame& numbered, bool cheapest,
                const SourceLocation& place, SizedTubes& group, Diagnostics& errors) {
  const SectionEntry& first = find_section(frame, member_at(frame, group.members.front()).section);
  group.now = first;
  for (const int m : group.members) {
    const SectionEntry& own = find_section(frame, member_at(frame, m).section);
    if (own.shape == first.shape) continue;
    errors.push_back(error_at(place, group_of_two_shapes(group.name, first.shape, own.shape)));
    return;
  }
  const std::vector<StockSize> sizes = sizes_for(frame, group);
  struct Entry {
    StockSize size;
    double mass = 0, cost = 0;
    bool priced = true;
  };
  std::vector<Entry> entries;
  for (const StockSize& size : sizes) {
    Entry e;
    e.size = size;
    for (const int m : group.members) {
      const Member& member = member_at(frame, m);
      if (size.shape == Shape::properties && member.kind == MemberKind::beam && !bends(size)) {
        errors.push_back(error_at(place, size_without_bending(group.name, member.name)));
        return;
      }
      const SectionEntry section = in_size(find_section(frame, member.section), size);
      const double length = member_length(numbered, member);
      Frame one;
      one.materials = frame.materials;
      one.sections = {section};
      e.mass += mass_per_length(one, member) * length;
      if (size.price) e.cost += *size.price / frame.stock->length * length;
    }
    e.priced = size.price.has_value();
    if (cheapest && !e.priced) {
      errors.push_back(error_at(place, size_without_price(size.shape)));
      return;
    }
    entries.push_back(e);
  }
  std::stable_sort(entries.begin(), entries.end(), [&](const Entry& a, const Entry& b) {
    return cheapest ? a.cost < b.cost : a.mass < b.mass;
  });
  const bool all_priced =
      std::all_of(entries.begin(), entries.end(), [](const Entry& e) { return e.priced; });
  for (const Entry& e : entries) {
    group.stock.push_back(e.size);
    group.sizes.push_back(in_size(first, e.size));
    group.masses.push_back(e.mass);
    if (all_priced) group.costs.push_back(e.cost);
  }
}

}  // namespace

Result<SizeGroups> size_groups(const Frame& frame, bool cheapest) {
  const NumberedFrame numbered = build_model(frame);
  const Grouping grouping = grouping_of(frame, numbered);
  Diagnostics errors;
  check_whole_tubes(frame, grouping, errors);
  check_images(frame, numbered, grouping, errors);
  SizeGroups result;
  const size_t named = frame.groups.size();
  for (size_t g = 0; g < grouping.names.size(); ++g) {
    SizedTubes group;
    group.name = grouping.names[g];
    for (size_t m = 0; m < frame.members.size(); ++m) {
      if (grouping.group_of[m] == static_cast<int>(g) && !grouping.kept[m] &&
          !frame.members[m].section.empty()) {
        group.members.push_back(static_cast<int>(m));
      }
    }
    if (group.members.empty()) continue;
    const size_t before = errors.size();
    fill_group(frame, numbered, cheapest, grouping.places[g], group, errors);
    if (errors.size() > before) continue;
    if (!group.sizes.empty()) {
      result.groups.push_back(std::move(group));
    } else if (g < named) {
      errors.push_back(error_at(grouping.places[g], no_size_of_shape(group.name, group.now.shape)));
    } else {
      for (const int m : group.members) {
        result.without_size.push_back(member_at(frame, m).name);
      }
    }
  }
  if (errors.empty() && result.groups.empty()) errors.push_back(nothing_to_size());
  if (!errors.empty()) return errors;
  return result;
}

}  // namespace tubewright
