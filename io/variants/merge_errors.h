// The wording of why the parts of an answer of `vary` cannot be put together.
#pragma once

#include <cstddef>
#include <string>

#include "cases/frame/diagnostic.h"

namespace tubewright {

Diagnostic no_answer_of_vary(const std::string& file);
Diagnostic other_version(const std::string& file, const std::string& ours);
/// The frame file or a `--set` is another.
Diagnostic of_another_question(const std::string& file, const std::string& first);
Diagnostic told_differently(std::size_t combination, const std::string& file,
                            const std::string& other);
/// `first`: the first of those missing.
Diagnostic combinations_missing(std::size_t missing, std::size_t all, std::size_t first);

}  // namespace tubewright
