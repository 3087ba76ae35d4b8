#include "io/results/joints_output.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "io/text/text_layout.h"

namespace tubewright {

namespace {

constexpr std::size_t names_shown = 3;

std::string first_few(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < std::min(names_shown, names.size()); ++i) {
    text += (i > 0 ? ", " : "") + names[i];
  }
  return names.size() > names_shown ? text + ", ..." : text;
}

std::string ends(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " welded end" : " welded ends");
}

}  // namespace

std::string joints_lines(const JointSummary& joints, const std::string& indent) {
  const std::string first = indent + "joints: ";
  if (joints.rigid) return first + "all rigid where the axes of the tubes meet, as asked\n";
  std::string text;
  if (joints.sprung > 0) {
    text = wrapped(first, "at " + ends(static_cast<std::size_t>(joints.sprung)) +
                              " the walls give way, by their geometry; no test of real joints "
                              "stands behind that");
  }
  for (const auto& [reason, names] : joints.taken_as_nearest) {
    text += wrapped(first, ends(names.size()) + " taken as the nearest joint that is known (" +
                               first_few(names) + "): " + reason);
  }
  for (const auto& [reason, names] : joints.taken_as_rigid) {
    text += wrapped(first,
                    ends(names.size()) + " taken as rigid (" + first_few(names) + "): " + reason);
  }
  return text;
}

nlohmann::ordered_json joints_json(const JointSummary& joints) {
  nlohmann::ordered_json nearest = nlohmann::ordered_json::object(), as_rigid = nearest;
  for (const auto& [reason, names] : joints.taken_as_nearest) nearest[reason] = names;
  for (const auto& [reason, names] : joints.taken_as_rigid) as_rigid[reason] = names;
  return {{"model", joints.rigid ? "rigid" : "welded"},
          {"ends_sprung", joints.sprung},
          {"ends_taken_as_nearest", std::move(nearest)},
          {"ends_taken_as_rigid", std::move(as_rigid)}};
}

}  // namespace tubewright
