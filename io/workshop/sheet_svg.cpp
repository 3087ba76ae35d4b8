#include "io/workshop/sheet_svg.h"

#include <algorithm>
#include <cmath>

#include "io/text/markup.h"
#include "io/text/text_layout.h"
#include "io/text/workshop_units.h"
#include "io/workshop/sheet_output.h"

namespace tubewright {

namespace {

using Eigen::Vector2d;

/// To a thousandth, without zeros at the end.
std::string number_text(double value) {
  std::string text = fixed(value, 3);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string attribute(const char* name, double value) {
  return " " + std::string(name) + "=\"" + number_text(value) + "\"";
}

class Drawing {
 public:
  Drawing(const Frame& frame, const SheetBlank& blank)
      : b_(blank), title_(drawing_title(frame, blank)) {
    const double longest = mm_per_m * std::max(b_.width, b_.height);
    letter_ = std::clamp(0.016 * longest, 4.0, 12.0);
    left_ = 5 * letter_;
    top_ = (1.5 * static_cast<double>(title_.size()) + 2.5) * letter_;
  }

  std::string text() const {
    std::size_t most = 0;
    for (const std::string& line : title_) most = std::max(most, line.size());
    const double letters = 0.6 * letter_ * static_cast<double>(most);  // wide enough for any face
    const double width = left_ + std::max(mm_per_m * b_.width, letters) + 2 * letter_;
    const double height = top_ + mm_per_m * b_.height + 9 * letter_;
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
           "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" +
           number_text(width) + "mm\" height=\"" + number_text(height) + "mm\" viewBox=\"0 0 " +
           number_text(width) + " " + number_text(height) + "\">\n<title>" +
           escaped(title_.front()) + "</title>\n<rect width=\"100%\" height=\"100%\" " +
           "fill=\"#ffffff\"/>\n" + tubes() + outline() + rivets() + words() + "</svg>\n";
  }

 private:
  Vector2d on_paper(const Vector2d& p) const {
    return {left_ + mm_per_m * p.x(), top_ + mm_per_m * (b_.height - p.y())};
  }

  std::string path(const Polygon& polygon) const {
    std::string d;
    for (const Vector2d& corner : polygon) {
      const Vector2d p = on_paper(corner);
      d += (d.empty() ? "M" : "L") + number_text(p.x()) + " " + number_text(p.y());
    }
    return d + "Z";
  }

  std::string group(const char* name, const std::string& style, const std::string& inside) const {
    return "<g id=\"" + std::string(name) + "\" " + style + ">\n" + inside + "</g>\n";
  }

  std::string pen(double share) const { return attribute("stroke-width", share * letter_); }

  std::string line(const Vector2d& a, const Vector2d& b) const {
    return "<line" + attribute("x1", a.x()) + attribute("y1", a.y()) + attribute("x2", b.x()) +
           attribute("y2", b.y()) + "/>\n";
  }

  std::string word(const Vector2d& at, const std::string& text,
                   const std::string& more = "") const {
    return "<text" + attribute("x", at.x()) + attribute("y", at.y()) + more + ">" + escaped(text) +
           "</text>\n";
  }

  std::string outline() const {
    std::string d = path(b_.outline);
    for (const Polygon& opening : b_.openings) d += path(opening);
    return group("outline", "fill=\"none\" stroke=\"#000000\"" + pen(0.08),
                 "<path d=\"" + d + "\"/>\n");
  }

  std::string rivets() const {
    std::string circles;
    for (const Vector2d& hole : b_.holes) {
      const Vector2d p = on_paper(hole);
      circles += "<circle" + attribute("cx", p.x()) + attribute("cy", p.y()) +
                 attribute("r", mm_per_m * b_.hole_diameter / 2) + "/>\n";
    }
    return group("rivets", "fill=\"none\" stroke=\"#000000\"" + pen(0.04), circles);
  }

  std::string tubes() const {
    std::string lines;
    for (const BlankTube& t : b_.tubes) lines += line(on_paper(t.from), on_paper(t.to));
    return group("tubes",
                 "fill=\"none\" stroke=\"#777777\"" + pen(0.03) + " stroke-dasharray=\"" +
                     number_text(letter_) + " " + number_text(letter_ / 2) + "\"",
                 lines);
  }

  std::string words() const {
    std::string text;
    for (std::size_t i = 0; i < title_.size(); ++i) {
      text += word({left_, 2 * letter_ + 1.5 * letter_ * static_cast<double>(i)}, title_[i],
                   i == 0 ? " font-weight=\"bold\"" : "");
    }
    return group("text",
                 "font-family=\"sans-serif\" fill=\"#000000\"" + attribute("font-size", letter_),
                 text + nodes() + dimensions() + forward());
  }

  /// A node's name stands beside it on the sheet, off the rivets of its tubes.
  std::string nodes() const {
    double tube = 0;
    for (const BlankTube& t : b_.tubes) tube = std::max(tube, t.width);
    std::string text;
    for (const BlankNode& n : b_.nodes) {
      const Vector2d off(n.inward.x(), -n.inward.y());
      const double aside = mm_per_m * tube / 2 + 1.2 * letter_;
      const Vector2d at = on_paper(n.at) + Vector2d(off.x() < 0 ? -aside : aside,
                                                    off.y() < 0 ? -aside + letter_ / 3 : aside);
      text += word(at, n.name,
                   std::string(off.x() < 0 ? " text-anchor=\"end\"" : "") + " fill=\"#555555\"");
    }
    return text;
  }

  std::string dimensions() const {
    const Vector2d lower_left = on_paper({0, 0}), upper_right = on_paper({b_.width, b_.height});
    const double y = lower_left.y() + 2.5 * letter_, x = lower_left.x() - 2 * letter_;
    const double tick = 0.4 * letter_;
    std::string lines = line({lower_left.x(), y}, {upper_right.x(), y}) +
                        line({x, lower_left.y()}, {x, upper_right.y()});
    for (const double end : {lower_left.x(), upper_right.x()}) {
      lines += line({end, lower_left.y() + tick}, {end, y + tick});
      lines += line({end - tick, y + tick}, {end + tick, y - tick});
    }
    for (const double end : {lower_left.y(), upper_right.y()}) {
      lines += line({lower_left.x() - tick, end}, {x - tick, end});
      lines += line({x - tick, end + tick}, {x + tick, end - tick});
    }
    const Vector2d middle = (lower_left + upper_right) / 2;
    const Vector2d beside(x - 0.5 * letter_, middle.y());
    return "<g stroke=\"#000000\"" + pen(0.03) + ">\n" + lines + "</g>\n" +
           word({middle.x(), y + 1.4 * letter_}, fixed(mm_per_m * b_.width, 1),
                " text-anchor=\"middle\"") +
           word(beside, fixed(mm_per_m * b_.height, 1),
                " text-anchor=\"middle\" transform=\"rotate(-90 " + number_text(beside.x()) + " " +
                    number_text(beside.y()) + ")\"");
  }

  /// An arrow the way the vehicle drives, where that lies near enough to the sheet's plane.
  std::string forward() const {
    if (b_.forward.norm() < 0.5) return {};
    const Vector2d along = Vector2d(b_.forward.x(), -b_.forward.y()).normalized();
    const Vector2d aside(-along.y(), along.x());
    const Vector2d middle(left_ + 1.5 * letter_, on_paper({0, 0}).y() + 6.5 * letter_);
    const Vector2d tip = middle + 1.5 * letter_ * along, tail = middle - 1.5 * letter_ * along;
    const Vector2d barb = tip - 0.8 * letter_ * along;
    return "<g stroke=\"#000000\"" + pen(0.08) + ">\n" + line(tail, tip) +
           line(tip, barb + 0.4 * letter_ * aside) + line(tip, barb - 0.4 * letter_ * aside) +
           "</g>\n" + word(middle + Vector2d(2.2 * letter_, 0.35 * letter_), "forward (x)");
  }

  const SheetBlank& b_;
  std::vector<std::string> title_;
  double letter_ = 0, left_ = 0, top_ = 0;  // mm on the paper
};

}  // namespace

std::string sheet_svg(const Frame& frame, const SheetBlank& blank) {
  return Drawing(frame, blank).text();
}

}  // namespace tubewright
