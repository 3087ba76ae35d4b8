#include "io/variants/compare_page.h"

#include "tests/catch.h"
#include "tests/io/variants/hand_made_comparison.h"

namespace tubewright::compare_page_test {

using namespace tubewright::testing;

TEST_CASE("the page begins with the sentence, then both figures, numbers and changes") {
  const Comparison c = hand_made_comparison();
  const std::string page = compare_page(c);
  std::size_t at = 0;
  for (const std::string& part :
       {"<h1>" + compare_sentence(c) + ".</h1>", std::string("<svg class=\"frame\""),
        std::string("before.yaml: Rack"), std::string("<svg class=\"frame\""),
        std::string("<td>torsion, N m/deg</td><td>400.0</td><td>432.0</td><td>+32.0</td>"),
        std::string("added, tube: AC"), std::string("<td>turn</td>"),
        std::string("<td>25.0 x 25.0 x 1.5 S235</td>"), std::string("Bear in mind")}) {
    INFO(part);
    at = page.find(part, at);
    REQUIRE(at != std::string::npos);
  }
}

TEST_CASE("texts of the user stay text, and nothing on the page runs or is fetched") {
  const std::string page = compare_page(hand_made_comparison());
  CHECK_THAT(page, ContainsSubstring("after.yaml: Rack &lt;b&gt; &amp; co"));
  CHECK_THAT(page, !ContainsSubstring("Rack <b>"));
  for (const char* part : {"<script", "http:", "https:", "src=", "@import", "url("}) {
    CHECK_THAT(page, !ContainsSubstring(part));
  }
  CHECK_THAT(page, ContainsSubstring("default-src 'none'"));
}

TEST_CASE("a frame without answer says so below its figure") {
  Comparison c = hand_made_comparison();
  c.result.sides[1].numbers.reset();
  c.result.sides[1].trouble = {{"node `A` can <slide>", ""}};
  CHECK_THAT(compare_page(c), ContainsSubstring("<br>no answer: node `A` can &lt;slide&gt;"));
}

TEST_CASE("frames alike have no changes on the page") {
  Comparison c = hand_made_comparison();
  c.frames[1] = c.frames[0];
  c.result.changes = frame_changes(c.frames[0], c.frames[1]);
  CHECK_THAT(
      compare_page(c),
      ContainsSubstring("No tube, node, sheet or mass was added, removed, resized or moved."));
}

}  // namespace tubewright::compare_page_test
