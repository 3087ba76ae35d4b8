// The wording of why a command cannot answer, where that is no fault of the frame alone.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

// What was asked of the frame
// ---------------------------
Diagnostic no_load_cases();
/// `known`: the cases that the frame has.
Diagnostic no_such_case(const std::string& load_case, const std::vector<std::string>& known);
/// `known`: the tubes and bars among the sections of the file.
Diagnostic no_such_section(const std::string& section, const std::vector<std::string>& known);
Diagnostic no_panels();
Diagnostic no_bench_test();
Diagnostic nothing_on_the_bench();

// Trouble outside the frame
// -------------------------
/// `reason`: in the system's words, here and below. Most have no advice.
Diagnostic cannot_read(const std::string& path, const std::string& reason);
Diagnostic cannot_write(const std::string& path, const std::string& reason);
/// `command`: "start", which never replaces a file.
Diagnostic cannot_write_anew(const std::string& command, const std::string& path,
                             const std::string& reason);
Diagnostic cannot_write_results(const std::string& reason);
Diagnostic cannot_make_directory(const std::string& place, const std::string& reason);
Diagnostic no_window(const std::string& reason);
Diagnostic out_of_memory();
Diagnostic unexpected_trouble(const std::string& what);

}  // namespace tubewright
