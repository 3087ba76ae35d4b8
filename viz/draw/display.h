// A screen to draw on: the one there is, or one without a monitor.
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>

namespace tubewright {

/// Whether the X display named by DISPLAY answers and can draw in 3D. Asked before the first window
/// is made: without, the graphics library ends the program.
bool display_can_draw();

/// An X server without a monitor, run for as long as this lives; DISPLAY names it.
class VirtualDisplay {
 public:
  VirtualDisplay() = default;
  VirtualDisplay(const VirtualDisplay&) = delete;
  VirtualDisplay& operator=(const VirtualDisplay&) = delete;
  ~VirtualDisplay();

  /// Nothing on success, else the reason in words.
  std::optional<std::string> start();

 private:
  pid_t server_ = -1;
};

}  // namespace tubewright
