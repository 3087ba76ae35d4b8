// A value, or why there is none.
#pragma once

#include <cassert>
#include <utility>
#include <variant>

namespace tubewright {

/// What a function returns that may have no answer: a `Value` or an `Error`, which are different
/// types and both convert to it. Reads like a smart pointer to the value.
template <class Value, class Error>
class Outcome {
 public:
  Outcome(Value value) : held_(std::in_place_index<0>, std::move(value)) {}
  Outcome(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

  bool has_value() const { return held_.index() == 0; }
  explicit operator bool() const { return has_value(); }

  /// Requires (asserted): there is a value.
  Value& operator*() & { return *checked(); }
  const Value& operator*() const& { return *checked(); }
  Value&& operator*() && { return std::move(*checked()); }
  Value* operator->() { return checked(); }
  const Value* operator->() const { return checked(); }

  /// Null if there is none.
  Value* get() { return std::get_if<0>(&held_); }
  const Value* get() const { return std::get_if<0>(&held_); }

  /// Why there is no value; null if there is one.
  Error* error() { return std::get_if<1>(&held_); }
  const Error* error() const { return std::get_if<1>(&held_); }

 private:
  Value* checked() {
    assert(has_value());
    return get();
  }
  const Value* checked() const {
    assert(has_value());
    return get();
  }

  std::variant<Value, Error> held_;
};

}  // namespace tubewright
