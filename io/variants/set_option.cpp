#include "io/variants/set_option.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "io/variants/set_errors.h"
#include "io/yaml/quantity.h"
#include "io/yaml/text_check.h"

namespace tubewright {

namespace {

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

/// The pieces between commas that stand in no quotation marks; nothing if a mark is not closed.
std::optional<std::vector<std::string>> pieces_of(std::string_view text) {
  std::vector<std::string> pieces(1);
  char mark = 0;
  for (const char c : text) {
    if (c == ',' && mark == 0) {
      pieces.emplace_back();
      continue;
    }
    const bool opens = mark == 0 && (c == '"' || c == '\'') && trimmed(pieces.back()).empty();
    if (opens) {
      mark = c;
    } else if (c == mark) {
      mark = 0;
    }
    pieces.back() += c;
  }
  if (mark != 0) return std::nullopt;
  return pieces;
}

/// Twelve digits, so that 1.5..2.5/11 holds 1.6 and not 1.6000000000000001.
double rounded(double value) {
  constexpr int digits = 12;
  char text[32];
  const auto end =
      std::to_chars(text, text + sizeof text, value, std::chars_format::scientific, digits - 1);
  double back = value;
  std::from_chars(text, end.ptr, back);
  return back;
}

constexpr const char* number_signs = "0123456789.+-eE";

SetValue plain_value(const std::string& text) {
  if (text.find_first_not_of(number_signs) != std::string::npos) return {text, false};
  const QuantityReading number = read_number(text);
  return {number ? shortest_text(*number + 0.0) : text, false};  // + 0.0 turns -0 into 0
}

SetValue single_value(const std::string& text) {
  const bool quoted = text.front() == '"' || text.front() == '\'';
  if (!quoted || text.back() != text.front()) return plain_value(text);
  return {text.substr(1, text.size() - 2), true};
}

// Ranges
// ------

struct RangeEnd {
  std::string number;
  std::string unit;
};

RangeEnd range_end(const std::string& text) {
  const std::size_t unit = std::min(text.find_first_not_of(number_signs), text.size());
  return {text.substr(0, unit), trimmed(std::string_view(text).substr(unit))};
}

bool all_digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// A number of digits only, capped at `most` + 1.
std::size_t whole(std::string_view text, std::size_t most) {
  std::size_t value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  return read.ec == std::errc() ? std::min(value, most + 1) : most + 1;
}

struct RangeText {
  std::string low, high, count;  ///< trimmed; `count` empty: there is none
};

/// Nothing where the text is a value of its own.
std::optional<RangeText> range_text(const std::string& text) {
  const std::size_t dots = text.find("..");
  if (dots == std::string::npos) return std::nullopt;
  RangeText range{trimmed(text.substr(0, dots)), trimmed(text.substr(dots + 2)), ""};
  const std::size_t slash = range.high.rfind('/');
  if (slash != std::string::npos) {
    const std::string behind = trimmed(range.high.substr(slash + 1));
    if (all_digits(behind) || behind.empty() || looks_like_number(behind)) {
      range.count = behind.empty() ? "?" : behind;
      range.high = trimmed(range.high.substr(0, slash));
    }
  }
  const bool meant =
      !range.count.empty() || looks_like_number(range.low) || looks_like_number(range.high);
  return meant ? std::optional(range) : std::nullopt;
}

/// Adds the values of a range, or says what is wrong with it.
std::optional<Diagnostic> add_range(const std::string& text, const RangeText& range,
                                    std::vector<SetValue>& values) {
  if (range.count.empty()) return range_without_count(text);
  if (!all_digits(range.count)) return range_of_no_count(text, range.count);
  const std::size_t count = whole(range.count, most_values);
  if (count < 2) return range_of_one(text);
  if (count > most_values) return too_many_values_in_range(text, most_values);
  RangeEnd low = range_end(range.low);
  const RangeEnd high = range_end(range.high);
  const QuantityReading from = read_number(low.number), to = read_number(high.number);
  if (!from) return range_of_no_numbers(text, range.low);
  if (!to) return range_of_no_numbers(text, range.high);
  if (low.unit.empty()) low.unit = high.unit;
  if (low.unit != high.unit) return range_of_two_units(text, low.unit, high.unit);
  if (*from == *to) return range_of_one(text);
  for (std::size_t i = 0; i < count; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(count - 1);
    const double value = i == 0           ? *from
                         : i + 1 == count ? *to
                                          : rounded(*from + share * (*to - *from));
    values.push_back(
        {shortest_text(value + 0.0) + (low.unit.empty() ? "" : " " + low.unit), false});
  }
  return std::nullopt;
}

}  // namespace

std::string shortest_text(double value) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value);
  return {text, end.ptr};
}

Result<VaryVariable> read_set(const std::string& text) {
  if (Diagnostics faults = check_text(text); !faults.empty()) {
    for (Diagnostic& fault : faults) fault = of_set(text, std::move(fault));
    return faults;
  }
  if (text.find_first_of("\n\r") != std::string::npos) return Diagnostics{set_over_lines(text)};
  const std::size_t equals = text.find('=');
  VaryVariable variable{trimmed(text.substr(0, equals)), {}};
  if (equals == std::string::npos || variable.path.empty()) return Diagnostics{no_assignment(text)};
  const auto pieces = pieces_of(std::string_view(text).substr(equals + 1));
  if (!pieces) return Diagnostics{quotation_not_closed(text)};
  Diagnostics faults;
  for (const std::string& piece : *pieces) {
    const std::string value = trimmed(piece);
    if (value.empty()) {
      faults.push_back(empty_value(text));
    } else if (const auto range = range_text(value); range && value.find_first_of("\"'") != 0) {
      if (auto fault = add_range(value, *range, variable.values)) {
        faults.push_back(of_set(text, std::move(*fault)));
      }
    } else {
      variable.values.push_back(single_value(value));
    }
  }
  if (!faults.empty()) return faults;
  return variable;
}

Result<Shard> read_shard(const std::string& text) {
  const std::size_t slash = std::min(text.find('/'), text.size());
  const std::string index = text.substr(0, slash);
  const std::string count = text.substr(std::min(slash + 1, text.size()));
  if (!all_digits(index) || !all_digits(count)) return Diagnostics{no_shard(text)};
  const Shard shard{whole(index, most_shards), whole(count, most_shards)};
  if (shard.count > most_shards) return Diagnostics{too_many_shards(text, most_shards)};
  if (shard.index >= shard.count) return Diagnostics{shard_outside(text, shard.count)};
  return shard;
}

std::string shard_text(const Shard& shard) {
  return std::to_string(shard.index) + "/" + std::to_string(shard.count);
}

std::size_t combinations_of(const std::vector<VaryVariable>& variables) {
  std::size_t product = 1;
  for (const VaryVariable& variable : variables) {
    const std::size_t count = variable.values.size();
    if (count != 0 && product > SIZE_MAX / count) return SIZE_MAX;
    product *= count;
  }
  return product;
}

std::size_t share_of(const Shard& shard, std::size_t combinations) {
  return combinations / shard.count + (shard.index < combinations % shard.count ? 1 : 0);
}

std::vector<std::size_t> combinations_in(const Shard& shard, std::size_t combinations) {
  std::vector<std::size_t> list;
  for (std::size_t k = shard.index; k < combinations; k += shard.count) list.push_back(k);
  return list;
}

std::vector<std::size_t> places_of_values(const std::vector<VaryVariable>& variables,
                                          std::size_t combination) {
  std::vector<std::size_t> places(variables.size());
  for (std::size_t i = variables.size(); i-- > 0;) {
    places[i] = combination % variables[i].values.size();
    combination /= variables[i].values.size();
  }
  return places;
}

}  // namespace tubewright
