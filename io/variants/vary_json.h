// The answer of `vary` as JSON, written, read again and put together from parts.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "io/variants/vary_table.h"

namespace tubewright {

/// One JSON object. Requires: judge() has seen the table.
std::string vary_json(const VaryTable& table);

struct VaryFile {
  std::string name;  ///< as the user typed it
  std::string text;
};

/// The table that these answers of `vary --json` are parts of, as one run would have made it.
/// Parts may be given twice. Diagnostics: every file that is no such answer, files that do not
/// belong together, combinations that are in none of them.
Result<VaryTable> merged_tables(const std::vector<VaryFile>& files);

}  // namespace tubewright
