// Independent work on all processors.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <system_error>
#include <thread>
#include <vector>

namespace tubewright {

/// Calls work(0), ..., work(count - 1), several at once. What one call writes no other may touch.
/// Throws what a call throws, once all threads have ended.
template <class Work>
void in_parallel(std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  const std::size_t processors = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::future<void>> helpers;
  try {
    for (std::size_t t = 1; t < std::min(processors, count); ++t)
      helpers.push_back(std::async(std::launch::async, take_turns));
  } catch (const std::system_error&) {
    // No more threads to be had: those there are do the work.
  }
  take_turns();
  for (std::future<void>& helper : helpers) helper.get();
}

}  // namespace tubewright
