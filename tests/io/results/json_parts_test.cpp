// What JSON answers are made of, read back by nlohmann::json; what JSON can hold is RFC 8259.
#include "io/results/json_parts.h"

#include <Eigen/Core>
#include <cmath>
#include <limits>

#include "tests/catch.h"

namespace tubewright::json_parts_test {

using nlohmann::json;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

json started(const Frame& frame, bool passes, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, passes, warnings, {"weld: a reason"});
  return json::parse(out.finish());
}

}  // namespace

TEST_CASE("numbers that JSON does not have become null, and zero loses its sign") {
  for (const double none : {infinite, -infinite, std::nan("")}) CHECK(number(none).is_null());
  CHECK(number(-0.0).dump() == "0.0");
  CHECK(number(-1e-300).get<double>() == -1e-300);
  CHECK(number(0.1 + 0.2).get<double>() == 0.1 + 0.2);
}

TEST_CASE("a number that is optional is null without value and scaled with one") {
  CHECK(optional_number(std::nullopt, 1000).is_null());
  CHECK(optional_number(0.0025, 1000) == 2.5);
  CHECK(optional_number(infinite, 1000).is_null());
  CHECK(optional_number(1e306, 1e3).is_null());  // overflows when scaled
}

TEST_CASE("a vector is a list of its entries, scaled, each null where it does not exist") {
  CHECK(numbers(Eigen::Vector3d(1, -2, 0.5)).dump() == "[1.0,-2.0,0.5]");
  CHECK(numbers(Eigen::Vector3d(0.001, std::nan(""), -0.0), 1000).dump() == "[1.0,null,0.0]");
  CHECK(numbers(Eigen::VectorXd()).dump() == "[]");
  Eigen::Matrix3d m;
  m << 1, 2, 3, 4, 5, 6, 7, 8, 9;
  CHECK(numbers(m.row(1)).dump() == "[4.0,5.0,6.0]");
}

TEST_CASE("a problem tells what it knows and leaves out what it does not") {
  const Diagnostics diagnostics = {{Severity::error, {4, 7}, "a fault", "do this"},
                                   {Severity::warning, {}, "a doubt", ""}};
  const auto with_file = diagnostics_json(diagnostics, "frame.yaml");
  CHECK(json(with_file[0]) == json({{"severity", "error"},
                                    {"message", "a fault"},
                                    {"advice", "do this"},
                                    {"file", "frame.yaml"},
                                    {"line", 4},
                                    {"column", 7}}));
  CHECK(json(with_file[1]) == json({{"severity", "warning"}, {"message", "a doubt"}}));
  CHECK_FALSE(diagnostics_json(diagnostics)[0].contains("file"));
  CHECK(diagnostics_json({}).dump() == "[]");
}

TEST_CASE("results begin with their schema, and the keys stand in a fixed order") {
  Frame frame;
  frame.title = "quad \"two\"";
  JsonLines out;
  start_results(out, frame, true, {}, {});
  const auto ordered = nlohmann::ordered_json::parse(out.finish());
  std::vector<std::string> keys;
  for (const auto& [key, value] : ordered.items()) keys.push_back(key);
  CHECK(keys == std::vector<std::string>{"schema", "version", "axes", "frame", "passes", "warnings",
                                         "not_checked", "cautions"});
  const json answer = started(frame, false, {{Severity::warning, {}, "a doubt", ""}});
  CHECK(answer.at("frame") == "quad \"two\"");
  CHECK(answer.at("passes") == false);
  CHECK(answer.at("warnings").size() == 1);
  CHECK(answer.at("not_checked") == json({"weld: a reason"}));
}

TEST_CASE("mass is written in kg with its centre in mm, and an error is an object of its own") {
  JsonLines out;
  write_mass(out, {3, 1, 60, 64, {0.5, 0, -0.25}});
  CHECK(json::parse(out.finish()) == json({{"mass",
                                            {{"tubes", 3.0},
                                             {"panels", 1.0},
                                             {"carried", 60.0},
                                             {"total", 64.0},
                                             {"centre", {500.0, 0.0, -250.0}}}}}));
  const json error = json::parse(error_json({{Severity::error, {}, "no file", ""}}));
  CHECK(error.size() == 3);
  CHECK(error.at("error").at("problems").at(0).at("message") == "no file");
}

TEST_CASE("faults of several files stand in one answer, each with its file") {
  const json error = json::parse(error_json(
      std::vector<FaultsOfFile>{{{{Severity::error, {3, 5}, "a is wrong", ""}}, "a.yaml"},
                                {{{Severity::error, {}, "cannot read b", ""}}, ""}}));
  const json problems = error.at("error").at("problems");
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].at("file") == "a.yaml");
  CHECK(problems[0].at("line") == 3);
  CHECK(problems[1].at("message") == "cannot read b");
  CHECK_FALSE(problems[1].contains("file"));
}

}  // namespace tubewright::json_parts_test
