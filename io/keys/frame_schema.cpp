#include "io/keys/frame_schema.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "io/keys/frame_keys.h"

namespace tubewright {
namespace {

using Json = nlohmann::ordered_json;  // keys stay in the order of the table

constexpr const char* number_pattern =
    R"([-+]?((0|[1-9][0-9]*)(\.[0-9]*)?|\.[0-9]+)([eE][-+]?[0-9]+)?)";
constexpr const char* name_pattern = "^[A-Za-z0-9_.-]+$";
constexpr const char* spaced_name_pattern = "^[A-Za-z0-9_.-]([A-Za-z0-9_. -]*[A-Za-z0-9_.-])?$";

/// A number with a product of units, such as "3 kN m" or "7.85 g/cm3".
std::string quantity_pattern() {
  std::string symbols = "°|µm|μm";
  for (const std::string& symbol : unit_symbols()) symbols += "|" + symbol;
  const std::string unit = "(" + symbols + ")([2-9]|\\^-?[1-9]|²|³|⁴)?";
  return std::string("^") + number_pattern + " *" + unit + "( *[ *·⋅/] *" + unit + ")*$";
}

Json definitions() {
  return {{"name", {{"type", {"string", "number"}}, {"pattern", name_pattern}}},
          {"spaced_name", {{"type", {"string", "number"}}, {"pattern", spaced_name_pattern}}},
          {"with_unit",
           {{"type", "string"},
            {"pattern", quantity_pattern()},
            {"examples", {"1 in", "75 lb", "3 kN", "29000 ksi"}}}}};
}

Json reference(const std::string& definition) { return {{"$ref", "#/definitions/" + definition}}; }

/// The words; one that reads as a number, such as 8.8, as that too: a file has it without quotes.
Json choice_values(const std::vector<std::string>& words) {
  Json values = words;
  for (const std::string& word : words) {
    const Json as_value = Json::parse(word, nullptr, false);
    if (as_value.is_number()) values.push_back(as_value);
  }
  return values;
}

Json schema_of(const ValueKind& kind);

Json quantity_schema(const ValueKind& kind) {
  Json bare = {{"type", "number"}};
  const Bounds& bounds = kind.bounds;
  if (std::isfinite(bounds.least)) {
    bare[bounds.least_excluded ? "exclusiveMinimum" : "minimum"] = bounds.least;
  }
  if (std::isfinite(bounds.most)) bare["maximum"] = bounds.most;
  const bool unit_possible = kind.measure->unit[0] != '\0' || !kind.measure->only_own_unit;
  if (!unit_possible && kind.words.empty()) return bare;
  Json forms = Json::array({bare});
  if (kind.measure->only_own_unit && unit_possible) {
    forms.push_back(
        {{"type", "string"},
         {"pattern", std::string("^") + number_pattern + " *" + kind.measure->unit + "$"}});
  } else if (unit_possible) {
    forms.push_back(reference("with_unit"));
  }
  if (!kind.words.empty()) forms.push_back({{"enum", kind.words}});
  return {{"anyOf", forms}};
}

Json list_schema(const ValueKind& kind) {
  Json schema = {{"type", "array"}, {"items", schema_of(*kind.element)}, {"minItems", kind.least}};
  if (kind.most < std::numeric_limits<std::size_t>::max()) schema["maxItems"] = kind.most;
  if (!kind.repeats) schema["uniqueItems"] = true;
  return schema;
}

Json default_of(const Key& key) {
  const bool literal = key.kind->form == ValueForm::quantity || key.kind->form == ValueForm::flag;
  return literal ? Json::parse(key.otherwise) : Json(key.otherwise);
}

Json group_schema(const KeyGroup& group) {
  Json properties = Json::object();
  Json required = Json::array();
  for (const Key& key : group.keys) {
    Json property = {{"description", key.help}};
    property.update(schema_of(*key.kind));
    if (!key.otherwise.empty()) property["default"] = default_of(key);
    properties[key.name] = std::move(property);
    if (key.required) required.push_back(key.name);
  }
  Json schema = {{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
  if (!required.empty()) schema["required"] = required;
  return schema;
}

Json variants_schema(const ValueKind& kind) {
  Json forms = Json::array();
  for (const KeyGroup& group : kind.groups) {
    Json form = {{"title", group.title}};
    form.update(group_schema(group));
    forms.push_back(std::move(form));
  }
  return {{"oneOf", forms}};
}

Json by_form_schema(const ValueKind& kind) {
  Json forms = Json::array();
  for (const SharedKind& form : {kind.scalar, kind.list, kind.map}) {
    if (form != nullptr) forms.push_back(schema_of(*form));
  }
  return {{"anyOf", forms}};
}

Json entries_schema(const ValueKind& kind) {
  return {
      {"type", "object"},
      {"propertyNames", {{"pattern", kind.spaces_in_names ? spaced_name_pattern : name_pattern}}},
      {"additionalProperties", schema_of(*kind.element)},
      {"minProperties", kind.least}};
}

Json schema_of(const ValueKind& kind) {
  switch (kind.form) {
    case ValueForm::text:
      return {{"type", {"string", "number", "boolean"}}, {"pattern", "\\S"}};
    case ValueForm::name:
      // In `allOf`, since draft-07 ignores what stands beside a `$ref`.
      return {{"allOf", Json::array({reference(kind.spaces_in_names ? "spaced_name" : "name")})}};
    case ValueForm::flag:
      return {{"type", "boolean"}};
    case ValueForm::choice:
      return {{"enum", choice_values(kind.words)}};
    case ValueForm::quantity:
      return quantity_schema(kind);
    case ValueForm::vector:
      return {
          {"type", "array"}, {"items", quantity_schema(kind)}, {"minItems", 3}, {"maxItems", 3}};
    case ValueForm::list:
      return list_schema(kind);
    case ValueForm::entries:
      return entries_schema(kind);
    case ValueForm::group:
      return group_schema(kind.groups[0]);
    case ValueForm::variants:
      return variants_schema(kind);
    case ValueForm::by_form:
      return by_form_schema(kind);
  }
  return {};
}

}  // namespace

std::string frame_schema() {
  Json schema = {{"$schema", "http://json-schema.org/draft-07/schema#"},
                 {"title", "A frame file of tubewright"}};
  schema.update(group_schema(frame_keys()));
  schema["definitions"] = definitions();
  return schema.dump(2) + "\n";
}

}  // namespace tubewright
