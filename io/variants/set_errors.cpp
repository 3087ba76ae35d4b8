#include "io/variants/set_errors.h"

#include <algorithm>
#include <utility>

#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {

namespace {

std::string set_in_backticks(const std::string& set) { return shown("--set " + set); }

constexpr const char* how_to_set = "write `--set 'PATH=a,b,c'` or `--set 'PATH=lo..hi/n'`";
constexpr const char* how_to_range = "write `lo..hi/n`: n values from lo to hi, both included";

/// "it has `a`, `b` and `c`", of many the first few.
std::string it_has(const std::vector<std::string>& known) {
  constexpr std::size_t most = 8;
  if (known.empty()) return "nothing stands there";
  const std::vector<std::string> first(
      known.begin(), known.begin() + static_cast<std::ptrdiff_t>(std::min(most, known.size())));
  if (known.size() <= most) return "it has " + quoted_list(first);
  std::string text = "it has ";
  for (const std::string& name : first) text += quoted(name) + ", ";
  return text + "and " + std::to_string(known.size() - most) + " more";
}

std::string in_or_at_top(const std::string& within) {
  return within.empty() ? "the frame file" : shown(within);
}

}  // namespace

Diagnostic of_set(const std::string& set, Diagnostic fault) {
  fault.message = set_in_backticks(set) + ": " + fault.message;
  fault.place = {};
  return fault;
}

Diagnostic no_assignment(const std::string& text) {
  return {set_in_backticks(text) + " does not say what is set to what", how_to_set};
}

Diagnostic set_over_lines(const std::string& text) {
  return {set_in_backticks(text) + " goes over several lines", "write it on one line"};
}

Diagnostic quotation_not_closed(const std::string& text) {
  return {set_in_backticks(text) + " opens a quotation mark that nothing closes",
          "quote a value at both ends"};
}

Diagnostic empty_value(const std::string& text) {
  return {set_in_backticks(text) + " has an empty value", how_to_set};
}

Diagnostic range_without_count(const std::string& range) {
  return {"the range " + shown(range) + " does not say how many values it has",
          "write `" + range + "/5` for five, both ends included"};
}

Diagnostic range_of_no_count(const std::string& range, const std::string& count) {
  return {shown(count) + " in " + shown(range) + " is no number of values",
          std::string(how_to_range) + ", n a whole number from 2"};
}

Diagnostic range_of_one(const std::string& range) {
  return {"the range " + shown(range) + " holds a single value",
          "a range needs two ends that differ and n from 2; write a single value as it is"};
}

Diagnostic too_many_values_in_range(const std::string& range, std::size_t most) {
  return {"the range " + shown(range) + " has more than " + std::to_string(most) + " values",
          "take fewer, and narrow the range down in a second run"};
}

Diagnostic range_of_no_numbers(const std::string& range, const std::string& end) {
  return {shown(end) + " in " + shown(range) + " is not a number",
          "a range has numbers at both ends; list words with commas, and put a word with dots into "
          "quotation marks"};
}

Diagnostic range_of_two_units(const std::string& range, const std::string& low,
                              const std::string& high) {
  return {"the ends of " + shown(range) + " have different units, " + shown(low) + " and " +
              (high.empty() ? "none" : shown(high)),
          "give both ends in one unit, or only the second"};
}

Diagnostic no_shard(const std::string& text) {
  return {shown("--shard " + text) + " is no shard", "write `--shard I/N`, such as `--shard 0/4`"};
}

Diagnostic too_many_shards(const std::string& text, std::size_t most) {
  return {shown("--shard " + text) + " asks for more than " + std::to_string(most) + " shards",
          "take fewer"};
}

Diagnostic shard_outside(const std::string& text, std::size_t count) {
  if (count == 0) {
    return {shown("--shard " + text) + " has no shards", "write `--shard I/N` with N from 1"};
  }
  return {shown("--shard " + text) + " does not exist",
          "shards are counted from 0: here 0 to " + std::to_string(count - 1)};
}

Diagnostic no_such_part(const std::string& path, const std::string& name, const std::string& within,
                        const std::vector<std::string>& known) {
  const std::string near = did_you_mean(name, known);
  return {"there is no " + shown(name) + " in " + in_or_at_top(within) + ", for " +
              set_in_backticks(path),
          near.empty() ? it_has(known) : near};
}

Diagnostic no_such_entry(const std::string& path, const std::string& name,
                         const std::string& within, std::size_t size, bool coordinates) {
  const std::string last = std::to_string(size == 0 ? 0 : size - 1);
  return {
      shown(within) + " is a list and has no " + shown(name) + ", for " + set_in_backticks(path),
      size == 0 ? "it is empty"
                : "its entries are 0 to " + last + (coordinates ? ", or x, y and z" : "")};
}

Diagnostic nothing_below(const std::string& path, const std::string& within) {
  return {shown(within) + " is a value with nothing below it, for " + set_in_backticks(path),
          "write `--set '" + within + "=...'`"};
}

Diagnostic set_twice(const std::string& path, const std::string& other) {
  return {set_in_backticks(path) + " sets what " + set_in_backticks(other) + " sets",
          "give all its values in one `--set`"};
}

Diagnostic nothing_to_vary(const std::string& example) {
  return {"nothing to vary: there is no `--set`",
          "say which value takes which values" +
              (example.empty() ? std::string(": ") + how_to_set
                               : ", such as `--set '" + example + "=1.5,2,2.5'`")};
}

Diagnostic too_many_combinations(std::size_t combinations, std::size_t most, std::size_t shards) {
  const std::string advice = shards == 0 ? "take fewer values"
                                         : "take fewer values, or run it in " +
                                               std::to_string(shards) + " parts: `--shard 0/" +
                                               std::to_string(shards) + "` and so on";
  return {(shards == 0 ? "too many" : std::to_string(combinations)) +
              std::string(" combinations; one run takes at most ") + std::to_string(most),
          advice};
}

}  // namespace tubewright
