// The wording of every fault in what `--set` and `--shard` of the command line say.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// A fault of a value, or of the frame that it makes, told with the `--set` it comes from:
/// "PATH=a".
Diagnostic of_set(const std::string& set, Diagnostic fault);

// What was typed
// --------------
Diagnostic no_assignment(const std::string& text);
Diagnostic set_over_lines(const std::string& text);
Diagnostic quotation_not_closed(const std::string& text);
Diagnostic empty_value(const std::string& text);

// `range`: such as "1..3/5"
Diagnostic range_without_count(const std::string& range);
Diagnostic range_of_no_count(const std::string& range, const std::string& count);
Diagnostic range_of_one(const std::string& range);
Diagnostic too_many_values_in_range(const std::string& range, std::size_t most);
Diagnostic range_of_no_numbers(const std::string& range, const std::string& end);
Diagnostic range_of_two_units(const std::string& range, const std::string& low,
                              const std::string& high);

Diagnostic no_shard(const std::string& text);
Diagnostic too_many_shards(const std::string& text, std::size_t most);
Diagnostic shard_outside(const std::string& text, std::size_t count);

// Paths
// -----
/// `within`: the part of the path that was found, empty for the file; `known`: what stands there.
Diagnostic no_such_part(const std::string& path, const std::string& name, const std::string& within,
                        const std::vector<std::string>& known);
/// A key of a list of `size`; `coordinates`: x, y and z would do too.
Diagnostic no_such_entry(const std::string& path, const std::string& name,
                         const std::string& within, std::size_t size, bool coordinates);
Diagnostic nothing_below(const std::string& path, const std::string& within);
/// Two `--set` for the same value, or for one within the other.
Diagnostic set_twice(const std::string& path, const std::string& other);

// All of it together
// ------------------
/// `example`: a path of the frame with a number; empty: there is none.
Diagnostic nothing_to_vary(const std::string& example);
/// `shards`: the fewest that are small enough.
Diagnostic too_many_combinations(std::size_t combinations, std::size_t most, std::size_t shards);

}  // namespace tubewright
