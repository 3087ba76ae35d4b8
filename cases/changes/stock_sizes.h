// The sizes that a tube can be bought in, and the next to one's own.
#pragma once

#include <optional>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// `stock.sizes` of the frame; where it names none, a built-in list of common tube (common
/// practice, no source).
std::vector<StockSize> stock_sizes(const Frame& frame);

/// The section made of another size: material, corners and filler stay, and of properties what the
/// size does not give. Requires: same shape.
SectionEntry in_size(const SectionEntry& section, const StockSize& size);

struct NextSizes {
  std::optional<StockSize> up, down;
};

/// The next heavier and the next lighter size of the same shape, by area; of equal ones the first
/// in the list. None for properties that are given.
NextSizes next_sizes(const Frame& frame, const SectionEntry& section);

/// Price a metre where the frame's stock has one for this size.
std::optional<double> price_per_metre(const Frame& frame, const SectionEntry& section);

}  // namespace tubewright
