// The program `tubewright`.

#include <exception>
#include <new>
#include <string>
#include <variant>
#include <vector>

#include "io/command/command_errors.h"
#include "io/command/commands.h"
#include "io/command/standard_streams.h"
#include "io/options/command_line.h"
#include "io/results/json_parts.h"

namespace tubewright {

namespace {

int run(const CheckCommand& command) { return run_check(command); }
int run(const StudyCommand& command) { return run_study(command); }
int run(const SizeCommand& command) { return run_size(command); }
int run(const ViewCommand& command) { return run_view(command); }
int run(const VaryCommand& command) { return run_vary(command); }
int run(const CompareCommand& command) { return run_compare(command); }
int run(const StartCommand& command) { return run_start(command); }
int run(const SchemaCommand&) { return run_schema(); }
int run(const CompletionCommand& command) { return run_completion(command); }
int run(const Answer& answer) { return print_results(answer.text, 0); }

int run(const UsageError& usage_error) {
  if (usage_error.message.empty()) {
    print_message(usage_error.advice);
    return exit_cannot_answer;
  }
  const Diagnostic misuse(usage_error.message, usage_error.advice);
  print_error(misuse);
  if (!usage_error.json) return exit_cannot_answer;
  return print_results(error_json(Diagnostics{misuse}), exit_cannot_answer);
}

int cannot_go_on(const Diagnostic& reason, const std::vector<std::string>& words) {
  print_error(reason);
  for (const std::string& word : words) {
    if (word == "--json") {
      return print_results(error_json(Diagnostics{reason}), exit_cannot_answer);
    }
  }
  return exit_cannot_answer;
}

}  // namespace

}  // namespace tubewright

int main(int argc, char** argv) {
  using namespace tubewright;
  prepare_standard_streams();
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  try {
    return std::visit([](const auto& command) { return run(command); }, read_command_line(words));
  } catch (const std::bad_alloc&) {
    return cannot_go_on(out_of_memory(), words);
  } catch (const std::exception& error) {
    return cannot_go_on(unexpected_trouble(error.what()), words);
  }
}
