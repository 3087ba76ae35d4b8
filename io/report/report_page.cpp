#include "io/report/report_page.h"

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "cases/frame/find_parts.h"
#include "io/report/report_files.h"
#include "io/text/markup.h"
#include "io/text/text_layout.h"
#include "io/text/workshop_units.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

/// JSON that can stand in a script element whatever the user wrote. The characters replaced occur
/// inside strings only; U+2028 and U+2029 are E2 80 A8 and E2 80 A9 in UTF-8.
std::string script_json(const nlohmann::ordered_json& data) {
  const std::string text = data.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '<') {
      out += "\\u003c";
    } else if (c == '>') {
      out += "\\u003e";
    } else if (c == '&') {
      out += "\\u0026";
    } else if (text.compare(i, 3, "\xE2\x80\xA8") == 0) {
      out += "\\u2028";
      i += 2;
    } else if (text.compare(i, 3, "\xE2\x80\xA9") == 0) {
      out += "\\u2029";
      i += 2;
    } else {
      out += c;
    }
  }
  return out;
}

/// The unloaded frame from the front, left and above.
std::string figure(const Frame& frame) {
  const double yaw = 40 * degree, pitch = 24 * degree;
  const Eigen::Vector3d right(-std::sin(yaw), std::cos(yaw), 0);
  const Eigen::Vector3d up(-std::sin(pitch) * std::cos(yaw), -std::sin(pitch) * std::sin(yaw),
                           std::cos(pitch));
  const auto number = numbers_of_nodes(frame);
  std::vector<Eigen::Vector2d> flat;
  Eigen::Vector2d least = Eigen::Vector2d::Constant(1e300), most = -least;
  for (const Node& node : frame.nodes) {
    flat.emplace_back(mm_per_m * right.dot(node.at), -mm_per_m * up.dot(node.at));
    least = least.cwiseMin(flat.back());
    most = most.cwiseMax(flat.back());
  }
  std::string lines;
  for (const Member& m : frame.members) {
    lines += "M";
    for (const std::string* end : {&m.from, &m.to}) {
      const Eigen::Vector2d p = flat[static_cast<std::size_t>(number.at(*end))] - least;
      lines += fixed(p.x(), 0) + " " + fixed(p.y(), 0) + (end == &m.from ? "L" : "");
    }
  }
  const Eigen::Vector2d size = most - least;
  return "<svg viewBox=\"-40 -40 " + fixed(size.x() + 80, 0) + " " + fixed(size.y() + 80, 0) +
         "\" role=\"img\" aria-label=\"The unloaded frame from the front, left and above\" "
         "fill=\"none\" stroke=\"currentColor\" stroke-width=\"16\"><path d=\"" +
         lines + "\"/></svg>";
}

std::string without_scripts(const nlohmann::ordered_json& data, const Frame& frame,
                            const std::string& summary) {
  const auto text = [&](const nlohmann::ordered_json& value) {
    return escaped(value.get<std::string>());
  };
  return "<h1>" + text(data["title"]) + "</h1><p><strong>" + text(data["verdict"]["word"]) +
         ".</strong> " + text(data["verdict"]["sentence"]) + "</p>" + figure(frame) + "<pre>" +
         escaped(summary) + "</pre><h2>Input: " + text(data["input"]["name"]) + "</h2><pre>" +
         text(data["input"]["text"]) + "</pre><p>tubewright " + text(data["version"]) + ", " +
         text(data["date"]) + "</p>";
}

/// One pass: what is put in is never looked at for placeholders again.
std::string filled(const std::string& page, const std::map<std::string, std::string>& parts) {
  std::string out;
  std::size_t from = 0;
  for (;;) {
    const std::size_t open = page.find("%%", from);
    const std::size_t close = open == std::string::npos ? open : page.find("%%", open + 2);
    if (close == std::string::npos) return out + page.substr(from);
    const auto part = parts.find(page.substr(open + 2, close - open - 2));
    out += page.substr(from, open - from);
    if (part == parts.end()) {
      out += "%%";
      from = open + 2;
    } else {
      out += part->second;
      from = close + 2;
    }
  }
}

}  // namespace

std::string report_page(const nlohmann::ordered_json& data, const Frame& frame,
                        const std::string& summary) {
  return filled(report_files::page,
                {{"TITLE", escaped(data["title"].get<std::string>() +
                                   (data["rides"].is_null() ? ": frame check" : ": rides"))},
                 {"STYLE", report_files::style},
                 {"FIGURE", report_files::figure},
                 {"SCRIPT", report_files::script},
                 {"DATA", script_json(data)},
                 {"STATIC", without_scripts(data, frame, summary)}});
}

}  // namespace tubewright
