#include "io/command/command_errors.h"

#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"

namespace tubewright {

Diagnostic no_load_cases() {
  return {"the frame has no load cases and no vehicle, so there is nothing to check",
          "add `cases`, such as `standing: {kind: static, gravity: [0, 0, -1]}`"};
}

namespace {

std::string near_or_all(const std::string& name, const std::vector<std::string>& known) {
  std::string advice = did_you_mean(name, known);
  if (!advice.empty()) return advice;
  advice = "it has";
  for (const std::string& one : known) advice += " " + quoted(one);
  return advice;
}

}  // namespace

Diagnostic no_such_case(const std::string& load_case, const std::vector<std::string>& known) {
  return {"the frame has no case " + quoted(load_case), near_or_all(load_case, known)};
}

Diagnostic no_such_section(const std::string& section, const std::vector<std::string>& known) {
  return {"the frame has no section " + quoted(section), near_or_all(section, known)};
}

Diagnostic no_panels() {
  return {"the frame has no `panels`, so there is no sheet to judge",
          "add a sheet under `sheets` and where it lies under `panels`"};
}

Diagnostic no_bench_test() {
  return {"the frame has no `bench_test`",
          "add `bench_test: {weights: {NODE: 20}, gauges: {NODE: z}}`: kilograms hung "
          "on, gauges set up"};
}

Diagnostic nothing_on_the_bench() {
  return {"nothing holds the frame on the bench",
          "add `supports`, or `torsion`, on whose pairs it then stands"};
}

Diagnostic cannot_read(const std::string& path, const std::string& reason) {
  return {"cannot read " + path + ": " + reason, ""};
}

Diagnostic cannot_write(const std::string& path, const std::string& reason) {
  return {"cannot write " + path + ": " + reason, ""};
}

Diagnostic cannot_write_anew(const std::string& command, const std::string& path,
                             const std::string& reason) {
  return {cannot_write(path, reason).message,
          quoted(command) + " never replaces a file; choose another name"};
}

Diagnostic cannot_write_results(const std::string& reason) {
  return {"cannot write the results to standard output: " + reason, ""};
}

Diagnostic cannot_make_directory(const std::string& place, const std::string& reason) {
  return {"cannot make a directory in " + place + ": " + reason, ""};
}

Diagnostic no_window(const std::string& reason) { return {"no window: " + reason, ""}; }

Diagnostic out_of_memory() { return {"out of memory", ""}; }

Diagnostic unexpected_trouble(const std::string& what) {
  return {"unexpected trouble, please report it: " + what, ""};
}

}  // namespace tubewright
