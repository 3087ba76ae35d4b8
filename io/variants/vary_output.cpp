#include "io/variants/vary_output.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "io/results/cautions.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using Cells = std::vector<std::string>;

// In words
// --------

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::size_t count_of(const VaryTable& table, const std::string& verdict) {
  return static_cast<std::size_t>(
      std::count_if(table.rows.begin(), table.rows.end(),
                    [&](const VaryRow& row) { return row.verdict == verdict; }));
}

/// "the 9 combinations", of a shard "the 3 of 9 combinations in shard 1/3".
std::string all_of_them(const VaryTable& table) {
  if (!table.shard) return "the " + counted(table.rows.size(), "combination", "combinations");
  return "the " + std::to_string(table.rows.size()) + " of " +
         counted(combinations_of(table.variables), "combination", "combinations") + " in shard " +
         shard_text(*table.shard);
}

std::string worst_words(const VaryRow& row) {
  return in_words(row.check) + " of " + row.item + " in " + row.load_case;
}

std::string numbers_in_words(const VaryRow& row) {
  std::string text = fixed(*row.mass, 2) + " kg";
  if (row.stiffness) text += ", " + three_digits(*row.stiffness) + " N m/deg";
  if (row.utilisation) {
    text += ", worst " + utilisation_text(*row.utilisation) + " (" + worst_words(row) + ")";
  }
  return text;
}

/// "5 fail, 1 is not proven, 3 have no answer".
std::string tally(const VaryTable& table) {
  std::string text;
  const auto add = [&](std::size_t count, const char* one, const char* many) {
    if (count > 0) text += (text.empty() ? "" : ", ") + counted(count, one, many);
  };
  add(count_of(table, "fail"), "fails", "fail");
  add(count_of(table, "not_proven"), "is not proven", "are not proven");
  add(count_of(table, "no_answer"), "has no answer", "have no answer");
  return text;
}

std::string sentence(const VaryTable& table) {
  if (table.rows.empty()) {
    return "Shard " + shard_text(table.shard.value_or(Shard())) + " holds none of the " +
           counted(combinations_of(table.variables), "combination", "combinations");
  }
  if (!table.lightest) return "None of " + all_of_them(table) + " passes: " + tally(table);
  const VaryRow& row = table.rows[*table.lightest];
  return "The lightest of " + all_of_them(table) + " that passes is number " +
         std::to_string(row.combination) + ", " + setting_text(table, row.combination) + ": " +
         numbers_in_words(row);
}

// The table
// ---------

std::size_t width_of(const Cells& cells) {
  std::size_t width = 0;
  for (const std::string& cell : cells) width = std::max(width, display_width(cell));
  return width;
}

std::string padded(const std::string& cell, std::size_t width) {
  const std::size_t own = display_width(cell);
  return std::string(width - std::min(width, own), ' ') + cell;
}

/// The end of each path that tells it from the others: "wall", or "rail.wall" beside "sill.wall".
Cells short_paths(const VaryTable& table) {
  Cells paths;
  for (const VaryVariable& v : table.variables) paths.push_back(v.path);
  Cells ends;
  for (const std::string& path : paths) {
    std::string end = path;
    for (std::size_t dot = path.rfind('.'); dot != std::string::npos && dot > 0;
         dot = path.rfind('.', dot - 1)) {
      const std::string tail = path.substr(dot);
      const auto same = std::count_if(paths.begin(), paths.end(), [&](const std::string& other) {
        return ("." + other).ends_with(tail);
      });
      if (same > 1) continue;
      end = tail.substr(1);
      break;
    }
    ends.push_back(end);
  }
  return ends;
}

std::string or_dash(const std::optional<double>& value, int decimals) {
  return value ? fixed(*value, decimals) : "-";
}

struct Column {
  std::string heading;
  Cells cells;
};

const char* verdict_words(const std::string& verdict) {
  if (verdict == "pass") return "pass";
  if (verdict == "not_proven") return "not proven";
  return verdict == "fail" ? "FAIL" : "no answer";
}

std::vector<Column> columns_of(const VaryTable& table, const std::vector<std::size_t>& rows) {
  const auto column = [&](const std::string& heading, const auto& cell) {
    Column made{heading, {}};
    for (const std::size_t i : rows) made.cells.push_back(cell(table.rows[i]));
    return made;
  };
  std::vector<Column> columns = {
      column("no.", [](const VaryRow& r) { return std::to_string(r.combination); })};
  const Cells paths = short_paths(table);
  for (std::size_t v = 0; v < paths.size(); ++v) {
    columns.push_back(
        column(paths[v], [&, v](const VaryRow& r) { return values_of(table, r.combination)[v]; }));
  }
  const bool torsion = std::any_of(table.rows.begin(), table.rows.end(),
                                   [](const VaryRow& r) { return r.stiffness.has_value(); });
  columns.push_back(column("kg", [](const VaryRow& r) { return or_dash(r.mass, 2); }));
  if (torsion) {
    columns.push_back(column("N m/deg", [](const VaryRow& r) { return or_dash(r.stiffness, 1); }));
  }
  columns.push_back(column("Hz", [](const VaryRow& r) { return or_dash(r.frequency, 1); }));
  columns.push_back(column("used", [](const VaryRow& r) {
    return r.utilisation ? utilisation_text(*r.utilisation) : "-";
  }));
  return columns;
}

std::string table_text(const VaryTable& table, const std::vector<std::size_t>& rows, Paint paint) {
  const std::vector<Column> columns = columns_of(table, rows);
  std::vector<std::size_t> widths;
  std::string head = " ";
  for (const Column& c : columns) {
    widths.push_back(std::max(display_width(c.heading), width_of(c.cells)));
    head += "  " + padded(c.heading, widths.back());
  }
  constexpr std::size_t verdict_width = 10, least_room = 20;
  const std::size_t used = display_width(head) + 2 + verdict_width + 2;
  const std::size_t room =
      std::max(terminal_columns - std::min<std::size_t>(terminal_columns, used), least_room);
  std::string text = paint.faint(head + "  verdict     worst") + '\n';
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const VaryRow& row = table.rows[rows[r]];
    std::string line = table.front[rows[r]] ? "*" : " ";
    for (std::size_t c = 0; c < columns.size(); ++c) {
      line += "  " + padded(columns[c].cells[r], widths[c]);
    }
    const std::string verdict = left(verdict_words(row.verdict), verdict_width);
    text += line + "  " +
            (row.verdict == "pass"         ? paint.good(verdict)
             : row.verdict == "not_proven" ? paint.doubtful(verdict)
                                           : paint.bad(verdict)) +
            (row.item.empty() ? "" : "  " + one_line(worst_words(row), room)) + '\n';
  }
  return text;
}

/// Each reason once, with the numbers of the combinations that have no answer for it.
std::vector<std::string> reasons(const VaryTable& table) {
  std::vector<std::pair<std::string, std::vector<std::size_t>>> found;
  for (const VaryRow& row : table.rows) {
    if (row.reason.empty()) continue;
    auto known = std::find_if(found.begin(), found.end(),
                              [&](const auto& entry) { return entry.first == row.reason; });
    if (known == found.end()) known = found.insert(found.end(), {row.reason, {}});
    known->second.push_back(row.combination);
    constexpr std::size_t most = 12;
    if (found.size() > most) return {"see `reason` in --json or --csv: there are many"};
  }
  std::vector<std::string> lines;
  for (const auto& [reason, numbers] : found) {
    lines.push_back(
        (numbers.size() == 1 ? "number " : "numbers ") + std::to_string(numbers.front()) +
        (numbers.size() == 1 ? "" : " and " + counted(numbers.size() - 1, "other", "others")) +
        ": " + reason);
  }
  return lines;
}

/// All rows if they are few, else the front and the lightest that passes.
std::vector<std::size_t> rows_shown(const VaryTable& table) {
  std::vector<std::size_t> rows;
  const bool few = table.rows.size() <= most_rows_shown;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const bool wanted = few || table.front[i] || table.lightest == i;
    if (wanted && (rows.size() < most_rows_shown || table.lightest == i)) rows.push_back(i);
  }
  return rows;
}

std::string below_table(const VaryTable& table, std::size_t shown) {
  std::string text = wrapped(
      "",
      "* on the Pareto front: no other combination is as light, as stiff and as little used, "
      "and better in one of them; kg: tubes and panels; Hz: lowest of the frame's own");
  if (const std::size_t more = table.rows.size() - shown; more > 0) {
    text +=
        wrapped("", std::to_string(more) + " more are not shown: --csv, --json and -o have all");
  }
  return text;
}

// CSV
// ---

std::string csv_number(const std::optional<double>& value) {
  return value ? shortest_text(*value) : std::string();
}

std::string csv_text(const std::string& text) {
  if (text.find_first_of(",\"") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string csv_line(const Cells& cells) {
  std::string line;
  for (const std::string& cell : cells) line += (line.empty() ? "" : ",") + cell;
  return line + '\n';
}

}  // namespace

std::string vary_line(const VaryTable& table) { return sentence(table) + "\n"; }

std::string vary_text(const VaryTable& table, Paint paint) {
  std::string text = wrapped("", sentence(table));
  if (table.rows.empty()) return text;
  const std::vector<std::size_t> rows = rows_shown(table);
  text += '\n' + paint.heading(one_line(table.title, terminal_columns)) + '\n';
  std::string varied;
  for (const VaryVariable& v : table.variables) varied += (varied.empty() ? "" : ", ") + v.path;
  text += wrapped("varied: ", varied) + table_text(table, rows, paint) +
          below_table(table, rows.size());
  if (const auto lines = reasons(table); !lines.empty()) {
    text += '\n' + list_lines("No answer", lines, paint);
  }
  return text + '\n' + list_lines("Bear in mind", cautions(), paint);
}

std::string vary_csv(const VaryTable& table) {
  Cells head = {"combination"};
  for (const VaryVariable& v : table.variables) head.push_back(csv_text(v.path));
  for (const char* key : {"mass", "stiffness", "frequency", "utilisation", "item", "check", "case",
                          "verdict", "reason"}) {
    head.emplace_back(key);
  }
  std::string text = csv_line(head);
  for (const VaryRow& row : table.rows) {
    Cells cells = {std::to_string(row.combination)};
    for (const std::string& value : values_of(table, row.combination)) {
      cells.push_back(csv_text(value));
    }
    for (const auto* number : {&row.mass, &row.stiffness, &row.frequency, &row.utilisation}) {
      cells.push_back(csv_number(*number));
    }
    for (const auto* word : {&row.item, &row.check, &row.load_case, &row.verdict, &row.reason}) {
      cells.push_back(csv_text(*word));
    }
    text += csv_line(cells);
  }
  return text;
}

}  // namespace tubewright
