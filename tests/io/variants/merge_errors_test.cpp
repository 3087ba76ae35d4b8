#include "io/variants/merge_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::merge_errors_test {

TEST_CASE("every wording of parts that do not go together has the form of the house") {
  testing::check_wordings("io/variants/merge_errors.h",
                          {{"no_answer_of_vary", no_answer_of_vary("a.json")},
                           {"other_version", other_version("a.json", "1.0")},
                           {"of_another_question", of_another_question("b.json", "a.json")},
                           {"told_differently", told_differently(3, "a.json", "b.json")},
                           {"combinations_missing", combinations_missing(2, 9, 4)}});
}

}  // namespace tubewright::merge_errors_test
