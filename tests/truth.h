// Comparisons with numbers from outside the project, and the list of them, TRUTH.md.
//
// truth(...) checks as CHECK_THAT does. Where the environment variable TUBEWRIGHT_TRUTH names a
// file, it also appends a row to that file, which truth.py makes into TRUTH.md. Test cases that
// call it are tagged [truth], so that truth.py runs only these.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <memory>
#include <sstream>
#include <stdexcept>
#include <string>

#include "tests/catch.h"

/// Where a number comes from, and how far that was looked up.
struct Source {
  const char* known;  ///< a kind that truth.py has words for
  const char* text;
};

/// Read in the source named, or in a public page that quotes it.
constexpr Source seen_in(const char* text) { return {"seen", text}; }
/// Recalled; nobody has had the page in hand.
constexpr Source from_memory(const char* text) { return {"remembered", text}; }
/// Worked out for this project, apart from the program: by hand, from a closed form, by a script.
constexpr Source rederived(const char* text) { return {"derived", text}; }
/// What the trade does, without a document to quote.
constexpr Source common_practice(const char* text) { return {"practice", text}; }

/// Their number and how far ours may be from it.
struct Expected {
  double value, relative, absolute;
  double most_times = 0;  ///< ours lies between theirs and this many times theirs
};

constexpr Expected within_rel(double value, double tolerance) { return {value, tolerance, 0}; }
constexpr Expected within_abs(double value, double tolerance) { return {value, 0, tolerance}; }
/// Where ours has to be on one side.
constexpr Expected not_below(double value, double most_times) { return {value, 0, 0, most_times}; }

/// Words and numbers in one text: named("A of ", 25, " x ", 2.5, ", cm2").
template <typename... Part>
std::string named(const Part&... part) {
  std::ostringstream text;
  (text << ... << part);
  return text.str();
}

/// Tab-separated, in the order that read_rows() of truth.py has.
inline void append_truth(const char* file, const std::string& what, const Source& source,
                         double ours, const Expected& theirs, const char* list) {
  const std::unique_ptr<FILE, int (*)(FILE*)> out(std::fopen(list, "a"), &std::fclose);
  if (!out) throw std::runtime_error(std::string("cannot write ") + list);
  std::fprintf(out.get(), "%s\t%s\t%s\t%s\t%.17g\t%.17g\t%.17g\t%.17g\t%.17g\n", file, what.c_str(),
               source.known, source.text, theirs.value, ours, theirs.relative, theirs.absolute,
               theirs.most_times);
}

/// `what` is for a reader who does not know the test: "tip deflection of a cantilever, mm".
inline void truth(const std::string& what, const Source& source, double ours,
                  const Expected& theirs, const char* file = __builtin_FILE(),
                  int line = __builtin_LINE()) {
  INFO(file << ":" << line << ": " << what << " (" << source.text << ")");
  if (theirs.most_times > 0) {
    CHECK(ours >= theirs.value);
    CHECK(ours <= theirs.most_times * theirs.value);
  } else if (theirs.relative > 0) {
    CHECK_THAT(ours, WithinRel(theirs.value, theirs.relative));
  } else {
    CHECK_THAT(ours, WithinAbs(theirs.value, theirs.absolute));
  }
  if (const char* list = std::getenv("TUBEWRIGHT_TRUTH")) {
    append_truth(file, what, source, ours, theirs, list);
  }
}
