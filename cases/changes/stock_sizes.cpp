#include "cases/changes/stock_sizes.h"

#include <array>
#include <cmath>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"

namespace tubewright {

namespace {

constexpr double mm = 1e-3;

struct ListedSize {
  Shape shape;
  double height, width, wall;  // mm
};

/// Common practice, no source: what dealers in cold-formed precision tube keep.
constexpr std::array common_sizes = {ListedSize{Shape::square_tube, 15, 15, 1.5},
                                     ListedSize{Shape::square_tube, 20, 20, 1.5},
                                     ListedSize{Shape::square_tube, 20, 20, 2},
                                     ListedSize{Shape::square_tube, 25, 25, 1.5},
                                     ListedSize{Shape::square_tube, 25, 25, 2},
                                     ListedSize{Shape::square_tube, 25, 25, 2.5},
                                     ListedSize{Shape::square_tube, 30, 30, 1.5},
                                     ListedSize{Shape::square_tube, 30, 30, 2},
                                     ListedSize{Shape::square_tube, 30, 30, 2.5},
                                     ListedSize{Shape::square_tube, 30, 30, 3},
                                     ListedSize{Shape::square_tube, 35, 35, 1.5},
                                     ListedSize{Shape::square_tube, 35, 35, 2},
                                     ListedSize{Shape::square_tube, 40, 40, 1.5},
                                     ListedSize{Shape::square_tube, 40, 40, 2},
                                     ListedSize{Shape::square_tube, 40, 40, 3},
                                     ListedSize{Shape::square_tube, 50, 50, 2},
                                     ListedSize{Shape::square_tube, 50, 50, 3},
                                     ListedSize{Shape::square_tube, 60, 60, 3},
                                     ListedSize{Shape::rectangular_tube, 30, 15, 1.5},
                                     ListedSize{Shape::rectangular_tube, 30, 20, 1.5},
                                     ListedSize{Shape::rectangular_tube, 30, 20, 2},
                                     ListedSize{Shape::rectangular_tube, 40, 20, 1.5},
                                     ListedSize{Shape::rectangular_tube, 40, 20, 2},
                                     ListedSize{Shape::rectangular_tube, 40, 30, 2},
                                     ListedSize{Shape::rectangular_tube, 50, 25, 2},
                                     ListedSize{Shape::rectangular_tube, 50, 30, 2},
                                     ListedSize{Shape::rectangular_tube, 50, 30, 3},
                                     ListedSize{Shape::rectangular_tube, 60, 30, 2},
                                     ListedSize{Shape::rectangular_tube, 60, 40, 2},
                                     ListedSize{Shape::rectangular_tube, 60, 40, 3},
                                     ListedSize{Shape::round_tube, 16, 16, 1.5},
                                     ListedSize{Shape::round_tube, 20, 20, 1.5},
                                     ListedSize{Shape::round_tube, 20, 20, 2},
                                     ListedSize{Shape::round_tube, 22, 22, 1.5},
                                     ListedSize{Shape::round_tube, 25, 25, 1.5},
                                     ListedSize{Shape::round_tube, 25, 25, 2},
                                     ListedSize{Shape::round_tube, 28, 28, 1.5},
                                     ListedSize{Shape::round_tube, 30, 30, 1.5},
                                     ListedSize{Shape::round_tube, 30, 30, 2},
                                     ListedSize{Shape::round_tube, 35, 35, 1.5},
                                     ListedSize{Shape::round_tube, 35, 35, 2},
                                     ListedSize{Shape::round_tube, 40, 40, 2},
                                     ListedSize{Shape::round_tube, 42.4, 42.4, 2.6},
                                     ListedSize{Shape::round_tube, 48.3, 48.3, 2.6},
                                     ListedSize{Shape::round_bar, 6, 6, 0},
                                     ListedSize{Shape::round_bar, 8, 8, 0},
                                     ListedSize{Shape::round_bar, 10, 10, 0},
                                     ListedSize{Shape::round_bar, 12, 12, 0},
                                     ListedSize{Shape::round_bar, 14, 14, 0},
                                     ListedSize{Shape::round_bar, 16, 16, 0},
                                     ListedSize{Shape::round_bar, 20, 20, 0},
                                     ListedSize{Shape::flat_bar, 20, 3, 0},
                                     ListedSize{Shape::flat_bar, 20, 4, 0},
                                     ListedSize{Shape::flat_bar, 25, 3, 0},
                                     ListedSize{Shape::flat_bar, 25, 5, 0},
                                     ListedSize{Shape::flat_bar, 30, 5, 0},
                                     ListedSize{Shape::flat_bar, 40, 5, 0}};

double area_of(const Frame& frame, const SectionEntry& section) {
  return section_of(section, find_material(frame, section.material)->properties).A;
}

}  // namespace

std::vector<StockSize> stock_sizes(const Frame& frame) {
  if (frame.stock && !frame.stock->sizes.empty()) return frame.stock->sizes;
  std::vector<StockSize> sizes;
  for (const ListedSize& s : common_sizes) {
    sizes.push_back({s.shape, s.height * mm, s.width * mm, s.wall * mm, std::nullopt});
  }
  return sizes;
}

SectionEntry in_size(const SectionEntry& section, const StockSize& size) {
  SectionEntry other = section;
  if (size.shape == Shape::properties) {
    for (double Section::*property :
         {&Section::A, &Section::Iy, &Section::Iz, &Section::It, &Section::Wy, &Section::Wz,
          &Section::Wt, &Section::Wply, &Section::Wplz, &Section::Ay, &Section::Az}) {
      const double given = size.given.*property;
      if (given > 0 && std::isfinite(given)) other.given.*property = given;
    }
    return other;
  }
  other.height = size.height;
  other.width = size.width;
  other.wall = size.wall;
  return other;
}

NextSizes next_sizes(const Frame& frame, const SectionEntry& section) {
  NextSizes next;
  if (section.shape == Shape::properties) return next;
  constexpr double rounding = 1e-9;  // of the area
  const double own = area_of(frame, section);
  double up = INFINITY, down = 0;
  for (const StockSize& size : stock_sizes(frame)) {
    if (size.shape != section.shape || is_size(section, size)) continue;
    const double area = area_of(frame, in_size(section, size));
    if (area > own * (1 + rounding) && area < up * (1 - rounding)) {
      up = area;
      next.up = size;
    }
    if (area < own * (1 - rounding) && area > down * (1 + rounding)) {
      down = area;
      next.down = size;
    }
  }
  return next;
}

std::optional<double> price_per_metre(const Frame& frame, const SectionEntry& section) {
  if (!frame.stock) return std::nullopt;
  const std::optional<double> price = bar_price(*frame.stock, section);
  if (!price) return std::nullopt;
  return *price / frame.stock->length;
}

}  // namespace tubewright
