#include "io/keys/frame_kinds.h"

#include "cases/frame/wording.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright::kinds {
namespace {

SharedKind shared(ValueKind kind) { return std::make_shared<const ValueKind>(std::move(kind)); }

std::string unit_in_words(const Measure& measure) {
  return measure.unit[0] == '\0' ? "" : std::string(" in ") + measure.unit;
}

std::string with_unit(const Measure& measure) { return measure.what + unit_in_words(measure); }

}  // namespace

SharedKind text() { return shared({.form = ValueForm::text, .expected = "a line of text"}); }

SharedKind name(const std::string& what) {
  return shared({.form = ValueForm::name, .expected = what});
}

SharedKind name_with_spaces(const std::string& what) {
  return shared({.form = ValueForm::name, .spaces_in_names = true, .expected = what});
}

SharedKind flag() { return shared({.form = ValueForm::flag, .expected = "`true` or `false`"}); }

SharedKind choice(std::vector<std::string> words) {
  std::string expected = either(words);
  return shared(
      {.form = ValueForm::choice, .words = std::move(words), .expected = std::move(expected)});
}

SharedKind quantity(const Measure& measure, const Bounds& bounds) {
  return shared({.form = ValueForm::quantity,
                 .measure = &measure,
                 .bounds = bounds,
                 .expected = with_unit(measure)});
}

SharedKind quantity_or(const Measure& measure, const Bounds& bounds, const std::string& word) {
  return shared({.form = ValueForm::quantity,
                 .measure = &measure,
                 .bounds = bounds,
                 .words = {word},
                 .expected = with_unit(measure) + " or " + quoted(word)});
}

SharedKind vector(const Measure& measure, const Bounds& bounds) {
  return shared({.form = ValueForm::vector,
                 .measure = &measure,
                 .bounds = bounds,
                 .expected = "three numbers, [x, y, z]" + unit_in_words(measure)});
}

SharedKind list_of(SharedKind element, std::size_t least, std::size_t most,
                   const std::string& expected) {
  return shared({.form = ValueForm::list,
                 .element = std::move(element),
                 .least = least,
                 .most = most,
                 .repeats = false,
                 .expected = expected});
}

SharedKind sequence_of(SharedKind element, std::size_t least, const std::string& expected,
                       std::size_t most) {
  return shared({.form = ValueForm::list,
                 .element = std::move(element),
                 .least = least,
                 .most = most,
                 .repeats = true,
                 .expected = expected});
}

SharedKind entries_of(SharedKind element, const std::string& expected, std::size_t least) {
  return shared({.form = ValueForm::entries,
                 .element = std::move(element),
                 .least = least,
                 .expected = expected});
}

SharedKind named_entries_with_spaces(SharedKind element, const std::string& expected) {
  return shared({.form = ValueForm::entries,
                 .element = std::move(element),
                 .spaces_in_names = true,
                 .expected = expected});
}

SharedKind group(const std::string& noun, const std::string& title, std::vector<Key> keys) {
  return shared({.form = ValueForm::group,
                 .groups = {{noun, title, std::move(keys)}},
                 .expected = "a map of keys, {key: value}"});
}

SharedKind variants(std::vector<KeyGroup> groups, const std::string& chosen_by,
                    const std::string& chosen_otherwise) {
  return shared({.form = ValueForm::variants,
                 .groups = std::move(groups),
                 .chosen_by = chosen_by,
                 .chosen_otherwise = chosen_otherwise,
                 .expected = "a map of keys, {key: value}"});
}

SharedKind by_form(SharedKind scalar, SharedKind list, SharedKind map,
                   const std::string& expected) {
  return shared({.form = ValueForm::by_form,
                 .scalar = std::move(scalar),
                 .list = std::move(list),
                 .map = std::move(map),
                 .expected = expected});
}

}  // namespace tubewright::kinds
