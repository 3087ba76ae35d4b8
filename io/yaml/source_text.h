// Where the values of a YAML tree stand in the text it was parsed from, so that one of them can be
// changed and every other byte kept.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/yaml/strict_yaml.h"

namespace tubewright {

/// Bytes from `begin` up to `end`.
struct TextSpan {
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// How a value is written behind its key.
enum class Writing { plain, quoted, alias, flow, block };

struct WrittenValue {
  Writing writing = Writing::plain;
  /// A scalar without its quotes, an alias with its `*`, a flow map or list with its brackets; of a
  /// block map or list its first byte. Anchors are left out.
  TextSpan span;
};

/// A text, without byte order mark, and where its lines begin.
class SourceText {
 public:
  explicit SourceText(std::string text);

  const std::string& text() const { return text_; }

  /// Byte of a place that parse_strict_yaml() gave.
  std::size_t at(const SourceLocation& place) const;

  /// What stands behind the entry's key; nothing where it is written in a way that is not known
  /// here: a `?` key, a block scalar, a plain scalar over several lines.
  std::optional<WrittenValue> value_of(const YamlEntry& entry) const;

  /// The last byte of an entry of scalars, or of a map of them, and one more.
  std::optional<std::size_t> end_of(const YamlEntry& entry) const;

  /// The end of the line that holds this byte: its line end, or the end of the text.
  std::size_t line_end(std::size_t byte) const;
  /// "\n" or "\r\n", as the first line has it.
  std::string new_line() const;
  /// Spaces that the line of this byte begins with.
  std::string indent_at(std::size_t byte) const;

 private:
  std::string text_;
  std::vector<std::size_t> lines_;
};

struct TextEdit {
  TextSpan span;
  std::string text;
};

/// The text with all edits made; the same edit twice counts once. Nothing where two of them ask for
/// different text in one place.
std::optional<std::string> with_edits(const std::string& text, std::vector<TextEdit> edits);

}  // namespace tubewright
