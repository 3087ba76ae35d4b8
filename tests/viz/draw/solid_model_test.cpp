// A .glb file of a case known by hand, read by the layout of glTF 2.0 (ISO/IEC 12113), 4.4 and 5.
#include "viz/draw/solid_model.h"

#include <array>
#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "tests/catch.h"
#include "tests/viz/draw/hand_made_case.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::solid_model_test {

namespace {

using Json = nlohmann::json;

std::uint32_t word(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  REQUIRE(at + 4 <= bytes.size());
  std::memcpy(&value, bytes.data() + at, 4);
  return value;
}

/// The two chunks of a .glb file.
struct Glb {
  Json json;
  std::string buffer;

  explicit Glb(const std::string& bytes) {
    REQUIRE(bytes.substr(0, 4) == "glTF");
    REQUIRE(word(bytes, 4) == 2);
    REQUIRE(word(bytes, 8) == bytes.size());
    const std::size_t length = word(bytes, 12);
    REQUIRE(bytes.substr(16, 4) == "JSON");
    json = Json::parse(bytes.substr(20, length));
    REQUIRE(bytes.substr(24 + length, 4) == std::string("BIN\0", 4));
    buffer = bytes.substr(28 + length);
    REQUIRE(buffer.size() == word(bytes, 20 + length));
  }

  template <class Value>
  std::vector<Value> values(int accessor) const {
    const Json& view = json["bufferViews"][json["accessors"][accessor]["bufferView"].get<int>()];
    std::vector<Value> list(view["byteLength"].get<std::size_t>() / sizeof(Value));
    std::memcpy(list.data(), buffer.data() + view["byteOffset"].get<std::size_t>(),
                list.size() * sizeof(Value));
    return list;
  }

  const Json& part(const std::string& name) const {
    for (const Json& mesh : json["meshes"])
      if (mesh["name"] == name) return mesh["primitives"][0];
    FAIL("no mesh " << name);
    return json;
  }
};

using Point = std::array<float, 3>;

/// The colour that sRGB would show of a linear one (IEC 61966-2-1).
double srgb(double linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

}  // namespace

TEST_CASE("a solid model stands in metres, left along x, up along y, forward along z") {
  const Glb glb(glb_of(hand_made_case()));
  const Json& tubes = glb.part("tubes");
  const auto points = glb.values<Point>(tubes["attributes"]["POSITION"]);
  const auto moves = glb.values<Point>(tubes["targets"][0]["POSITION"]);
  REQUIRE(points.size() == 6);
  for (std::size_t i = 0; i < 6; ++i) {
    const std::size_t pair = i / 2;
    const auto forward = static_cast<float>(pair), left = static_cast<float>(i % 2);
    CHECK(points[i] == Point{left, 0, forward});
    // 50 times x / 1000 mm up, in m.
    CHECK(moves[i][0] == 0);
    CHECK_THAT(moves[i][1], WithinAbs(50 * forward * 1e-3, 1e-7));
    CHECK(moves[i][2] == 0);
  }
}

TEST_CASE("the triangles of a solid model cover its faces once, all turned the same way") {
  const Glb glb(glb_of(hand_made_case()));
  const Json& tubes = glb.part("tubes");
  const auto points = glb.values<Point>(tubes["attributes"]["POSITION"]);
  const auto corners = glb.values<std::uint32_t>(tubes["indices"]);
  REQUIRE(corners.size() == 4 * 3);
  double area = 0;
  for (std::size_t t = 0; t < corners.size(); t += 3) {
    const Point &a = points.at(corners[t]), &b = points.at(corners[t + 1]),
                &c = points.at(corners[t + 2]);
    const double twice = (b[2] - a[2]) * (c[0] - a[0]) - (b[0] - a[0]) * (c[2] - a[2]);
    CHECK(twice > 0);  // anticlockwise seen from above, as the cells
    area += twice / 2;
  }
  CHECK_THAT(area, WithinRel(2.0, 1e-6));  // 2 m x 1 m
}

TEST_CASE(
    "a solid model is painted from dark to light by stress, its legend says to which number") {
  const Glb glb(glb_of(hand_made_case()));
  const auto paint =
      glb.values<std::array<std::uint8_t, 4>>(glb.part("tubes")["attributes"]["COLOR_0"]);
  REQUIRE(paint.size() == 6);
  // Ends of viridis (CC0, 2015), from memory: (0.267, 0.005, 0.329), (0.993, 0.906, 0.144).
  const std::array<double, 3> dark = {0.267, 0.005, 0.329}, light = {0.993, 0.906, 0.144};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK_THAT(srgb(paint[0][i] / 255.0), WithinAbs(dark[i], 0.02));
    CHECK_THAT(srgb(paint[4][i] / 255.0), WithinAbs(light[i], 0.02));
  }
  CHECK(paint[2] == paint[3]);  // of one stress
  CHECK(paint[0][3] == 255);
  const Json& extras = glb.json["scenes"][0]["extras"];
  CHECK(extras["frame"] == "Bench");
  CHECK(extras["case"] == "push");
  CHECK(extras["unit"] == "MPa");
  CHECK(extras["low"] == 0);
  CHECK(extras["high"] == 200);  // the greatest is x / 10 at 2000 mm
  CHECK(extras["deflection_drawn_times"] == 50);
  // The legend stands to the left of the vehicle, which is 1 m wide.
  const Json& places =
      glb.json["accessors"][glb.part("legend")["attributes"]["POSITION"].get<int>()];
  CHECK(places["min"][0] > 0.5);
}

TEST_CASE("the animation of a solid model swings from deformed to unloaded and back") {
  const Glb glb(glb_of(hand_made_case()));
  const Json& swing = glb.json["animations"][0];
  CHECK(swing["channels"][0]["target"]["path"] == "weights");
  const int node = swing["channels"][0]["target"]["node"];
  CHECK(glb.json["nodes"][node]["name"] == "tubes");
  const auto times = glb.values<float>(swing["samplers"][0]["input"]);
  const auto weights = glb.values<float>(swing["samplers"][0]["output"]);
  REQUIRE(times.size() == weights.size());
  CHECK(weights.front() == 1);
  CHECK_THAT(weights[weights.size() / 2], WithinAbs(0.0, 1e-6));
  CHECK_THAT(weights.back(), WithinAbs(1.0, 1e-6));
  for (std::size_t i = 1; i < times.size(); ++i) {
    CHECK(times[i] > times[i - 1]);
    CHECK_THAT(weights[i], WithinAbs(weights[weights.size() - 1 - i], 1e-6));
  }
}

TEST_CASE("sheets are part of a solid model where there are any") {
  CHECK(Glb(glb_of(hand_made_case())).json["nodes"].size() == 2);  // tubes, legend
  DrawnCase clad = hand_made_case();
  vtkNew<vtkPoints> points;
  points->InsertNextPoint(0, 0, 0);
  points->InsertNextPoint(1000, 0, 0);
  points->InsertNextPoint(0, 1000, 0);
  clad.panels = vtkSmartPointer<vtkPolyData>::New();
  clad.panels->SetPoints(points);
  clad.panels->AllocateEstimate(1, 3);
  const std::array<vtkIdType, 3> corners = {0, 1, 2};
  clad.panels->InsertNextCell(VTK_TRIANGLE, 3, corners.data());
  const Glb glb(glb_of(clad));
  CHECK(glb.json["nodes"].size() == 3);
  const Json& sheet = glb.part("sheets");
  CHECK(glb.values<std::uint32_t>(sheet["indices"]).size() == 3);
  CHECK(glb.json["materials"][sheet["material"].get<int>()]["alphaMode"] == "BLEND");
}

TEST_CASE("solid models are written beside the files of their cases, or the reason is thrown") {
  const Scratch scratch("solid_models");
  DrawnCase other = hand_made_case();
  other.stem = "loads_02_pull";
  write_solid_models({hand_made_case(), other}, scratch.path);
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 2);
  CHECK(files.at("loads_01_push.glb") == glb_of(hand_made_case()));
  CHECK(files.count("loads_02_pull.glb") == 1);
  CHECK_THROWS_AS(write_solid_models({other}, scratch.path / "missing"), std::runtime_error);
}

TEST_CASE("attachments are a part of the model of their own, grey") {
  DrawnCase drawn = hand_made_case();
  vtkNew<vtkPoints> corners;
  for (const double x : {0.0, 60.0, 30.0}) corners->InsertNextPoint(x, x == 30 ? 50 : 0, 20);
  drawn.attachments = vtkSmartPointer<vtkPolyData>::New();
  drawn.attachments->SetPoints(corners);
  drawn.attachments->AllocateEstimate(1, 3);
  const std::array<vtkIdType, 3> face = {0, 1, 2};
  drawn.attachments->InsertNextCell(VTK_POLYGON, 3, face.data());
  add_array(*drawn.attachments, "displacement", 3, [](const double*) {
    return std::array{0.0, 0.0, 1.0};
  });
  const Glb glb(glb_of(drawn));
  const Json& part = glb.part("attachments");
  const Json& look = glb.json["materials"][part["material"].get<int>()]["pbrMetallicRoughness"];
  CHECK(look["baseColorFactor"][3] == 1);
  CHECK(look["baseColorFactor"][0].get<double>() < 0.5);
}

}  // namespace tubewright::solid_model_test
