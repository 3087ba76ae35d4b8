// What `--set` and `--shard` of the command line say: which values a key of the frame file takes
// one after the other, and which of all combinations are wanted.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// A value as it could stand in the frame file.
struct SetValue {
  std::string text;  ///< of a plain number its shortest form
  bool in_quotes = false;

  bool operator==(const SetValue&) const = default;
};

/// One `--set`.
struct VaryVariable {
  std::string path;  ///< as typed: "sections.rail.wall"
  std::vector<SetValue> values;

  bool operator==(const VaryVariable&) const = default;
};

/// The shortest text that reads as exactly this number.
std::string shortest_text(double value);

constexpr std::size_t most_values = 100'000;  // of one `--set`

/// `PATH=a,b,c` or `PATH=lo..hi/n` (n values from lo to hi, both included), or both mixed. A value
/// in quotation marks may hold commas.
Result<VaryVariable> read_set(const std::string& text);

/// Combination k belongs to shard k mod `count`.
struct Shard {
  std::size_t index = 0;
  std::size_t count = 1;

  bool operator==(const Shard&) const = default;
};

constexpr std::size_t most_shards = 1'000'000;

/// `I/N`, 0 <= I < N.
Result<Shard> read_shard(const std::string& text);

/// "2/7"
std::string shard_text(const Shard& shard);

/// Product of the numbers of values; SIZE_MAX where it is greater than that.
std::size_t combinations_of(const std::vector<VaryVariable>& variables);

/// How many of `combinations` belong to the shard, and which, in rising order.
std::size_t share_of(const Shard& shard, std::size_t combinations);
std::vector<std::size_t> combinations_in(const Shard& shard, std::size_t combinations);

/// Which value each variable has in a combination; the last varies fastest.
std::vector<std::size_t> places_of_values(const std::vector<VaryVariable>& variables,
                                          std::size_t combination);

}  // namespace tubewright
