// JSON laid out for people and for diff: one entry a line, each entry's own value compact.
//
// Written row by row, so that a big frame needs memory for one row, not for a tree of all.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace tubewright {

/// Opens with `{`; every open() is answered by a close(); finish() closes the outermost object.
class JsonLines {
 public:
  JsonLines() : text_("{") {}

  /// Starts an object under `key`.
  void open(std::string_view key);
  void close();
  /// One entry of the object that is open. Bytes that are not UTF-8 become U+FFFD.
  void row(std::string_view key, const nlohmann::ordered_json& value);

  /// An object under `key`, one of its entries a line.
  void rows(std::string_view key, const nlohmann::ordered_json& object);

  /// A list under `key`, one of its items a line.
  void list(std::string_view key, const nlohmann::ordered_json& items);

  /// The whole document with a line end. Requires: every open() was closed; called once.
  std::string finish();

 private:
  void start_line();
  void write_key(std::string_view key);

  std::string text_;
  int depth_ = 1;
  bool empty_ = true;  ///< nothing yet in the object that is open
};

}  // namespace tubewright
