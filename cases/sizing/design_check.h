// One choice of sizes put to the test: the frame with them, analysed as its own file would be.
#pragma once

#include <atomic>
#include <optional>
#include <string>

#include "cases/sizing/choice_search.h"
#include "cases/sizing/size_study.h"

namespace tubewright {

/// Tests designs of one frame, on several threads at once.
class DesignCheck {
 public:
  /// `frame`: with its load cases. Keeps references to both.
  DesignCheck(const Frame& frame, const std::vector<SizedTubes>& groups, const SizeOptions& options)
      : frame_(frame), groups_(groups), options_(options) {}

  /// Whether all limits are met, that on the mass only where it is not what is made least; stops at
  /// the first that is not, asking first what failed last.
  bool passes(const Choice& choice) const;

  /// All of them.
  SizedDesign analysed(const Choice& choice) const;

  int count() const { return count_; }  ///< of designs that were tested

 private:
  const Frame& frame_;
  const std::vector<SizedTubes>& groups_;
  const SizeOptions options_;
  mutable std::atomic<size_t> failed_last_ = 0;  ///< place in Frame::cases
  mutable std::atomic<int> count_ = 0;
};

}  // namespace tubewright
