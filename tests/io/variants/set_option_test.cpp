#include "io/variants/set_option.h"

#include <cstdint>
#include <set>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::set_option_test {

using namespace tubewright::testing;

namespace {

std::vector<std::string> values(const std::string& text) {
  std::vector<std::string> list;
  for (const SetValue& v : answer_of(read_set("a.b=" + text)).values) list.push_back(v.text);
  return list;
}

std::string fault(const std::string& text) {
  const auto outcome = read_set(text);
  REQUIRE(outcome.error() != nullptr);
  return text_of(*outcome.error());
}

std::string shard_fault(const std::string& text) {
  const auto outcome = read_shard(text);
  REQUIRE(outcome.error() != nullptr);
  return text_of(*outcome.error());
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("a --set is a path and its values, with blanks or without") {
  const VaryVariable v = answer_of(read_set(" sections.rail.wall = 1.5, 2 ,2.50"));
  CHECK(v.path == "sections.rail.wall");
  CHECK(v.values == std::vector<SetValue>{{"1.5"}, {"2"}, {"2.5"}});
}

TEST_CASE("words, names and quantities stay as they are; numbers that are none do too") {
  CHECK(values("S235,EN AW-5754-H22,1 in,10 %,true") ==
        Texts{"S235", "EN AW-5754-H22", "1 in", "10 %", "true"});
  CHECK(values("010,.nan,1.2.3") == Texts{"010", ".nan", "1.2.3"});
  CHECK(values("a=b") == Texts{"a=b"});
}

TEST_CASE("quotation marks keep commas, dots and numbers as text") {
  const VaryVariable v = answer_of(read_set("frame='a, b',\"1..2/3\",\"5\""));
  CHECK(v.values == std::vector<SetValue>{{"a, b", true}, {"1..2/3", true}, {"5", true}});
  CHECK(values("it's") == Texts{"it's"});
  CHECK_THAT(fault("a='b"), ContainsSubstring("quotation mark"));
}

TEST_CASE("a range holds both ends and even steps, up or down, without digits of rounding") {
  CHECK(values("120..200/5") == Texts{"120", "140", "160", "180", "200"});
  CHECK(values("2..1/3") == Texts{"2", "1.5", "1"});
  CHECK(values("0.1..0.7/7") == Texts{"0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7"});
  CHECK(values("-1..1/3") == Texts{"-1", "0", "1"});
  CHECK(values("0..1/4") == Texts{"0", "0.333333333333", "0.666666666667", "1"});
  CHECK(values("5,1..2/2,7") == Texts{"5", "1", "2", "7"});
}

TEST_CASE("a range may have a unit, also one with a stroke, at its second end or at both") {
  CHECK(values("1..2 in/3") == Texts{"1 in", "1.5 in", "2 in"});
  CHECK(values("1 in..2 in/2") == Texts{"1 in", "2 in"});
  CHECK(values("4..8 N/mm/3") == Texts{"4 N/mm", "6 N/mm", "8 N/mm"});
  CHECK_THAT(fault("a=1 in..2 mm/3"), ContainsSubstring("different units, `in` and `mm`"));
  CHECK_THAT(fault("a=1 in..2/3"), ContainsSubstring("different units, `in` and none"));
}

TEST_CASE("what is wrong with a range is told, all of a --set at once") {
  CHECK_THAT(fault("a=1..2"), ContainsSubstring("does not say how many"));
  CHECK_THAT(fault("a=1..2 N/mm"), ContainsSubstring("does not say how many"));
  CHECK_THAT(fault("a=1..2/1"), ContainsSubstring("single value"));
  CHECK_THAT(fault("a=1..2/0"), ContainsSubstring("single value"));
  CHECK_THAT(fault("a=2..2/5"), ContainsSubstring("single value"));
  CHECK_THAT(fault("a=1..2/2.5"), ContainsSubstring("`2.5` in `1..2/2.5` is no number of values"));
  CHECK_THAT(fault("a=1..2/-3"), ContainsSubstring("is no number of values"));
  CHECK_THAT(fault("a=1..2/"), ContainsSubstring("is no number of values"));
  CHECK_THAT(fault("a=1..2/100001"), ContainsSubstring("more than 100000 values"));
  CHECK_THAT(fault("a=1..2/99999999999999999999"), ContainsSubstring("more than 100000 values"));
  CHECK_THAT(fault("a=S235..S355/3"),
             ContainsSubstring("`S235` in `S235..S355/3` is not a number"));
  CHECK_THAT(fault("a=1..b/3"), ContainsSubstring("`b` in `1..b/3` is not a number"));
  const std::string both = fault("a=1..2,,x..3/3");
  CHECK_THAT(both, ContainsSubstring("how many") && ContainsSubstring("empty value") &&
                       ContainsSubstring("not a number"));
  CHECK(values("a..b") == Texts{"a..b"});  // a name
}

TEST_CASE("what is no assignment, empty, on two lines or no text is told") {
  CHECK_THAT(fault("a.b"), ContainsSubstring("does not say what is set to what"));
  CHECK_THAT(fault("=1"), ContainsSubstring("does not say what is set to what"));
  CHECK_THAT(fault("a="), ContainsSubstring("empty value"));
  CHECK_THAT(fault("a=1,"), ContainsSubstring("empty value"));
  CHECK_THAT(fault("a=1\n2"), ContainsSubstring("several lines"));
  CHECK_THAT(fault("a=\x01"), ContainsSubstring("control character"));
  CHECK_THAT(fault("a=\xFF"), ContainsSubstring("UTF-8"));
}

TEST_CASE("a shard is counted from 0 and lies within their number") {
  CHECK(answer_of(read_shard("0/1")) == Shard{0, 1});
  CHECK(answer_of(read_shard("6/7")) == Shard{6, 7});
  CHECK(shard_text({6, 7}) == "6/7");
  CHECK_THAT(shard_fault("7/7"), ContainsSubstring("here 0 to 6"));
  CHECK_THAT(shard_fault("0/0"), ContainsSubstring("no shards"));
  CHECK_THAT(shard_fault("0/1000001"), ContainsSubstring("more than 1000000"));
  for (const char* text : {"", "/", "1", "1/", "/3", "-1/3", "1/3/5", "a/b", "1.5/3", " 1/3"}) {
    INFO(text);
    CHECK_THAT(shard_fault(text), ContainsSubstring("is no shard"));
  }
}

TEST_CASE("of all combinations each is in one shard, and its values are its own") {
  const std::vector<VaryVariable> variables = {{"a", {{"1"}, {"2"}, {"3"}}}, {"b", {{"x"}, {"y"}}}};
  const std::size_t all = combinations_of(variables);
  REQUIRE(all == 6);
  CHECK(places_of_values(variables, 0) == std::vector<std::size_t>{0, 0});
  CHECK(places_of_values(variables, 1) == std::vector<std::size_t>{0, 1});  // the last is fastest
  CHECK(places_of_values(variables, 5) == std::vector<std::size_t>{2, 1});
  for (const std::size_t count : {1U, 3U, 4U, 7U, 20U}) {
    std::multiset<std::size_t> met;
    for (std::size_t i = 0; i < count; ++i) {
      const auto mine = combinations_in({i, count}, all);
      CHECK(mine.size() == share_of({i, count}, all));
      for (const std::size_t k : mine) CHECK(k % count == i);
      met.insert(mine.begin(), mine.end());
    }
    CHECK(met == std::multiset<std::size_t>{0, 1, 2, 3, 4, 5});
  }
}

TEST_CASE("more combinations than can be counted are as many as can be") {
  const VaryVariable wide{"a", std::vector<SetValue>(100000, SetValue{"1"})};
  CHECK(combinations_of({wide, wide, wide}) == 1'000'000'000'000'000U);
  CHECK(combinations_of({wide, wide, wide, wide}) == SIZE_MAX);
}

}  // namespace tubewright::set_option_test
