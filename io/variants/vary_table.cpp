#include "io/variants/vary_table.h"

#include <cstdint>

#include "cases/variants/variant_choice.h"
#include "io/results/verdict_words.h"
#include "io/text/workshop_units.h"
#include "io/variants/frame_variants.h"

namespace tubewright {

namespace {

std::optional<double> times(const std::optional<double>& value, double factor) {
  return value ? std::optional(*value * factor) : std::nullopt;
}

}  // namespace

// FNV-1a, 64 bits (Fowler, Noll, Vo; from memory): tells files apart, is no safeguard.
std::string fingerprint_of(const std::string& text) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  constexpr int digits = 16, bits_a_digit = 4;
  std::string hexadecimal(digits, '0');
  for (int i = digits; i-- > 0; hash >>= bits_a_digit) {
    hexadecimal[static_cast<std::size_t>(i)] = "0123456789abcdef"[hash & 15U];
  }
  return hexadecimal;
}

VaryRow vary_row(std::size_t combination, const Result<FrameNumbers>& answer) {
  VaryRow row;
  row.combination = combination;
  if (const auto* diagnostics = answer.error()) {
    row.verdict = "no_answer";
    row.reason = reason_of(*diagnostics);
    return row;
  }
  row.mass = answer->mass;
  row.stiffness = times(answer->stiffness, per_degree);
  row.frequency = answer->frequency;
  if (const auto& worst = answer->worst) {
    row.utilisation = worst->utilisation;
    row.check = worst->check;
    row.item = worst->item;
    row.load_case = worst->load_case;
  }
  row.verdict = answer_key(answer->verdict);
  return row;
}

void judge(VaryTable& table) {
  std::vector<Standing> standings;
  std::vector<std::size_t> answered;
  std::vector<bool> pass;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const VaryRow& row = table.rows[i];
    if (!row.mass) continue;
    standings.push_back({*row.mass, row.stiffness, row.utilisation});
    pass.push_back(row.verdict == answer_key(Verdict::Answer::pass));
    answered.push_back(i);
  }
  table.front.assign(table.rows.size(), false);
  const std::vector<bool> front = pareto_front(standings);
  for (std::size_t i = 0; i < answered.size(); ++i) table.front[answered[i]] = front[i];
  const auto best = lightest(standings, pass);
  table.lightest = best ? std::optional(answered[*best]) : std::nullopt;
}

bool vary_passes(const VaryTable& table) { return table.lightest || table.shard; }

std::vector<std::string> values_of(const VaryTable& table, std::size_t combination) {
  const std::vector<std::size_t> places = places_of_values(table.variables, combination);
  std::vector<std::string> values;
  for (std::size_t i = 0; i < places.size(); ++i) {
    values.push_back(table.variables[i].values[places[i]].text);
  }
  return values;
}

std::string setting_text(const VaryTable& table, std::size_t combination) {
  const std::vector<std::string> values = values_of(table, combination);
  std::string text;
  for (std::size_t i = 0; i < values.size(); ++i) {
    text += (i == 0 ? "" : ", ") + table.variables[i].path + " = " + values[i];
  }
  return text;
}

}  // namespace tubewright
