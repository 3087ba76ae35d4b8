#include "cases/analysis/trusted_answer.h"

#include <cmath>
#include <limits>

#include "cases/analysis/analysis.h"
#include "solver/model/model_size.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::trusted_answer_test {

using namespace tubewright::testing;

namespace {

/// A mast of 1 m whose head hangs on a spring of that rate, N/m.
Frame hung_mast(double rate) {
  Frame f = empty_frame();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "head", 0, 0, 1);
  add_node(f, "wall", 1, 0, 1);
  add_member(f, "mast", "foot", "head");
  f.supports.push_back({"foot", {true, true, true, true, false, true}, {}, {}});
  f.supports.push_back({"wall", {true, true, true, true, true, true}, {}, {}});
  Member& spring = add_member(f, "spring", "wall", "head");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = rate;
  add_case(f, "push").forces.push_back({"head", {10, 0, 0}, {}});
  return f;
}

StaticSolution at_rest() {
  StaticSolution s;
  s.displacements = s.reactions = Eigen::VectorXd::Zero(12);
  return s;
}

Model two_nodes() {
  Model m;
  m.nodes = {{0, 0, 0}, {0, 3, 4}};
  return m;
}

}  // namespace

TEST_CASE("an answer is finite, in balance, and does not move farther than the frame is large") {
  const Model m = two_nodes();
  CHECK(model_size(m) == 5);
  StaticSolution s = at_rest();
  CHECK_FALSE(why_no_answer(m, "c", s));
  s.displacements[8] = -4.9;
  CHECK_FALSE(why_no_answer(m, "c", s));
  s.displacements[8] = -5.1;
  CHECK_THAT(why_no_answer(m, "c", s)->message, ContainsSubstring("5100"));
  s = at_rest();
  s.residual.moment = 1e-5;
  CHECK_THAT(why_no_answer(m, "c", s)->message, ContainsSubstring("differ by 0.0010 %"));
  s.residual.moment = 1e-7;
  CHECK_FALSE(why_no_answer(m, "c", s));
  s.reactions[3] = std::numeric_limits<double>::quiet_NaN();
  CHECK_THAT(why_no_answer(m, "c", s)->message, ContainsSubstring("too large to represent"));
}

TEST_CASE("a mast that hangs on a spring far too soft has no answer, on a fit one it has") {
  const auto soft = analyse(hung_mast(1), {}, {});  // 0.001 N/mm: 10 m of movement
  REQUIRE(soft.error() != nullptr);
  CHECK_THAT(text_of(*soft.error()), ContainsSubstring("farther than the frame is large"));
  CHECK(analyse(hung_mast(1e4), {}, {}).has_value());
}

}  // namespace tubewright::trusted_answer_test
