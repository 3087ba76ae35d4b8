#include "cases/pieces/shown_cuts.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

namespace tubewright {

namespace {

Slope slope_of(const CutPlane& p) { return {p.at, {p.mitre, p.bevel}}; }

bool is_part(const ConvexPolygon& p) { return breadth_of(p) > hair; }

/// Where a plane is less than each of some others, itself excepted, by `by` or more.
ConvexPolygon where_least(ConvexPolygon part, const CutPlane& plane,
                          const std::vector<CutPlane>& others, double by) {
  for (const CutPlane& o : others) {
    if (&o != &plane) part = part_above(part, slope_of(o) - slope_of(plane), by);
  }
  return part;
}

/// A part of the section on which one plane of each cut is the least: the end begins at the
/// greatest of these.
struct EndPart {
  ConvexPolygon polygon;
  std::vector<Slope> begins;  ///< by cut
};

std::vector<EndPart> parts_of(const EndSection& section, const TubeEnd& end) {
  std::vector<EndPart> parts = {{section_polygon(section.half), {}}};
  for (const EndCut& cut : end.cuts) {
    std::vector<EndPart> finer;
    for (const EndPart& part : parts) {
      for (const CutPlane& p : cut.planes) {
        EndPart smaller = {where_least(part.polygon, p, cut.planes, 0), part.begins};
        if (!is_part(smaller.polygon)) continue;
        smaller.begins.push_back(slope_of(p));
        finer.push_back(std::move(smaller));
      }
    }
    parts = std::move(finer);
  }
  return parts;
}

/// Where cut `i` is greater than each of some others, itself excepted, by `by` or more.
ConvexPolygon where_greatest(const EndPart& part, size_t i, const std::vector<size_t>& others,
                             double by) {
  ConvexPolygon left = part.polygon;
  for (const size_t k : others) {
    if (k != i) left = part_above(left, part.begins[i] - part.begins[k], by);
  }
  return left;
}

std::vector<size_t> all_cuts(const TubeEnd& end) {
  std::vector<size_t> indices(end.cuts.size());
  std::iota(indices.begin(), indices.end(), size_t{0});
  return indices;
}

/// True if a plane makes a cut other than `others` do: somewhere it is in front of them by more
/// than shows, on a strip that is not narrower than that, or without it there would be nothing of
/// the tube.
bool shows_before(const EndSection& section, const CutPlane& plane,
                  const std::vector<CutPlane>& others, double inset) {
  const ConvexPolygon whole = section_polygon(section.half);
  const bool in_front =
      is_part(where_least(section_polygon(section.half, inset), plane, others, shows));
  if (in_front && breadth_of(where_least(whole, plane, others, 0)) > shows) return true;
  ConvexPolygon part = part_above(whole, Slope{} - slope_of(plane), -section.length);
  for (const CutPlane& o : others) part = part_above(part, slope_of(o), section.length);
  return is_part(part);
}

/// The areas on which each cut makes the end, alone or with others.
std::vector<double> shares_of(const EndSection& section, const TubeEnd& end) {
  constexpr double same = 1e-9;  // m
  const std::vector<size_t> all = all_cuts(end);
  std::vector<double> areas(end.cuts.size());
  for (const EndPart& part : parts_of(section, end)) {
    for (const size_t i : all) areas[i] += area_of(where_greatest(part, i, all, -same));
  }
  return areas;
}

/// Drops cuts that others have made already, but for what a grinder takes.
void drop_hidden_cuts(const EndSection& section, TubeEnd& e) {
  const std::vector<EndPart> parts = parts_of(section, e);
  std::vector<size_t> kept = all_cuts(e), dropped;
  for (size_t i = e.cuts.size(); i-- > 0 && kept.size() > 1;) {
    std::vector<size_t> others = kept, without = dropped;
    std::erase(others, i);
    without.push_back(i);
    const bool needed = std::any_of(parts.begin(), parts.end(), [&](const EndPart& part) {
      return std::any_of(without.begin(), without.end(),
                         [&](size_t k) { return is_part(where_greatest(part, k, others, shows)); });
    });
    if (needed) continue;
    kept = std::move(others);
    dropped = std::move(without);
  }
  for (size_t i = e.cuts.size(); i-- > 0;) {
    if (std::find(kept.begin(), kept.end(), i) == kept.end()) {
      e.cuts.erase(e.cuts.begin() + static_cast<std::ptrdiff_t>(i));
    }
  }
}

}  // namespace

EndSection end_section(const UncutTubes& all, const TubeArm& arm) {
  return {all.half_of(arm.tube), all.tube(arm.tube).length};
}

bool misses(const EndSection& section, const EndCut& cut) {
  ConvexPolygon met = section_polygon(section.half, shows);
  for (const CutPlane& p : cut.planes) met = part_above(met, slope_of(p), -section.length);
  return !is_part(met);
}

void drop_hidden_planes(const EndSection& section, EndCut& cut) {
  std::stable_sort(cut.planes.begin(), cut.planes.end(),
                   [](const CutPlane& a, const CutPlane& b) { return a.at < b.at; });
  std::vector<CutPlane> dropped;
  for (size_t i = cut.planes.size(); i-- > 0 && cut.planes.size() > 1;) {
    std::vector<CutPlane> others = cut.planes, without = dropped;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    without.push_back(cut.planes[i]);
    // What runs along the tube has to leave a strip, lest flush faces hang on a hair's breadth.
    const double inset = only_divides(cut.planes[i]) ? shows : 0;
    const bool needed = std::any_of(without.begin(), without.end(), [&](const CutPlane& p) {
      return shows_before(section, p, others, inset);
    });
    if (needed) continue;
    cut.planes = std::move(others);
    dropped = std::move(without);
  }
}

bool open_somewhere(const EndSection& section, const TubeEnd& end) {
  if (end.cuts.empty()) return true;
  const std::vector<EndPart> parts = parts_of(section, end);
  return std::any_of(parts.begin(), parts.end(), [&](const EndPart& part) {
    ConvexPolygon open = part.polygon;
    for (const Slope& s : part.begins) open = part_above(open, Slope{} - s, section.length);
    return is_part(open);
  });
}

void keep_what_shows(const EndSection& section, TubeEnd& e) {
  drop_hidden_cuts(section, e);
  const std::vector<double> areas = shares_of(section, e);
  constexpr double as_much = 1 - 1e-6;  // of equal shares the first
  const double greatest = *std::max_element(areas.begin(), areas.end());
  const auto most = std::find_if(areas.begin(), areas.end(),
                                 [&](double area) { return area >= as_much * greatest; }) -
                    areas.begin();
  std::rotate(e.cuts.begin(), e.cuts.begin() + most, e.cuts.begin() + most + 1);
  const bool coped = std::any_of(e.cuts.begin(), e.cuts.end(),
                                 [](const EndCut& c) { return c.kind == EndKind::cope; });
  e.kind = coped ? EndKind::cope : e.cuts.front().kind;
}

void close_slivers(const EndSection& section, TubeEnd& e) {
  const bool closed = std::any_of(e.cuts.begin(), e.cuts.end(), [](const EndCut& c) {
    return std::none_of(c.planes.begin(), c.planes.end(), only_divides);
  });
  if (closed) return;
  double least = std::numeric_limits<double>::infinity();
  const std::vector<size_t> all = all_cuts(e);
  for (const EndPart& part : parts_of(section, e)) {
    for (const size_t i : all) {
      const ConvexPolygon here = where_greatest(part, i, all, 0);
      if (is_part(here)) least = std::min(least, least_in(here, part.begins[i]));
    }
  }
  e.cuts.push_back({{CutPlane{least, 0, 0}}, -1, EndKind::square});
}

}  // namespace tubewright
