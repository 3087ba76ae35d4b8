// The wording of every command line that cannot be followed, except those of single values, which
// fault_of_value() words.
//
// `command`, `option`: as they are typed, "check" and "--json".
#pragma once

#include <string>
#include <vector>

#include "io/options/command_line.h"

namespace tubewright {

/// What to advise where nothing better is known; `command`: empty for the program.
std::string see_help(const std::string& command);

// The command
// -----------
UsageError no_such_command(const std::string& word, const std::vector<std::string>& known);
UsageError no_command(const std::string& frame);
UsageError no_such_option(const std::string& option, const std::vector<std::string>& known);
/// `command`: one that has the option.
UsageError option_before_command(const std::string& option, const std::string& command);

// What follows it
// ---------------
UsageError option_of_no_use(const std::string& command, const std::string& option,
                            const std::vector<std::string>& known);
UsageError one_word_too_many(const std::string& command, const std::string& word);
UsageError option_given_twice(const std::string& command, const std::string& option);
UsageError option_without_value(const std::string& command, const std::string& option);
UsageError no_frame_file(const std::string& command);
UsageError no_new_file(const std::string& command);
UsageError no_word(const std::string& command, const std::vector<std::string>& known);
UsageError no_such_word(const std::string& command, const std::string& word,
                        const std::vector<std::string>& known);
UsageError cases_with_shell(const std::string& command);
UsageError second_order_with_large_displacement();
UsageError one_frame_only(const std::string& command, const std::string& frame);
UsageError standard_input_twice(const std::string& command);
UsageError json_with_csv();
/// `option`: what `vary --merge` knows already.
UsageError merge_with(const std::string& option);

}  // namespace tubewright
