// One include for Catch2 version 2 (Debian 12) and version 3.
#pragma once

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
using Catch::Matchers::ContainsSubstring;
#else
#include <catch2/catch.hpp>

inline auto ContainsSubstring(const std::string& part) { return Catch::Matchers::Contains(part); }
#endif

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
