#include "cases/model/nodes_in_use.h"

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::nodes_in_use_test {

using namespace tubewright::testing;

TEST_CASE("a node is in use by what stands, hangs or acts on it, not by tubes") {
  Frame f = rectangle();
  CHECK(nodes_in_use(f).empty());
  f.supports.push_back({"A", {}, {}, {}});
  f.masses.push_back({"box", 1, {}, {"B"}, {}, {}});
  add_case(f, "push").forces.push_back({"C", {}, {}});
  CHECK(nodes_in_use(f) == std::unordered_set<std::string>{"A", "B", "C"});
}

}  // namespace tubewright::nodes_in_use_test
