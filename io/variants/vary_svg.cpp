#include "io/variants/vary_svg.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "io/text/markup.h"
#include "io/text/svg_plot.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

constexpr double width = 900, height = 600;  // pixels
constexpr double left_edge = 90, right_edge = 700, top_edge = 70, bottom_edge = 530;

constexpr const char* style = R"(:root { --low: #9cc4e4; --middle: #3d86bd; --high: #0b3f66;
  --fail: #c2410c; }
@media (prefers-color-scheme: dark) { :root { --low: #2f6690; --middle: #5ea7db; --high: #c5e4fa;
  --fail: #fb923c; } }
.low { fill: var(--low); } .middle { fill: var(--middle); }
.high { fill: var(--high); } .fail { fill: var(--fail); }
.doubt { fill: none; stroke: var(--middle); stroke-width: 2; }
.front { fill: none; stroke: var(--ink); stroke-width: 1.5; }
)";

/// The form of a point says the verdict, its colour the utilisation.
std::string kind_of(const VaryRow& row) {
  if (row.verdict == "fail") return "fail";
  if (row.verdict == "not_proven") return "doubt";
  const double used = row.utilisation.value_or(0);
  constexpr double third = 1.0 / 3;
  return used < third ? "low" : used < 2 * third ? "middle" : "high";
}

std::string shape(const std::string& kind, double x, double y, const std::string& title) {
  const std::string inside = "<title>" + escaped(title) + "</title>";
  constexpr double r = 6;
  if (kind == "fail") {
    return "<path class=\"fail\" d=\"M" + fixed(x, 1) + " " + fixed(y - r, 1) + "L" +
           fixed(x + r, 1) + " " + fixed(y + r, 1) + "L" + fixed(x - r, 1) + " " + fixed(y + r, 1) +
           "Z\">" + inside + "</path>\n";
  }
  return "<circle class=\"" + kind + "\"" + svg_attribute("cx", x) + svg_attribute("cy", y) +
         svg_attribute("r", kind == "doubt" ? r - 1 : r) + ">" + inside + "</circle>\n";
}

class Plot {
 public:
  explicit Plot(const VaryTable& table) : table_(table) {
    by_stiffness_ = std::any_of(table.rows.begin(), table.rows.end(),
                                [](const VaryRow& r) { return r.stiffness.has_value(); });
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (table.rows[i].mass && upright(table.rows[i])) drawn_.push_back(i);
    }
  }

  std::string text() const {
    const std::string title = one_line(table_.title, 80);
    std::string svg = svg_start(width, height, left_edge, title, title, style);
    if (drawn_.empty()) {
      return svg + svg_word(left_edge, top_edge, "no combination has an answer") + "</svg>\n";
    }
    svg += svg_word(
        left_edge, 52,
        by_stiffness_ ? "torsional stiffness, N m/deg" : "worst utilisation, 1 at the limit",
        " class=\"faint\"");
    double least_x = INFINITY, most_x = -INFINITY, least_y = INFINITY, most_y = -INFINITY;
    for (const std::size_t i : drawn_) {
      const VaryRow& row = table_.rows[i];
      least_x = std::min(least_x, *row.mass);
      most_x = std::max(most_x, *row.mass);
      least_y = std::min(least_y, *upright(row));
      most_y = std::max(most_y, *upright(row));
    }
    const PlotAxis x(least_x, most_x, left_edge, right_edge);
    const PlotAxis y(least_y, most_y, bottom_edge, top_edge);
    return svg + axes(x, y) + points(x, y) + legend() + "</svg>\n";
  }

 private:
  const std::optional<double>& upright(const VaryRow& row) const {
    return by_stiffness_ ? row.stiffness : row.utilisation;
  }

  static std::string line(double x1, double y1, double x2, double y2) {
    return "<line class=\"grid\"" + svg_attribute("x1", x1) + svg_attribute("y1", y1) +
           svg_attribute("x2", x2) + svg_attribute("y2", y2) + "/>\n";
  }

  static std::string axes(const PlotAxis& x, const PlotAxis& y) {
    std::string svg;
    for (const double mark : x.marks()) {
      svg += line(x.at(mark), top_edge, x.at(mark), bottom_edge) +
             svg_word(x.at(mark), bottom_edge + 22, fixed(mark, x.decimals()),
                      " class=\"faint\" text-anchor=\"middle\"");
    }
    for (const double mark : y.marks()) {
      svg += line(left_edge, y.at(mark), right_edge, y.at(mark)) +
             svg_word(left_edge - 10, y.at(mark) + 5, fixed(mark, y.decimals()),
                      " class=\"faint\" text-anchor=\"end\"");
    }
    return svg + svg_word((left_edge + right_edge) / 2, bottom_edge + 48,
                          "mass of tubes and panels, kg",
                          " class=\"faint\" text-anchor=\"middle\"");
  }

  std::string title_of(const VaryRow& row) const {
    std::string text = "number " + std::to_string(row.combination) + ": " +
                       setting_text(table_, row.combination) + "; " + fixed(*row.mass, 2) + " kg";
    if (row.stiffness) text += ", " + three_digits(*row.stiffness) + " N m/deg";
    if (row.utilisation) {
      text += ", worst " + utilisation_text(*row.utilisation) + ", " + in_words(row.check) +
              " of " + row.item + " in " + row.load_case;
    }
    return text + "; " + in_words(row.verdict);
  }

  /// Where many fall on one spot the first is drawn; those of the front lie on top.
  std::string points(const PlotAxis& x, const PlotAxis& y) const {
    std::set<std::tuple<long, long, std::string>> taken;
    std::vector<std::pair<double, double>> front;
    std::string below, above;
    for (const std::size_t i : drawn_) {
      const VaryRow& row = table_.rows[i];
      const double px = x.at(*row.mass), py = y.at(*upright(row));
      const std::string kind = kind_of(row);
      const bool is_new = taken.insert({std::lround(px), std::lround(py), kind}).second;
      if (table_.front[i]) {
        front.emplace_back(px, py);
        above += shape(kind, px, py, title_of(row)) + "<circle class=\"front\"" +
                 svg_attribute("cx", px) + svg_attribute("cy", py) + " r=\"10\"/>\n";
      } else if (is_new) {
        below += shape(kind, px, py, title_of(row));
      }
    }
    return below + above + numbers(x, y, front);
  }

  /// Above the points of the front, where neither points nor other numbers are in the way.
  std::string numbers(const PlotAxis& x, const PlotAxis& y,
                      std::vector<std::pair<double, double>> taken) const {
    constexpr double across = 20, high = 16, above = 21;  // pixels
    constexpr int most = 100;
    std::string text;
    int written = 0;
    for (const std::size_t i : drawn_) {
      if (!table_.front[i] || written == most) continue;
      const double px = x.at(*table_.rows[i].mass), py = y.at(*upright(table_.rows[i])) - above;
      if (std::any_of(taken.begin(), taken.end(), [&](const auto& t) {
            return std::abs(t.first - px) < across && std::abs(t.second - py) < high;
          })) {
        continue;
      }
      taken.emplace_back(px, py);
      ++written;
      text += svg_word(px, py + 6, std::to_string(table_.rows[i].combination),
                       " text-anchor=\"middle\"");
    }
    return text;
  }

  static std::string legend() {
    const double x = right_edge + 40;
    double y = top_edge + 10;
    std::string svg;
    const auto entry = [&](const std::string& drawn, const std::string& text) {
      svg += drawn + svg_word(x + 20, y + 5, text);
      y += 26;
    };
    svg += svg_word(x - 8, y, "used of the limits", " class=\"faint\"");
    y += 26;
    entry(shape("low", x, y, "passes"), "passes, below 0.33");
    entry(shape("middle", x, y, "passes"), "0.33 to 0.67");
    entry(shape("high", x, y, "passes"), "above 0.67");
    entry(shape("doubt", x, y, "not proven"), "not proven");
    entry(shape("fail", x, y, "fails"), "fails");
    entry("<circle class=\"front\"" + svg_attribute("cx", x) + svg_attribute("cy", y) +
              " r=\"10\"/>\n",
          "Pareto front, its");
    svg += svg_word(x + 20, y - 3, "number above it");
    return svg;
  }

  const VaryTable& table_;
  bool by_stiffness_ = false;
  std::vector<std::size_t> drawn_;
};

}  // namespace

std::string vary_svg(const VaryTable& table) { return Plot(table).text(); }

}  // namespace tubewright
