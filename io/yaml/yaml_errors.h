// The wording of every fault that reading a frame file can find, except those of single numbers,
// which stand in io/yaml/quantity.cpp.
//
// Messages say what is wrong, with the text at fault in backticks; advice says what to write.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// A piece of the file in backticks, on one line and not too long for one.
std::string shown(std::string_view text);

/// "`a`, `b` or `c`".
std::string either(const std::vector<std::string>& words);

// The text
// --------
Diagnostic other_encoding();
Diagnostic invalid_byte(char byte);
Diagnostic control_character(char c);
Diagnostic tab_in_indentation();
Diagnostic too_large(std::size_t megabytes);

// YAML
// ----
Diagnostic empty_file();
Diagnostic not_yaml(const std::string& parser_message);
Diagnostic unclosed_quote();
Diagnostic second_document();
Diagnostic tag_used();
Diagnostic merge_key();
Diagnostic odd_key();
Diagnostic alias_of_itself();
Diagnostic too_deep(int levels);
Diagnostic too_many_values();
Diagnostic duplicate_key(std::string_view key, const SourceLocation& first);

// Keys
// ----
/// `title`: "a round bar"; `known`: empty = suggest nothing.
Diagnostic unknown_key(std::string_view key, const std::string& title,
                       const std::vector<std::string>& known);
/// A key that other kinds of the same part have.
Diagnostic key_of_another_kind(std::string_view key, const std::string& title,
                               const std::vector<std::string>& known);
/// A lone number among keys: what `wall: 1,5` in braces leaves behind.
Diagnostic stray_number(std::string_view key);
Diagnostic missing_key(const std::string& owner, const std::string& key, const std::string& help);
Diagnostic no_value(const std::string& key, const std::string& expected);
Diagnostic bad_name(std::string_view name, bool spaces_allowed);

// Values
// ------
Diagnostic not_a_map_of_keys(const std::string& found);
Diagnostic wrong_form(const std::string& key, const std::string& found,
                      const std::string& expected);
Diagnostic not_a_choice(std::string_view text, const std::string& key,
                        const std::vector<std::string>& words);
Diagnostic not_a_switch(std::string_view text);
Diagnostic wrong_count(const std::string& key, std::size_t found, const std::string& expected);
Diagnostic given_twice(std::string_view item);
Diagnostic out_of_range(std::string_view text, const std::string& key, const std::string& range);

// What belongs together
// ---------------------
Diagnostic no_shear_modulus(const std::string& material);
Diagnostic moduli_disagree(double nu_given, double nu_from_moduli);
Diagnostic reading_without_gauge(const std::string& node);
Diagnostic empty_load(const std::string& member);
Diagnostic joint_of_nothing();

}  // namespace tubewright
