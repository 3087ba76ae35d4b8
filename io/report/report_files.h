// The files of io/report/page/, as they were when the program was built.
#pragma once

namespace tubewright::report_files {

extern const char* const page;
extern const char* const style;
extern const char* const figure;
extern const char* const script;

}  // namespace tubewright::report_files
