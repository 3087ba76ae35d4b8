#include "viz/draw/solid_model.h"

#include <vtkCell.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkTriangleFilter.h>
#include <vtkVectorText.h>

#include <Eigen/Core>
#include <Eigen/Geometry>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "io/text/write_file_atomically.h"
#include "viz/draw/paint.h"

namespace tubewright {

namespace {

using Json = nlohmann::ordered_json;
using Rgba = std::array<std::uint8_t, 4>;

static_assert(std::endian::native == std::endian::little, "a .glb file is little-endian");

/// Vehicle axes in mm (x forward, y left, z up) to those of glTF in m (x left, y up, z forward).
Eigen::Vector3f place(const Eigen::Vector3d& p) {
  constexpr double m_per_mm = 1e-3;
  return (m_per_mm * Eigen::Vector3d(p.y(), p.z(), p.x())).cast<float>();
}

struct Triangles {
  std::vector<Eigen::Vector3f> points, moves;  ///< moves: to the deformed place; empty if none
  std::vector<Rgba> paint;                     ///< one a point; empty if all alike
  std::vector<std::uint32_t> corners;          ///< three a triangle
};

/// A colour value of sRGB to the linear one that glTF wants at a point (IEC 61966-2-1).
std::uint8_t linear(double srgb) {
  const double value = srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4);
  return static_cast<std::uint8_t>(std::lround(255 * value));
}

Rgba paint_of(vtkLookupTable& table, double value) {
  double c[3];
  table.GetColor(value, c);
  return {linear(c[0]), linear(c[1]), linear(c[2]), 255};
}

/// All polygons of a data set as fans of triangles.
template <class Data>
Triangles triangles_of(Data& data, double warp) {
  Triangles mesh;
  vtkDataArray* moves = data.GetPointData()->GetArray("displacement");
  for (vtkIdType i = 0; i < data.GetNumberOfPoints(); ++i) {
    mesh.points.push_back(place(Eigen::Vector3d(data.GetPoint(i))));
    if (moves != nullptr) mesh.moves.push_back(place(warp * Eigen::Vector3d(moves->GetTuple3(i))));
  }
  for (vtkIdType c = 0; c < data.GetNumberOfCells(); ++c) {
    vtkCell* cell = data.GetCell(c);
    for (vtkIdType k = 1; k + 1 < cell->GetNumberOfPoints(); ++k)
      for (const vtkIdType corner : {vtkIdType{0}, k, k + 1})
        mesh.corners.push_back(static_cast<std::uint32_t>(cell->GetPointId(corner)));
  }
  return mesh;
}

// The legend: a colour bar in the plane across the vehicle
// --------------------------------------------------------

/// Where on the plane: `left` and `up` in mm.
struct Board {
  double x, left, up;
  Eigen::Vector3f at(double to_left, double higher) const {
    return place({x, left + to_left, up + higher});
  }
};

void add_box(Triangles& mesh, const Board& board, double low, double high, double width,
             const Rgba& paint) {
  const auto first = static_cast<std::uint32_t>(mesh.points.size());
  for (const auto& [to_left, higher] :
       {std::pair{0.0, low}, {width, low}, {width, high}, {0.0, high}}) {
    mesh.points.push_back(board.at(to_left, higher));
    mesh.paint.push_back(paint);
  }
  for (const std::uint32_t corner : {0U, 1U, 2U, 0U, 2U, 3U})
    mesh.corners.push_back(first + corner);
}

void add_text(Triangles& mesh, const Board& board, double to_left, double higher, double size,
              const std::string& words) {
  vtkNew<vtkVectorText> text;
  text->SetText(words.c_str());
  vtkNew<vtkTriangleFilter> filter;
  filter->SetInputConnection(text->GetOutputPort());
  filter->Update();
  vtkPolyData& letters = *filter->GetOutput();
  const auto first = static_cast<std::uint32_t>(mesh.points.size());
  constexpr Rgba legend_ink = {60, 60, 66, 255};  // to be read on white and on black
  for (vtkIdType i = 0; i < letters.GetNumberOfPoints(); ++i) {
    const Eigen::Vector3d p(letters.GetPoint(i));
    mesh.points.push_back(board.at(to_left + size * p.x(), higher + size * p.y()));
    mesh.paint.push_back(legend_ink);
  }
  for (vtkIdType c = 0; c < letters.GetNumberOfCells(); ++c)
    for (vtkIdType k = 0; k < 3; ++k)
      mesh.corners.push_back(first + static_cast<std::uint32_t>(letters.GetCell(c)->GetPointId(k)));
}

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", value);
  return text;
}

Triangles legend(const DrawnCase& drawn, const Quantity& quantity, const Scale& scale,
                 vtkLookupTable& table) {
  double box[6];
  drawn.tubes->GetBounds(box);
  const Eigen::AlignedBox3d frame(Eigen::Vector3d(box[0], box[2], box[4]),
                                  Eigen::Vector3d(box[1], box[3], box[5]));
  const double size = frame.diagonal().norm();
  const double height = 0.25 * size, width = 0.02 * size, letter = 0.018 * size;
  const Board board{frame.center().x(), frame.max().y() + 0.08 * size,
                    frame.center().z() - height / 2};
  Triangles mesh;
  constexpr int steps = 50;
  for (int i = 0; i < steps; ++i) {
    const double middle = std::lerp(scale.low(), scale.high(), (i + 0.5) / steps);
    add_box(mesh, board, height * i / steps, height * (i + 1) / steps, width,
            paint_of(table, middle));
  }
  for (const double tick : scale.ticks) {
    const double share = (tick - scale.low()) / (scale.high() - scale.low());
    add_text(mesh, board, 1.4 * width, share * height - letter / 2, letter, number(tick));
  }
  const std::vector<std::string> lines = {"deflection x " + number(drawn.warp_scale),
                                          std::string(quantity.title) + ", " + quantity.unit,
                                          drawn.name};
  double higher = height + 1.5 * letter;
  for (const std::string& line : lines) {
    add_text(mesh, board, 0, higher, letter, line);
    higher += 1.6 * letter;
  }
  return mesh;
}

// The file: JSON, then one buffer of bytes (glTF 2.0, 4.4)
// --------------------------------------------------------

enum Component { unsigned_byte = 5121, unsigned_int = 5125, floating = 5126 };
enum Target { array_buffer = 34962, element_array_buffer = 34963, no_target = 0 };

class Document {
 public:
  Json json;

  Document() {
    json["asset"] = {{"version", "2.0"}, {"generator", "tubewright"}};
    json["scene"] = 0;
  }

  /// The index of a new accessor; `values` are tightly packed.
  template <class Value>
  int add(const std::vector<Value>& values, Component component, const char* type, Target target) {
    while (bytes_.size() % 4 != 0) bytes_ += '\0';
    const std::size_t length = values.size() * sizeof(Value);
    Json view = {{"buffer", 0}, {"byteOffset", bytes_.size()}, {"byteLength", length}};
    if (target != no_target) view["target"] = static_cast<int>(target);
    json["bufferViews"].push_back(view);
    bytes_.append(reinterpret_cast<const char*>(values.data()), length);
    json["accessors"].push_back({{"bufferView", json["bufferViews"].size() - 1},
                                 {"componentType", static_cast<int>(component)},
                                 {"count", values.size()},
                                 {"type", type}});
    return static_cast<int>(json["accessors"].size()) - 1;
  }

  int add_places(const std::vector<Eigen::Vector3f>& places) {
    const int accessor = add(places, floating, "VEC3", array_buffer);
    Eigen::AlignedBox3f box;
    for (const Eigen::Vector3f& p : places) box.extend(p);
    Json& entry = json["accessors"].back();
    for (int i = 0; i < 3; ++i) {
      entry["min"].push_back(box.min()[i]);
      entry["max"].push_back(box.max()[i]);
    }
    return accessor;
  }

  /// A node with one mesh; none if there is nothing to see. Without normals a viewer shades flat
  /// faces, as tubes have.
  void add_node(const char* name, const Triangles& mesh, const Json& material) {
    if (mesh.corners.empty()) return;
    Json part = {{"mode", 4}};
    part["attributes"]["POSITION"] = add_places(mesh.points);
    if (!mesh.paint.empty()) {
      part["attributes"]["COLOR_0"] = add(mesh.paint, unsigned_byte, "VEC4", array_buffer);
      json["accessors"].back()["normalized"] = true;
    }
    part["indices"] = add(mesh.corners, unsigned_int, "SCALAR", element_array_buffer);
    Json entry = {{"name", name}};
    if (!mesh.moves.empty()) {
      part["targets"].push_back({{"POSITION", add_places(mesh.moves)}});
      entry["weights"].push_back(1);
      moving_.push_back(static_cast<int>(json["nodes"].size()));
    }
    json["materials"].push_back(material);
    part["material"] = json["materials"].size() - 1;
    entry["primitives"].push_back(part);
    json["meshes"].push_back(entry);
    json["nodes"].push_back({{"name", name}, {"mesh", json["meshes"].size() - 1}});
  }

  /// From the deformed frame to the unloaded one and back, in four seconds.
  void add_swing() {
    if (moving_.empty()) return;
    std::vector<float> times, weights;
    constexpr int steps = 16;
    for (int i = 0; i <= steps; ++i) {
      times.push_back(4.0F * static_cast<float>(i) / steps);
      weights.push_back(static_cast<float>(0.5 + 0.5 * std::cos(2 * M_PI * i / steps)));
    }
    const int input = add(times, floating, "SCALAR", no_target);
    json["accessors"].back()["min"].push_back(times.front());
    json["accessors"].back()["max"].push_back(times.back());
    const int output = add(weights, floating, "SCALAR", no_target);
    Json swing = {{"name", "deflection"}};
    swing["samplers"].push_back(
        {{"input", input}, {"output", output}, {"interpolation", "LINEAR"}});
    for (const int node : moving_)
      swing["channels"].push_back(
          {{"sampler", 0}, {"target", {{"node", node}, {"path", "weights"}}}});
    json["animations"].push_back(swing);
  }

  std::string bytes() {
    Json nodes = Json::array();
    for (std::size_t i = 0; i < json["nodes"].size(); ++i) nodes.push_back(i);
    json["scenes"][0]["nodes"] = nodes;
    while (bytes_.size() % 4 != 0) bytes_ += '\0';
    json["buffers"].push_back({{"byteLength", bytes_.size()}});
    std::string text = json.dump(-1, ' ', false, Json::error_handler_t::replace);
    while (text.size() % 4 != 0) text += ' ';
    constexpr std::uint32_t header = 12, chunk_header = 8, version = 2;
    std::string file = "glTF";
    append(file, version);
    append(file,
           header + 2 * chunk_header + static_cast<std::uint32_t>(text.size() + bytes_.size()));
    append(file, static_cast<std::uint32_t>(text.size()));
    file += "JSON" + text;
    append(file, static_cast<std::uint32_t>(bytes_.size()));
    file += std::string("BIN\0", 4) + bytes_;
    return file;
  }

 private:
  static void append(std::string& file, std::uint32_t value) {
    char raw[sizeof value];
    std::memcpy(raw, &value, sizeof value);
    file.append(raw, sizeof value);
  }

  std::string bytes_;
  std::vector<int> moving_;  ///< nodes that swing
};

/// Dull, so that the colours stay what they are.
Json dull(std::array<double, 4> colour) {
  Json material;
  material["pbrMetallicRoughness"] = {
      {"baseColorFactor", colour}, {"metallicFactor", 0}, {"roughnessFactor", 1}};
  material["doubleSided"] = true;
  return material;
}

}  // namespace

std::string glb_of(const DrawnCase& drawn) {
  const Quantity& quantity = quantities.front();
  const Scale scale = round_scale(std::abs(worst_place(drawn, quantity).value), quantity.has_sign);
  const auto table = colours(quantity, scale);

  Triangles tubes = triangles_of(*drawn.skin, drawn.warp_scale);
  vtkDataArray* values = drawn.skin->GetPointData()->GetArray(quantity.array);
  for (vtkIdType i = 0; i < values->GetNumberOfTuples(); ++i)
    tubes.paint.push_back(paint_of(*table, values->GetTuple1(i)));

  Document document;
  document.add_node("tubes", tubes, dull({1, 1, 1, 1}));
  if (drawn.attachments != nullptr) {
    constexpr std::array<double, 4> steel = {0.14, 0.15, 0.17, 1};  // linear, as in pictures
    document.add_node("attachments", triangles_of(*drawn.attachments, drawn.warp_scale),
                      dull(steel));
  }
  if (drawn.panels != nullptr) {
    Json glassy = dull({0.35, 0.4, 0.45, 0.35});
    glassy["alphaMode"] = "BLEND";
    document.add_node("sheets", triangles_of(*drawn.panels, drawn.warp_scale), glassy);
  }
  Json plain = dull({1, 1, 1, 1});
  plain["extensions"]["KHR_materials_unlit"] = Json::object();
  document.json["extensionsUsed"].push_back("KHR_materials_unlit");
  document.add_node("legend", legend(drawn, quantity, scale, *table), plain);
  document.add_swing();
  Json scene = {{"name", drawn.name}};
  scene["extras"] = {{"frame", drawn.frame},
                     {"case", drawn.name},
                     {"quantity", quantity.array},
                     {"unit", quantity.unit},
                     {"low", scale.low()},
                     {"high", scale.high()},
                     {"deflection_drawn_times", drawn.warp_scale}};
  document.json["scenes"].push_back(scene);
  return document.bytes();
}

void write_solid_models(const std::vector<DrawnCase>& cases,
                        const std::filesystem::path& directory) {
  for (const DrawnCase& drawn : cases) {
    const auto path = directory / (drawn.stem + ".glb");
    if (const auto failure = write_file_atomically(path, glb_of(drawn)))
      throw std::runtime_error("cannot write " + path.string() + ": " + failure->reason);
  }
}

}  // namespace tubewright
