// joint_study MESH KEY=VALUE...: the additional compliances of one joint, a line of numbers.
//
// Keys are the fields of JointModel in mm and degrees; joint_sweep.py calls it. E = 210 000 MPa,
// nu = 0.3. Prints "solid beams" for each TipLoad, then the face, for pairs the same at the other
// tip, the ratios of area and inertia, nodes, and elements mended. With leg=LENGTH of the weld, for
// a quarter of a tee, first the hot spot factors of chord and brace for each of the first three
// loads.
#include <cstdio>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>

#include "tests/joint_models/hot_spot.h"
#include "tests/joint_models/joint_compliance.h"
#include "tests/joint_models/mesh_file.h"
#include "tests/joint_models/run_study.h"

using namespace tubewright;

namespace {

double number(const std::map<std::string, std::string>& keys, const char* key) {
  const auto found = keys.find(key);
  if (found == keys.end()) throw std::runtime_error(std::string("missing: ") + key);
  return std::stod(found->second);
}

int study(int argc, char** argv) {
  if (argc < 2) throw std::runtime_error("usage: joint_study MESH KEY=VALUE...");
  std::map<std::string, std::string> keys;
  for (int i = 2; i < argc; ++i) {
    const std::string word = argv[i];
    const std::size_t equal = word.find('=');
    if (equal == std::string::npos) throw std::runtime_error("not KEY=VALUE: " + word);
    keys[word.substr(0, equal)] = word.substr(equal + 1);
  }
  JointModel j;
  j.kind = keys["kind"] == "pair"    ? JointKind::pair
           : keys["kind"] == "mitre" ? JointKind::mitre
                                     : JointKind::tee;
  j.chord_width = number(keys, "b0");
  j.chord_depth = number(keys, "h0");
  j.chord_wall = number(keys, "t0");
  j.brace_width = number(keys, "b1");
  j.brace_along = number(keys, "h1");
  j.brace_wall = number(keys, "t1");
  j.angle = number(keys, "angle");
  j.chord_start = number(keys, "chord_start");
  j.chord_end = number(keys, "chord_end");
  j.brace_end = number(keys, "brace_end");
  j.through = number(keys, "through") != 0;
  j.halved_x = number(keys, "halved_x") != 0;
  j.halved_y = number(keys, "halved_y") != 0;
  std::ifstream in(argv[1]);
  SolidMesh mesh = read_mesh(in);
  const int mended = straighten_bad_elements(mesh);
  constexpr IsotropicSolid steel = {210000, 0.3};
  const bool with_stress = keys.contains("leg");
  const JointCompliance c =
      joint_compliance(j, mesh, steel, [&](TipLoad load, const Eigen::VectorXd& u) {
        if (!with_stress || load == TipLoad::torsion) return;
        const HotSpots s = hot_spots(j, number(keys, "leg"), mesh, u, steel, load);
        std::printf("%.5g %.5g ", s.chord, s.brace);
      });
  for (int k = 0; k < tip_loads; ++k) std::printf("%.9g %.9g ", c.solid[k], c.beams[k]);
  std::printf("%.9g %.9g %.9g %.6f %.6f %zu %d\n", c.face, c.solid_other, c.beams_other,
              c.area_ratio, c.inertia_ratio, mesh.nodes.size(), mended);
  return 0;
}

}  // namespace

int main(int argc, char** argv) { return run_study("joint_study", study, argc, argv); }
