// The wording of faults, exactly; numbers read back by strtod(); their order against std::sort.
#include "cases/frame/wording.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <random>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::wording_test {

using testing::add_member;
using testing::add_node;
using testing::empty_frame;

namespace {

std::vector<std::string> messages(const Diagnostics& diagnostics) {
  std::vector<std::string> list;
  for (const Diagnostic& p : diagnostics) list.push_back(p.message);
  return list;
}

Diagnostics errors(const std::vector<std::string>& words) {
  Diagnostics diagnostics;
  int line = 0;
  for (const std::string& w : words) add_error(diagnostics, {++line, 1}, {w, ""});
  return diagnostics;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("names stand in backticks, the last of several after an and") {
  CHECK(quoted("rail_l") == "`rail_l`");
  CHECK(quoted_list({}).empty());
  CHECK(quoted_list({"a"}) == "`a`");
  CHECK(quoted_list({"a", "b"}) == "`a` and `b`");
  CHECK(quoted_list({"a", "b", "c", "d"}) == "`a`, `b`, `c` and `d`");
}

TEST_CASE("a length is shown in millimetres with four digits at most") {
  CHECK(in_mm(0.0125) == "12.5 mm");
  CHECK(in_mm(1.0 / 3) == "333.3 mm");
  CHECK(in_mm(0.00001) == "0.01 mm");
  std::mt19937 random(1);
  std::uniform_real_distribution<double> power(-5, 0.99);
  for (int i = 0; i < 200; ++i) {
    const double length = std::pow(10, power(random));
    CHECK_THAT(std::strtod(in_mm(length).c_str(), nullptr), WithinRel(1000 * length, 5.1e-4));
  }
}

TEST_CASE("decimals round to half of the last place, for any finite number") {
  std::mt19937 random(2);
  std::uniform_real_distribution<double> u(-1000, 1000);
  for (int i = 0; i < 200; ++i) {
    const int count = i % 7;
    const double value = u(random);
    const std::string text = decimals(value, count);
    const std::size_t point = text.find('.');
    CHECK((point == text.npos ? 0 : text.size() - point - 1) == static_cast<std::size_t>(count));
    CHECK(std::abs(std::strtod(text.c_str(), nullptr) - value) < 0.5001 * std::pow(10, -count));
  }
  const double greatest = std::numeric_limits<double>::max();
  CHECK(std::strtod(decimals(-greatest, 3).c_str(), nullptr) == -greatest);
}

TEST_CASE("an error is an error and a warning a warning, both as they were worded") {
  Diagnostics diagnostics;
  add_error(diagnostics, {3, 7}, {"message", "advice"});
  add_warning(diagnostics, {4, 8}, {"doubt", "idea"});
  REQUIRE(diagnostics.size() == 2);
  CHECK(diagnostics[0].severity == Severity::error);
  CHECK(diagnostics[1].severity == Severity::warning);
  CHECK(diagnostics[0].message + diagnostics[0].advice == "messageadvice");
  CHECK(diagnostics[1].message + diagnostics[1].advice == "doubtidea");
  CHECK((diagnostics[1].place.line == 4 && diagnostics[1].place.column == 8));
}

TEST_CASE("faults are sorted by line and column, equal places as they came, no place last") {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> place(0, 5);
  Diagnostics diagnostics;
  std::vector<std::array<int, 4>> expected;  // no place, line, column, order of finding
  for (int i = 0; i < 100; ++i) {
    const int line = place(random), column = line == 0 ? 0 : place(random);
    add_error(diagnostics, {line, column}, {std::to_string(i), ""});
    expected.push_back({line == 0 ? 1 : 0, line, column, i});
  }
  std::sort(expected.begin(), expected.end());
  Words words;
  for (const auto& row : expected) words.push_back(std::to_string(row[3]));
  CHECK(messages(in_file_order(diagnostics, Frame{})) == words);
}

TEST_CASE("of faults that differ only in the piece of a path the first is kept") {
  Frame f = empty_frame();
  for (const char* name : {"rail.1", "rail.2", "rail.3"})
    add_member(f, name, "A", "B").tube = "rail";
  add_member(f, "post.1", "A", "B").tube = "post";
  add_member(f, "rail.4", "A", "B");  // not of the path, only named so
  const Diagnostics diagnostics =
      errors({"member `rail.2` is bad", "member `rail.1` is bad", "member `post.1` is bad",
              "member `rail.4` is bad", "member `rail.3` is worse", "member `rail.1` is bad"});
  CHECK(messages(in_file_order(diagnostics, f)) ==
        Words{"member `rail.2` is bad", "member `post.1` is bad", "member `rail.4` is bad",
              "member `rail.3` is worse"});
}

TEST_CASE("of the faults of two mirrored sides the first is kept, also of pairs across") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  const Diagnostics diagnostics =
      errors({"`a_l` is off", "`a_r` is off", "`a_l` meets `b_r`", "`b_l` meets `a_r`",
              "`a_l` meets `b_l`", "`c_r` is off"});
  CHECK(messages(in_file_order(diagnostics, f)) ==
        Words{"`a_l` is off", "`a_l` meets `b_r`", "`a_l` meets `b_l`", "`c_r` is off"});
  f.mirror.reset();
  CHECK(in_file_order(diagnostics, f).size() == diagnostics.size());
}

}  // namespace tubewright::wording_test
