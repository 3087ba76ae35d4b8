#include "io/frame_file/profile_file.h"

#include <array>
#include <charconv>
#include <cmath>

#include "cases/frame/wording.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

constexpr double in_metres = 1e-3;
constexpr double farthest = 1e8;  // mm: 100 km

bool parts_cells(char c) { return c == ',' || c == ';' || c == ' ' || c == '\t'; }

std::vector<std::string_view> cells_of(std::string_view line) {
  std::vector<std::string_view> cells;
  size_t at = 0;
  while (at < line.size()) {
    while (at < line.size() && parts_cells(line[at])) ++at;
    const size_t begin = at;
    while (at < line.size() && !parts_cells(line[at])) ++at;
    if (at > begin) cells.push_back(line.substr(begin, at - begin));
  }
  return cells;
}

bool is_number(std::string_view cell, double& value) {
  if (!cell.empty() && cell.front() == '+') cell.remove_prefix(1);
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  return error == std::errc() && end == cell.data() + cell.size();
}

std::string in_line(size_t number, const std::string& what) {
  return "line " + std::to_string(number) + " " + what;
}

/// Of one line; empty words if it was read.
std::string read_row(const std::vector<std::string_view>& cells, size_t line, ProfileRow& row) {
  if (cells.size() != 3) {
    return in_line(line, "has " + std::to_string(cells.size()) + " numbers, not three");
  }
  std::array<double, 3> values = {};
  for (size_t i = 0; i < 3; ++i) {
    if (!is_number(cells[i], values[i])) {
      return in_line(line, "has " + quoted(one_line(cells[i])) + ", which is no number");
    }
    if (!std::isfinite(values[i]) || std::abs(values[i]) > farthest) {
      return in_line(line, "has a number that is no place on a road");
    }
  }
  row = {values[0] * in_metres, values[1] * in_metres, values[2] * in_metres};
  return "";
}

}  // namespace

Outcome<std::vector<ProfileRow>, std::string> read_profile(std::string_view text) {
  std::vector<ProfileRow> rows;
  size_t line = 0;
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  while (!text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    std::string_view own = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line;
    if (own.ends_with('\r')) own.remove_suffix(1);
    const std::vector<std::string_view> cells = cells_of(own);
    if (cells.empty() || cells.front().front() == '#') continue;
    double first = 0;
    const bool words = rows.empty() && !is_number(cells.front(), first);
    if (words && line == 1) continue;
    ProfileRow row;
    if (std::string why = read_row(cells, line, row); !why.empty()) return why;
    if (!rows.empty() && row.x < rows.back().x) {
      return in_line(line, "goes back: x is less than before");
    }
    rows.push_back(row);
  }
  if (rows.size() < 2) return std::string("it has fewer than two rows");
  if (!(rows.back().x > rows.front().x)) return std::string("it has no length");
  return rows;
}

}  // namespace tubewright
