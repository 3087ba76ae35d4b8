// What is wrong with a piece of text, before it is known where the text stands.
#pragma once

#include <string>
#include <utility>

#include "cases/frame/place.h"

namespace tubewright {

/// Message and advice in the form of Problem.
struct Complaint {
  std::string message;
  std::string advice;
};

inline Problem error_at(const Place& place, Complaint complaint) {
  return {Severity::error, place, std::move(complaint.message), std::move(complaint.advice)};
}

}  // namespace tubewright
