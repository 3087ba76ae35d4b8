// How large or small a quantity of a frame may be.
//
// The bounds lie far outside anything that is welded from tube. They are there for slips of the
// keyboard, and so that no product of two quantities can overflow.
#pragma once

#include <string>

#include "cases/frame/wording.h"

namespace tubewright {

/// SI units. `words` completes "give ...".
struct Range {
  double least;
  double most;
  const char* words;
};

namespace sensible {
constexpr Range coordinate{-1e3, 1e3, "a coordinate within 1 km of the origin"};
constexpr Range size{1e-5, 10, "a size above 0 (at least 0.01 mm) and at most 10 m"};
constexpr Range area{1e-12, 100, "an area above 0 (at least 1e-6 mm2) and at most 100 m2"};
constexpr Range second_moment{1e-24, 1e4, "a value above 0 (at least 1e-12 mm4), at most 1e16 mm4"};
constexpr Range modulus{1e-18, 1e3, "a value above 0 (at least 1e-9 mm3) and at most 1e12 mm3"};
constexpr Range elasticity{1e3, 1e15, "a value above 0 (at least 0.001 MPa) and at most 1e9 MPa"};
constexpr Range strength{1e3, 1e12, "a value above 0 (at least 0.001 MPa) and at most 1e6 MPa"};
constexpr Range density{1e-3, 1e5, "a value above 0 (at least 0.001 kg/m3) and at most 1e5 kg/m3"};
constexpr Range stiffness{1e-3, 1e15,
                          "a stiffness above 0 (at least 1e-6 N/mm), at most 1e12 N/mm"};
constexpr Range bank{-1.5, 1.5, "an angle below 86 degrees"};
constexpr Range roll{-100, 100, "an angle of a few turns at most"};
constexpr Range force{-1e9, 1e9, "at most 1e9 N (N m, N/m) in each direction"};
constexpr Range displacement{-10, 10, "at most 10 m"};
constexpr Range rotation{-1, 1, "at most 57 degrees; the theory is for small rotations"};
constexpr Range mass{1e-9, 1e6, "a mass above 0 and at most 1e6 kg"};
constexpr Range inertia{0, 1e9, "a moment of inertia of 0 to 1e9 kg m2"};
constexpr Range gravity{1e-6, 1e3, "a value above 0 and at most 1000 m/s2"};
constexpr Range multiple_of_g{-1e3, 1e3, "at most 1000 g"};
constexpr Range slope{-10, 10, "a slope of at most 1000 %"};
constexpr Range factor{-1e6, 1e6, "a factor between -1e6 and 1e6"};
constexpr Range positive_factor{1e-6, 1e6, "a factor above 0 and at most 1e6"};
constexpr Range share{0, 1, "a share between 0 and 1"};
constexpr Range jack_share{1e-6, 0.999, "a share of the weight between 0 and 1"};
constexpr Range fraction{0, 1, "a fraction of the length between 0 and 1"};
constexpr Range target{1e-12, 1e15, "a value above 0"};
}  // namespace sensible

/// False for NaN.
inline bool within(double value, const Range& range) {
  return value >= range.least && value <= range.most;
}

/// Reports a value out of range: "`subject` has an impossible `what`"; true if it is within.
bool check_range(double value, const Range& range, const std::string& subject,
                 const std::string& what, const SourceLocation& place, Diagnostics& diagnostics);

}  // namespace tubewright
