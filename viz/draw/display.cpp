#include "viz/draw/display.h"

#include <X11/Xlib.h>
#include <fcntl.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>

namespace tubewright {

namespace {

constexpr const char* server_name = "Xvfb";
constexpr int start_limit_ms = 20000;  ///< a busy machine takes its time

/// What the server writes into the pipe: the number of its display. Empty if it never does.
std::string display_number(int pipe) {
  std::string number;
  pollfd waiting{pipe, POLLIN, 0};
  while (poll(&waiting, 1, start_limit_ms) > 0) {
    char c = 0;
    if (read(pipe, &c, 1) != 1) return "";
    if (c == '\n') return number;
    number += c;
  }
  return "";
}

/// Its messages are of no use to the user: it works or it does not.
[[noreturn]] void become_server(int pipe, pid_t parent) {
  prctl(PR_SET_PDEATHSIG, SIGTERM);
  if (getppid() != parent) _exit(127);
  const int nowhere = open("/dev/null", O_RDWR);
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) dup2(nowhere, stream);
  const std::string descriptor = std::to_string(pipe);
  execlp(server_name, server_name, "-displayfd", descriptor.c_str(), "-screen", "0", "1280x1024x24",
         "-nolisten", "tcp", "-noreset", static_cast<char*>(nullptr));
  _exit(127);
}

}  // namespace

bool display_can_draw() {
  Display* display = XOpenDisplay(nullptr);
  if (display == nullptr) return false;
  int opcode = 0, event = 0, error = 0;
  const bool draws = XQueryExtension(display, "GLX", &opcode, &event, &error) != 0;
  XCloseDisplay(display);
  return draws;
}

VirtualDisplay::~VirtualDisplay() {
  if (server_ <= 0) return;
  kill(server_, SIGTERM);
  waitpid(server_, nullptr, 0);
}

std::optional<std::string> VirtualDisplay::start() {
  int ends[2];
  if (pipe(ends) != 0) return "no pipe to a display server";
  fcntl(ends[0], F_SETFD, FD_CLOEXEC);
  const pid_t parent = getpid();
  server_ = fork();
  if (server_ == 0) become_server(ends[1], parent);
  close(ends[1]);
  const std::string number = server_ < 0 ? "" : display_number(ends[0]);
  close(ends[0]);
  if (number.empty()) return "there is no display, and no Xvfb that starts (package xvfb)";
  setenv("DISPLAY", (":" + number).c_str(), 1);
  if (!display_can_draw()) return "the display server Xvfb cannot draw in 3D (no GLX)";
  return std::nullopt;
}

}  // namespace tubewright
