// Numbers and paragraphs for a terminal of 100 columns.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/text/terminal.h"

namespace tubewright {

constexpr int terminal_columns = 100;

/// `value` with that many decimals; never "-0.00". "none" for a number that does not exist.
std::string fixed(double value, int decimals);

/// A length in mm, without its unit.
std::string millimetres(double metres, int decimals = 1);

/// Decimals (0..6) that show `magnitude` to three digits; 2 for zero.
int decimals_for(double magnitude);

/// `value` to three digits, no exponent below 1e9.
std::string three_digits(double value);

/// A utilisation: two decimals, more where rounding would hide on which side of 1 it is.
std::string utilisation_text(double utilisation);

/// A key in words: "rivet shear" of "rivet_shear".
std::string in_words(const std::string& key);

/// Padded with spaces to `width`, text left or right; longer text is kept whole.
std::string left(std::string_view text, std::size_t width);
std::string right(std::string_view text, std::size_t width);

/// `text` broken at spaces to fit terminal_columns: the first line starts with `first`, further
/// lines are indented to match. Ends with a line end.
std::string wrapped(std::string_view first, std::string_view text);

/// A heading and one wrapped line with a dash for each entry.
std::string list_lines(const std::string& heading, const std::vector<std::string>& lines,
                       Paint paint);

}  // namespace tubewright
