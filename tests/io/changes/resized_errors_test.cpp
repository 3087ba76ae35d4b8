// The wording of why sizes cannot be written into a file, against the form of the house.
#include "io/changes/resized_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::resized_errors_test {

TEST_CASE("every wording of a file that cannot take new sizes has the form of the house") {
  testing::check_wordings("io/changes/resized_errors.h",
                          {{"two_sizes_for_one_entry", two_sizes_for_one_entry("m")},
                           {"size_not_writable", size_not_writable("m")},
                           {"one_text_for_two_sizes", one_text_for_two_sizes()},
                           {"read_back_otherwise", read_back_otherwise("m")}});
}

}  // namespace tubewright::resized_errors_test
