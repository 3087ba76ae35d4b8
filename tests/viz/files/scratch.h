// A directory for a test to write into.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>

namespace tubewright {

/// An empty directory of its own, gone when the test ends.
struct Scratch {
  std::filesystem::path path;

  explicit Scratch(const std::string& name)
      : path(std::filesystem::temp_directory_path() / ("tubewright_viz_test_" + name)) {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
};

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Bytes by name; of a directory the empty string.
inline std::map<std::string, std::string> files_in(const std::filesystem::path& directory) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(directory))
    files[entry.path().filename().string()] = entry.is_regular_file() ? bytes_of(entry.path()) : "";
  return files;
}

}  // namespace tubewright
