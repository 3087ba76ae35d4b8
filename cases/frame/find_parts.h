// Parts of a sound frame by their names.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>

#include "cases/frame/frame.h"

namespace tubewright {

/// The section entry, sheet or ride of that name. Requires (asserted): it exists.
const SectionEntry& find_section(const Frame& frame, const std::string& name);
const Sheet& find_sheet(const Frame& frame, const std::string& name);
const RideEntry& find_ride(const Frame& frame, const std::string& name);

/// Place in Frame::nodes, by name.
std::unordered_map<std::string, int> numbers_of_nodes(const Frame& frame);

/// Whether a section is one of the sizes that are kept; properties that are given go by the area.
bool is_size(const SectionEntry& section, const StockSize& size);

/// Price of a bar of that size; none where the stock has none.
std::optional<double> bar_price(const Stock& stock, const SectionEntry& section);

bool has_springs(const Frame& frame);

}  // namespace tubewright
