#include "io/text/json_lines.h"

#include <cassert>
#include <utility>

namespace tubewright {

namespace {

using nlohmann::ordered_json;

std::string compact(const ordered_json& value) {
  return value.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
}

}  // namespace

void JsonLines::start_line() {
  if (!empty_) text_ += ',';
  text_ += '\n';
  text_.append(static_cast<std::size_t>(depth_), ' ');
  empty_ = false;
}

void JsonLines::write_key(std::string_view key) {
  start_line();
  text_ += compact(ordered_json(key));
  text_ += ": ";
}

void JsonLines::open(std::string_view key) {
  write_key(key);
  text_ += '{';
  ++depth_;
  empty_ = true;
}

void JsonLines::close() {
  --depth_;
  if (!empty_) {
    text_ += '\n';
    text_.append(static_cast<std::size_t>(depth_), ' ');
  }
  text_ += '}';
  empty_ = false;
}

void JsonLines::row(std::string_view key, const ordered_json& value) {
  write_key(key);
  text_ += compact(value);
}

void JsonLines::rows(std::string_view key, const ordered_json& object) {
  open(key);
  for (const auto& [name, value] : object.items()) row(name, value);
  close();
}

void JsonLines::list(std::string_view key, const ordered_json& items) {
  write_key(key);
  text_ += '[';
  ++depth_;
  empty_ = true;
  for (const ordered_json& item : items) {
    start_line();
    text_ += compact(item);
  }
  --depth_;
  if (!empty_) {
    text_ += '\n';
    text_.append(static_cast<std::size_t>(depth_), ' ');
  }
  text_ += ']';
  empty_ = false;
}

std::string JsonLines::finish() {
  assert(depth_ == 1);
  close();
  text_ += '\n';
  return std::move(text_);
}

}  // namespace tubewright
