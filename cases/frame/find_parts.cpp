#include "cases/frame/find_parts.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

namespace tubewright {

namespace {

template <class Part>
const Part& find(const std::vector<Part>& parts, const std::string& name) {
  const auto found =
      std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.name == name; });
  assert(found != parts.end());
  return *found;
}

}  // namespace

const SectionEntry& find_section(const Frame& frame, const std::string& name) {
  return find(frame.sections, name);
}

const Sheet& find_sheet(const Frame& frame, const std::string& name) {
  return find(frame.sheets, name);
}

const RideEntry& find_ride(const Frame& frame, const std::string& name) {
  return find(frame.rides, name);
}

std::unordered_map<std::string, int> numbers_of_nodes(const Frame& frame) {
  std::unordered_map<std::string, int> numbers;
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    numbers.emplace(frame.nodes[i].name, static_cast<int>(i));
  }
  return numbers;
}

bool is_size(const SectionEntry& s, const StockSize& size) {
  if (size.shape == Shape::properties) {
    constexpr double same_area = 1e-6;  // relative
    return s.shape == size.shape &&
           std::abs(size.given.A - s.given.A) <= same_area * std::abs(s.given.A);
  }
  constexpr double same = 1e-6;  // m
  return size.shape == s.shape && std::abs(size.height - s.height) < same &&
         std::abs(size.width - s.width) < same && std::abs(size.wall - s.wall) < same;
}

std::optional<double> bar_price(const Stock& stock, const SectionEntry& section) {
  for (const StockSize& size : stock.sizes) {
    if (is_size(section, size)) return size.price;
  }
  return std::nullopt;
}

bool has_springs(const Frame& frame) {
  return std::any_of(frame.members.begin(), frame.members.end(),
                     [](const Member& m) { return m.kind == MemberKind::spring; });
}

}  // namespace tubewright
