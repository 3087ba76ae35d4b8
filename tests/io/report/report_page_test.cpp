// report.html as text; tests/program/report_test.py opens it in a browser.
#include "io/report/report_page.h"

#include <nlohmann/json.hpp>

#include "io/report/report_data.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_page_test {

namespace {

nlohmann::ordered_json data_of(const FrameStudies& studies, const std::string& text) {
  const FrameText file{"somewhere/quad.yaml", text};
  return report_data({studies, {}, file, "2026-01-31"});
}

size_t count(const std::string& text, const std::string& part) {
  size_t n = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

/// What stands between two marks, the first of its kind.
std::string between(const std::string& text, const std::string& open, const std::string& close) {
  const size_t start = text.find(open);
  REQUIRE(start != std::string::npos);
  const size_t from = start + open.size();
  return text.substr(from, text.find(close, from) - from);
}

}  // namespace

TEST_CASE("what the user wrote can neither end a script nor start one, nor fill a placeholder") {
  FrameStudies studies = reportable_studies();
  Analysis& analysis = studies.analysis;
  const std::string ill = "</script><script>x()</script><!-- %%STYLE%% & \xE2\x80\xA8";
  analysis.frame.title = ill;
  const std::string page = report_page(data_of(studies, ill), analysis.frame, ill);
  const std::string calm = report_page(data_of(reportable_studies(), ""), analysis.frame, "");
  for (const char* part : {"<script", "</script>", "<!--"})
    CHECK(count(page, part) == count(calm, part));
  CHECK(count(page, "%%STYLE%%") > 0);      // as text, where the user wrote it
  CHECK(count(page, "\xE2\x80\xA8") == 4);  // titles and pre: harmless there; none in the data
}

TEST_CASE("the same data make the same page, without placeholders of its own") {
  const FrameStudies studies = reportable_studies();
  const Analysis& analysis = studies.analysis;
  const std::string page = report_page(data_of(studies, "a"), analysis.frame, "b");
  CHECK(page == report_page(data_of(studies, "a"), analysis.frame, "b"));
  for (const char* name :
       {"%%TITLE%%", "%%STYLE%%", "%%VIEW3D%%", "%%SCRIPT%%", "%%DATA%%", "%%STATIC%%"}) {
    CHECK(count(page, name) == 0);
  }
  CHECK(count(page, "http://") + count(page, "https://") == count(page, "http://www.w3.org/"));
}

TEST_CASE("the data in the page read back as they were put in, whatever the user wrote") {
  FrameStudies studies = reportable_studies();
  studies.analysis.frame.title = "a </script> <b> & \"c\" \\ \xE2\x80\xA8\xE2\x80\xA9 \xC3\xA4";
  const auto data = data_of(studies, "frame: <x>\n");
  const std::string page = report_page(data, studies.analysis.frame, "");
  const std::string json = between(page, "id=\"report-data\">", "</script>");
  CHECK(nlohmann::ordered_json::parse(json) == data);
  for (const char* part : {"<", ">", "&", "\xE2\x80\xA8", "\xE2\x80\xA9"}) {
    CHECK(count(json, part) == 0);
  }
}

TEST_CASE("a reader without scripts gets title, verdict, summary and input as text") {
  FrameStudies studies = reportable_studies();
  studies.analysis.frame.title = "Quad <1>";
  const auto page_of = [&] {
    return report_page(data_of(studies, "key: a < b\n"), studies.analysis.frame, "summary & more");
  };
  std::string page = page_of();
  CHECK_THAT(page, ContainsSubstring("<h1>Quad &lt;1&gt;</h1>"));
  CHECK_THAT(page, ContainsSubstring("<strong>FAIL.</strong> "));  // case bump: 1.24
  CHECK_THAT(page, ContainsSubstring("<pre>summary &amp; more</pre>"));
  CHECK_THAT(page, ContainsSubstring("<h2>Input: quad.yaml</h2><pre>key: a &lt; b\n</pre>"));
  CHECK_THAT(page, ContainsSubstring("2026-01-31"));
  CHECK_THAT(page, ContainsSubstring("<title>Quad &lt;1&gt;: frame check</title>"));
  studies.verdict = passing_studies().verdict;
  CHECK_THAT(page_of(), ContainsSubstring("<strong>PASS.</strong> "));
  studies.verdict.answer = Verdict::Answer::not_proven;
  CHECK_THAT(page_of(), ContainsSubstring("<strong>NOT PROVEN.</strong> "));
}

TEST_CASE("the figure draws every member from node to node inside its frame") {
  const FrameStudies studies = reportable_studies();
  const std::string page = report_page(data_of(studies, ""), studies.analysis.frame, "");
  const std::string path = between(page, "<path d=\"", "\"");
  CHECK(count(path, "M") == studies.analysis.frame.members.size());
  CHECK(count(path, "L") == studies.analysis.frame.members.size());
  // Seen from 24 degrees above, the post B C of 500 mm is 500 cos 24 = 457 mm high and upright.
  double bx = 0, by = 0, cx = 0, cy = 0;
  const std::string post = path.substr(path.find('M', 1));
  REQUIRE(std::sscanf(post.c_str(), "M%lf %lfL%lf %lf", &bx, &by, &cx, &cy) == 4);
  CHECK_THAT(bx, WithinAbs(cx, 1.0));
  CHECK_THAT(by - cy, WithinAbs(457.0, 1.0));
}

}  // namespace tubewright::report_page_test
