// What `cut` answers: sums and counts of the one part against another.
#include "io/workshop/cut_output.h"

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "cases/model/build_model.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::cut_output_test {

using namespace tubewright::testing;

namespace {

constexpr Source ssab = seen_in("EN 10219, 25 x 25 x 2: 1.36 kg/m (public table of SSAB)");

}  // namespace

using nlohmann::json;

namespace {

struct Answer {
  Frame frame;
  CutList list;
  SheetBlanks sheets;
  json cut;

  explicit Answer(Frame f)
      : frame(std::move(f)), list(cut_list(frame)), sheets(sheet_blanks(frame)) {
    cut = json::parse(cut_json(frame, list, sheets, {})).at("cut");
  }
};

/// A triangle of 25 mm on a rectangle: mitres, faces and mirror images.
Frame braced() {
  Frame f = braced_rectangle();
  add_node(f, "E", 0.3, 0.2, 0.4);
  for (const char* from : {"A", "B", "C", "D"}) add_member(f, std::string(from) + "E", from, "E");
  return f;
}

/// Fields of a line of RFC 4180.
std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> list(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      list.emplace_back();
    } else if (c != '\r') {
      list.back() += c;
    }
  }
  return list;
}

}  // namespace

TEST_CASE("cut_json: every tube is in one group, and the groups weigh what the frame does") {
  const Answer a(braced());
  double mass = 0;
  std::set<std::string> names;
  std::size_t count = 0;
  for (const auto& [label, piece] : a.cut["pieces"].items()) {
    mass += piece["count"].get<double>() * piece["mass"].get<double>();
    CHECK(piece["count"] == piece["members"].size());
    for (const auto& name : piece["members"]) names.insert(name);
    count += piece["members"].size();
    CHECK(piece["long_point"] >= piece["short_point"]);
  }
  CHECK(count == a.frame.members.size());
  CHECK(names.size() == count);
  CHECK_THAT(a.cut["mass"].get<double>(), WithinRel(mass, 1e-9));
}

TEST_CASE("cut_json: bars hold each piece as often as it is cut, and not more than they are long") {
  const Answer a(braced());
  std::map<std::string, int> cut;
  for (const auto& order : a.cut["orders"]) {
    CHECK(order["cut_plan"].size() == order["bars"]);
    CHECK(order["least_bars"] <= order["bars"]);
    for (const auto& bar : order["cut_plan"]) {
      double used = bar["rest"].get<double>() + 2 * a.cut["stock"]["end_trim"].get<double>();
      for (const std::string label : bar["pieces"]) {
        ++cut[label];
        used += a.cut["pieces"][label]["long_point"].get<double>() +
                a.cut["stock"]["kerf"].get<double>();
      }
      CHECK(used >= a.cut["stock"]["length"].get<double>() - 0.01);
      CHECK(used <=
            a.cut["stock"]["length"].get<double>() + a.cut["stock"]["kerf"].get<double>() + 0.01);
    }
  }
  for (const auto& [label, piece] : a.cut["pieces"].items()) CHECK(cut[label] == piece["count"]);
}

TEST_CASE("cut_json: the welds of the pieces are those of the order") {
  const Answer a(braced());
  double of_pieces = 0, of_order = 0;
  for (const auto& piece : a.cut["pieces"]) {
    of_pieces += piece["count"].get<double>() * piece["weld_length"].get<double>();
  }
  for (const auto& step : a.cut["weld_order"]) of_order += step["weld_length"].get<double>();
  CHECK_THAT(of_order, WithinRel(of_pieces, 1e-9));
  CHECK_THAT(a.cut["weld_length"].get<double>(), WithinRel(of_pieces, 1e-9));
}

TEST_CASE("cut_json: the diagonal of a 600 by 400 bay is 721.1 mm, both ways") {
  const Answer a(rectangle());
  REQUIRE(a.cut["jig"].size() == 1);
  for (const auto& d : a.cut["jig"][0]["diagonals"]) {
    CHECK_THAT(d.get<double>(), WithinAbs(std::hypot(600, 400), 1e-9));
  }
}

TEST_CASE("cut_json: a mitre of a square corner is 45 degrees, in one of the two angles") {
  const Answer a(rectangle());
  for (const auto& piece : a.cut["pieces"]) {
    for (const auto& end : piece["ends"]) {
      CHECK(end["kind"] == "mitre");
      REQUIRE(end["planes"].size() == 1);
      const double mitre = end["planes"][0]["mitre"], bevel = end["planes"][0]["bevel"];
      CHECK_THAT(std::abs(mitre) + std::abs(bevel), WithinAbs(45, 1e-9));
    }
  }
}

TEST_CASE("cut_csv: a line a group, with the numbers of the JSON") {
  Frame frame = braced();
  frame.members[0].name = "A, \"B\"";
  const Answer a(frame);
  std::istringstream in(cut_csv(a.frame, a.list));
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> heading = fields(line);
  std::size_t rows = 0;
  for (; std::getline(in, line); ++rows) {
    REQUIRE(line.ends_with('\r'));
    const std::vector<std::string> row = fields(line);
    REQUIRE(row.size() == heading.size());
    const json& piece = a.cut["pieces"].at(row[0]);
    CHECK(std::stoi(row[1]) == piece["count"]);
    CHECK_THAT(std::stod(row[3]), WithinAbs(piece["long_point"].get<double>(), 0.051));
    CHECK_THAT(std::stod(row[4]), WithinAbs(piece["short_point"].get<double>(), 0.051));
    CHECK(row[5] == piece["ends"][0]["text"]);
  }
  CHECK(rows == a.cut["pieces"].size());
}

TEST_CASE("gussets are a line of the text and of the CSV each, with the numbers of the JSON") {
  testing::GussetCorner corner;
  corner.first_leg = 80;
  corner.second_leg = 50;
  Frame frame = testing::gusset_frame(corner);
  testing::add_node(frame, "C", -0.4, 0, 0);
  testing::add_member(frame, "back", "M", "C");
  Gusset other = frame.gussets[0];
  other.name = "h";
  other.legs[0].tube = "back";
  other.thickness = 0.003;
  other.at_sides = true;
  frame.gussets.push_back(other);
  const Answer a(testing::expanded(frame));
  std::map<std::string, std::map<std::string, std::string>> rows;
  std::istringstream in(cut_csv(a.frame, a.list));
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> heading = fields(line);
  while (std::getline(in, line)) {
    const std::vector<std::string> row = fields(line);
    REQUIRE(row.size() == heading.size());
    for (std::size_t k = 0; k < row.size(); ++k) rows[row[0]][heading[k]] = row[k];
  }
  const json& gussets = a.cut["gussets"];
  REQUIRE(gussets.size() == 2);
  CHECK(rows.size() == gussets.size() + a.cut["pieces"].size());
  const std::string text = cut_text(a.frame, a.list, a.sheets, Paint{});
  for (const json& g : gussets) {
    std::map<std::string, std::string>& row = rows[g["label"]];
    CHECK(std::stoi(row["count"]) == g["plates"]);
    CHECK_THAT(std::stod(row["thickness_mm"]), WithinAbs(g["thickness"].get<double>(), 0.051));
    CHECK_THAT(std::stod(row["long_leg_mm"]), WithinAbs(g["legs"][0].get<double>(), 0.051));
    CHECK_THAT(std::stod(row["short_leg_mm"]), WithinAbs(g["legs"][1].get<double>(), 0.051));
    CHECK_THAT(std::stod(row["angle_deg"]), WithinAbs(g["angle"].get<double>(), 0.051));
    CHECK_THAT(std::stod(row["mass_kg"]), WithinAbs(g["mass"].get<double>(), 0.00051));
    CHECK(row["material"] == g["material"]);
    CHECK(row["members"] == g["names"][0]);
    CHECK(row["long_point_mm"].empty());
    CHECK(g["weldments"] == json::array({"frame"}));
    CHECK_THAT(text, ContainsSubstring(g["label"].get<std::string>() + "  " + row["count"] +
                                       " of " + row["size"].substr(7)));
  }
  CHECK(rows["P1"]["size"] == "gusset 80.0 x 50.0 x 4.0, 90.0 degrees, S235");
  CHECK(rows["P2"]["count"] == "2");
  CHECK(rows["A"]["thickness_mm"].empty());
}

TEST_CASE("cut_text: within 100 columns, with every tube's name and the sheets") {
  const Answer a(floor_grid(2, 2));
  const std::string text = cut_text(a.frame, a.list, a.sheets, Paint{});
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    INFO(line);
    CHECK(line.size() <= 100);
  }
  for (const std::string& name : a.list.tube_names) CHECK_THAT(text, ContainsSubstring(name));
  CHECK_THAT(text, ContainsSubstring("Sheets"));
}

TEST_CASE("cut_line: bars and what they weigh, by the table of the tube's standard", "[truth]") {
  const Answer a(rectangle());
  // Four pieces, 2.1 m in all, from one bar. 25 x 25 x 2: 1.36 kg/m (EN 10219-2).
  REQUIRE(a.cut["stock"]["length"] == 6000.0);
  CHECK_THAT(cut_line(a.list), ContainsSubstring("1 bar, "));
  truth("bar of 6 m of 25 x 25 x 2: mass, kg", ssab, std::stod(cut_line(a.list).substr(7)),
        within_abs(6 * 1.36, 0.06));
}

}  // namespace tubewright::cut_output_test
