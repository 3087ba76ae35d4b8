#include "io/options/command_table.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "cases/frame/wording.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {

namespace {

// Options that several commands have
// ----------------------------------

CommandOption output(const std::string& help) {
  return {"--output", "-o", "DIR", help, OptionValue::directory};
}

CommandOption one_case(const std::string& help) {
  return {"--case", "", "NAME", help, OptionValue::load_case, true};
}

CommandOption first_case(const std::string& help) {
  return {"--case", "", "NAME", help, OptionValue::load_case};
}

CommandOption number(const std::string& name, double least, double most, const std::string& help) {
  return {name, "", "N", help, OptionValue::number, false, {}, least, most};
}

CommandOption count(const std::string& help) {
  return {"--count", "-n", "N", help, OptionValue::count, false, {}, 1, 200};
}

CommandOption one_of(const std::string& name, const std::string& shown,
                     std::vector<std::string> words, const std::string& help) {
  return {name, "", shown, help, OptionValue::word, false, std::move(words)};
}

CommandOption flag(const std::string& name, const std::string& help) {
  return {name, "", "", help};
}

CommandOption json() { return flag("--json", "print the results as one JSON object instead"); }

CommandOption quiet(const std::string& help) { return {"--quiet", "-q", "", help}; }

Command on_frame(const std::string& name, const std::string& help,
                 std::vector<CommandOption> options) {
  return {name, Operand::frame, "FRAME.yaml", help, std::move(options)};
}

CommandOption text(const std::string& name, const std::string& shown, const std::string& help,
                   bool repeats = false) {
  return {name, "", shown, help, OptionValue::text, repeats};
}

/// That takes several files.
Command on_files(Command command, int most) {
  command.most_operands = most;
  return command;
}

constexpr int most_files = 1'000'000;  // the system's own bound on a command line is lower

// The table
// ---------

std::vector<Command> all_commands() {
  return {
      on_frame("check", "solve all load cases, make all checks",
               {output("also write the report, all results and 3D files into DIR"),
                one_case("solve this load case only; may be given several times"),
                flag("--second-order", "axial forces act on the displaced frame (P-Delta)"),
                flag("--large-displacement", "equilibrium on the deformed frame; no sheets"),
                flag("--no-pictures", "leave out the .png and .glb files"),
                flag("--changes", "with -o: what `rank` and `break` answer, in the report"), json(),
                quiet("print the verdict only")}),
      on_frame("twist", "torsional stiffness, twist along the frame, weakest bay",
               {one_of("--hold", "free|clamped", {"free", "clamped"},
                       "how the rear of the frame is held"),
                json(), quiet("print the stiffness only")}),
      on_frame("floor", "the sheet against nothing and against tubes of its mass",
               {json(), quiet("print the verdict only")}),
      on_frame("modes", "natural frequencies, named in words",
               {count("how many, beside rigid-body motions (10)"),
                output("also write modes.pvd with its VTK files into DIR"), json(),
                quiet("print the frequencies only")}),
      on_frame("buckle", "by what factor loads may grow before the frame buckles",
               {one_case("this load case only; may be given several times"),
                count("how many factors a case (4)"), json(),
                quiet("print the lowest factor of each case only")}),
      on_frame("rank", "what each tube is worth, which change pays most",
               {{"--diagonal", "", "SECTION", "of the file, for diagonals (its lightest tube)",
                 OptionValue::text},
                json(),
                quiet("print the change that pays most only")}),
      on_frame("break", "every weld, tube and sheet lost in turn: what must hold",
               {json(), quiet("print what must hold only")}),
      on_frame("ride", "over the roads of `rides`: wheel loads, checks and wear",
               {output("also write a report, wheel forces and animations into DIR"), json(),
                quiet("print one line a ride only")}),
      on_frame("size", "the lightest sizes of the stock that pass, with a proof",
               {{"--output", "-o", "FILE", "also write the frame in these sizes into a new file",
                 OptionValue::new_file},
                flag("--cheapest", "the cheapest by the prices of `stock` instead of the lightest"),
                flag("--fail-safe", "with any one weld broken too, at a safety factor of 1"),
                number("--seconds", 0.001, 1e6, "the longest the search may take (300)"),
                json(),
                quiet("print the answer in one sentence only")}),
      on_frame("cut", "cut list: lengths, angles, bars to buy, jig diagonals",
               {output("also write the list and drawings of the sheets into DIR"), json(),
                quiet("print the bars and their mass only")}),
      on_frame("bench-test", "what dial gauges should read; what their readings tell",
               {json(), quiet("print the readings only")}),
      on_frame("view", "a window with the deformed frame, painted by stress",
               {first_case("the load case to begin with"),
                one_of("--colour", "QUANTITY", {"stress", "utilisation", "axial", "normal"},
                       "what the tubes are painted by"),
                number("--times", 0, 1e6, "how many times the deflection is drawn"),
                quiet("no warnings")}),
      on_files(on_frame("vary", "values of the file varied, the lightest that passes",
                        {text("--set", "PATH=VALUES",
                              "a value of the file and those it takes; may be given several times",
                              true),
                         text("--shard", "I/N", "only every Nth combination, from number I on"),
                         flag("--merge", "put the JSON answers of all shards together"),
                         output("also write vary.csv, vary.json and vary.svg into DIR"), json(),
                         flag("--csv", "print the combinations as CSV instead"),
                         quiet("print the lightest that passes only")}),
               most_files),
      on_files({"compare",
                Operand::frame,
                "A.yaml B.yaml",
                "two frames side by side, and what was changed",
                {output("also write compare.html, with both frames drawn, into DIR"), json(),
                 quiet("print the comparison in one sentence only")}},
               2),
      {"start", Operand::new_file, "FILE.yaml", "write a commented starter frame that passes", {}},
      {"schema", Operand::none, "", "print the JSON Schema (draft-07) of the frame file", {}},
      {"completion",
       Operand::word,
       "SHELL",
       "print a completion script for bash, zsh or fish",
       {{"--cases", "", "FRAME.yaml", "print the load cases of a frame instead, one a line",
         OptionValue::frame}},
       {"bash", "zsh", "fish"}}};
}

std::string plain(double value) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value);
  return {text, end.ptr};
}

bool is_number_within(const std::string& text, const CommandOption& option, bool whole) {
  double value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc() || read.ptr != end || !std::isfinite(value)) return false;
  if (whole && text.find_first_not_of("0123456789") != std::string::npos) return false;
  return value >= option.least && value <= option.most;
}

}  // namespace

const std::vector<Command>& command_table() {
  static const std::vector<Command> table = all_commands();
  return table;
}

const Command* find_command(const std::string& name) {
  const std::vector<Command>& table = command_table();
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Command& c) { return c.name == name; });
  return found == table.end() ? nullptr : &*found;
}

const CommandOption& help_option() {
  static const CommandOption option = {"--help", "-h", "", "print the help page"};
  return option;
}

const std::vector<CommandOption>& program_options() {
  static const std::vector<CommandOption> options = {help_option(),
                                                     flag("--version", "print the version")};
  return options;
}

std::vector<std::string> names_of(const CommandOption& option) {
  if (option.letter.empty()) return {option.name};
  return {option.name, option.letter};
}

std::string spelt(const CommandOption& option) {
  return (option.letter.empty() ? "" : option.letter + ", ") + option.name +
         (option.shown.empty() ? "" : " " + option.shown);
}

std::optional<std::string> fault_of_value(const CommandOption& option, const std::string& text) {
  const std::string name = quoted(option.letter.empty() ? option.name : option.letter);
  const std::string range = plain(option.least) + " to " + plain(option.most);
  switch (option.value) {
    case OptionValue::word:
      if (std::find(option.words.begin(), option.words.end(), text) != option.words.end()) break;
      return name + " is " + either(option.words);
    case OptionValue::count:
      if (is_number_within(text, option, true)) break;
      return name + " takes a whole number from " + range;
    case OptionValue::number:
      if (is_number_within(text, option, false)) break;
      return name + " takes a number from " + range;
    case OptionValue::directory:
      if (!text.empty()) break;
      return quoted(option.name) + " needs the name of a directory";
    case OptionValue::new_file:
      if (!text.empty() && text != "-") break;
      return quoted(option.name) + " needs the name of a file to write";
    case OptionValue::none:
    case OptionValue::frame:
    case OptionValue::load_case:
    case OptionValue::text:
      break;
  }
  return std::nullopt;
}

}  // namespace tubewright
