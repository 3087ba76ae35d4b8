#include "io/variants/compare_page.h"

#include <vector>

#include "io/results/cautions.h"
#include "io/text/markup.h"
#include "io/text/version.h"
#include "io/variants/frame_figure.h"
#include "io/variants/frame_variants.h"

namespace tubewright {

namespace {

constexpr const char* page_style = R"(
:root { color-scheme: light dark; --paper: #fdfdfc; --ink: #1d232b; --faint: #5c6773;
  --rule: #d9dde2; --same: #9aa5b1; --other: #b4440c; --resized: #0b5fa5; --moved: #7a3fa0; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #14181d; --ink: #e6e9ed; --faint: #9aa5b1; --rule: #323a43; --same: #5c6773;
    --other: #fb923c; --resized: #6bb4ee; --moved: #cf9cf2; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1.5rem 1rem 3rem; max-width: 68rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
h1 { font-size: 1.35rem; line-height: 1.4; margin: 0 0 1rem; overflow-wrap: anywhere; }
h2 { font-size: 1.05rem; margin: 2rem 0 .5rem; }
p { margin: .25rem 0; }
.faint, figcaption { color: var(--faint); overflow-wrap: anywhere; }
.pair { display: grid; grid-template-columns: 1fr 1fr; gap: 1rem; }
figure { margin: 0; min-width: 0; }
svg.frame { width: 100%; height: auto; max-height: 24rem; }
svg.frame path, .key span { fill: none; stroke: var(--same); stroke-width: 2; stroke-linecap: round; }
svg.frame .other { stroke: var(--other); stroke-width: 5; stroke-dasharray: 9 7; }
svg.frame .resized { stroke: var(--resized); stroke-width: 5; }
svg.frame .moved { stroke: var(--moved); stroke-width: 3.5; stroke-dasharray: 2 6; }
.key { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; color: var(--faint); }
.key b { font-weight: normal; }
.key .other { color: var(--other); } .key .resized { color: var(--resized); }
.key .moved { color: var(--moved); }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: .3rem .6rem; border-bottom: 1px solid var(--rule); text-align: right;
  vertical-align: top; }
th { font-weight: 600; } th:first-child, td:first-child { text-align: left; padding-left: 0; }
li { overflow-wrap: anywhere; }
@media (max-width: 34rem) { .pair { grid-template-columns: 1fr; } th, td { padding: .3rem .25rem; } }
@media print { :root { color-scheme: light; --paper: #fff; --ink: #000; --faint: #444; --rule: #999;
    --same: #888; --other: #b4440c; --resized: #0b5fa5; --moved: #7a3fa0; }
  body { max-width: none; padding: 0; font-size: .85rem; } figure, tr { break-inside: avoid; } }
)";

std::string element(const std::string& name, const std::string& text) {
  return "<" + name + ">" + escaped(text) + "</" + name + ">";
}

std::string table_of_rows(const std::vector<ComparedRow>& rows, const std::string& heading) {
  std::string html = "<div class=\"scroll\"><table>\n<thead><tr>" + element("th", heading) +
                     "<th>A</th><th>B</th><th>B &minus; A</th></tr></thead>\n<tbody>\n";
  for (const ComparedRow& row : rows) {
    html += "<tr>" + element("td", row.what) + element("td", row.value[0]) +
            element("td", row.value[1]) + element("td", row.difference) + "</tr>\n";
  }
  return html + "</tbody></table></div>\n";
}

std::string items(const std::vector<std::string>& lines) {
  std::string html = "<ul>\n";
  for (const std::string& line : lines) html += element("li", line) + "\n";
  return html + "</ul>\n";
}

std::string figures_part(const Comparison& c) {
  constexpr Pair<const char*> letters = {"A", "B"};
  const Pair<std::string> figures = frame_figures(c);
  std::string html = "<div class=\"pair\">\n";
  for (const std::size_t i : {0U, 1U}) {
    html += "<figure>\n" + figures[i] + "<figcaption><b>" + letters[i] + "</b> " +
            escaped(c.files[i] + ": " + c.frames[i].title);
    const FrameSide& side = c.result.sides[i];
    if (!side.numbers) html += "<br>no answer: " + escaped(reason_of(side.trouble));
    html += "</figcaption>\n</figure>\n";
  }
  return html +
         "</div>\n<p class=\"key\"><b class=\"other\">- - in this frame only</b>"
         "<b class=\"resized\">&mdash; another size</b><b class=\"moved\">&middot;&middot;&middot; "
         "moved</b><b>&mdash; unchanged</b></p>\n";
}

}  // namespace

std::string compare_page(const Comparison& c) {
  const std::vector<std::string> changes = change_lines(c);
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
      "style-src 'unsafe-inline'; img-src data:\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<link rel=\"icon\" href=\"data:,\">\n" +
      element("title", c.frames[0].title + " beside " + c.frames[1].title) + "\n<style>" +
      page_style + "</style>\n</head>\n<body>\n<main>\n" +
      element("h1", compare_sentence(c) + ".") + "\n" + figures_part(c) + "<h2>In numbers</h2>\n" +
      table_of_rows(compared_numbers(c), "") + "<h2>From A to B</h2>\n" +
      (changes.empty()
           ? element("p", "No tube, node, sheet or mass was added, removed, resized or moved.") +
                 "\n"
           : items(changes));
  if (!c.result.cases.empty()) {
    html += "<h2>Used at most, case by case</h2>\n" + table_of_rows(compared_cases(c), "case");
  }
  if (!c.result.bars.empty()) {
    html += "<h2>Bars to buy</h2>\n" + table_of_rows(compared_bars(c), "size");
  }
  return html + "<h2>Bear in mind</h2>\n" + items(cautions()) + "<p class=\"faint\">tubewright " +
         version() + "</p>\n</main>\n</body>\n</html>\n";
}

}  // namespace tubewright
