#include "io/summary/attachment_summary.h"

#include <algorithm>
#include <vector>

#include "io/summary/ranked_rows.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

constexpr std::size_t attachments_shown = 5;

/// An attachment or gusset of a case.
struct FittedPart {
  const std::string& name;
  const std::vector<NamedCheck>& checks;
  const NamedCheck* nearest;
  double force;
};

double utilisation(const NamedCheck* nearest) {
  return nearest == nullptr ? -1 : *nearest->result.utilisation;
}

/// A check that lacks its number: its name, or "".
std::string unproven(const std::vector<NamedCheck>& checks) {
  for (const NamedCheck& check : checks) {
    if (lacks_number(check.result)) return "no " + in_words(check.name) + " check";
  }
  return "";
}

std::string part_row(const FittedPart& part, std::size_t width, Paint paint) {
  const double used = utilisation(part.nearest);
  const std::string gap = unproven(part.checks);
  const std::string word = used > 1                                  ? paint.bad("FAIL")
                           : part.nearest == nullptr || !gap.empty() ? "    "
                                                                     : paint.good("pass");
  return right(part.nearest == nullptr ? "-" : utilisation_text(used), 8) + "  " + word + "  " +
         left(part.nearest == nullptr ? "-" : in_words(part.nearest->name), 20) + " " +
         left(part.name, width) + right(fixed(part.force, 0), 10) + " N" +
         (gap.empty() ? "" : "  " + gap) + '\n';
}

std::string part_rows(const std::vector<FittedPart>& parts, const std::string& noun,
                      const std::string& where, Paint paint) {
  if (parts.empty()) return {};
  const std::vector<std::size_t> order =
      worst_first(parts.size(), [&](std::size_t i) { return utilisation(parts[i].nearest); });
  const std::size_t shown = std::min(order.size(), attachments_shown);
  constexpr std::size_t least_width = 10, most_width = 20;
  std::size_t width = least_width;
  for (std::size_t k = 0; k < shown; ++k) {
    width = std::max(width, std::min(parts[order[k]].name.size(), most_width));
  }
  std::string text =
      paint.faint("    used        check                " + left(noun, width) + right(where, 12)) +
      '\n';
  for (std::size_t k = 0; k < shown; ++k) text += part_row(parts[order[k]], width, paint);
  return text + rest_line(order.size(), shown);
}

template <class Results>
int failing(const Results& results) {
  return static_cast<int>(std::count_if(results.begin(), results.end(), [](const auto& r) {
    return utilisation(nearest_limit(r.checks)) > 1;
  }));
}

}  // namespace

int failing_attachments(const CaseResult& result) { return failing(result.attachments); }

int failing_gussets(const CaseResult& result) { return failing(result.gussets); }

std::string attachment_rows(const Analysis& analysis, const CaseResult& result, Paint paint) {
  std::vector<FittedPart> attachments, gussets;
  for (std::size_t i = 0; i < result.attachments.size(); ++i) {
    const AttachmentResult& a = result.attachments[i];
    attachments.push_back({analysis.frame.attachments[i].name, a.checks, nearest_limit(a.checks),
                           a.forces.hole.norm()});
  }
  for (std::size_t i = 0; i < result.gussets.size(); ++i) {
    const GussetResult& g = result.gussets[i];
    gussets.push_back({analysis.frame.gussets[i].name, g.checks, nearest_limit(g.checks), g.force});
  }
  return part_rows(attachments, "attachment", "at its hole", paint) +
         part_rows(gussets, "gusset", "along it", paint);
}

}  // namespace tubewright
