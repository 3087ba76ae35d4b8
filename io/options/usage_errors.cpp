#include "io/options/usage_errors.h"

#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

/// The near one, or where to look.
std::string near_or_help(const std::string& word, const std::vector<std::string>& known,
                         const std::string& command) {
  const std::string suggestion = did_you_mean(word, known);
  return suggestion.empty() ? see_help(command) : suggestion;
}

}  // namespace

std::string see_help(const std::string& command) {
  return "see `tubewright" + (command.empty() ? "" : " " + command) + " --help`";
}

UsageError no_such_command(const std::string& word, const std::vector<std::string>& known) {
  return {"there is no command " + quoted(word), near_or_help(word, known, "")};
}

UsageError no_command(const std::string& frame) {
  return {"no command given", "to check this frame: `tubewright check " + frame + "`"};
}

UsageError no_such_option(const std::string& option, const std::vector<std::string>& known) {
  return {"there is no option " + quoted(option), near_or_help(option, known, "")};
}

UsageError option_before_command(const std::string& option, const std::string& command) {
  return {quoted(option) + " stands before the command",
          "options come after it: `tubewright " + command + " frame.yaml " + option + "`"};
}

UsageError option_of_no_use(const std::string& command, const std::string& option,
                            const std::vector<std::string>& known) {
  return {quoted(command) + " has no option " + quoted(option),
          near_or_help(option, known, command)};
}

UsageError one_word_too_many(const std::string& command, const std::string& word) {
  return {quoted(word) + " is one word too many for " + quoted(command), see_help(command)};
}

UsageError option_given_twice(const std::string& command, const std::string& option) {
  return {quoted(option) + " is given more than once", see_help(command)};
}

UsageError option_without_value(const std::string& command, const std::string& option) {
  return {quoted(option) + " needs a value after it", see_help(command)};
}

UsageError no_frame_file(const std::string& command) {
  return {quoted(command) + " needs a frame file", "try `tubewright " + command + " frame.yaml`"};
}

UsageError no_new_file(const std::string& command) {
  return {quoted(command) + " needs the name of the file to write",
          "try `tubewright " + command + " frame.yaml`"};
}

UsageError no_word(const std::string& command, const std::vector<std::string>& known) {
  return {quoted(command) + " needs " + either(known),
          "try `tubewright " + command + " " + known.front() + "`"};
}

UsageError no_such_word(const std::string& command, const std::string& word,
                        const std::vector<std::string>& known) {
  return {quoted(command) + " knows no " + quoted(word), "it knows " + quoted_list(known)};
}

UsageError cases_with_shell(const std::string& command) {
  return {"`--cases` goes without a shell", see_help(command)};
}

UsageError second_order_with_large_displacement() {
  return {"`--second-order` and `--large-displacement` exclude each other",
          "large displacements hold what second order counts, and more"};
}

UsageError one_frame_only(const std::string& command, const std::string& frame) {
  return {quoted(command) + " needs two frame files",
          "try `tubewright " + command + " " + frame + " other.yaml`"};
}

UsageError standard_input_twice(const std::string& command) {
  return {quoted(command) + " cannot read both frames from standard input",
          "only one of them may be `-`"};
}

UsageError json_with_csv() {
  return {"`--json` and `--csv` exclude each other", "ask for one; `-o DIR` writes both"};
}

UsageError merge_with(const std::string& option) {
  return {"`--merge` and " + quoted(option) + " exclude each other",
          "the files that are merged say what was varied: `tubewright vary --merge a.json b.json`"};
}

}  // namespace tubewright
