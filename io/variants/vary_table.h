// What `vary` answers, as it is written: rows in workshop units, so that the rows of several runs
// put together are, to the last bit, those of one run.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/variants/frame_numbers.h"
#include "io/variants/set_option.h"

namespace tubewright {

struct VaryRow {
  std::size_t combination = 0;
  std::optional<double> mass;          ///< of tubes and panels, kg; none: no answer
  std::optional<double> stiffness;     ///< N m/deg
  std::optional<double> frequency;     ///< Hz
  std::optional<double> utilisation;   ///< worst of all cases
  std::string check, item, load_case;  ///< of the worst; empty where there is none
  std::string verdict;                 ///< "pass", "not_proven", "fail", "no_answer"
  std::string reason;                  ///< why there is no answer

  bool operator==(const VaryRow&) const = default;
};

struct VaryTable {
  std::string title;                    ///< of the frame as its file has it
  std::string fingerprint;              ///< of the file's text: equal for equal files only
  std::vector<VaryVariable> variables;  ///< what was varied
  std::optional<Shard> shard;           ///< the rows are those of this part only
  Diagnostics warnings;                 ///< about the frame as its file has it
  std::vector<VaryRow> rows;            ///< by rising combination
  // By judge()
  std::vector<bool> front;              ///< one a row: light, stiff, little used
  std::optional<std::size_t> lightest;  ///< row of the lightest that passes
};

/// Of a file's text, 16 hexadecimal digits.
std::string fingerprint_of(const std::string& text);

/// The row of a combination.
VaryRow vary_row(std::size_t combination, const Result<FrameNumbers>& answer);

/// Fills in what comes of the rows together.
void judge(VaryTable& table);

/// False where no combination passes; of a shard, which does not know the others, never.
bool vary_passes(const VaryTable& table);

/// "sections.rail.wall = 2, nodes.R.z = 160"
std::string setting_text(const VaryTable& table, std::size_t combination);

/// One text a variable.
std::vector<std::string> values_of(const VaryTable& table, std::size_t combination);

}  // namespace tubewright
