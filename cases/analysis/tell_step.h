// How long work tells which step it is at, to whoever wants to show it.
#pragma once

#include <cstddef>
#include <functional>
#include <string_view>

namespace tubewright {

/// `step`: "solving load cases"; `number` of `count`, counted from 1; count 0: not counted. Called
/// by the threads that do the work, one at a time.
using TellStep = std::function<void(std::string_view step, std::size_t number, std::size_t count)>;

/// To nobody.
inline void tell_nobody(std::string_view, std::size_t, std::size_t) {}

}  // namespace tubewright
