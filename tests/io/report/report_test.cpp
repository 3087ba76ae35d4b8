// report.html as text; tests/program/report_test.py opens it in a browser.
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "io/report/report_data.h"
#include "io/report/report_page.h"
#include "io/results/sources.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_test {

namespace {

/// The hand-made frame where the report needs sections and materials too.
FrameStudies reportable() {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  SectionEntry tube;
  tube.name = "tube";
  tube.height = tube.width = 0.025;
  tube.wall = 0.002;
  tube.material = "S235";
  analysis.frame.sections.push_back(tube);
  for (Member& m : analysis.frame.members) {
    if (m.kind != MemberKind::spring) m.section = "tube";
  }
  return studies;
}

nlohmann::ordered_json data_of(const FrameStudies& studies, const std::string& text) {
  const FrameText file{"somewhere/quad.yaml", text};
  return report_data({studies, {}, file, "2026-01-31"});
}

size_t count(const std::string& text, const std::string& part) {
  size_t n = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("the report's data hold every case, and the file's name without its folder") {
  const FrameStudies studies = reportable();
  const Analysis& analysis = studies.analysis;
  const auto data = data_of(studies, "frame: x\n");
  CHECK(data["schema"] == "tubewright-report/1");
  CHECK(data["input"]["name"] == "quad.yaml");
  CHECK(data["cases"].size() == analysis.cases.size());
  for (const auto& c : data["cases"]) {
    CHECK(c["members"].size() == analysis.frame.members.size());
    CHECK(c["nodes"].size() == analysis.frame.nodes.size());
    for (const auto& m : c["members"]) {
      REQUIRE(m["used"].size() == data["checks"].size());
      for (size_t k = 0; k < m["used"].size(); ++k) {
        if (!m["why"][k].is_null()) CHECK(m["why"][k].get<size_t>() < data["reasons"].size());
      }
    }
  }
}

TEST_CASE("numbers have five significant digits") {
  FrameStudies studies = reportable();
  Analysis& analysis = studies.analysis;
  analysis.mass.total = 123.456789;
  CHECK(data_of(studies, "")["mass"]["total"] == 123.46);
}

TEST_CASE("what the user wrote can neither end a script nor start one, nor fill a placeholder") {
  FrameStudies studies = reportable();
  Analysis& analysis = studies.analysis;
  const std::string ill = "</script><script>x()</script><!-- %%STYLE%% & \xE2\x80\xA8";
  analysis.frame.title = ill;
  const std::string page = report_page(data_of(studies, ill), analysis.frame, ill);
  const std::string calm = report_page(data_of(reportable(), ""), analysis.frame, "");
  for (const char* part : {"<script", "</script>", "<!--"})
    CHECK(count(page, part) == count(calm, part));
  CHECK(count(page, "%%STYLE%%") > 0);      // as text, where the user wrote it
  CHECK(count(page, "\xE2\x80\xA8") == 4);  // titles and pre: harmless there; none in the data
}

TEST_CASE("the same data make the same page, without placeholders of its own") {
  const FrameStudies studies = reportable();
  const Analysis& analysis = studies.analysis;
  const std::string page = report_page(data_of(studies, "a"), analysis.frame, "b");
  CHECK(page == report_page(data_of(studies, "a"), analysis.frame, "b"));
  for (const char* name :
       {"%%TITLE%%", "%%STYLE%%", "%%VIEW3D%%", "%%SCRIPT%%", "%%DATA%%", "%%STATIC%%"}) {
    CHECK(count(page, name) == 0);
  }
  CHECK(count(page, "http://") + count(page, "https://") == count(page, "http://www.w3.org/"));
}

TEST_CASE("the rules that reports name are those of the chapter on checks") {
  std::ifstream stream(TUBEWRIGHT_SOURCE_DIR "/cases/checks/README.md");
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  for (const char* markup : {"`", "*"}) {
    for (size_t at; (at = text.find(markup)) != std::string::npos;) text.erase(at, 1);
  }
  for (const RuleSource& r : rule_sources()) {
    INFO(r.subject);
    CHECK_THAT(text,
               ContainsSubstring("| " + r.subject + " | " + r.rule + " | " + r.source + " |"));
  }
}

}  // namespace tubewright::report_test
