#include "solver/model/model_size.h"

#include "tests/catch.h"

namespace tubewright::model_size_test {

TEST_CASE("a model is as large as the box round its nodes from corner to corner") {
  Model m;
  CHECK(model_size(m) == 0);
  m.nodes = {{1, 1, 1}};
  CHECK(model_size(m) == 0);
  m.nodes = {{0, 0, 0}, {0, 3, 4}, {0, 1, 4}};
  CHECK(model_size(m) == 5);
}

}  // namespace tubewright::model_size_test
