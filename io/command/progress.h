// One line on the terminal that tells what the program is at, while it is at it for long.
//
// There is one terminal, so there is one such line: whoever writes something else takes it away
// first (ProgressPause), which the functions of standard_streams.h do.
#pragma once

#include <chrono>
#include <condition_variable>
#include <csignal>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include "io/text/terminal.h"

namespace tubewright {

struct ProgressSettings {
  bool shown = false;
  std::chrono::milliseconds delay{1000};             ///< before the line appears
  std::chrono::milliseconds period{200};             ///< from one update to the next
  std::size_t columns = 80;                          ///< the line stays shorter
  std::function<void(std::string_view)> write = {};  ///< absent: to standard error
};

/// Only on a terminal that can take back what it shows, and not for who wants it quiet.
bool progress_wanted(const TerminalFacts& facts, bool quiet);

/// As standard error is.
ProgressSettings progress_settings(bool quiet);

/// While it lives the line may be shown; afterwards it is gone, also when an exception ends it or a
/// signal the program. One at a time.
class Progress {
 public:
  explicit Progress(ProgressSettings settings);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// What is done from now on: "writing the report". Nothing is shown before the first.
  void stage(std::string name);

 private:
  friend class ProgressPause;
  void heed_signals();
  void tick();
  void draw();
  void wipe();

  ProgressSettings settings_;
  std::chrono::steady_clock::time_point start_;
  std::vector<std::pair<int, struct sigaction>> signals_before_;
  std::mutex mutex_;  // guards all below, and what is on the terminal
  std::condition_variable wake_;
  std::string stage_;
  bool on_terminal_ = false;
  bool ending_ = false;
  std::thread ticker_;
};

/// The same for the Progress that lives, if one does: for what is not handed it.
void tell_stage(std::string name);

/// A counted step in words: "checking load case 7 of 18"; `count` 0 or 1: the step alone.
std::string stage_of(std::string_view step, std::size_t number, std::size_t count);

/// The same for a TellStep.
void tell_counted_stage(std::string_view step, std::size_t number, std::size_t count);

/// While it lives the line is off the terminal. Not to be nested.
class ProgressPause {
 public:
  ProgressPause();

 private:
  std::unique_lock<std::mutex> lock_;
};

}  // namespace tubewright
