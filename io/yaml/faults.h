// The wording of every fault that reading a frame file can find, except those of single numbers,
// which stand in io/yaml/quantity.cpp.
//
// Messages say what is wrong, with the text at fault in backticks; advice says what to write.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/yaml/complaint.h"

namespace tubewright {

/// A piece of the file in backticks, on one line and not too long for one.
std::string shown(std::string_view text);

/// "`a`, `b` or `c`".
std::string either(const std::vector<std::string>& words);

// The text
// --------
Complaint other_encoding();
Complaint invalid_byte(char byte);
Complaint control_character(char c);
Complaint tab_in_indentation();
Complaint too_large(std::size_t megabytes);

// YAML
// ----
Complaint empty_file();
Complaint not_yaml(const std::string& parser_message);
Complaint unclosed_quote();
Complaint second_document();
Complaint tag_used();
Complaint merge_key();
Complaint odd_key();
Complaint alias_of_itself();
Complaint too_deep(int levels);
Complaint too_many_values();
Complaint duplicate_key(std::string_view key, const Place& first);

// Keys
// ----
/// `title`: "a round bar"; `known`: empty = suggest nothing.
Complaint unknown_key(std::string_view key, const std::string& title,
                      const std::vector<std::string>& known);
/// A key that other kinds of the same part have.
Complaint key_of_another_kind(std::string_view key, const std::string& title,
                              const std::vector<std::string>& known);
/// A lone number among keys: what `wall: 1,5` in braces leaves behind.
Complaint stray_number(std::string_view key);
Complaint missing_key(const std::string& owner, const std::string& key, const std::string& help);
Complaint no_value(const std::string& key, const std::string& expected);
Complaint bad_name(std::string_view name, bool spaces_allowed);

// Values
// ------
Complaint not_a_map_of_keys(const std::string& found);
Complaint wrong_form(const std::string& key, const std::string& found, const std::string& expected);
Complaint not_a_choice(std::string_view text, const std::string& key,
                       const std::vector<std::string>& words);
Complaint not_a_switch(std::string_view text);
Complaint wrong_count(const std::string& key, std::size_t found, const std::string& expected);
Complaint given_twice(std::string_view item);
Complaint out_of_range(std::string_view text, const std::string& key, const std::string& range);

// What belongs together
// ---------------------
Complaint no_shear_modulus(const std::string& material);
Complaint moduli_disagree(double nu_given, double nu_from_moduli);
Complaint reading_without_gauge(const std::string& node);
Complaint empty_load(const std::string& member);
Complaint joint_of_nothing();

}  // namespace tubewright
