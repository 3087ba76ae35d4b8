// What `size` says of studies made by hand: the words, and the JSON beside them.
#include "io/changes/size_output.h"

#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/cases/changes/ring_box.h"
#include "tests/catch.h"

namespace tubewright::size_output_test {

using namespace tubewright::testing;

namespace {

SectionEntry tube(double side, double wall) {
  SectionEntry s;
  s.name = "tube";
  s.height = s.width = side / 1000;
  s.wall = wall / 1000;
  s.material = "S235";
  return s;
}

SizedDesign design(std::vector<int> choice, double mass, std::vector<Failure> excesses = {}) {
  SizedDesign d;
  d.choice = std::move(choice);
  d.mass = mass;
  d.excesses = std::move(excesses);
  return d;
}

/// Two groups of three sizes each; the best is proved.
SizeStudy proved_study() {
  SizeStudy study;
  SizedTubes rails, posts;
  rails.name = "rails";
  rails.members = {0, 1, 2};
  rails.sizes = {tube(20, 2), tube(25, 2), tube(30, 2)};
  rails.masses = {2, 3, 4};
  rails.now = tube(40, 2);
  posts.name = "posts";
  posts.members = {3};
  posts.sizes = {tube(20, 1.5), tube(20, 2)};
  posts.masses = {0.5, 0.75};
  posts.now = tube(20, 2);
  study.groups = {rails, posts};
  study.kept_mass = 11.751;
  study.now = design({-1, 1}, 17.738);
  study.best = design({1, 0}, 15.251);
  study.best->worst = WorstOfAll{"brake", "yield", "lb0-lb1", 0.97};
  study.proved = true;
  study.bound = 15.251;
  study.ties = {design({0, 1}, 15.251)};
  study.all_ties = true;
  study.next =
      design({0, 0}, 14.251,
             {{"yield", "lb0-lb1", "brake", 1.08}, {"torsional_stiffness", "frame", "", 1.02}});
  study.governs = {{false, study.next}, {true, {}}};
  study.designs = 6;
  study.rounds = 4;
  study.analysed = 5;
  return study;
}

SizeStudy open_study() {
  SizeStudy study = proved_study();
  study.proved = false;
  study.bound = 14.9;
  study.gap = (15.251 - 14.9) / 15.251;
  study.all_ties = false;
  return study;
}

SizeStudy hopeless_study(bool proved) {
  SizeStudy study = proved_study();
  study.best.reset();
  study.next.reset();
  study.ties.clear();
  study.governs.clear();
  study.proved = proved;
  study.gap = std::numeric_limits<double>::infinity();
  study.heaviest = design({2, 1}, 16.5, {{"displacement", "lb2 z", "bend", 1.3}});
  study.least_violated = design({2, 0}, 16.25, {{"displacement", "lb2 z", "bend", 1.29}});
  return study;
}

nlohmann::json json_of(const SizeStudy& study) {
  return nlohmann::json::parse(size_json(ring_box(), study, {}));
}

std::string text_of_study(const SizeStudy& study) { return size_text(ring_box(), study, Paint{}); }

}  // namespace

TEST_CASE("a proved answer says what it weighs against the file and that nothing lighter passes") {
  CHECK(size_sentence(proved_study()) ==
        "15.251 kg, 2.487 kg lighter than the file's 17.738 kg; no lighter choice exists: proved");
  CHECK(size_passes(proved_study()));
  CHECK(size_line(ring_box(), proved_study()) == size_sentence(proved_study()) + "\n");
  SizeStudy same = proved_study();
  same.now = design({1, 0}, 15.251);
  CHECK_THAT(size_sentence(same), ContainsSubstring("15.251 kg, as much as in the file;"));
  same.now = design({0, 0}, 14.251, {{"yield", "m", "c", 1.2}});
  CHECK_THAT(size_sentence(same),
             ContainsSubstring("1.000 kg heavier than the file's 14.251 kg, which does not pass;"));
}

TEST_CASE("what is not proven stands before what passes") {
  CHECK(size_sentence(open_study()) ==
        "not proven: best found 15.251 kg, 2.487 kg lighter than the file's 17.738 kg; none below "
        "14.900 kg passes (gap 2.3 %): the time was up");
  CHECK(size_passes(open_study()));
}

TEST_CASE("where nothing passes the limit is told that the heaviest sizes do not meet") {
  CHECK(size_sentence(hopeless_study(true)) ==
        "no choice of sizes passes: proved; the heaviest sizes break displacement of lb2 z in "
        "bend, 1.30");
  CHECK(size_sentence(hopeless_study(false)).starts_with("not proven: no choice that passes"));
  CHECK_FALSE(size_passes(hopeless_study(true)));
  const std::string text = text_of_study(hopeless_study(true));
  CHECK_THAT(text, ContainsSubstring("All groups in their heaviest size, 16.500 kg"));
  CHECK_THAT(text, ContainsSubstring("The choice that exceeds its limits least, 16.250 kg"));
  CHECK_THAT(text, ContainsSubstring("displacement of lb2 z in bend, 1.29"));
}

TEST_CASE("by cost the sentence is of cost, and tells the mass beside it") {
  SizeStudy study = proved_study();
  study.options.cheapest = true;
  study.best->cost = 80;
  study.now.cost = 92.5;
  study.groups[0].costs = {50, 60, 70};
  study.groups[1].costs = {20, 25};
  CHECK(size_sentence(study) ==
        "a cost of 80.00 (15.251 kg), 12.50 less than the file's 92.50; no cheaper choice exists: "
        "proved");
  CHECK_THAT(text_of_study(study), ContainsSubstring("What keeps each group from being cheaper"));
  CHECK(json_of(study).at("size").at("cost") == 80.0);
  CHECK(json_of(study).at("size").at("minimised") == "cost");
}

TEST_CASE("the text has each group, what governs it, the ties and the next lighter choice") {
  const std::string text = text_of_study(proved_study());
  CHECK(text.starts_with("test\n15.251 kg, 2.487 kg lighter"));
  CHECK_THAT(text, ContainsSubstring("\n  rails        3  40.0 x 40.0 x 2.0 S235   25.0 x 25.0 x "
                                     "2.0 S235      3.000\n"));
  CHECK_THAT(text, ContainsSubstring("rails: 20.0 x 20.0 x 2.0 S235 would break yield of lb0-lb1 "
                                     "in brake, 1.08, and 1 more"));
  CHECK_THAT(text, ContainsSubstring("posts: the lightest size of the list"));
  CHECK_THAT(text, ContainsSubstring("Others that weigh the same and pass\n  - rails 20.0 x 20.0 "
                                     "x 2.0 S235; posts 20.0 x 20.0 x 2.0 S235"));
  CHECK_THAT(text, ContainsSubstring("Next lighter choice: 14.251 kg, which breaks"));
  CHECK_THAT(text, ContainsSubstring("torsional stiffness of frame, 1.02"));
  CHECK_THAT(text, ContainsSubstring("with rails 20.0 x 20.0 x 2.0 S235\n"));
  CHECK_THAT(text,
             ContainsSubstring("6 choices; 5 analysed in 4 rounds, the others left out by bounds"));
  CHECK_THAT(text, ContainsSubstring("11.751 kg of tubes and sheets are not sized"));
  CHECK_THAT(text, ContainsSubstring("Bear in mind"));
  CHECK_THAT(text_of_study(open_study()), ContainsSubstring("4 rounds, the search not finished"));
  CHECK_THAT(text_of_study(open_study()), ContainsSubstring("; there may be more of them"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 100);
  }
}

TEST_CASE("a limit without a number, and choices beyond counting, are told in words") {
  SizeStudy study = proved_study();
  const double infinite = std::numeric_limits<double>::infinity();
  study.next->excesses = {{"sway", "frame", "brake", infinite}};
  study.designs = infinite;
  study.governs[0].lighter = design({0, 0}, 14.251, {{"no_answer", "frame", "", infinite}});
  study.without_size = {"rod", "rope"};
  const std::string text = text_of_study(study);
  CHECK_THAT(text, ContainsSubstring("would break every check: the frame has no answer"));
  CHECK_THAT(text, ContainsSubstring("the list has no size of their shape: rod, rope"));
  CHECK(json_of(study).at("size").at("without_size") == nlohmann::json({"rod", "rope"}));
  CHECK_THAT(text, ContainsSubstring("sway of frame in brake, which has no answer"));
  CHECK_THAT(text, ContainsSubstring("more choices than 10^15"));
  CHECK(json_of(study).at("size").at("designs").is_null());
}

TEST_CASE("the JSON has the answer under the keys of the contract") {
  const auto json = json_of(proved_study());
  CHECK(json.at("passes") == true);
  const auto& size = json.at("size");
  CHECK(size.at("mass") == 15.251);
  CHECK(size.at("cost").is_null());
  CHECK(size.at("proved") == true);
  CHECK(size.at("bound") == 15.251);
  CHECK(size.at("gap") == 0.0);
  CHECK(size.at("sizes").at("rails") ==
        nlohmann::json({{"shape", "square_tube"}, {"side", 25.0}, {"wall", 2.0}}));
  CHECK(size.at("sizes").at("posts").at("wall") == 1.5);
  CHECK(size.at("governs").at("posts") == "the lightest size of the list");
  REQUIRE(size.at("ties").size() == 1);
  CHECK(size.at("ties")[0].at("mass") == 15.251);
  CHECK(size.at("ties")[0].at("sizes").at("rails").at("side") == 20.0);
  CHECK(size.at("next").at("mass") == 14.251);
  CHECK(size.at("next").at("breaks").size() == 2);
  CHECK(size.at("next").at("breaks")[0] == "yield of lb0-lb1 in brake, 1.08");
  CHECK(size.at("rounds") == 4);
  CHECK(size.at("analysed") == 5);
  CHECK(size.at("designs") == 6.0);
  CHECK(size.at("mass_now") == 17.738);
  CHECK(size.at("kept_mass") == 11.751);
  CHECK(size.at("groups").at("posts") == nlohmann::json({ring_box().members[3].name}));
  CHECK_FALSE(size.contains("heaviest"));
}

TEST_CASE("without a design that passes the JSON has null for what there is not") {
  for (const bool proved : {true, false}) {
    const auto json = json_of(hopeless_study(proved));
    CHECK(json.at("passes") == false);
    const auto& size = json.at("size");
    CHECK(size.at("proved") == proved);
    CHECK(size.at("mass").is_null());
    CHECK(size.at("gap").is_null());
    CHECK(size.at("next").is_null());
    CHECK(size.at("sizes").empty());
    CHECK(size.at("heaviest").at("mass") == 16.5);
    CHECK(size.at("heaviest").at("breaks")[0] == "displacement of lb2 z in bend, 1.30");
    CHECK(size.at("least_violated").at("sizes").at("posts").at("wall") == 1.5);
  }
}

}  // namespace tubewright::size_output_test
