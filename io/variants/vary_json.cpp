#include "io/variants/vary_json.h"

#include <algorithm>
#include <exception>
#include <map>
#include <utility>

#include "io/results/json_parts.h"
#include "io/text/json_lines.h"
#include "io/text/version.h"
#include "io/variants/merge_errors.h"
#include "io/yaml/quantity.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// A plain number as a number, everything else as text.
ordered_json value_json(const SetValue& value) {
  if (!value.in_quotes && value.text.find_first_not_of("0123456789.+-eE") == std::string::npos) {
    if (const QuantityReading plain = read_number(value.text)) return number(*plain);
  }
  return value.text;
}

ordered_json variable_json(const VaryVariable& variable) {
  ordered_json values = ordered_json::array(), quoted = ordered_json::array();
  for (std::size_t i = 0; i < variable.values.size(); ++i) {
    values.push_back(value_json(variable.values[i]));
    if (variable.values[i].in_quotes) quoted.push_back(i);
  }
  ordered_json json = {{"path", variable.path}, {"values", std::move(values)}};
  if (!quoted.empty()) json["in_quotes"] = std::move(quoted);
  return json;
}

ordered_json or_null(const std::string& text) {
  return text.empty() ? ordered_json(nullptr) : ordered_json(text);
}

ordered_json row_json(const VaryTable& table, const VaryRow& row) {
  const std::vector<std::size_t> places = places_of_values(table.variables, row.combination);
  ordered_json set = ordered_json::object();
  for (std::size_t i = 0; i < places.size(); ++i) {
    const VaryVariable& variable = table.variables[i];
    set[variable.path] = value_json(variable.values[places[i]]);
  }
  ordered_json json = {{"combination", row.combination},
                       {"set", std::move(set)},
                       {"mass", optional_number(row.mass, 1)},
                       {"stiffness", optional_number(row.stiffness, 1)},
                       {"frequency", optional_number(row.frequency, 1)},
                       {"utilisation", optional_number(row.utilisation, 1)},
                       {"item", or_null(row.item)},
                       {"check", or_null(row.check)},
                       {"case", or_null(row.load_case)},
                       {"verdict", row.verdict}};
  if (!row.reason.empty()) json["reason"] = row.reason;
  return json;
}

// Read again
// ----------

VaryVariable variable_of(const ordered_json& json) {
  VaryVariable variable{json.at("path"), {}};
  for (const ordered_json& value : json.at("values")) {
    variable.values.push_back(
        {value.is_number() ? shortest_text(value.get<double>()) : value.get<std::string>(), false});
  }
  if (json.contains("in_quotes")) {
    for (const ordered_json& place : json.at("in_quotes")) {
      variable.values.at(place.get<std::size_t>()).in_quotes = true;
    }
  }
  return variable;
}

std::optional<double> number_or_none(const ordered_json& json) {
  return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

std::string text_or_none(const ordered_json& json) {
  return json.is_null() ? std::string() : json.get<std::string>();
}

VaryRow row_of(const ordered_json& json) {
  VaryRow row;
  row.combination = json.at("combination");
  row.mass = number_or_none(json.at("mass"));
  row.stiffness = number_or_none(json.at("stiffness"));
  row.frequency = number_or_none(json.at("frequency"));
  row.utilisation = number_or_none(json.at("utilisation"));
  row.item = text_or_none(json.at("item"));
  row.check = text_or_none(json.at("check"));
  row.load_case = text_or_none(json.at("case"));
  row.verdict = json.at("verdict");
  if (json.contains("reason")) row.reason = json.at("reason");
  return row;
}

Diagnostics warnings_of(const ordered_json& list) {
  Diagnostics warnings;
  for (const ordered_json& json : list) {
    SourceLocation place;
    if (json.contains("line")) place = {json.at("line"), json.at("column")};
    const bool is_error = json.at("severity") == "error";
    warnings.emplace_back(is_error ? Severity::error : Severity::warning, place,
                          json.at("message").get<std::string>(),
                          json.contains("advice") ? json.at("advice").get<std::string>() : "");
  }
  return warnings;
}

/// Throws where the object is another than vary_json() writes.
VaryTable table_of(const ordered_json& json) {
  VaryTable table;
  table.title = json.at("frame");
  table.fingerprint = json.at("file_fingerprint");
  table.warnings = warnings_of(json.at("warnings"));
  for (const ordered_json& variable : json.at("variables")) {
    table.variables.push_back(variable_of(variable));
  }
  for (const ordered_json& row : json.at("vary")) table.rows.push_back(row_of(row));
  return table;
}

bool all_among_its_combinations(const VaryTable& table) {
  const std::size_t all = combinations_of(table.variables);
  return std::all_of(table.rows.begin(), table.rows.end(),
                     [all](const VaryRow& row) { return row.combination < all; });
}

Result<VaryTable> read_table(const VaryFile& file) {
  const ordered_json json = ordered_json::parse(file.text, nullptr, false);
  if (!json.is_object() || !json.contains("vary") || !json.contains("version")) {
    return Diagnostics{no_answer_of_vary(file.name)};
  }
  if (json["version"] != version()) return Diagnostics{other_version(file.name, version())};
  try {
    VaryTable table = table_of(json);
    if (!all_among_its_combinations(table)) return Diagnostics{no_answer_of_vary(file.name)};
    return table;
  } catch (const std::exception&) {
    return Diagnostics{no_answer_of_vary(file.name)};
  }
}

/// Adds the rows of `part` to `whole`; `from`: the file that each came from.
void add_rows(const VaryTable& part, const std::string& file,
              std::map<std::size_t, std::pair<const VaryRow*, std::string>>& whole,
              Diagnostics& faults) {
  for (const VaryRow& row : part.rows) {
    const auto [known, is_new] = whole.try_emplace(row.combination, &row, file);
    if (!is_new && *known->second.first != row) {
      faults.push_back(told_differently(row.combination, known->second.second, file));
      return;
    }
  }
}

bool of_one_question(const VaryTable& a, const VaryTable& b) {
  return a.fingerprint == b.fingerprint && a.variables == b.variables;
}

}  // namespace

std::string vary_json(const VaryTable& table) {
  Frame frame;
  frame.title = table.title;
  ordered_json variables = ordered_json::array(), front = ordered_json::array(),
               rows = ordered_json::array();
  for (const VaryVariable& v : table.variables) variables.push_back(variable_json(v));
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (table.front[i]) front.push_back(table.rows[i].combination);
    rows.push_back(row_json(table, table.rows[i]));
  }
  JsonLines out;
  start_results(out, frame, vary_passes(table), table.warnings, {});
  out.row("file_fingerprint", table.fingerprint);
  out.row("variables", variables);
  out.row("combinations", combinations_of(table.variables));
  out.row("shard", table.shard ? ordered_json(shard_text(*table.shard)) : ordered_json(nullptr));
  out.row("lightest", table.lightest ? ordered_json(table.rows[*table.lightest].combination)
                                     : ordered_json(nullptr));
  out.row("front", front);
  out.list("vary", rows);
  return out.finish();
}

Result<VaryTable> merged_tables(const std::vector<VaryFile>& files) {
  Diagnostics faults;
  std::vector<VaryTable> parts;
  std::vector<std::string> names;
  for (const VaryFile& file : files) {
    auto part = read_table(file);
    if (const auto* errors = part.error()) {
      append(faults, *errors);
    } else if (!parts.empty() && !of_one_question(parts.front(), *part)) {
      faults.push_back(of_another_question(file.name, names.front()));
    } else {
      parts.push_back(std::move(*part));
      names.push_back(file.name);
    }
  }
  if (!faults.empty() || parts.empty()) return faults;
  std::map<std::size_t, std::pair<const VaryRow*, std::string>> rows;
  for (std::size_t i = 0; i < parts.size(); ++i) add_rows(parts[i], names[i], rows, faults);
  VaryTable whole = parts.front();
  const std::size_t all = combinations_of(whole.variables);
  if (rows.size() < all) {
    std::size_t first = 0;
    while (rows.contains(first)) ++first;
    faults.push_back(combinations_missing(all - rows.size(), all, first));
  }
  if (!faults.empty()) return faults;
  whole.rows.clear();
  for (const auto& [combination, row] : rows) whole.rows.push_back(*row.first);
  judge(whole);
  return whole;
}

}  // namespace tubewright
