// Prints frame files as JSON, read by the program's own YAML reader, for the check of the schema:
// other YAML readers take `2.1e5` for a text and `010` for 8.
//
//   yaml_as_json FILE...    one line of JSON a file: {"file": NAME, "frame": tree or null}
//
// The name `starter` stands for the starter frame.
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "io/frame_file/starter_frame.h"
#include "io/yaml/quantity.h"
#include "io/yaml/strict_yaml.h"

using namespace tubewright;
using Json = nlohmann::ordered_json;

namespace {

Json scalar_as_json(const YamlNode& node) {
  if (!node.in_quotes) {
    if (node.text == "true") return true;
    if (node.text == "false") return false;
    const QuantityReading reading = read_number(node.text);
    if (const double* number = reading.get()) return *number;
  }
  return node.text;
}

Json as_json(const YamlNode& node) {
  switch (node.form) {
    case YamlForm::empty:
      return nullptr;
    case YamlForm::scalar:
      return scalar_as_json(node);
    case YamlForm::list: {
      Json list = Json::array();
      for (const YamlNode& item : node.items) list.push_back(as_json(item));
      return list;
    }
    case YamlForm::map: {
      Json map = Json::object();
      for (const YamlEntry& entry : node.entries) map[entry.key] = as_json(entry.value);
      return map;
    }
  }
  return nullptr;
}

}  // namespace

int main(int count, char** arguments) {
  for (int i = 1; i < count; ++i) {
    std::ifstream stream(arguments[i], std::ios::binary);
    std::string text(std::istreambuf_iterator<char>(stream), {});
    if (arguments[i] == std::string("starter")) text = starter_frame();
    Diagnostics diagnostics;
    const std::optional<YamlNode> root = parse_strict_yaml(text, diagnostics);
    const Json line = {{"file", arguments[i]}, {"frame", root ? as_json(*root) : Json(nullptr)}};
    std::cout << line.dump(-1, ' ', false, Json::error_handler_t::replace) << "\n";
  }
}
