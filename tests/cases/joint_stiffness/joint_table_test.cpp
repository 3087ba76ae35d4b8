// The generated table against the sweep it is made from.
#include "cases/joint_stiffness/joint_table.h"

#include <cmath>
#include <optional>

#include "tests/cases/joint_stiffness/stiffness_rows.h"
#include "tests/catch.h"

namespace tubewright::joint_table_test {

namespace {

using test::joint_of;
using test::StiffnessRow;

bool near(double a, double b) { return std::abs(a - b) < 2e-3 * std::abs(b); }

/// Local stiffness of a row: its flexibility and that of the stub together.
std::array<double, 3> local(const StiffnessRow& r) {
  const test::StubFlexibility stub = test::stub_of(joint_of(r));
  return {1 / std::max(5e-4, r.at("out_of_plane") + stub.out_of_plane),
          1 / std::max(5e-4, r.at("in_plane") + stub.in_plane),
          1 / std::max(0.05, r.at("axial") + stub.axial)};
}

template <std::size_t n>
std::optional<std::size_t> index_of(const std::array<double, n>& values, double value) {
  for (std::size_t i = 0; i < n; ++i) {
    if (near(values[i], value)) return i;
  }
  return std::nullopt;
}

double beta_of(const StiffnessRow& r) { return r.at("b1") / r.at("b0"); }

const Influence* influence_of(const StiffnessRow& r) {
  const JointTable& t = joint_table;
  if (r.use == "wall") return r.at("t1") < 1 ? &t.thin_brace : &t.thick_brace;
  if (r.use == "chord") return r.at("h0") < r.at("b0") ? &t.flat_chord : &t.deep_chord;
  if (r.use == "brace") return r.at("h1") < r.at("b1") ? &t.short_brace : &t.long_brace;
  if (r.use == "end") return r.end == "open" ? &t.open_end : &t.capped_end;
  if (r.use == "angle") return near(r.at("angle"), 60) ? &t.angle_60 : &t.angle_45;
  return nullptr;
}

constexpr double rounding = 1e-3;  // four digits are written

}  // namespace

TEST_CASE("The base of the joint table is that of the sweep") {
  const JointTable& t = joint_table;
  int compared = 0;
  for (const StiffnessRow& r : test::stiffness_rows()) {
    if (r.use != "base" || !near(r.at("t1"), 1)) continue;
    const auto m = index_of(table_slenderness, r.at("b0")), b = index_of(table_betas, beta_of(r));
    REQUIRE((m && b));
    INFO("b0/t0 " << r.at("b0") << ", beta " << beta_of(r));
    const auto k = local(r);
    CHECK_THAT(t.base_out_of_plane[*m][*b], WithinRel(k[0], rounding));
    CHECK_THAT(t.base_in_plane[*m][*b], WithinRel(k[1], rounding));
    CHECK_THAT(t.base_axial[*m][*b], WithinRel(k[2], rounding));
    ++compared;
  }
  // Without those whose brace had to have a thinner wall: 10 by 0.3, 0.4 and 13.3 by 0.3.
  CHECK(compared == 37);
}

TEST_CASE("What multiplies the base of the joint table is that of the sweep") {
  const JointTable& t = joint_table;
  int compared = 0;
  for (const StiffnessRow& r : test::stiffness_rows()) {
    const Influence* influence = influence_of(r);
    if (!influence) continue;
    const auto m = index_of(table_slenderness, r.at("b0")), b = index_of(table_betas, beta_of(r)),
               f = index_of(factor_betas, beta_of(r));
    REQUIRE((m && b && f));
    INFO(r.use << ", beta " << beta_of(r));
    const auto k = local(r);
    CHECK_THAT(influence->out_of_plane[*f] * t.base_out_of_plane[*m][*b],
               WithinRel(k[0], 2 * rounding));
    CHECK_THAT(influence->in_plane[*f] * t.base_in_plane[*m][*b], WithinRel(k[1], 2 * rounding));
    CHECK_THAT(influence->axial[*f] * t.base_axial[*m][*b], WithinRel(k[2], 2 * rounding));
    ++compared;
  }
  CHECK(compared >= 58);
}

TEST_CASE("Corners and pairs of the joint table are those of the sweep") {
  const JointTable& t = joint_table;
  int compared = 0;
  for (const StiffnessRow& r : test::stiffness_rows()) {
    if (r.use == "corner") {
      const auto m = index_of(table_slenderness, r.at("b0")),
                 a = index_of(corner_aspects, r.at("h0") / r.at("b0"));
      REQUIRE((m && a));
      const CornerTable& corner = r.kind == "mitre" ? t.mitred
                                  : r.end == "open" ? t.butted_open
                                                    : t.butted_capped;
      const auto k = [&](const char* spring) {
        return 1 / std::max(1 / rigid_corner, r.at(spring));
      };
      CHECK_THAT(corner.out_of_plane[*a][*m], WithinRel(k("out_of_plane"), rounding));
      CHECK_THAT(corner.in_plane[*a][*m], WithinRel(k("in_plane"), rounding));
      ++compared;
    }
    if (r.use == "pair") {
      const auto m = index_of(table_slenderness, r.at("b0")), b = index_of(table_betas, beta_of(r)),
                 f = index_of(factor_betas, beta_of(r));
      REQUIRE((m && b && f));
      const PairTable& pair = r.end == "open" ? t.pair_open : t.pair_through;
      const double own = r.at("out_of_plane") + test::stub_of(joint_of(r)).out_of_plane;
      const double alone = t.base_out_of_plane[*m][*b];
      CHECK_THAT(pair.against[*f], WithinRel((own - r.at("other")) * alone, 2 * rounding));
      CHECK_THAT(pair.together[*f],
                 WithinAbs(std::max(0.0, (own + r.at("other")) * alone), 2 * rounding));
      ++compared;
    }
  }
  CHECK(compared == 45 + 12);
}

}  // namespace tubewright::joint_table_test
