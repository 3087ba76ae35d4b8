// Reading a mesh, and mending its bad elements.
#include "tests/joint_models/mesh_file.h"

#include <sstream>
#include <stdexcept>

#include "tests/catch.h"

namespace tubewright::mesh_file_test {

namespace {

const char* const one_element = R"($MeshFormat
2.2 0 8
$EndMeshFormat
$PhysicalNames
1
3 1 "tube"
$EndPhysicalNames
$Nodes
11
5 0 0 0
1 2 0 0
2 0 2 0
3 0 0 2
4 1 0 0
6 1 1 0
7 0 1 0
8 0 0 1
9 0 1 1
10 1 0 1
99 7 7 7
$EndNodes
$Elements
1
1 11 2 1 1 5 1 2 3 4 6 7 8 9 10
$EndElements
)";

SolidMesh read(const std::string& text) {
  std::istringstream in(text);
  return read_mesh(in);
}

}  // namespace

TEST_CASE("A mesh file gives its tetrahedra and the nodes they use") {
  const SolidMesh mesh = read(one_element);
  REQUIRE(mesh.elements.size() == 1);
  CHECK(mesh.nodes.size() == 10);
  CHECK_THAT(solid_volume(mesh), WithinRel(8.0 / 6, 1e-12));
}

TEST_CASE("A mesh of another format, of other elements or cut short is refused") {
  std::string other = one_element;
  other.replace(other.find("2.2"), 3, "4.1");
  CHECK_THROWS_AS(read(other), std::runtime_error);
  std::string triangle = one_element;
  triangle.replace(triangle.find("1 11 2"), 6, "1 9 2 ");
  CHECK_THROWS_AS(read(triangle), std::runtime_error);
  const std::string whole = one_element;
  CHECK_THROWS_AS(read(whole.substr(0, whole.find("9 10\n$EndE"))), std::runtime_error);
}

TEST_CASE("Edges of an element turned inside out are made straight, others stay curved") {
  SolidMesh mesh = read(one_element);
  mesh.nodes[4] += Eigen::Vector3d(0, -0.05, 0);
  CHECK(straighten_bad_elements(mesh) == 0);
  CHECK_THAT(mesh.nodes[4].y(), WithinAbs(-0.05, 1e-12));
  mesh.nodes[4].x() = 2.5;  // beyond three quarters of its edge
  REQUIRE(least_jacobian(mesh, mesh.elements[0]) < 0);
  CHECK(straighten_bad_elements(mesh) == 1);
  CHECK_THAT(least_jacobian(mesh, mesh.elements[0]), WithinRel(1.0, 1e-12));
}

}  // namespace tubewright::mesh_file_test
