#include "io/command/progress.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <cassert>
#include <system_error>
#include <utility>

#include "io/text/text_layout.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

namespace {

Progress* living = nullptr;  // made, asked and ended by the main thread only

// EL of ECMA-48 (1991), section 8.3.41: erase to the end of the line.
constexpr const char* to_start_and_erase = "\r\x1b[K";

volatile std::sig_atomic_t line_on_terminal = 0;

/// SA_RESETHAND has put back the default, which ends the program as soon as this returns.
extern "C" void wipe_and_end(int signal) {
  if (line_on_terminal != 0) {
    [[maybe_unused]] const ssize_t written = ::write(STDERR_FILENO, to_start_and_erase, 4);
  }
  ::raise(signal);
}

std::size_t columns_of_terminal(int descriptor) {
  winsize size{};
  const bool known = ::ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  return known ? size.ws_col : ProgressSettings{}.columns;
}

}  // namespace

bool progress_wanted(const TerminalFacts& facts, bool quiet) {
  return facts.is_terminal && facts.term != "dumb" && !quiet;
}

ProgressSettings progress_settings(bool quiet) {
  ProgressSettings settings;
  settings.shown = progress_wanted(terminal_facts(STDERR_FILENO), quiet);
  if (settings.shown) settings.columns = columns_of_terminal(STDERR_FILENO);
  return settings;
}

Progress::Progress(ProgressSettings settings)
    : settings_(std::move(settings)), start_(std::chrono::steady_clock::now()) {
  assert(living == nullptr);
  living = this;
  if (!settings_.shown) return;
  if (!settings_.write) {
    settings_.write = [](std::string_view text) { (void)write_all(STDERR_FILENO, text); };
    heed_signals();
  }
  try {
    ticker_ = std::thread([this] { tick(); });
  } catch (const std::system_error&) {
    // No thread to be had: the work goes on without the line.
  }
}

Progress::~Progress() {
  living = nullptr;
  if (ticker_.joinable()) {
    {
      const std::lock_guard lock(mutex_);
      ending_ = true;
    }
    wake_.notify_all();
    ticker_.join();
  }
  for (const auto& [signal, before] : signals_before_) ::sigaction(signal, &before, nullptr);
}

/// Those that would end the program; one that is ignored stays ignored.
void Progress::heed_signals() {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction before {};
    if (::sigaction(signal, nullptr, &before) != 0 || before.sa_handler != SIG_DFL) continue;
    struct sigaction heeded {};
    heeded.sa_handler = wipe_and_end;
    heeded.sa_flags = static_cast<int>(SA_RESETHAND);
    if (::sigaction(signal, &heeded, nullptr) == 0) signals_before_.emplace_back(signal, before);
  }
}

void Progress::stage(std::string name) {
  const std::lock_guard lock(mutex_);
  stage_ = std::move(name);
}

/// The ticking thread, to its end. It wipes its line itself, whatever ends it.
void Progress::tick() {
  std::unique_lock lock(mutex_);
  const auto ending = [this] { return ending_; };
  try {
    wake_.wait_for(lock, settings_.delay, ending);
    while (!ending_) {
      if (!stage_.empty()) draw();
      wake_.wait_for(lock, settings_.period, ending);
    }
  } catch (const std::exception&) {
    // Out of memory, say: the work may still end well, and tells if it does not.
  }
  wipe();
}

void Progress::draw() {
  const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - start_;
  std::string line = stage_ + " ... " + fixed(elapsed.count(), 1) + " s";
  if (line.size() >= settings_.columns) line.resize(settings_.columns - 1);
  on_terminal_ = true;
  line_on_terminal = 1;
  settings_.write("\r" + line + "\x1b[K");
}

void Progress::wipe() {
  if (!on_terminal_) return;
  settings_.write(to_start_and_erase);
  on_terminal_ = false;
  line_on_terminal = 0;
}

void tell_stage(std::string name) {
  if (living != nullptr) living->stage(std::move(name));
}

std::string stage_of(std::string_view step, std::size_t number, std::size_t count) {
  std::string words(step);
  if (count < 2) return words;
  return words + " " + std::to_string(number) + " of " + std::to_string(count);
}

void tell_counted_stage(std::string_view step, std::size_t number, std::size_t count) {
  tell_stage(stage_of(step, number, count));
}

ProgressPause::ProgressPause() {
  if (living == nullptr) return;
  lock_ = std::unique_lock(living->mutex_);
  living->wipe();
}

}  // namespace tubewright
