// Runs the fuzz target on frame files and on damaged copies of them, the same ones each time.
//
//   read_frame_smoke COPIES FOLDER...
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "tests/fuzz/read_frame_fuzz.h"

namespace {

namespace fs = std::filesystem;

std::vector<std::string> frames_in(const std::vector<std::string>& folders) {
  std::vector<fs::path> paths;
  for (const std::string& folder : folders) {
    for (const auto& file : fs::recursive_directory_iterator(folder)) {
      if (file.path().extension() == ".yaml") paths.push_back(file.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> frames;
  for (const fs::path& path : paths) {
    std::ifstream stream(path, std::ios::binary);
    frames.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
  }
  return frames;
}

/// Words that a frame file may hold in the wrong place.
const std::vector<std::string> words = {
    "0",  "-1",   "1e300", "1e-300", ".nan", ".inf",   "010",   "null", "true",    "fixed", "[",
    "]",  "{",    "}",     ": ",     ", ",   "- ",     "\n",    "\t",   "\n  ",    "*a",    "&a ",
    "'",  "\"",   "#",     "<<: ",   "!!x ", "\xC3",   "---\n", "? ",   "path",    "kind",  "cable",
    "mm", "25mm", "1 in",  "3 lb",   "ä",    "spring", "rate",  "_l",   "mirror: "};

std::size_t below(std::mt19937_64& random, std::size_t count) {
  return count == 0 ? 0 : static_cast<std::size_t>(random() % count);
}

std::string damaged(std::string text, const std::vector<std::string>& frames,
                    std::mt19937_64& random) {
  const std::size_t blows = 1 + below(random, 3);
  for (std::size_t i = 0; i < blows; ++i) {
    const std::size_t at = below(random, text.size() + 1);
    switch (below(random, 5)) {
      case 0:
        text.insert(at, words[below(random, words.size())]);
        break;
      case 1:
        text.erase(at, 1 + below(random, 12));
        break;
      case 2:
        text.replace(at, 1 + below(random, 4), words[below(random, words.size())]);
        break;
      case 3:
        if (at < text.size()) text[at] = static_cast<char>(random() % 256);
        break;
      default: {
        const std::string& other = frames[below(random, frames.size())];
        text.insert(at, other.substr(below(random, other.size() + 1), below(random, 80)));
      }
    }
  }
  return text;
}

void run(const std::string& text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 3) return 2;
  const std::vector<std::string> frames = frames_in({arguments + 2, arguments + count});
  if (frames.empty()) return 2;
  for (const std::string& frame : frames) run(frame);
  std::mt19937_64 random(1);  // the same damage every time
  const long copies = std::strtol(arguments[1], nullptr, 10);
  for (long i = 0; i < copies; ++i) {
    run(damaged(frames[below(random, frames.size())], frames, random));
  }
  std::cout << frames.size() << " frames and " << copies << " damaged copies\n";
}
