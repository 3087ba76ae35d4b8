// The answer of `vary` as text and as CSV.
#pragma once

#include <string>

#include "io/text/terminal.h"
#include "io/variants/vary_table.h"

namespace tubewright {

constexpr std::size_t most_rows_shown = 60;

/// The lightest combination that passes, in words; one line with its line end. Requires, as the
/// others: judge() has seen the table.
std::string vary_line(const VaryTable& table);

/// That line, and a table: all rows if they are few, else those of the Pareto front.
std::string vary_text(const VaryTable& table, Paint paint = {});

/// A line of headings, then one line a combination, its number first: the lines of several shards,
/// sorted by it, are those of one run.
std::string vary_csv(const VaryTable& table);

}  // namespace tubewright
