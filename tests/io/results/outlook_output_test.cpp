// Fatigue and changes as text and as JSON, from a screening filled in by hand.
#include "io/results/outlook_output.h"

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::outlook_output_test {

using nlohmann::json;

namespace {

MemberFatigue used(double utilisation, int end, double range, double damage, double cycles) {
  MemberFatigue m;
  m.end = end;
  m.ranges = {range, 0};
  m.damage = damage;
  m.cycles = cycles;
  m.result.utilisation = utilisation;
  return m;
}

FrameStudies tired() {
  FrameStudies s = hand_made_studies();
  FatigueScreening f;
  f.category = 36e6;
  f.gamma_Mf = 1.35;
  f.source = "as usual";
  f.blocks = {{"1 g up and down", 200000}, {"bump from standing", 6666}};
  f.members = {used(0.5, 0, 20e6, 0.125, 2.5e6), used(1.25, 1, 81.26e6, 1.95, 93312),
               MemberFatigue{}, MemberFatigue{}};
  f.members[2].result.reason = "a spring has no section";
  f.members[3].result.reason = "a cable has no weld";
  s.fatigue = f;
  return s;
}

size_t widest(const std::string& text) {
  std::istringstream lines(text);
  size_t width = 0;
  for (std::string line; std::getline(lines, line);) width = std::max(width, line.size());
  return width;
}

}  // namespace

TEST_CASE("fatigue lists the ends that are used most, with range, life and Miner's sum") {
  FrameStudies s = tired();
  const std::string text = fatigue_lines(s, {});
  CHECK_THAT(text, ContainsSubstring("category 36 MPa, gamma_Mf 1.35, does not count"));
  CHECK_THAT(text, ContainsSubstring("200000 times 1 g up and down; 6666 times bump"));
  CHECK_THAT(text,
             ContainsSubstring("1.25  post at C; 81.3 MPa, 93312 cycles; Miner's sum 1.95\n"));
  CHECK_THAT(text, ContainsSubstring(
                       "0.50  sill_1 at A; 20.0 MPa, 2.5 million cycles; Miner's sum 0.125\n"));
  CHECK(text.find("post") < text.find("sill_1"));
  CHECK(widest(text) <= 100);
  s.fatigue->members[1].category = 14.1e6;
  CHECK_THAT(fatigue_lines(s, {}), ContainsSubstring("81.3 MPa in category 14, 93312 cycles"));
  s.fatigue->counts = true;
  s.fatigue->members[0].cycles = std::numeric_limits<double>::infinity();
  CHECK_THAT(fatigue_lines(s, {}), ContainsSubstring(", counts in the verdict"));
  CHECK_THAT(fatigue_lines(s, {}), ContainsSubstring("no end of cycles"));
  s.fatigue->members.assign(4, MemberFatigue{});
  CHECK_THAT(fatigue_lines(s, {}), ContainsSubstring("no member could be checked"));
}

TEST_CASE("without screening and without changes nothing is said") {
  const FrameStudies s = hand_made_studies();
  CHECK(fatigue_lines(s, {}).empty());
  CHECK(what_if_lines(s, {}).empty());
  JsonLines out;
  write_fatigue(out, s);
  write_what_ifs(out, s);
  CHECK(json::parse(out.finish()) == json::object());
}

TEST_CASE("fatigue in JSON tells every member, in MPa, or the reason why not") {
  JsonLines out;
  write_fatigue(out, tired());
  const json f = json::parse(out.finish()).at("fatigue");
  CHECK(f.at("category") == 36.0);
  CHECK(f.at("gamma_Mf") == 1.35);
  CHECK(f.at("counts") == false);
  CHECK(f.at("spectrum") == json({{{"what", "1 g up and down"}, {"cycles", 200000.0}},
                                  {{"what", "bump from standing"}, {"cycles", 6666.0}}}));
  CHECK(f.at("members").at("sill_1").at("category") == 0.0);
  const json post = f.at("members").at("post");
  CHECK(post.at("utilisation") == 1.25);
  CHECK(post.at("end") == "to");
  CHECK_THAT(post.at("ranges").at(0).get<double>(), WithinRel(81.26, 1e-12));
  CHECK(post.at("damage") == 1.95);
  CHECK(post.at("cycles") == 93312.0);
  CHECK(f.at("members").at("sill_1").at("end") == "from");
  CHECK(f.at("members").at("coil") ==
        json({{"utilisation", nullptr}, {"reason", "a spring has no section"}}));
  CHECK(f.at("members").size() == 4);
}

TEST_CASE("changes stand in their order with the item that is worst in each") {
  FrameStudies s = hand_made_studies();
  s.what_ifs = {{"as drawn", WorstOfAll{"bump", "yield", "sill_1", 1.24}},
                {"walls 10 % thinner", WorstOfAll{"brake", "rivet_shear", "floor", 1.4}},
                {"soft joints", std::nullopt}};
  CHECK(what_if_lines(s, {}) ==
        "If it comes out otherwise than drawn\n"
        "    1.24  as drawn            yield of sill_1 in bump\n"
        "    1.40  walls 10 % thinner  rivet shear of floor in brake\n"
        "       -  soft joints         no answer\n"
        "\n");
  JsonLines out;
  write_what_ifs(out, s);
  const json list = json::parse(out.finish()).at("uncertainty");
  CHECK(list.size() == 3);
  CHECK(list.at(1).at("item") == "floor");
}

}  // namespace tubewright::outlook_output_test
