// Independent work on all processors.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace tubewright {

/// Processors that no thread of in_parallel() works on: calls inside calls share them, so that
/// there are never many more threads than processors.
inline std::atomic<int>& idle_processors() {
  static std::atomic<int> idle =
      std::max(1, static_cast<int>(std::thread::hardware_concurrency())) - 1;  // the caller's own
  return idle;
}

/// One of the idle processors, if there was one, while it lives.
class TakenProcessor {
 public:
  TakenProcessor() {
    std::atomic<int>& idle = idle_processors();
    for (int n = idle; n > 0;) {
      taken_ = idle.compare_exchange_weak(n, n - 1);
      if (taken_) break;
    }
  }
  ~TakenProcessor() {
    if (taken_) ++idle_processors();
  }
  TakenProcessor(TakenProcessor&& other) noexcept : taken_(std::exchange(other.taken_, false)) {}
  TakenProcessor(const TakenProcessor&) = delete;
  TakenProcessor& operator=(const TakenProcessor&) = delete;
  TakenProcessor& operator=(TakenProcessor&&) = delete;

  explicit operator bool() const { return taken_; }

 private:
  bool taken_ = false;
};

/// Calls work(0), ..., work(count - 1), several at once. What one call writes no other may touch,
/// so that the answer is the same on any number of processors.
/// Throws what a call throws, once all threads have ended.
template <class Work>
void in_parallel(std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::future<void>> helpers;
  try {
    for (std::size_t t = 1; t < count; ++t) {
      TakenProcessor processor;
      if (!processor) break;
      helpers.push_back(std::async(
          std::launch::async, [&take_turns](const TakenProcessor&) { take_turns(); },
          std::move(processor)));
    }
  } catch (const std::system_error&) {
    // No more threads to be had: those there are do the work.
  }
  take_turns();
  for (std::future<void>& helper : helpers) helper.get();
}

}  // namespace tubewright
