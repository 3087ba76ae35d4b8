#include "io/text/text_layout.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

std::string formatted(const char* format, int precision, double value) {
  char buffer[400];  // the longest finite double has 309 digits before the point
  const int length = std::snprintf(buffer, sizeof buffer, format, precision, value);
  return {buffer, static_cast<std::size_t>(length)};
}

}  // namespace

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "none";
  if (std::abs(value) >= 1e9) return formatted("%.*e", 3, value);
  std::string text = formatted("%.*f", decimals, value);
  const bool all_zero = text.find_first_of("123456789") == std::string::npos;
  if (all_zero && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string millimetres(double metres, int decimals) { return fixed(metres * mm_per_m, decimals); }

int decimals_for(double magnitude) {
  if (!std::isfinite(magnitude) || magnitude == 0) return 2;
  return std::clamp(2 - static_cast<int>(std::floor(std::log10(std::abs(magnitude)))), 0, 6);
}

std::string three_digits(double value) { return fixed(value, decimals_for(value)); }

std::string utilisation_text(double utilisation) {
  const bool near_limit = utilisation != 1 && std::abs(utilisation - 1) < 0.005;
  return fixed(utilisation, near_limit ? 6 : 2);
}

std::string in_words(const std::string& key) {
  std::string words = key;
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string left(std::string_view text, std::size_t width) {
  std::string out(text);
  if (out.size() < width) out.append(width - out.size(), ' ');
  return out;
}

std::string right(std::string_view text, std::size_t width) {
  std::string out;
  if (text.size() < width) out.append(width - text.size(), ' ');
  return out.append(text);
}

std::string wrapped(std::string_view first, std::string_view text) {
  const std::size_t indent = first.size();
  std::string out;
  std::string line(first);
  bool line_has_word = false;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (line_has_word && line.size() + 1 + word.size() > terminal_columns) {
      out += line + '\n';
      line.assign(indent, ' ');
      line_has_word = false;
    }
    if (line_has_word) line += ' ';
    line += word;
    line_has_word = true;
  }
  return out + line + '\n';
}

std::string list_lines(const std::string& heading, const std::vector<std::string>& lines,
                       Paint paint) {
  std::string text = paint.heading(heading) + '\n';
  for (const std::string& line : lines) text += wrapped("  - ", line);
  return text;
}

}  // namespace tubewright
