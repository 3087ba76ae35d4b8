// Tipping over sideways against the closed forms of the textbook, all from memory: Timoshenko &
// Gere, Theory of Elastic Stability (1961), chapter 6, narrow rectangles.
#include "cases/checks/lateral_torsional.h"

#include <cmath>
#include <functional>
#include <numbers>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::lateral_torsional_test {

namespace {

constexpr Source gere =
    from_memory("Timoshenko & Gere, Theory of Elastic Stability (1961), ch. 6, narrow rectangles");
constexpr Source curve_d = from_memory("EN 1993-1-1 6.3.2.2, curve d, written out");

constexpr double mm = 1e-3;
const Material steel{210e9, 81e9, 7850, 235e6, 360e6};

std::vector<double> diagram(const std::function<double(double)>& M) {
  std::vector<double> moments;
  for (int i = 0; i <= 64; ++i) moments.push_back(M(i / 64.0));
  return moments;
}

/// The greatest moment where it tips over, in sqrt(E I_weak G I_t)/L.
double in_textbook_units(const Section& s, std::array<bool, 2> held,
                         const std::function<double(double)>& M) {
  const double L = 0.8;
  const double factor = tipping_factor(s, steel, L, held, diagram(M));
  double greatest = 0;
  for (const double m : diagram(M)) greatest = std::max(greatest, std::abs(m));
  return factor * greatest * L / std::sqrt(steel.E * std::min(s.Iy, s.Iz) * steel.G * s.It);
}

}  // namespace

TEST_CASE("a narrow bar tips over at the moments of the textbook", "[truth]") {
  struct Row {
    std::array<bool, 2> held;
    std::function<double(double)> M;
    double value;
    const char* load;
  };
  const double pi = std::numbers::pi;
  const Row rows[] = {
      {{true, false}, [](double s) { return 40 * (1 - s); }, 4.013, "load at the tip"},
      {{true, false},
       [](double s) { return 40 * (1 - s) * (1 - s); },
       12.85 / 2,
       "even load on a cantilever"},
      {{true, false}, [](double) { return -40.0; }, pi / 2, "moment at the tip"},
      {{true, true}, [](double) { return 40.0; }, pi, "equal end moments"},
      {{true, true},
       [](double s) { return 40 * std::min(s, 1 - s); },
       16.94 / 4,
       "load in the middle"},
      {{true, true},
       [](double s) { return 40 * s * (1 - s); },
       28.3 / 8,
       "even load between supports"},
  };
  for (const Row& row : rows) {
    INFO(row.value);
    for (const Section& s : {flat_bar(60 * mm, 3 * mm, 0.3), flat_bar(5 * mm, 80 * mm, 0.3)}) {
      truth(named("narrow bar ", s.profile.height / mm, " x ", s.profile.width / mm, ", ", row.load,
                  ": M_cr L/sqrt(E I G I_t)"),
            gere, in_textbook_units(s, row.held, row.M), within_rel(row.value, 2e-3));
      CHECK_THAT(
          in_textbook_units(s, {row.held[1], row.held[0]}, [&](double x) { return row.M(1 - x); }),
          WithinRel(row.value, 2e-3));
    }
  }
}

TEST_CASE("a bar that nothing holds stands under no moment, one without moments under any") {
  const Section s = flat_bar(60 * mm, 3 * mm, 0.3);
  CHECK(tipping_factor(s, steel, 1, {false, false}, diagram([](double) { return 1.0; })) == 0);
  CHECK(std::isinf(tipping_factor(s, steel, 1, {true, true}, diagram([](double) { return 0.0; }))));
}

// EN 1993-1-1 6.3.2.2 with curve d, alpha_LT = 0.76, written out (MEMORY).
TEST_CASE("chi_LT is that of curve d", "[truth]") {
  const double lambda = std::sqrt(634.5 / 139.07);
  const double Phi = 0.5 * (1 + 0.76 * (lambda - 0.2) + lambda * lambda);
  const double chi = 1 / (Phi + std::sqrt(Phi * Phi - lambda * lambda));
  CHECK_THAT(chi, WithinRel(0.1586, 1e-3));
  truth("chi_LT at slenderness 2.14", curve_d, lateral_torsional_factor(634.5, 139.07),
        within_rel(chi, 1e-9));
  CHECK(lateral_torsional_factor(1, 25.1) == 1);  // lambda_LT below 0.2
  CHECK(lateral_torsional_factor(1, 0) == 0);
}

TEST_CASE("square and round sections do not tip, tall tubes only where they are long") {
  const auto tube = [](double h, double b) {
    return hollow_rectangle(h * mm, b * mm, 2 * mm, cold_formed_corners(2 * mm), 0.3);
  };
  CHECK(may_tip_over(flat_bar(60 * mm, 3 * mm, 0.3), 235e6, 210e9, 0.1));
  CHECK_FALSE(may_tip_over(flat_bar(20 * mm, 20 * mm, 0.3), 235e6, 210e9, 10));
  CHECK_FALSE(may_tip_over(tube(40, 40), 235e6, 210e9, 10));
  CHECK_FALSE(may_tip_over(round_tube(40 * mm, 2 * mm, 0.3), 235e6, 210e9, 10));
  // 10/lambda_z at h/b = 4: lambda_z = 2.5, L = 2.5 * 93.9 i_z.
  const Section tall = tube(80, 20);
  const double limit = 2.5 * 93.91 * std::sqrt(tall.Iz / tall.A);
  CHECK_FALSE(may_tip_over(tall, 235e6, 210e9, 0.99 * limit));
  CHECK(may_tip_over(tall, 235e6, 210e9, 1.01 * limit));
  CHECK(may_tip_over(tube(20, 80), 235e6, 210e9, 1.01 * limit));
}

}  // namespace tubewright::lateral_torsional_test
