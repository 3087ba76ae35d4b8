#include "cases/frame/nearest_name.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

namespace tubewright {
namespace {

// Longer words are not names that somebody mistyped, and the work grows with the square.
constexpr std::size_t longest_word = 100;

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

bool same(char a, char b) { return lower(a) == lower(b); }

/// Number of insertions, deletions, substitutions and swaps of neighbours that turn `a` into `b`,
/// no letter edited twice. F. J. Damerau, Comm. ACM 7 (1964) 171; R. A. Wagner, M. J. Fischer,
/// J. ACM 21 (1974) 168.
std::size_t alignment_distance(std::string_view a, std::string_view b) {
  const std::size_t columns = b.size() + 1;
  std::vector<std::size_t> before_last(columns), last(columns), row(columns);
  for (std::size_t j = 0; j < columns; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j < columns; ++j) {
      const std::size_t substitution = same(a[i - 1], b[j - 1]) ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + substitution});
      const bool swapped = i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    before_last.swap(last);
    last.swap(row);
  }
  return last.back();
}

}  // namespace

std::string nearest_name(std::string_view name, const std::vector<std::string>& candidates) {
  std::string nearest;
  std::size_t smallest = longest_word;
  for (const std::string& candidate : candidates) {
    const auto [shorter, longer] = std::minmax({name.size(), candidate.size()});
    if (shorter == 0 || longer > longest_word) continue;
    const std::size_t allowed = std::max<std::size_t>(1, longer / 3);
    if (longer - shorter > allowed || longer - shorter >= smallest) continue;
    const std::size_t distance = alignment_distance(name, candidate);
    const bool shares_a_letter = distance < longer;
    if (distance > allowed || !shares_a_letter || distance >= smallest) continue;
    smallest = distance;
    nearest = candidate;
  }
  return nearest;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& candidates) {
  const std::string nearest = nearest_name(name, candidates);
  return nearest.empty() ? "" : "did you mean `" + nearest + "`?";
}

}  // namespace tubewright
