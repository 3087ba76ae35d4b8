#include "io/changes/resized_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {

Diagnostic two_sizes_for_one_entry(const std::string& member) {
  return {"member " + quoted(member) + " stands once in the file for tubes of different sizes",
          "put its pieces and its image into one group"};
}

Diagnostic size_not_writable(const std::string& member) {
  return {"the new size of member " + quoted(member) + " cannot be written into the file",
          "write its `section`, and the sizes of that section, each as `key: value` on one line"};
}

Diagnostic one_text_for_two_sizes() {
  return {"an anchor of the file stands for members or sections that are to differ",
          "write them out where `*` repeats them"};
}

Diagnostic read_back_otherwise(const std::string& member) {
  return {"the file with the new sizes would not give member " + quoted(member) + " its size",
          "write its section out where an anchor `&` or an alias `*` stands for it"};
}

}  // namespace tubewright
