// Short names for the kinds of value that the table of keys is written in.
#pragma once

#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "io/keys/frame_keys.h"

namespace tubewright::kinds {

constexpr bool required = true;
constexpr bool optional = false;

inline constexpr Bounds any{};
// The least positive value keeps quotients finite: a millionth of a millimetre is no length.
inline constexpr Bounds positive{1e-9, any.most, false, "greater than 0"};
inline constexpr Bounds not_negative{0, any.most, false, "0 or more"};
inline constexpr Bounds zero_to_one{0, 1, false, "between 0 and 1"};
inline constexpr Bounds poisson{-1, 0.5, true, "greater than -1 and at most 0.5"};

SharedKind text();
/// `what`: "a section name".
SharedKind name(const std::string& what);
SharedKind name_with_spaces(const std::string& what);
SharedKind flag();
SharedKind choice(std::vector<std::string> words);
SharedKind quantity(const Measure& measure, const Bounds& bounds = any);
SharedKind quantity_or(const Measure& measure, const Bounds& bounds, const std::string& word);
SharedKind vector(const Measure& measure, const Bounds& bounds = any);
/// No entry may be given twice. `expected`: "a list of node names, [A, B]".
SharedKind list_of(SharedKind element, std::size_t least, std::size_t most,
                   const std::string& expected);
/// As list_of(), but entries may repeat.
SharedKind sequence_of(SharedKind element, std::size_t least, const std::string& expected,
                       std::size_t most = std::numeric_limits<std::size_t>::max());
SharedKind entries_of(SharedKind element, const std::string& expected, std::size_t least = 0);
SharedKind named_entries_with_spaces(SharedKind element, const std::string& expected);
SharedKind group(const std::string& noun, const std::string& title, std::vector<Key> keys);
SharedKind variants(std::vector<KeyGroup> groups, const std::string& chosen_by,
                    const std::string& chosen_otherwise = "");
SharedKind by_form(SharedKind scalar, SharedKind list, SharedKind map, const std::string& expected);

}  // namespace tubewright::kinds
