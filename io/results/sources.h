// What is checked and how, with the source of each rule, for reports.
#pragma once

#include <string>
#include <vector>

namespace tubewright {

struct RuleSource {
  std::string subject;
  std::string rule;
  std::string source;
};

/// The rows of *What is checked, and how* in cases/checks/README.md; a test holds the two
/// together.
const std::vector<RuleSource>& rule_sources();

}  // namespace tubewright
