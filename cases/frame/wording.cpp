#include "cases/frame/wording.h"

#include <algorithm>
#include <cstdio>
#include <unordered_map>
#include <unordered_set>

#include "cases/frame/mirror.h"

namespace tubewright {
namespace {

using TubeOfPiece = std::unordered_map<std::string, std::string>;

TubeOfPiece tubes_of_pieces(const Frame& frame) {
  TubeOfPiece tubes;
  for (const Member& m : frame.members) {
    if (!m.tube.empty()) tubes.emplace(m.name, m.tube);
  }
  return tubes;
}

/// The message without its names, then the names in order, each piece replaced by its tube and, if
/// `mirrored`, each ending exchanged.
std::string signature(const std::string& message, const Frame& frame, const TubeOfPiece& tubes,
                      bool mirrored) {
  std::string words;
  std::vector<std::string> names;
  std::size_t at = 0;
  while (at < message.size()) {
    const std::size_t open = message.find('`', at);
    const std::size_t close = open == std::string::npos ? open : message.find('`', open + 1);
    if (close == std::string::npos) break;
    words += message.substr(at, open - at) + '`';
    std::string name = message.substr(open + 1, close - open - 1);
    if (const auto tube = tubes.find(name); tube != tubes.end()) name = tube->second;
    names.push_back(mirrored ? swap_ending(name, *frame.mirror) : name);
    at = close + 1;
  }
  words += message.substr(at);
  std::sort(names.begin(), names.end());
  for (const std::string& name : names) words += '\n' + name;
  return words;
}

}  // namespace

std::string quoted(const std::string& name) { return "`" + name + "`"; }

std::string quoted_list(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += quoted(names[i]);
  }
  return text;
}

std::string in_mm(double metres) {
  char text[40];
  std::snprintf(text, sizeof text, "%.4g mm", metres * 1000);
  return text;
}

std::string decimals(double value, int count) {
  char text[400];  // the longest finite double has 309 digits before the point
  std::snprintf(text, sizeof text, "%.*f", count, value);
  return text;
}

void add_error(Diagnostics& diagnostics, const SourceLocation& place, Diagnostic what) {
  diagnostics.push_back(error_at(place, std::move(what)));
}

void add_warning(Diagnostics& diagnostics, const SourceLocation& place, Diagnostic what) {
  what.severity = Severity::warning;
  what.place = place;
  diagnostics.push_back(std::move(what));
}

Diagnostics in_file_order(Diagnostics diagnostics, const Frame& frame) {
  if (diagnostics.empty()) return diagnostics;
  std::stable_sort(diagnostics.begin(), diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     const auto key = [](const SourceLocation& p) {
                       return std::tuple(p.line == 0, p.line, p.column);
                     };
                     return key(a.place) < key(b.place);
                   });

  const TubeOfPiece tubes = tubes_of_pieces(frame);
  std::unordered_set<std::string> seen;
  Diagnostics kept;
  for (Diagnostic& p : diagnostics) {
    std::string own = signature(p.message, frame, tubes, false);
    if (seen.contains(own)) continue;
    if (frame.mirror && seen.contains(signature(p.message, frame, tubes, true))) continue;
    seen.insert(std::move(own));
    kept.push_back(std::move(p));
  }
  return kept;
}

}  // namespace tubewright
