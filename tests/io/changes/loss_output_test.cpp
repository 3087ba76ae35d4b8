#include "io/changes/loss_output.h"

#include <nlohmann/json.hpp>

#include "tests/cases/changes/ring_box.h"
#include "tests/catch.h"

namespace tubewright::loss_output_tests {

using namespace tubewright::testing;

TEST_CASE("break as JSON has each tube and each weld by name, with every case") {
  const Frame f = ring_box();
  const LossStudy study = answer_of(loss_study(f));
  const auto json = nlohmann::json::parse(loss_json(f, study, {}));
  const auto& answer = json.at("break");
  CHECK(answer.at("tubes").size() == 20);
  CHECK(answer.at("ends").size() == 40);
  const auto& tube = answer.at("tubes").at("lb0-lb1");
  CHECK(tube.at("mechanism") == false);
  CHECK(tube.at("redundancy").get<double>() > 0);
  CHECK(tube.at("stiffness").is_null());  // no torsion test
  CHECK(tube.at("cases").at("tors").at("utilisation").get<double>() > 0);
  CHECK(tube.at("cases").at("tors").at("item").is_string());
  CHECK(answer.at("ends").contains("lb0-lb1 at lb0"));
  CHECK(std::abs(answer.at("redundancy_sum").get<double>() - 60) < 1e-6);
  CHECK(json.at("passes") == losses_pass(study));
}

TEST_CASE("the sentence counts what must hold, or says that nothing must") {
  Frame f = ring_box();
  for (Case& c : f.cases) {
    for (NodeAction& force : c.forces) force.value *= 0.01;
  }
  const LossStudy light = answer_of(loss_study(f));
  CHECK(loss_sentence(light) ==
        "the frame bears the loss of any one of its 40 welds and 20 tubes at a safety factor of 1");
  CHECK(losses_pass(light));
  f = ring_box();
  for (NodeAction& force : f.cases[0].forces) force.value *= 3;
  const LossStudy heavy = answer_of(loss_study(f));
  CHECK(loss_sentence(heavy).find(" of 40 welds and ") != std::string::npos);
  CHECK(loss_sentence(heavy).find("must hold: without any one of them") != std::string::npos);
}

TEST_CASE("the text lists what to inspect, the redundancy, and what was not looked at") {
  Frame f = ring_box();
  for (NodeAction& force : f.cases[0].forces) force.value *= 1.6;
  const std::string text = loss_text(f, answer_of(loss_study(f)), Paint{});
  for (const char* words : {"Welds that must hold", "Tubes that must not be lost",
                            "indeterminate to the degree 60", "Not looked at"}) {
    CHECK(text.find(words) != std::string::npos);
  }
}

}  // namespace tubewright::loss_output_tests
