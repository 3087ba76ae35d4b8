#include "io/yaml/source_text.h"

#include <algorithm>
#include <tuple>

#include "io/text/utf8.h"

namespace tubewright {

namespace {

constexpr std::size_t nowhere = std::string::npos;

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/// Past spaces, line ends and comments.
std::size_t past_blanks(const std::string& text, std::size_t at) {
  while (at < text.size()) {
    if (text[at] == '#' && at > 0 && is_blank(text[at - 1])) {
      at = std::min(text.find('\n', at), text.size());
    } else if (is_blank(text[at])) {
      ++at;
    } else {
      break;
    }
  }
  return at;
}

/// The closing quotation mark of the one at `open`.
std::size_t closing_quote(const std::string& text, std::size_t open) {
  const char quote = text[open];
  for (std::size_t i = open + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      if (quote == '"' || i + 1 == text.size() || text[i + 1] != quote) return i;
      ++i;
    }
  }
  return nowhere;
}

bool is_quote(char c) { return c == '"' || c == '\''; }

/// A quotation mark opens a scalar only where one may begin.
bool may_begin(char before) {
  return is_blank(before) || std::string("{[,:").find(before) != nowhere;
}

/// The bracket that closes the one at `open`.
std::size_t closing_bracket(const std::string& text, std::size_t open) {
  int depth = 0;
  for (std::size_t i = open; i < text.size(); ++i) {
    const char c = text[i];
    if (is_quote(c) && may_begin(text[i - 1])) {
      i = closing_quote(text, i);
      if (i == nowhere) return nowhere;
    } else if (c == '#' && is_blank(text[i - 1])) {
      i = std::min(text.find('\n', i), text.size());
    } else if (c == '{' || c == '[') {
      ++depth;
    } else if ((c == '}' || c == ']') && --depth == 0) {
      return i;
    }
  }
  return nowhere;
}

/// The end of an anchor or an alias.
std::size_t end_of_name(const std::string& text, std::size_t at) {
  return std::min(text.find_first_of(" \t\r\n,}]", at), text.size());
}

/// Past the key and its colon.
std::size_t past_key(const std::string& text, std::size_t at, const std::string& key) {
  if (at >= text.size()) return nowhere;
  if (is_quote(text[at])) {
    at = closing_quote(text, at);
    if (at == nowhere) return nowhere;
    ++at;
  } else {
    if (text.compare(at, key.size(), key) != 0) return nowhere;
    at += key.size();
  }
  at = past_blanks(text, at);
  return at < text.size() && text[at] == ':' ? at + 1 : nowhere;
}

}  // namespace

SourceText::SourceText(std::string text) : text_(std::move(text)), lines_{0} {
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (text_[i] == '\n') lines_.push_back(i + 1);
  }
}

std::size_t SourceText::at(const SourceLocation& place) const {
  const std::size_t line =
      std::min(static_cast<std::size_t>(std::max(place.line, 1)), lines_.size());
  std::size_t byte = lines_[line - 1];
  for (int column = 1; column < place.column && byte < text_.size(); ++column) {
    ++byte;
    while (byte < text_.size() && is_continuation(text_[byte])) ++byte;
  }
  return byte;
}

std::optional<WrittenValue> SourceText::value_of(const YamlEntry& entry) const {
  std::size_t at = past_key(text_, this->at(entry.place), entry.key);
  if (at == nowhere) return std::nullopt;
  at = past_blanks(text_, at);
  if (at < text_.size() && text_[at] == '&') at = past_blanks(text_, end_of_name(text_, at));
  if (at >= text_.size()) return std::nullopt;
  const char first = text_[at];
  if (first == '*') return WrittenValue{Writing::alias, {at, end_of_name(text_, at)}};
  if (entry.value.form == YamlForm::scalar) {
    if (is_quote(first)) {
      const std::size_t close = closing_quote(text_, at);
      if (close == nowhere) return std::nullopt;
      return WrittenValue{Writing::quoted, {at + 1, close}};
    }
    const std::string& plain = entry.value.text;
    if (entry.value.in_quotes || text_.compare(at, plain.size(), plain) != 0) return std::nullopt;
    return WrittenValue{Writing::plain, {at, at + plain.size()}};
  }
  if (first == '{' || first == '[') {
    const std::size_t close = closing_bracket(text_, at);
    if (close == nowhere) return std::nullopt;
    return WrittenValue{Writing::flow, {at, close + 1}};
  }
  return WrittenValue{Writing::block, {at, at + 1}};
}

std::optional<std::size_t> SourceText::end_of(const YamlEntry& entry) const {
  const std::optional<WrittenValue> value = value_of(entry);
  if (!value) return std::nullopt;
  if (value->writing == Writing::quoted) return value->span.end + 1;
  if (value->writing != Writing::block) return value->span.end;
  std::size_t end = 0;
  for (const YamlEntry& below : entry.value.entries) {
    const std::optional<std::size_t> its = end_of(below);
    if (!its) return std::nullopt;
    end = std::max(end, *its);
  }
  return end > 0 ? std::optional(end) : std::nullopt;
}

std::size_t SourceText::line_end(std::size_t byte) const {
  std::size_t end = std::min(text_.find('\n', byte), text_.size());
  if (end > byte && text_[end - 1] == '\r') --end;
  return end;
}

std::string SourceText::new_line() const {
  const std::size_t end = text_.find('\n');
  return end != nowhere && end > 0 && text_[end - 1] == '\r' ? "\r\n" : "\n";
}

std::string SourceText::indent_at(std::size_t byte) const {
  const std::size_t before = byte == 0 ? nowhere : text_.rfind('\n', byte - 1);
  const std::size_t start = before == nowhere ? 0 : before + 1;
  std::size_t end = start;
  while (end < text_.size() && text_[end] == ' ') ++end;
  return text_.substr(start, end - start);
}

std::optional<std::string> with_edits(const std::string& text, std::vector<TextEdit> edits) {
  const auto key = [](const TextEdit& e) { return std::tie(e.span.begin, e.span.end, e.text); };
  // Of insertions at one place the first stays first.
  std::stable_sort(edits.begin(), edits.end(), [](const TextEdit& a, const TextEdit& b) {
    return std::tie(a.span.begin, a.span.end) < std::tie(b.span.begin, b.span.end);
  });
  std::string out;
  std::size_t done = 0;
  const TextEdit* last = nullptr;
  for (const TextEdit& edit : edits) {
    const bool insertion = edit.span.begin == edit.span.end;
    if (last != nullptr && !insertion && key(*last) == key(edit)) continue;
    if (edit.span.begin < done || edit.span.end > text.size()) return std::nullopt;
    out += text.substr(done, edit.span.begin - done) + edit.text;
    done = edit.span.end;
    last = &edit;
  }
  return out + text.substr(done);
}

}  // namespace tubewright
