#include "io/summary/attachment_summary.h"

#include <algorithm>
#include <vector>

#include "io/summary/ranked_rows.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

constexpr std::size_t attachments_shown = 5;

double utilisation(const AttachmentResult& attachment) {
  const NamedCheck* nearest = nearest_limit(attachment);
  return nearest == nullptr ? -1 : *nearest->result.utilisation;
}

/// A check that lacks its number: its name, or "".
std::string unproven(const AttachmentResult& attachment) {
  for (const NamedCheck& check : attachment.checks) {
    if (lacks_number(check.result)) return "no " + in_words(check.name) + " check";
  }
  return "";
}

std::string attachment_row(const std::string& name, const AttachmentResult& attachment,
                           std::size_t width, Paint paint) {
  const NamedCheck* nearest = nearest_limit(attachment);
  const double used = utilisation(attachment);
  const std::string gap = unproven(attachment);
  const std::string word = used > 1                             ? paint.bad("FAIL")
                           : nearest == nullptr || !gap.empty() ? "    "
                                                                : paint.good("pass");
  return right(nearest == nullptr ? "-" : utilisation_text(used), 8) + "  " + word + "  " +
         left(nearest == nullptr ? "-" : in_words(nearest->name), 20) + " " + left(name, width) +
         right(fixed(attachment.forces.hole.norm(), 0), 10) + " N" +
         (gap.empty() ? "" : "  " + gap) + '\n';
}

}  // namespace

int failing_attachments(const CaseResult& result) {
  return static_cast<int>(
      std::count_if(result.attachments.begin(), result.attachments.end(),
                    [](const AttachmentResult& a) { return utilisation(a) > 1; }));
}

std::string attachment_rows(const Analysis& analysis, const CaseResult& result, Paint paint) {
  if (result.attachments.empty()) return {};
  const std::vector<std::size_t> order = worst_first(
      result.attachments.size(), [&](std::size_t i) { return utilisation(result.attachments[i]); });
  const std::size_t shown = std::min(order.size(), attachments_shown);
  constexpr std::size_t least_width = 10, most_width = 20;
  std::size_t width = least_width;
  for (std::size_t k = 0; k < shown; ++k) {
    width = std::max(width, std::min(analysis.frame.attachments[order[k]].name.size(), most_width));
  }
  std::string text = paint.faint("    used        check                " +
                                 left("attachment", width) + right("at its hole", 12)) +
                     '\n';
  for (std::size_t k = 0; k < shown; ++k) {
    text += attachment_row(analysis.frame.attachments[order[k]].name, result.attachments[order[k]],
                           width, paint);
  }
  return text + rest_line(order.size(), shown);
}

}  // namespace tubewright
