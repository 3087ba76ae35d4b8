#include "tests/joint_models/mesh_file.h"

#include <map>
#include <stdexcept>
#include <string>

namespace tubewright {

namespace {

constexpr int tetrahedron10 = 11;

void skip_to(std::istream& in, const std::string& heading) {
  for (std::string line; std::getline(in, line);) {
    if (line == heading) return;
  }
  throw std::runtime_error("the mesh has no " + heading);
}

}  // namespace

SolidMesh read_mesh(std::istream& in) {
  skip_to(in, "$MeshFormat");
  std::string version;
  in >> version;
  if (version != "2.2") throw std::runtime_error("the mesh is not of format 2.2");
  skip_to(in, "$Nodes");
  std::map<int, Eigen::Vector3d> all;
  int count = 0;
  in >> count;
  for (int i = 0, tag = 0; i < count; ++i) {
    Eigen::Vector3d p;
    in >> tag >> p.x() >> p.y() >> p.z();
    all[tag] = p;
  }
  skip_to(in, "$Elements");
  in >> count;
  SolidMesh mesh;
  std::map<int, int> number;
  for (int i = 0; i < count && in; ++i) {
    int tag = 0, type = 0, tags = 0, skipped = 0;
    in >> tag >> type >> tags;
    while (tags-- > 0) in >> skipped;
    if (type != tetrahedron10) throw std::runtime_error("the mesh has other than tetrahedra");
    std::array<int, 10> element;
    for (int& node : element) {
      in >> node;
      const auto [at, is_new] = number.try_emplace(node, static_cast<int>(mesh.nodes.size()));
      if (is_new) {
        const auto found = all.find(node);
        if (found == all.end()) throw std::runtime_error("the mesh lacks a node");
        mesh.nodes.push_back(found->second);
      }
      node = at->second;
    }
    mesh.elements.push_back(element);
  }
  if (!in || mesh.elements.empty()) throw std::runtime_error("the mesh is cut short");
  return mesh;
}

int straighten_bad_elements(SolidMesh& mesh) {
  constexpr std::array<std::array<int, 3>, 6> edges = {
      {{0, 1, 4}, {1, 2, 5}, {0, 2, 6}, {0, 3, 7}, {2, 3, 8}, {1, 3, 9}}};
  int mended = 0;
  // A node moved for one element belongs to its neighbours too: look again.
  for (int found = 1, round = 0; found > 0 && round < 20; ++round) {
    found = 0;
    for (const auto& element : mesh.elements) {
      if (least_jacobian(mesh, element) > 0) continue;
      ++found;
      for (const auto& [a, b, middle] : edges) {
        mesh.nodes[element[middle]] = (mesh.nodes[element[a]] + mesh.nodes[element[b]]) / 2;
      }
    }
    mended += found;
  }
  return mended;
}

}  // namespace tubewright
