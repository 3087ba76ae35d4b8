#include "cases/variants/vary_study.h"

#include <mutex>
#include <utility>

#include "cases/analysis/in_parallel.h"

namespace tubewright {

namespace {

Result<FrameNumbers> numbers_of_variant(std::size_t combination, const MakeVariant& make) {
  auto frame = make(combination);
  if (auto* diagnostics = frame.error()) return std::move(*diagnostics);
  return frame_numbers(*frame);
}

}  // namespace

std::vector<Result<FrameNumbers>> vary_study(const std::vector<std::size_t>& combinations,
                                             const MakeVariant& make, const TellStep& tell) {
  std::vector<Result<FrameNumbers>> answers(combinations.size(), Diagnostics{});
  std::mutex telling;
  std::size_t begun = 0;
  in_parallel(combinations.size(), [&](std::size_t i) {
    {
      const std::lock_guard lock(telling);
      tell("solving combination", ++begun, combinations.size());
    }
    answers[i] = numbers_of_variant(combinations[i], make);
  });
  return answers;
}

}  // namespace tubewright
