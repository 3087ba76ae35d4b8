// What the sets of files with an index have in common: the text of a .pvd index, and a directory
// that is filled whole file by whole file.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "viz/files/load_files.h"

namespace tubewright {

/// One line of the index. `time` is a decimal number; `part` tells a viewer's blocks of one step
/// apart. Requires: `file` needs no escaping in XML.
std::string index_entry(const std::string& time, int part, const std::string& file);

std::string index_file(const std::string& entries);

/// write_file_atomically(), whose failure names the file.
std::optional<WriteFailure> put_file(const std::filesystem::path& path, const std::string& bytes);

/// Makes `directory` if it is missing and calls `write`, whose std::runtime_error (VTK refuses) is
/// a failure of the directory.
std::optional<WriteFailure> fill_directory(
    const std::string& directory,
    const std::function<std::optional<WriteFailure>(const std::filesystem::path&)>& write);

}  // namespace tubewright
