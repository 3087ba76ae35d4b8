#include "io/workshop/sheet_dxf.h"

#include <algorithm>
#include <cstdio>

#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"
#include "io/workshop/sheet_output.h"

namespace tubewright {

namespace {

using Eigen::Vector2d;

/// Letters beyond ASCII as \U+XXXX, as programs write them into this release; those beyond the
/// first plane, and broken ones, as `?`.
std::string plain(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    if (c.length == 1) {
      out += c.code < 0x20 ? ' ' : text[i];
    } else if (c.length == 0 || c.code > 0xFFFF) {
      out += '?';
    } else {
      char escape[16];
      std::snprintf(escape, sizeof escape, "\\U+%04X", static_cast<unsigned>(c.code));
      out += escape;
    }
    i += std::max<std::size_t>(c.length, 1);
  }
  return out;
}

class Dxf {
 public:
  /// A group code and its value, a line each.
  void put(int code, const std::string& value) {
    text_ += right(std::to_string(code), 3) + "\r\n" + value + "\r\n";
  }
  void put(int code, int value) { put(code, std::to_string(value)); }
  void point(int code, const Vector2d& p) {
    put(code, fixed(mm_per_m * p.x(), 4));
    put(code + 10, fixed(mm_per_m * p.y(), 4));
  }
  void flat_point(int code, const Vector2d& p) {
    point(code, p);
    put(code + 20, "0.0");
  }

  void variable(const char* name, const Vector2d& p) {
    put(9, name);
    flat_point(10, p);
  }

  void layer(const char* name, int colour, const char* line_type) {
    put(0, "LAYER");
    put(2, name);
    put(70, 0);
    put(62, colour);
    put(6, line_type);
  }

  void line_type(const char* name, const char* looks, const std::vector<double>& dashes) {
    put(0, "LTYPE");
    put(2, name);
    put(70, 0);
    put(3, looks);
    put(72, 65);
    put(73, static_cast<int>(dashes.size()));
    double sum = 0;
    for (const double d : dashes) sum += d < 0 ? -d : d;
    put(40, fixed(sum, 1));
    for (const double d : dashes) put(49, fixed(d, 1));
  }

  void polygon(const Polygon& polygon) {
    put(0, "POLYLINE");
    put(8, "OUTLINE");
    put(66, 1);
    flat_point(10, Vector2d::Zero());
    put(70, 1);
    for (const Vector2d& p : polygon) {
      put(0, "VERTEX");
      put(8, "OUTLINE");
      flat_point(10, p);
    }
    put(0, "SEQEND");
    put(8, "OUTLINE");
  }

  void line(const char* layer, const Vector2d& a, const Vector2d& b) {
    put(0, "LINE");
    put(8, layer);
    flat_point(10, a);
    flat_point(11, b);
  }

  void circle(const Vector2d& at, double diameter) {
    put(0, "CIRCLE");
    put(8, "RIVETS");
    flat_point(10, at);
    put(40, fixed(mm_per_m * diameter / 2, 4));
  }

  void words(const Vector2d& at, double height, const std::string& text, double turned = 0) {
    put(0, "TEXT");
    put(8, "TEXT");
    flat_point(10, at);
    put(40, fixed(mm_per_m * height, 2));
    put(1, plain(text));
    if (turned != 0) put(50, fixed(turned, 1));
  }

  std::string finish() {
    put(0, "EOF");
    return std::move(text_);
  }

 private:
  std::string text_;
};

void begin(Dxf& dxf, const char* section) {
  dxf.put(0, "SECTION");
  dxf.put(2, section);
}

void begin_table(Dxf& dxf, const char* name, int entries) {
  dxf.put(0, "TABLE");
  dxf.put(2, name);
  dxf.put(70, entries);
}

/// Height of letters: a share of the sheet, but neither too small nor too large to read.
double letter_height(const SheetBlank& b) {
  return std::clamp(0.016 * std::max(b.width, b.height), 0.004, 0.012);
}

/// The release, and how far the drawing reaches with its words.
void put_header(Dxf& dxf, const SheetBlank& b) {
  const double letter = letter_height(b);
  begin(dxf, "HEADER");
  dxf.put(9, "$ACADVER");
  dxf.put(1, "AC1009");
  dxf.variable("$EXTMIN", {-4 * letter, -4 * letter});
  dxf.variable("$EXTMAX", {b.width, b.height + 6 * letter});
  dxf.put(0, "ENDSEC");
}

void put_tables(Dxf& dxf) {
  begin(dxf, "TABLES");
  begin_table(dxf, "LTYPE", 2);
  dxf.line_type("CONTINUOUS", "Solid line", {});
  dxf.line_type("DASHED", "__ __ __ __", {12, -6});
  dxf.put(0, "ENDTAB");
  begin_table(dxf, "LAYER", 4);
  dxf.layer("OUTLINE", 7, "CONTINUOUS");  // colours of the index: 7 black or white, 1 red,
  dxf.layer("RIVETS", 1, "CONTINUOUS");   // 8 grey, 3 green
  dxf.layer("TUBES", 8, "DASHED");
  dxf.layer("TEXT", 3, "CONTINUOUS");
  dxf.put(0, "ENDTAB");
  dxf.put(0, "ENDSEC");
}

/// What is cut and drilled, and the tubes behind it.
void put_lines(Dxf& dxf, const SheetBlank& b) {
  dxf.polygon(b.outline);
  for (const Polygon& opening : b.openings) dxf.polygon(opening);
  for (const Vector2d& hole : b.holes) dxf.circle(hole, b.hole_diameter);
  for (const BlankTube& t : b.tubes) dxf.line("TUBES", t.from, t.to);
}

/// The title above, names beside their nodes, width and height along two sides.
void put_words(Dxf& dxf, const Frame& frame, const SheetBlank& b) {
  const double letter = letter_height(b);
  const std::vector<std::string> title = drawing_title(frame, b);
  for (std::size_t i = 0; i < title.size(); ++i) {
    const double line = 1.5 * letter * static_cast<double>(title.size() - i);
    dxf.words({0, b.height + line}, letter, title[i]);
  }
  for (const BlankNode& n : b.nodes) {
    dxf.words(n.at + 2.5 * letter * n.inward, letter / 2, n.name);
  }
  dxf.words({b.width / 2, -2 * letter}, letter, fixed(mm_per_m * b.width, 1));
  dxf.words({-letter, b.height / 2}, letter, fixed(mm_per_m * b.height, 1), 90);
}

}  // namespace

std::string sheet_dxf(const Frame& frame, const SheetBlank& blank) {
  Dxf dxf;
  dxf.put(999, "Full size, one unit is one millimetre");
  put_header(dxf, blank);
  put_tables(dxf);
  begin(dxf, "ENTITIES");
  put_lines(dxf, blank);
  put_words(dxf, frame, blank);
  dxf.put(0, "ENDSEC");
  return dxf.finish();
}

}  // namespace tubewright
