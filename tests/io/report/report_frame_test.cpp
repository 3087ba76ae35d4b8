// The frame in the report's data against io/report/DATA.md.
#include "io/report/report_frame.h"

#include <cmath>

#include "tests/cases/attachments/gusset_frames.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_frame_test {

using nlohmann::json;

namespace {

/// With every sheet 12 mm off the axes.
json data_of(const Frame& frame) {
  Model model = reportable_studies().analysis.model;
  model.panels.resize(frame.panels.size());
  for (Panel& p : model.panels) p.offset = 0.012;
  nlohmann::ordered_json data;
  add_frame(frame, model, data);
  return data;
}

}  // namespace

TEST_CASE("parts are told in mm and degrees and refer to nodes and sections by number") {
  Frame f = reportable_studies().analysis.frame;
  f.members[0].roll = std::acos(-1.0) / 4;
  f.members[0].release_to[5] = 0;
  f.supports.push_back({"B", {true, false, true, false, false, true}, {}, {}});
  const json data = data_of(f);
  CHECK(data["nodes"][2] == json({{"name", "C"}, {"at", {1000.0, 0.0, 500.0}}}));
  CHECK(data["members"][0] == json({{"name", "sill_1"},
                                    {"kind", "beam"},
                                    {"from", 0},
                                    {"to", 1},
                                    {"section", 0},
                                    {"roll", 45.0},
                                    {"pinned", {false, true}},
                                    {"fixity", {1.0, 1.0}},
                                    {"tube", nullptr}}));
  CHECK(data["members"][2]["section"].is_null());  // a spring
  CHECK(data["members"][2]["pinned"] == json({true, true}));
  CHECK(data["members"][2]["fixity"].is_null());
  CHECK(data["supports"] == json({{{"node", 1}, {"holds", {"x", "z", "rz"}}}}));
  CHECK(data["sections"][0] == json({{"name", "tube"},
                                     {"shape", "square_tube"},
                                     {"height", 25.0},
                                     {"width", 25.0},
                                     {"wall", 2.0},
                                     {"material", "S235"}}));
  // EN 1993-1-1 3.2.6: E 210 GPa, and the yield strength that the grade is named after.
  CHECK_THAT(data["materials"][0]["E"].get<double>(), WithinRel(210000.0, 1e-12));
  CHECK_THAT(data["materials"][0]["yield"].get<double>(), WithinRel(235.0, 1e-12));
}

TEST_CASE("panels and wheels refer to their nodes by number, a material stands once") {
  Frame f = reportable_studies().analysis.frame;
  f.sheets.emplace_back();
  f.sheets[0].name = "skin";
  f.sheets[0].material = "S235";
  f.sheets[0].thickness = 0.5;
  f.panels.push_back({"floor", {"D", "C", "B", "A"}, "skin", {}});
  f.masses.emplace_back();
  f.masses[0].name = "rider";
  f.masses[0].mass = 75;
  Wheel wheel;
  wheel.name = "left";
  wheel.centre = {0, 0.5, 0.25};
  wheel.carrier = {"B", "D"};
  f.vehicle.emplace().wheels.push_back(wheel);
  const json data = data_of(f);
  CHECK(data["materials"].size() == 1);
  CHECK(data["panels"] == json({{{"name", "floor"},
                                 {"corners", {3, 2, 1, 0}},
                                 {"sheet", "skin"},
                                 {"material", "S235"},
                                 {"thickness", 500.0},
                                 {"offset", 12.0}}}));
  CHECK(data["masses"] == json({{{"name", "rider"}, {"mass", 75.0}, {"at", {0.0, 0.0, 0.0}}}}));
  CHECK(data["wheels"] == json({{{"name", "left"},
                                 {"contact", {0.0, 0.0, 0.0}},
                                 {"centre", {0.0, 500.0, 250.0}},
                                 {"carrier", {1, 3}}}}));
}

TEST_CASE("attachments refer to foot and hole by number, sizes in mm") {
  Frame f = reportable_studies().analysis.frame;
  Attachment a;
  a.name = "D";
  a.on = "sill_1";
  a.face = Face::left;
  a.section = "tube";
  a.face_node = "C";
  a.kind = AttachmentKind::cross_tab;
  a.thickness = 0.004;
  a.length = 0.03;
  a.lengthwise = Eigen::Vector3d::UnitX();
  a.sideways = Eigen::Vector3d::UnitY();
  a.bolt = BoltEntry{0.008, "8.8", {}, {}};
  f.attachments.push_back(a);
  CHECK(data_of(f)["attachments"] == json({{{"name", "D"},
                                            {"kind", "cross_tab"},
                                            {"on", "sill_1"},
                                            {"face", "left"},
                                            {"foot", 2},
                                            {"hole", 3},
                                            {"lengthwise", {1.0, 0.0, 0.0}},
                                            {"sideways", {0.0, 1.0, 0.0}},
                                            {"thickness", 4.0},
                                            {"length", 30.0},
                                            {"apart", 0.0},
                                            {"bolt", 8.0}}}));
}

TEST_CASE("a gusset has its three corners in mm and the nodes they move with") {
  Frame f = testing::expanded(testing::gusset_frame({}));
  const json g = data_of(f)["gussets"].at(0);
  CHECK(g["name"] == "g");
  CHECK(g["nodes"] == json({0, 3, 4}));
  CHECK(g["between"] == json({f.gussets[0].legs[0].tube, f.gussets[0].legs[1].tube}));
  CHECK(g["offsets"] == json({0.0}));
  CHECK(g["thickness"] == 4.0);
  const double corners[3][3] = {{20, 0, 20}, {80, 0, 20}, {20, 0, 80}};
  for (int k = 0; k < 3; ++k)
    for (int d = 0; d < 3; ++d)
      CHECK_THAT(g["corners"][k][d].get<double>(), WithinAbs(corners[k][d], 1e-9));
}

}  // namespace tubewright::report_frame_test
