#include "viz/files/pvd_index.h"

#include <stdexcept>
#include <system_error>

#include "io/text/write_file_atomically.h"

namespace tubewright {

std::string index_entry(const std::string& time, int part, const std::string& file) {
  return "    <DataSet timestep=\"" + time + "\" group=\"\" part=\"" + std::to_string(part) +
         "\" file=\"" + file + "\"/>\n";
}

std::string index_file(const std::string& entries) {
  return "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\">\n  "
         "<Collection>\n" +
         entries + "  </Collection>\n</VTKFile>\n";
}

std::optional<WriteFailure> put_file(const std::filesystem::path& path, const std::string& bytes) {
  return write_file_atomically(path, bytes);
}

std::optional<WriteFailure> fill_directory(
    const std::string& directory,
    const std::function<std::optional<WriteFailure>(const std::filesystem::path&)>& write) {
  std::error_code error;
  std::filesystem::create_directories(directory, error);
  if (error) return WriteFailure{directory, error.message()};
  try {
    return write(directory);
  } catch (const std::runtime_error& refused) {
    return WriteFailure{directory, refused.what()};
  }
}

}  // namespace tubewright
