// What `size` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/sizing/size_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// A design that passes was found, proved to be the lightest (cheapest) or not.
bool size_passes(const SizeStudy& study);

/// The answer in a sentence without its full stop: what was not proven before what passes.
std::string size_sentence(const SizeStudy& study);

std::string size_text(const Frame& frame, const SizeStudy& study, Paint paint);
std::string size_json(const Frame& frame, const SizeStudy& study, const Diagnostics& warnings);
/// The sentence alone.
std::string size_line(const Frame& frame, const SizeStudy& study);

}  // namespace tubewright
