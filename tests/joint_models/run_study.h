// The frame of a study's main(): a fault is told in a line and ends the program with 1.
#pragma once

#include <cstdio>
#include <exception>

namespace tubewright {

/// `study`: takes argc and argv, returns the exit code, throws what derives from std::exception.
template <class Study>
int run_study(const char* name, const Study& study, int argc, char** argv) {
  try {
    return study(argc, argv);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "%s: %s\n", name, fault.what());
    return 1;
  }
}

}  // namespace tubewright
