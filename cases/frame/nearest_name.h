// "Did you mean ...": the known name closest to a misspelt one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tubewright {

/// The candidate with the smallest Damerau-Levenshtein distance (optimal string alignment) to
/// `name`, if that distance is at most a third of the longer word (1 is always near enough) and the
/// two share a letter; else "". Case-insensitive; ties go to the first candidate. Words longer than
/// 100 characters are near to nothing.
std::string nearest_name(std::string_view name, const std::vector<std::string>& candidates);

/// "did you mean `x`?", or "" when nothing is near.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& candidates);

}  // namespace tubewright
