// Running `tubewright-draw`, the program that draws: a graphics library that fails takes only that
// program with it.
#pragma once

#include <sys/types.h>

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace tubewright {

/// One run of it, from construction to finish(); meanwhile the caller may do other work.
class DrawProgram {
 public:
  explicit DrawProgram(const std::vector<std::string>& words);
  DrawProgram(const DrawProgram&) = delete;
  DrawProgram& operator=(const DrawProgram&) = delete;
  ~DrawProgram();

  /// Waits for its end. Nothing if it did what it was asked for, else the reason in words.
  std::optional<std::string> finish();

 private:
  pid_t process_ = -1;
  int messages_ = -1;  ///< read end of its stderr
  std::string trouble_;
};

/// What tubes can be painted by; the usual one first. Descriptions in viz/draw/paint.cpp.
constexpr std::array<const char*, 4> drawn_quantities = {"stress", "utilisation", "axial",
                                                         "normal"};

/// A .glb and a .png of each case whose files write_load_files() has written into `directory`.
std::vector<std::string> pictures_of(const std::string& directory);

/// A window to look at them. `case_name` may be empty: the first. Without `times` the
/// deflection is drawn as suggested. `quantity`: one of drawn_quantities.
std::vector<std::string> window_on(const std::string& directory, const std::string& case_name,
                                   const std::string& quantity, std::optional<double> times);

}  // namespace tubewright
