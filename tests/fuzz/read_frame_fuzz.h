// What must hold for any text that is given as a frame file.
#pragma once

#include <cstddef>
#include <cstdint>

/// The entry point that libFuzzer calls. Aborts if a promise is broken: an unsound frame says why,
/// in a place that exists; a sound one is solved to finite numbers or refused with a reason.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
