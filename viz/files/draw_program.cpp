#include "viz/files/draw_program.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace tubewright {

namespace {

constexpr const char* name = "tubewright-draw";

/// Beside the running program, as built, or where a package puts it.
std::optional<std::filesystem::path> find_program() {
  std::error_code error;
  const std::filesystem::path self = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return std::nullopt;
  const std::filesystem::path here = self.parent_path();
  for (const auto& path : {here / name, here.parent_path() / "libexec" / "tubewright" / name})
    if (access(path.c_str(), X_OK) == 0) return path;
  return std::nullopt;
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

}  // namespace

DrawProgram::DrawProgram(const std::vector<std::string>& words) {
  const auto program = find_program();
  if (!program) {
    trouble_ = std::string("the program ") + name + " is not installed";
    return;
  }
  std::vector<std::string> text = {name};
  text.insert(text.end(), words.begin(), words.end());
  std::vector<char*> arguments;
  for (std::string& word : text) arguments.push_back(word.data());
  arguments.push_back(nullptr);

  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) {
    trouble_ = std::strerror(errno);
    return;
  }
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_addopen(&files, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_adddup2(&files, ends[1], STDERR_FILENO);
  posix_spawnattr_t attributes;  // an interrupt ends it, even where we ignore one
  posix_spawnattr_init(&attributes);
  sigset_t interrupt;
  sigemptyset(&interrupt);
  sigaddset(&interrupt, SIGINT);
  posix_spawnattr_setsigdefault(&attributes, &interrupt);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);
  const int refused =
      posix_spawn(&process_, program->c_str(), &files, &attributes, arguments.data(), environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&files);
  close(ends[1]);
  if (refused != 0) {
    close(ends[0]);
    process_ = -1;
    trouble_ = std::strerror(refused);
    return;
  }
  messages_ = ends[0];
}

DrawProgram::~DrawProgram() {
  if (process_ > 0) kill(process_, SIGTERM);
  finish();
}

std::optional<std::string> DrawProgram::finish() {
  if (process_ > 0) {
    std::string said;
    std::array<char, 4096> part;
    for (;;) {
      const ssize_t n = read(messages_, part.data(), part.size());
      if (n > 0) said.append(part.data(), static_cast<std::size_t>(n));
      if (n == 0 || (n < 0 && errno != EINTR)) break;
    }
    close(messages_);
    int status = 0;
    while (waitpid(process_, &status, 0) < 0 && errno == EINTR) {
    }
    process_ = -1;
    if (WIFSIGNALED(status)) {
      trouble_ = std::string("the display or its driver ended ") + name + " (" +
                 strsignal(WTERMSIG(status)) + ")";
    } else if (WEXITSTATUS(status) != 0) {
      trouble_ = said.empty() ? std::string(name) + " failed" : first_line(said);
    }
  }
  if (trouble_.empty()) return std::nullopt;
  return trouble_;
}

std::vector<std::string> pictures_of(const std::string& directory) {
  return {"pictures", directory};
}

std::vector<std::string> window_on(const std::string& directory, const std::string& case_name,
                                   const std::string& quantity, std::optional<double> times) {
  std::array<char, 40> text{};
  if (times) std::snprintf(text.data(), text.size(), "%.17g", *times);
  return {"window", directory, case_name, quantity, text.data()};
}

}  // namespace tubewright
