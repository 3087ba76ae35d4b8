#include "cases/pieces/end_cuts.h"

#include "tests/catch.h"

namespace tubewright::end_cuts_test {

TEST_CASE("an end begins at the farthest of its cuts, a cut at the nearest of its planes") {
  const CutPlane a{1, 2, 0}, b{3, 0, -1};
  CHECK(begin_at(a, 0.5, 7) == 2);
  const EndCut notch{{a, b}, 0, EndKind::edge};
  CHECK(begin_at(notch, 2, 1) == 2);  // min(5, 2)
  TubeEnd e;
  CHECK(e.begin(2, 1) == 0);
  e.cuts = {notch, {{CutPlane{2.5, 0, 0}}, 1, EndKind::face}};
  CHECK(e.begin(2, 1) == 2.5);
  CHECK(e.begin(2, 0) == 3);
}

TEST_CASE("a plane within 3 degrees of the tube only divides: tan 87 degrees is 19.08") {
  CHECK(only_divides({0, 21, 0}));
  CHECK(only_divides({0, 15, -15}));
  CHECK_FALSE(only_divides({0, 19, 0}));
}

TEST_CASE("a tube stands on a face, an edge or a round tube, not on its twin") {
  for (const EndKind kind : {EndKind::face, EndKind::edge, EndKind::cope}) {
    CHECK(along_a_face({{}, 0, kind}));
  }
  for (const EndKind kind : {EndKind::square, EndKind::mitre})
    CHECK_FALSE(along_a_face({{}, 0, kind}));
}

}  // namespace tubewright::end_cuts_test
