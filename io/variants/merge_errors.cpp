#include "io/variants/merge_errors.h"

#include "io/yaml/yaml_errors.h"

namespace tubewright {

Diagnostic no_answer_of_vary(const std::string& file) {
  return {shown(file) + " is no answer of `vary --json`",
          "give what `tubewright vary FRAME.yaml --set ... --shard I/N --json` printed"};
}

Diagnostic other_version(const std::string& file, const std::string& ours) {
  return {shown(file) + " is from another version of tubewright than this, " + ours,
          "run all parts and the merge with one version"};
}

Diagnostic of_another_question(const std::string& file, const std::string& first) {
  return {shown(file) + " and " + shown(first) + " answer different questions",
          "parts of one answer have the same frame file and the same `--set` in the same order"};
}

Diagnostic told_differently(std::size_t combination, const std::string& file,
                            const std::string& other) {
  return {"combination " + std::to_string(combination) + " is told differently in " + shown(file) +
              " and " + shown(other),
          "run it again on one kind of machine"};
}

Diagnostic combinations_missing(std::size_t missing, std::size_t all, std::size_t first) {
  const std::string k = std::to_string(first);
  return {std::to_string(missing) + " of " + std::to_string(all) +
              " combinations are missing, number " + k + " the first",
          "give all parts: of N shards, number " + k + " is in shard " + k + " mod N"};
}

}  // namespace tubewright
