// An answer of `vary` filled in by hand, for the tests of what is written of it.
#pragma once

#include "io/variants/vary_table.h"

namespace tubewright::testing {

/// Six combinations: 0 fails, 1 is the lightest that passes, 2 passes and is worse than 1 in all, 3
/// is stiff, 4 is not proven, 5 has no answer.
inline VaryTable hand_made_table() {
  VaryTable t;
  t.title = "Rack, <left> & \"right\"";
  t.fingerprint = fingerprint_of("the file");
  t.variables = {{"sections.rail.wall", {{"1"}, {"1.5"}, {"2"}}},
                 {"sections.sill.material", {{"S235"}, {"a, \"b\"", true}}}};
  t.warnings = {{Severity::warning, {3, 5}, "a bay is open", "close it"},
                {Severity::warning, {}, "of the whole", ""}};
  t.rows = {{0, 10.0, 100.0, 20.0, 1.25, "yield", "rail", "brake", "fail", ""},
            {1, 11.0, 100.0 / 3, 21.0, 0.5, "yield", "rail", "brake", "pass", ""},
            {2, 12.0, 30.0, 20.0, 0.75, "yield", "rail", "brake", "pass", ""},
            {3, 13.0, 200.0, {}, 0.9, "joint", "sill", "turn", "pass", ""},
            {4, 14.0, {}, 22.0, {}, "", "", "", "not_proven", ""},
            {5, {}, {}, {}, {}, "", "", "", "no_answer", "node `A` can slide, along x"}};
  judge(t);
  return t;
}

}  // namespace tubewright::testing
