// What every command does with its frame file first: what it loads, and how it says that it cannot.
#include "io/command/command_frame.h"

#include <stdlib.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <nlohmann/json.hpp>

#include "io/options/command_line.h"
#include "tests/catch.h"

namespace tubewright::command_frame_test {

namespace {

namespace fs = std::filesystem;

constexpr const char* trolley = R"(frame: Trolley
sections: {rail: {shape: square_tube, side: 25, wall: 2, material: S235}}
nodes: {A: [0, 0, 0], B: [500, 0, 0]}
members: {AB: {from: A, to: B, section: rail}}
supports: {A: fixed}
)";

constexpr const char* four_wheels = R"(frame: Quad
sections: {rail: {shape: square_tube, side: 25, wall: 2, material: S235}}
nodes: {FL: [0, 300, 250], FR: [0, -300, 250], RL: [-900, 300, 250], RR: [-900, -300, 250]}
members:
  front: {from: FL, to: FR, section: rail}
  rear: {from: RL, to: RR, section: rail}
  left: {from: FL, to: RL, section: rail}
  right: {from: FR, to: RR, section: rail}
masses: {load: {mass: 50, at: [-400, 0, 400], on: [FL, FR, RL, RR]}}
vehicle:
  wheels:
    fl: {contact: [0, 450, 0], centre: [0, 450, 230], carrier: [FL], brake: outboard, axle: front}
    fr: {contact: [0, -450, 0], centre: [0, -450, 230], carrier: [FR], brake: outboard, axle: front}
    rl: {contact: [-900, 450, 0], centre: [-900, 450, 230], carrier: [RL], axle: rear}
    rr: {contact: [-900, -450, 0], centre: [-900, -450, 230], carrier: [RR], axle: rear}
)";

/// A file in a directory of its own, gone at the end.
struct File {
  fs::path directory, path;
  explicit File(const std::string& text) {
    std::string name = (fs::temp_directory_path() / "tubewright-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    directory = name;
    path = directory / "frame.yaml";
    std::ofstream(path) << text;
  }
  ~File() { fs::remove_all(directory); }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
};

struct Written {
  std::string out, err;
};

/// What `work` writes to standard output and error.
Written written_by(const std::function<void()>& work) {
  Written written;
  std::fflush(nullptr);
  const File files("");
  const std::string out = (files.directory / "out").string();
  const std::string err = (files.directory / "err").string();
  const int before_out = dup(STDOUT_FILENO), before_err = dup(STDERR_FILENO);
  FILE* to_out = std::fopen(out.c_str(), "w");
  FILE* to_err = std::fopen(err.c_str(), "w");
  REQUIRE((to_out != nullptr && to_err != nullptr));
  dup2(fileno(to_out), STDOUT_FILENO);
  dup2(fileno(to_err), STDERR_FILENO);
  work();
  dup2(before_out, STDOUT_FILENO);
  dup2(before_err, STDERR_FILENO);
  for (FILE* file : {to_out, to_err}) std::fclose(file);
  for (const int descriptor : {before_out, before_err}) close(descriptor);
  for (const auto& [name, text] : {std::pair{out, &written.out}, {err, &written.err}}) {
    std::ifstream file(name);
    text->assign(std::istreambuf_iterator<char>(file), {});
  }
  return written;
}

}  // namespace

TEST_CASE("a sound frame is loaded with its text, its cases and the doubts about it") {
  const File file(std::string(trolley) +
                  "cases: {hand: {kind: static, forces: {B: [0, 0, -9]}}}\n");
  const Written w = written_by([&] {
    const auto loaded = load_frame(file.path.string(), false);
    REQUIRE(loaded.has_value());
    const LoadedFrame& frame = *loaded;
    CHECK(frame.file.name == file.path.string());
    CHECK_THAT(frame.file.text, ContainsSubstring("Trolley"));
    REQUIRE(frame.frame.cases.size() == 1);
    CHECK(frame.frame.cases[0].name == "hand");
    for (const Diagnostic& p : frame.warnings) CHECK(p.severity == Severity::warning);
  });
  CHECK(w.out.empty());
  CHECK(w.err.empty());  // warnings are told by the command, once
}

TEST_CASE("a vehicle without cases is loaded with the standard ones, standing among them") {
  const File file(four_wheels);
  const auto loaded = load_frame(file.path.string(), false);
  REQUIRE(loaded.has_value());
  const LoadedFrame& frame = *loaded;
  CHECK(frame.frame.cases.size() > 5);
  CHECK(errors_of_choice(frame.frame, {}).empty());
  for (const Case& c : frame.frame.cases) CHECK(c.kind == CaseKind::vehicle);
}

TEST_CASE("a frame with a fault is refused with its place, in JSON too where that is asked for") {
  const File file(std::string(trolley) + "tubes: 3\n");
  int code = 0;
  const auto load = [&](bool json) {
    return written_by([&] { code = *load_frame(file.path.string(), json).error(); });
  };
  const Written text = load(false);
  CHECK(code == exit_cannot_answer);
  CHECK(text.out.empty());
  CHECK_THAT(text.err, ContainsSubstring("frame.yaml:6:1: error: unknown key `tubes`"));
  const Written json = load(true);
  CHECK(code == exit_cannot_answer);
  CHECK(json.err == text.err);
  const auto answer = nlohmann::json::parse(json.out);
  const auto& diagnostics = answer["error"]["problems"];
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0]["message"] == "unknown key `tubes`");
  CHECK(diagnostics[0]["line"] == 6);
}

TEST_CASE("a file that cannot be read or written is named with the system's reason") {
  int code = 0;
  const Written w =
      written_by([&] { code = *load_frame("/nonexistent/frame.yaml", true).error(); });
  CHECK(code == exit_cannot_answer);
  const std::string message = "cannot read /nonexistent/frame.yaml: No such file or directory";
  CHECK(w.err == "tubewright: error: " + message + "\n");
  CHECK(nlohmann::json::parse(w.out)["error"]["problems"][0]["message"] == message);
  CHECK(cannot_write(WriteFailure{"out/a.json", "Disk full"}).message ==
        "cannot write out/a.json: Disk full");
}

TEST_CASE("without load cases there is nothing to check, and a case has to be there to be chosen") {
  Frame frame;
  const Diagnostics none = errors_of_choice(frame, {});
  REQUIRE(none.size() == 1);
  CHECK_THAT(none[0].message, ContainsSubstring("no load cases and no vehicle"));
  CHECK_THAT(none[0].advice, ContainsSubstring("add `cases`"));
  for (const char* name : {"brake", "left_turn"}) {
    Case c;
    c.name = name;
    frame.cases.push_back(c);
  }
  CHECK(errors_of_choice(frame, {}).empty());
  CHECK(errors_of_choice(frame, {"left_turn", "brake"}).empty());
  const Diagnostics two = errors_of_choice(frame, {"brkae", "brake", "zzz"});
  REQUIRE(two.size() == 2);
  CHECK(two[0].message == "the frame has no case `brkae`");
  CHECK(two[0].advice == "did you mean `brake`?");
  CHECK(two[1].advice == "it has `brake` `left_turn`");
  CHECK(two[1].severity == Severity::error);
}

TEST_CASE("who loads several frames is told what is wrong with each and says it himself") {
  const File sound(trolley);
  CHECK(try_to_load(sound.path.string()).has_value());
  const File faulty("frame: Nothing\n");
  const auto outcome = try_to_load(faulty.path.string());
  REQUIRE(outcome.error() != nullptr);
  CHECK(outcome.error()->file.name == faulty.path.string());
  CHECK_FALSE(outcome.error()->diagnostics.empty());
  CHECK_FALSE(outcome.error()->unreadable);
  const auto none = try_to_load((sound.directory / "none.yaml").string());
  REQUIRE(none.error() != nullptr);
  REQUIRE(none.error()->unreadable);
  CHECK_THAT(none.error()->unreadable->message, ContainsSubstring("cannot read"));
}

}  // namespace tubewright::command_frame_test
