#include "io/yaml/render_diagnostics.h"

#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "io/text/utf8.h"

namespace tubewright {
namespace {

// Widest piece of a source line that is shown: a frame written on one line stays readable.
constexpr std::size_t most_columns = 90;

std::string_view line_of(std::string_view text, int number) {
  for (int line = 1; line < number; ++line) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  text = text.substr(0, text.find('\n'));
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

/// Bytes of the first `count` characters of `text`.
std::size_t bytes_of(std::string_view text, std::size_t count) {
  std::size_t i = 0;
  while (i < text.size() && count > 0) {
    ++i;
    while (i < text.size() && is_continuation(text[i])) ++i;
    --count;
  }
  return i;
}

/// What a caret run should cover at the start of `rest`: a quoted text, a bracket, or a plain word
/// up to the character that ends it.
std::size_t token_length(std::string_view rest) {
  if (rest.empty()) return 0;
  if (rest[0] == '"' || rest[0] == '\'') {
    const std::size_t close = rest.find(rest[0], 1);
    return close == std::string_view::npos ? rest.size() : close + 1;
  }
  if (std::string_view("{}[],:").find(rest[0]) != std::string_view::npos) return 1;
  std::size_t end = 0;
  while (end < rest.size()) {
    const char c = rest[end];
    const bool before_space = end + 1 == rest.size() || rest[end + 1] == ' ';
    if (c == '}' || c == ']' || c == ',' || (c == ':' && before_space)) break;
    if (c == '#' && end > 0 && rest[end - 1] == ' ') break;
    ++end;
  }
  while (end > 1 && (rest[end - 1] == ' ' || rest[end - 1] == '\t')) --end;
  return end;
}

/// The part of a source line that is shown, and where the caret run stands in it. All in bytes.
struct Excerpt {
  std::string_view text;
  std::size_t caret = 0;
  std::size_t length = 0;
  bool cut_before = false;
  bool cut_after = false;
};

Excerpt excerpt(std::string_view line, int column) {
  Excerpt e;
  const std::size_t caret = bytes_of(line, static_cast<std::size_t>(column - 1));
  e.length = token_length(line.substr(caret));
  std::size_t begin = 0;
  std::size_t end = line.size();
  if (line.size() > most_columns) {
    begin = caret > most_columns / 3 ? caret - most_columns / 3 : 0;
    end = std::min(line.size(), begin + most_columns);
    while (begin > 0 && is_continuation(line[begin])) --begin;
    while (end < line.size() && is_continuation(line[end])) ++end;
  }
  e.text = line.substr(begin, end - begin);
  e.caret = caret - begin;
  e.length = std::min(e.length, e.text.size() - e.caret);
  e.cut_before = begin > 0;
  e.cut_after = end < line.size();
  return e;
}

void append_source(std::string& out, const Diagnostic& problem, std::string_view line) {
  const Excerpt e = excerpt(line, problem.place.column);
  const std::string number = std::to_string(problem.place.line);
  const std::string gutter(std::max<std::size_t>(4, number.size()), ' ');
  const std::string before = e.cut_before ? "…" : "";
  // A tab takes one column here, so that the caret stands where it should.
  const std::string shown = one_line(e.text, std::string_view::npos);
  const std::string lead = one_line(e.text.substr(0, e.caret), std::string_view::npos);
  const std::string run = one_line(e.text.substr(e.caret, e.length), std::string_view::npos);

  out += gutter.substr(number.size()) + number + " | " + before + shown;
  out += e.cut_after ? "…\n" : "\n";
  out += gutter + " | " + std::string(display_width(before) + display_width(lead), ' ');
  out += std::string(std::max<std::size_t>(1, display_width(run)), '^');
  if (!problem.advice.empty()) out += " " + problem.advice;
  out += "\n";
}

bool has_place(const Diagnostic& problem) {
  return problem.place.line > 0 && problem.place.column > 0;
}

/// "rail.yaml:3:5"
std::string where(const Diagnostic& problem, const FrameText& file) {
  if (!has_place(problem)) return file.name;
  return file.name + ":" + std::to_string(problem.place.line) + ":" +
         std::to_string(problem.place.column);
}

/// What stands between backticks, which are kept.
std::string names_in(std::string_view text) {
  std::string names;
  for (std::size_t begin = text.find('`'); begin != std::string_view::npos;) {
    const std::size_t end = text.find('`', begin + 1);
    if (end == std::string_view::npos) break;
    names += text.substr(begin, end + 1 - begin);
    begin = text.find('`', end + 1);
  }
  return names;
}

void replace_all(std::string& text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at)) {
    text.replace(at, what.size(), by);
  }
}

/// The text without its names and numbers; a list of names is as one.
std::string kind_of(std::string_view text) {
  std::string kind;
  bool in_name = false;
  for (const char c : text) {
    if (c == '`') {
      if (!in_name) kind += '`';
      in_name = !in_name;
    } else if (!in_name) {
      const bool of_number = (c >= '0' && c <= '9') || (c == '.' && kind.ends_with('0'));
      if (!of_number) {
        kind += c;
      } else if (!kind.ends_with('0')) {
        kind += '0';
      }
    }
  }
  replace_all(kind, "`, `", "`");
  replace_all(kind, "` and `", "`");
  return kind;
}

bool same(const Diagnostic& a, const Diagnostic& b) {
  return a.place.line == b.place.line && a.place.column == b.place.column &&
         a.message == b.message && a.advice == b.advice;
}

/// A warning and those of its kind that follow it.
std::string render_kind(const Diagnostics& alike, const FrameText& file) {
  const Diagnostic& first = alike.front();
  std::string out = render(first, file);
  const std::size_t shown = std::min(alike.size(), 1 + most_places_shown);
  for (std::size_t i = 1; i < shown; ++i) {
    const Diagnostic& d = alike[i];
    out += where(d, file) + ": likewise: " + d.message;
    if (names_in(d.advice) != names_in(first.advice)) out += "; " + d.advice;
    out += "\n";
  }
  if (const std::size_t more = alike.size() - shown; more > 0) {
    out += file.name + ": " + std::to_string(more) + " more like these are not shown\n";
  }
  return out;
}

}  // namespace

std::string render(const Diagnostic& problem, const FrameText& file) {
  const bool placed = has_place(problem);
  std::string out = where(problem, file);
  out += problem.severity == Severity::error ? ": error: " : ": warning: ";
  out += problem.message + "\n";
  if (placed) {
    append_source(out, problem, line_of(without_byte_order_mark(file.text), problem.place.line));
  } else if (!problem.advice.empty()) {
    out += "     | " + problem.advice + "\n";
  }
  return out;
}

std::string render(const Diagnostics& diagnostics, const FrameText& file) {
  std::string out;
  const std::size_t shown = std::min(diagnostics.size(), most_diagnostics_shown);
  for (std::size_t i = 0; i < shown; ++i) out += render(diagnostics[i], file);
  if (const std::size_t more = diagnostics.size() - shown; more > 0) {
    out += file.name + ": " + std::to_string(more) + " more like these are not shown\n";
  }
  return out;
}

std::string render_by_kind(const Diagnostics& diagnostics, const FrameText& file) {
  std::vector<Diagnostics> blocks;
  std::unordered_map<std::string, std::size_t> block_of;
  for (const Diagnostic& d : diagnostics) {
    const auto [found, is_new] =
        block_of.emplace(kind_of(d.message) + '\n' + kind_of(d.advice), blocks.size());
    if (is_new) blocks.emplace_back();
    Diagnostics& block = blocks[found->second];
    const bool told = std::any_of(block.begin(), block.end(),
                                  [&](const Diagnostic& other) { return same(d, other); });
    if (!told) block.push_back(d);
  }
  std::string out;
  for (const Diagnostics& block : blocks) out += render_kind(block, file);
  return out;
}

}  // namespace tubewright
