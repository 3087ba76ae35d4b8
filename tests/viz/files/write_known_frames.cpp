// write_known_frames DIRECTORY: the files of the known frames, and beside them `reported.txt` with
// the worst von Mises stress (MPa) and yield utilisation that the results state for each member.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <limits>

#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/known_modes.h"
#include "viz/files/load_files.h"

using namespace tubewright;

namespace {

void write(const Frame& frame, const std::filesystem::path& directory) {
  const Analysis analysis = analysed(frame);
  if (const auto failure = write_load_files(analysis, directory.string()))
    throw std::runtime_error("cannot write " + failure->path.string() + ": " + failure->reason);
  std::ofstream reported(directory / "reported.txt");
  reported.precision(std::numeric_limits<double>::max_digits10);
  for (const CaseResult& result : analysis.cases)
    for (std::size_t i = 0; i < result.members.size(); ++i) {
      const MemberResult& member = result.members[i];
      if (!member.has_stress) continue;
      reported << result.name << ' ' << analysis.frame.members[i].name << ' '
               << member.worst.stress.von_mises * 1e-6 << ' '
               << member.checks.yield.utilisation.value_or(0) << '\n';
    }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return std::cerr << "usage: write_known_frames DIRECTORY\n", 2;
  try {
    const std::filesystem::path directory = argv[1];
    std::filesystem::remove_all(directory);
    write(cantilever_frame(), directory / "cantilever");
    write(mixed_frame(), directory / "mixed");
    write_known_modes(directory / "modes");
  } catch (const std::exception& fault) {
    std::cerr << fault.what() << '\n';
    return 1;
  }
}
