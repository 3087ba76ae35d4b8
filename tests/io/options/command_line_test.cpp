#include "io/options/command_line.h"

#include <algorithm>

#include "io/options/command_table.h"
#include "io/options/help_text.h"
#include "tests/catch.h"

namespace tubewright::command_line_test {

namespace {

CheckCommand check(std::vector<std::string> words) {
  words.insert(words.begin(), "check");
  const CommandLine line = read_command_line(words);
  if (const auto* usage_error = std::get_if<UsageError>(&line)) FAIL(usage_error->message);
  REQUIRE(std::holds_alternative<CheckCommand>(line));
  return std::get<CheckCommand>(line);
}

UsageError usage_error(const std::vector<std::string>& words) {
  const CommandLine line = read_command_line(words);
  REQUIRE(std::holds_alternative<UsageError>(line));
  return std::get<UsageError>(line);
}

std::string answer(const std::vector<std::string>& words) {
  const CommandLine line = read_command_line(words);
  REQUIRE(std::holds_alternative<Answer>(line));
  return std::get<Answer>(line).text;
}

}  // namespace

TEST_CASE("check takes a frame, a directory, cases, --json and -q in any order") {
  const CheckCommand command =
      check({"-o", "out", "--case", "brake", "quad.yaml", "--json", "--case=bump", "-q"});
  CHECK(command.frame == "quad.yaml");
  CHECK(command.directory == "out");
  CHECK(command.cases == std::vector<std::string>{"brake", "bump"});
  CHECK(command.json);
  CHECK(command.quiet);
}

TEST_CASE("option --case takes one name, so the frame may follow it") {
  const CheckCommand command = check({"--case", "brake", "quad.yaml"});
  CHECK(command.cases == std::vector<std::string>{"brake"});
  CHECK(command.frame == "quad.yaml");
}

TEST_CASE("a lone dash is the frame on standard input") {
  CHECK(check({"-"}).frame == "-");
  CHECK(check({"--json", "-"}).frame == "-");
}

TEST_CASE("long option names and attached values are understood") {
  CHECK(check({"a.yaml", "--output=out"}).directory == "out");
  CHECK(check({"a.yaml", "-oout"}).directory == "out");
  CHECK(check({"--", "-odd-name.yaml"}).frame == "-odd-name.yaml");
}

TEST_CASE("start and schema are commands") {
  const CommandLine start = read_command_line({"start", "new.yaml"});
  REQUIRE(std::holds_alternative<StartCommand>(start));
  CHECK(std::get<StartCommand>(start).file == "new.yaml");
  CHECK(std::holds_alternative<SchemaCommand>(read_command_line({"schema"})));
}

TEST_CASE("a misspelt command gets a hint") {
  CHECK(usage_error({"chekc", "a.yaml"}).message == "there is no command `chekc`");
  CHECK(usage_error({"chekc", "a.yaml"}).advice == "did you mean `check`?");
  CHECK(usage_error({"shema"}).advice == "did you mean `schema`?");
  CHECK(usage_error({"xyzzy"}).advice == "see `tubewright --help`");
  CHECK(usage_error({""}).message == "there is no command ``");
}

TEST_CASE("a misspelt option gets a hint") {
  CHECK(usage_error({"check", "a.yaml", "--jsn"}).message == "`check` has no option `--jsn`");
  CHECK(usage_error({"check", "a.yaml", "--jsn"}).advice == "did you mean `--json`?");
  CHECK(usage_error({"check", "a.yaml", "--ouput=x"}).advice == "did you mean `--output`?");
  CHECK(usage_error({"--hepl"}).advice == "did you mean `--help`?");
  CHECK(usage_error({"--versoin"}).advice == "did you mean `--version`?");
}

TEST_CASE("the studies take a frame, --json and -q, twist also how the frame is held") {
  const auto study = [](const std::vector<std::string>& words) {
    const CommandLine line = read_command_line(words);
    REQUIRE(std::holds_alternative<StudyCommand>(line));
    return std::get<StudyCommand>(line);
  };
  CHECK(study({"twist", "a.yaml"}).study == Study::twist);
  CHECK_FALSE(study({"twist", "a.yaml"}).clamped);
  CHECK(study({"twist", "--hold", "clamped", "a.yaml", "--json"}).clamped);
  CHECK(study({"twist", "--hold=free", "a.yaml"}).frame == "a.yaml");
  CHECK(study({"floor", "-", "--json"}).json);
  CHECK(study({"bench-test", "a.yaml", "-q"}).quiet);
  CHECK(study({"rank", "a.yaml", "--diagonal", "brace"}).section == "brace");
  CHECK(study({"rank", "a.yaml"}).section.empty());
  CHECK(study({"break", "a.yaml", "--json"}).json);
  CHECK(study({"modes", "a.yaml", "-n", "3"}).count == 3);
  CHECK_FALSE(study({"buckle", "a.yaml"}).count);
  CHECK(study({"buckle", "a.yaml", "--case", "b"}).cases == std::vector<std::string>{"b"});
  CHECK_THAT(usage_error({"modes", "a.yaml", "-n", "0"}).message, ContainsSubstring("1 to 200"));
  CHECK_THAT(usage_error({"modes", "a.yaml", "-n", "few"}).message, ContainsSubstring("1 to 200"));
  CHECK_THAT(usage_error({"twist", "a.yaml", "--hold", "both"}).message,
             ContainsSubstring("clamped"));
  CHECK_THAT(usage_error({"floor", "a.yaml", "--hold", "free"}).message,
             ContainsSubstring("has no option `--hold`"));
  CHECK_THAT(usage_error({"twist"}).message, ContainsSubstring("`twist` needs a frame file"));
  CHECK_THAT(usage_error({"--hold", "twist"}).advice,
             ContainsSubstring("tubewright twist frame.yaml"));
}

TEST_CASE("a frame without a command, or options before it, are put right") {
  CHECK_THAT(usage_error({"quad.yaml"}).advice, ContainsSubstring("tubewright check quad.yaml"));
  CHECK_THAT(usage_error({"--json", "check", "a.yaml"}).message,
             ContainsSubstring("stands before the command"));
}

TEST_CASE("missing, empty, repeated and surplus words are told plainly") {
  CHECK_THAT(usage_error({"check"}).message, ContainsSubstring("needs a frame file"));
  CHECK_THAT(usage_error({"check", ""}).message, ContainsSubstring("needs a frame file"));
  CHECK_THAT(usage_error({"start"}).message, ContainsSubstring("needs the name of the file"));
  CHECK_THAT(usage_error({"check", "a.yaml", "-o"}).message, ContainsSubstring("needs a value"));
  CHECK_THAT(usage_error({"check", "a.yaml", "-o", ""}).message, ContainsSubstring("`--output`"));
  CHECK_THAT(usage_error({"check", "a.yaml", "-o", "b", "-o", "c"}).message,
             ContainsSubstring("more than once"));
  CHECK_THAT(usage_error({"check", "a.yaml", "b.yaml"}).message,
             ContainsSubstring("`b.yaml` is one word too many"));
  CHECK_THAT(usage_error({"schema", "x"}).message, ContainsSubstring("one word too many"));
}

TEST_CASE("flags may be repeated") { CHECK(check({"a.yaml", "--json", "--json"}).json); }

TEST_CASE("a misuse remembers that the answer was wanted in JSON") {
  CHECK(usage_error({"check", "--json"}).json);
  CHECK_FALSE(usage_error({"check"}).json);
}

TEST_CASE("help leads with examples") {
  for (const std::string& help :
       {answer({"--help"}), answer({"check", "--help"}), answer({"start", "-h"})}) {
    CHECK(help.find("Examples:") < help.find("Usage:"));
  }
  CHECK(answer({"help", "check"}) == answer({"check", "--help"}));
}

TEST_CASE("the help of check names every option that check takes") {
  const std::string help = command_help("check");
  for (const char* option : {"-o, --output", "--case", "--json", "-q, --quiet", "-h, --help"}) {
    CHECK_THAT(help, ContainsSubstring(option));
  }
}

TEST_CASE("help lists each command of the table, and no other") {
  const std::string help = program_help();
  const std::size_t start = help.find("Commands:\n") + 9;
  const std::string list = help.substr(start, help.find("\n\n", start) - start);
  CHECK(static_cast<std::size_t>(std::count(list.begin(), list.end(), '\n')) ==
        command_table().size());
  for (const Command& command : command_table()) {
    CHECK_THAT(list, ContainsSubstring("\n  " + command.name + " "));
  }
}

TEST_CASE("size takes a file to write, what counts, the time there is, --json and -q") {
  const auto size = [](const std::vector<std::string>& words) {
    const CommandLine line = read_command_line(words);
    REQUIRE(std::holds_alternative<SizeCommand>(line));
    return std::get<SizeCommand>(line);
  };
  const SizeCommand plain = size({"size", "a.yaml"});
  CHECK(plain.frame == "a.yaml");
  CHECK(plain.file.empty());
  CHECK_FALSE(plain.seconds);
  CHECK_FALSE((plain.cheapest || plain.fail_safe || plain.json || plain.quiet));
  const SizeCommand all = size({"size", "-o", "b.yaml", "--cheapest", "--fail-safe", "--seconds",
                                "2.5", "a.yaml", "--json", "-q"});
  CHECK(all.file == "b.yaml");
  CHECK(all.seconds == 2.5);
  CHECK((all.cheapest && all.fail_safe && all.json && all.quiet));
  for (const char* seconds : {"0", "-1", "1e7", "soon", "nan"}) {
    CHECK_THAT(usage_error({"size", "a.yaml", std::string("--seconds=") + seconds}).message,
               ContainsSubstring("`--seconds` takes a number from 0.001 to 1e+06"));
  }
  const UsageError error = usage_error({"size", "a.yaml", "-o", "-"});
  CHECK_THAT(error.message, ContainsSubstring("the name of a file to write"));
  CHECK(error.advice == "try `-o lighter.yaml`");
}

TEST_CASE("no words at all give a short usage with two examples") {
  CHECK(usage_error({}).advice == short_usage());
  const std::string usage = short_usage();
  CHECK(std::count(usage.begin(), usage.end(), '\n') <= 8);
}

TEST_CASE("option --version names the program and a version") {
  CHECK_THAT(answer({"--version"}), Catch::Matchers::StartsWith("tubewright "));
}

TEST_CASE("vary takes a frame, what is set as it was typed, a shard and the ways to answer") {
  const CommandLine line = read_command_line({"vary", "a.yaml", "--set", "x.y=1,2", "--shard",
                                              "1/3", "--set", "z=a b", "--csv", "-o", "out", "-q"});
  REQUIRE(std::holds_alternative<VaryCommand>(line));
  const auto& command = std::get<VaryCommand>(line);
  CHECK(command.files == std::vector<std::string>{"a.yaml"});
  CHECK(command.sets == std::vector<std::string>{"x.y=1,2", "z=a b"});
  CHECK(command.shard == "1/3");
  CHECK(command.csv);
  CHECK(command.quiet);
  CHECK(command.directory == "out");
  CHECK_FALSE(command.merge);
}

TEST_CASE("vary merges any number of files, and knows what is varied from them") {
  const CommandLine line = read_command_line({"vary", "--merge", "a.json", "b.json", "c.json"});
  REQUIRE(std::holds_alternative<VaryCommand>(line));
  CHECK(std::get<VaryCommand>(line).files ==
        std::vector<std::string>{"a.json", "b.json", "c.json"});
  CHECK(std::get<VaryCommand>(line).merge);
  CHECK_THAT(usage_error({"vary", "--merge", "a.json", "--set", "x=1"}).message,
             ContainsSubstring("`--merge` and `--set`"));
  CHECK_THAT(usage_error({"vary", "--merge", "a.json", "--shard", "0/2"}).message,
             ContainsSubstring("`--merge` and `--shard`"));
  CHECK_THAT(usage_error({"vary", "--merge"}).message, ContainsSubstring("needs a frame file"));
  CHECK_THAT(usage_error({"vary", "a.yaml", "b.yaml"}).message,
             ContainsSubstring("one word too many"));
  CHECK_THAT(usage_error({"vary", "a.yaml", "--json", "--csv"}).message,
             ContainsSubstring("exclude each other"));
}

TEST_CASE("compare takes two frames, no more and no fewer, one of them from standard input") {
  const CommandLine line = read_command_line({"compare", "a.yaml", "-", "-o", "out", "--json"});
  REQUIRE(std::holds_alternative<CompareCommand>(line));
  const auto& command = std::get<CompareCommand>(line);
  CHECK(command.frames == std::vector<std::string>{"a.yaml", "-"});
  CHECK(command.directory == "out");
  CHECK(command.json);
  CHECK_THAT(usage_error({"compare", "a.yaml"}).message,
             ContainsSubstring("needs two frame files"));
  CHECK_THAT(usage_error({"compare"}).message, ContainsSubstring("needs a frame file"));
  CHECK_THAT(usage_error({"compare", "a", "b", "c"}).message,
             ContainsSubstring("`c` is one word too"));
  CHECK_THAT(usage_error({"compare", "-", "-"}).message, ContainsSubstring("standard input"));
}

}  // namespace tubewright::command_line_test
