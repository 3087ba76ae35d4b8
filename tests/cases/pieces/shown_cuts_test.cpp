// Which cuts show, against a dense sample of the section by points drawn at random.
#include "cases/pieces/shown_cuts.h"

#include <cmath>
#include <random>

#include "tests/catch.h"

namespace tubewright::shown_cuts_test {

namespace {

constexpr double mm = 1e-3;
const EndSection tube_of_20{{10 * mm, 10 * mm, false}, 0.4};

struct Drawn {
  std::mt19937 draw;
  double from_minus_one() { return draw() / 2147483647.5 - 1; }
  CutPlane plane() { return {20 * mm * from_minus_one(), from_minus_one(), from_minus_one()}; }
  /// One that runs along the tube, some way off its axis.
  CutPlane divider() {
    const double turn = 3.14159 * from_minus_one();
    return {5e3 * from_minus_one(), 1e6 * std::cos(turn), 1e6 * std::sin(turn)};
  }
  EndCut cut() {
    EndCut c{{}, 0, EndKind::face};
    for (unsigned k = 0, n = 1 + draw() % 3; k < n; ++k) c.planes.push_back(plane());
    for (unsigned k = 0, n = draw() % 2; k < n; ++k) c.planes.push_back(divider());
    return c;
  }
  TubeEnd end() {
    TubeEnd e;
    for (unsigned k = 0, n = 2 + draw() % 3; k < n; ++k) e.cuts.push_back(cut());
    for (EndCut& c : e.cuts) drop_hidden_planes(tube_of_20, c);
    e.cuts.push_back({{CutPlane{-30 * mm, 0, 0}}, -1, EndKind::square});  // so that it is closed
    return e;
  }
};

/// The share of the section where a claim about a place holds.
template <class Claim>
double share_where(Drawn& d, const Claim& claim) {
  constexpr int points = 4000;
  int holds = 0;
  for (int i = 0; i < points; ++i) {
    holds += claim(10 * mm * d.from_minus_one(), 10 * mm * d.from_minus_one());
  }
  return static_cast<double>(holds) / points;
}

// A strip one hair wide across 20 mm and back is 0.5 % of the section; some may be left out.
constexpr double hairs = 0.015;

}  // namespace

TEST_CASE("an end without the cuts that do not show is the same within 1 mm but for hairs") {
  Drawn d{std::mt19937(3)};
  int dropped = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const TubeEnd whole = d.end();
    TubeEnd kept = whole;
    keep_what_shows(tube_of_20, kept);
    dropped += static_cast<int>(whole.cuts.size() - kept.cuts.size());
    INFO(trial);
    CHECK(share_where(d, [&](double y, double z) {
            return whole.begin(y, z) > kept.begin(y, z) + 1.01 * shows;
          }) < hairs);
  }
  CHECK(dropped > 100);
}

TEST_CASE("every cut that is kept is missed somewhere without it") {
  Drawn d{std::mt19937(4)};
  int kept_ones = 0;
  for (int trial = 0; trial < 150; ++trial) {
    TubeEnd kept = d.end();
    const TubeEnd whole = kept;
    keep_what_shows(tube_of_20, kept);
    for (std::size_t i = 0; i < kept.cuts.size() && kept.cuts.size() > 1; ++i) {
      TubeEnd without = kept;
      without.cuts.erase(without.cuts.begin() + static_cast<std::ptrdiff_t>(i));
      double most = 0;
      for (int k = 0; k < 20000 && most < 0.9 * shows; ++k) {
        const double y = 10 * mm * d.from_minus_one(), z = 10 * mm * d.from_minus_one();
        most = std::max(most, whole.begin(y, z) - without.begin(y, z));
      }
      INFO(trial << ", cut " << i);
      CHECK(most > 0.9 * shows);  // at a sharp corner the points come near the tip only
      ++kept_ones;
    }
  }
  CHECK(kept_ones > 100);
}

TEST_CASE("a cut without the planes that do not show is the same within 1 mm but for hairs") {
  Drawn d{std::mt19937(5)};
  int dropped = 0;
  for (int trial = 0; trial < 300; ++trial) {
    EndCut whole{{}, 0, EndKind::face};
    for (int k = 0; k < 5; ++k) whole.planes.push_back(d.plane());
    EndCut kept = whole;
    drop_hidden_planes(tube_of_20, kept);
    dropped += static_cast<int>(whole.planes.size() - kept.planes.size());
    CHECK(share_where(d, [&](double y, double z) {
            return begin_at(whole, y, z) < begin_at(kept, y, z) - 1.01 * shows;
          }) < hairs);
  }
  CHECK(dropped > 300);
}

TEST_CASE("a corner between the points of any grid is not overlooked") {
  // A plane that is in front by 3 mm at one corner and by 1 mm at 0.8 mm from it.
  const CutPlane square{10 * mm, 0, 0};
  for (const double corner : {1.0, -1.0}) {
    const double slope = 2 / 0.8 * corner / 2;  // along both axes
    const CutPlane tip{10 * mm + 3 * mm - 2 * 10 * mm * std::abs(slope), slope, slope};
    TubeEnd e;
    e.cuts = {{{square}, 0, EndKind::face}, {{tip}, 1, EndKind::face}};
    keep_what_shows(tube_of_20, e);
    CHECK(e.cuts.size() == 2);
    e.cuts[1].planes[0].at -= 2.2 * mm;
    keep_what_shows(tube_of_20, e);
    CHECK(e.cuts.size() == 1);
  }
}

TEST_CASE("the cut that makes most of an end comes first, by area") {
  // A roof with its ridge 2 mm off the axis: 60 % of the section lies on one side.
  for (const double side : {1.0, -1.0}) {
    TubeEnd e;
    e.cuts = {{{CutPlane{-2 * mm * side, 1, 0}}, 0, EndKind::face},
              {{CutPlane{2 * mm * side, -1, 0}}, 1, EndKind::mitre}};
    keep_what_shows(tube_of_20, e);
    CHECK(e.cuts.front().against == (side > 0 ? 1 : 0));
    CHECK(e.kind == (side > 0 ? EndKind::mitre : EndKind::face));
  }
}

TEST_CASE("an end is open where its cuts are all past the tube, and only there") {
  const CutPlane half{1, 1e6, 0};  // far back where y < 0
  TubeEnd e;
  CHECK(open_somewhere(tube_of_20, e));
  e.cuts = {{{CutPlane{}, half}, 0, EndKind::face}};
  CHECK(open_somewhere(tube_of_20, e));
  e.cuts.push_back({{CutPlane{}, CutPlane{1, -1e6, 0}}, 1, EndKind::face});
  CHECK_FALSE(open_somewhere(tube_of_20, e));  // but for a hair along the axis
}

TEST_CASE("a hair between two cuts is closed as near as the nearest place beside it") {
  // A roof divided along its ridge, which runs 1 mm off the axis and rises along z.
  TubeEnd e;
  const double ridge = 1 * mm, scale = 1e6;
  e.cuts = {{{CutPlane{5 * mm, 0, 0.3}, CutPlane{1 - ridge * scale, scale, 0}}, 0, EndKind::face},
            {{CutPlane{5 * mm, 0, 0.3}, CutPlane{1 + ridge * scale, -scale, 0}}, 1, EndKind::face}};
  close_slivers(tube_of_20, e);
  REQUIRE(e.cuts.size() == 3);
  CHECK_THAT(e.cuts[2].planes[0].at, WithinRel(2 * mm, 1e-6));  // 5 - 0.3 x 10
}

TEST_CASE("a tube that is met by 1 mm of its edge only is missed") {
  const auto met_from = [](double y) {
    return EndCut{{CutPlane{}, CutPlane{1 - y * 1e6, 1e6, 0}}, 0, EndKind::face};
  };
  CHECK(misses(tube_of_20, met_from(9.5 * mm)));
  CHECK_FALSE(misses(tube_of_20, met_from(8.5 * mm)));
}

}  // namespace tubewright::shown_cuts_test
