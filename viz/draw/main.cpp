// The program `tubewright-draw`: draws the load cases whose files lie in a directory. `tubewright`
// runs it, so that trouble with a display or its driver costs the pictures and nothing else.
//
//   tubewright-draw pictures DIR                      a .glb and a .png of each case
//   tubewright-draw window DIR CASE QUANTITY TIMES    a window; CASE may be empty: the first;
//                                                     TIMES too: the deflection as suggested
//
// Exit: 0 done; 1 not, with the reason in one line on stderr.

#include <sys/prctl.h>
#include <vtkObject.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "viz/draw/display.h"
#include "viz/draw/load_set.h"
#include "viz/draw/pictures.h"
#include "viz/draw/solid_model.h"
#include "viz/draw/window.h"

namespace tubewright {

namespace {

int fail(const std::string& reason) {
  std::cerr << reason << '\n';
  return 1;
}

int draw_pictures(const std::string& directory) {
  const std::vector<DrawnCase> cases = read_load_set(directory);
  write_solid_models(cases, directory);
  VirtualDisplay own;
  if (!display_can_draw()) {
    if (const auto reason = own.start()) return fail(*reason);
  }
  write_pictures(cases, directory);
  return 0;
}

int show_window(const std::string& directory, const std::string& case_name,
                const std::string& quantity, const std::string& times) {
  std::vector<DrawnCase> cases = read_load_set(directory);
  const auto named = std::find_if(cases.begin(), cases.end(), [&](const DrawnCase& drawn) {
    return case_name.empty() || drawn.name == case_name;
  });
  if (named == cases.end()) return fail("there is no case " + case_name);
  const auto painted = quantity_named(quantity);
  if (!painted) return fail("there is no quantity " + quantity);
  if (!display_can_draw()) return fail("there is no display to open a window on");
  const double warp = times.empty() ? named->warp_scale : std::strtod(times.c_str(), nullptr);
  const View view{static_cast<std::size_t>(named - cases.begin()), *painted, warp};
  open_window(std::move(cases), view);
  return 0;
}

int run(const std::vector<std::string>& words) {
  vtkObject::GlobalWarningDisplayOff();
  if (words.size() == 2 && words[0] == "pictures") return draw_pictures(words[1]);
  if (words.size() == 5 && words[0] == "window")
    return show_window(words[1], words[2], words[3], words[4]);
  return fail("usage: tubewright-draw pictures DIR | window DIR CASE QUANTITY TIMES");
}

}  // namespace

}  // namespace tubewright

#ifdef __SANITIZE_ADDRESS__
/// What a graphics driver leaves behind is not ours to mend.
extern "C" const char* __asan_default_options() { return "detect_leaks=0"; }
#endif

int main(int argc, char** argv) {
  prctl(PR_SET_PDEATHSIG, SIGTERM);  // nobody would look at what is drawn
  try {
    return tubewright::run({argv + 1, argv + argc});
  } catch (const std::exception& trouble) {
    return tubewright::fail(trouble.what());
  }
}
