// The stated ranges of EN 1993-1-8 chapter 7 (7.1.1, Tables 7.8 and 7.9; MEMORY), and which of them
// a joint has left.
//
// Outside a range the number is a comparison, and the ranges left are named. Nothing at all is said
// where the profile or the strength is not known.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cases/joints/tube_joint.h"

namespace tubewright {

/// Ranges left, each once, in the order they were noted.
class RangesLeft {
 public:
  void note(bool left, std::string_view what);
  void note_all(const RangesLeft& others);
  bool none() const { return left_.empty(); }
  std::string text() const;  ///< joined by semicolons

 private:
  std::vector<std::string> left_;
};

/// What a joint is used as: the ranges differ.
enum class JointRange { single, gap, overlap };

void note_chord_ranges(RangesLeft& left, const JointChord& chord, JointRange range);
void note_brace_ranges(RangesLeft& left, const JointChord& chord, const JointBrace& brace,
                       JointRange range);

/// Walls and strength of a tube, as far as they hold for any joint.
void note_tube_ranges(RangesLeft& left, double wall, double fy);

/// Why there is no number: a side, a wall, a strength or a force that is not known. Empty: none.
std::string joint_obstacle(const JointChord& chord);
std::string joint_obstacle(const JointBrace& brace);

}  // namespace tubewright
