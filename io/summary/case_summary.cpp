#include "io/summary/case_summary.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <string_view>

#include "io/summary/attachment_summary.h"
#include "io/summary/panel_summary.h"
#include "io/summary/ranked_rows.h"
#include "io/summary/vehicle_summary.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

constexpr std::size_t members_of_a_case = 5;

/// Of the check nearest its limit; below zero if none was made.
double utilisation_of(const MemberResult& member) {
  const NamedMemberCheck nearest = nearest_limit(member.checks);
  return nearest.result == nullptr ? -1 : *nearest.result->utilisation;
}

/// Members nearest their limit first; unchecked ones last, by stress.
std::vector<int> ranked(const CaseResult& result) {
  const auto key = [&](int i) {
    const MemberResult& member = result.members[static_cast<std::size_t>(i)];
    return std::pair(utilisation_of(member), member.has_stress ? member.worst.stress.von_mises : 0);
  };
  std::vector<int> order(result.members.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return key(a) > key(b); });
  return order;
}

/// "120 mm from A", "at A"
std::string place_on_member(const Analysis& analysis, std::size_t i, double where) {
  const MemberSlot slot = analysis.slots[i];
  const Member& member = analysis.frame.members[i];
  if (where <= 0) return "at " + member.from;
  if (where >= 1) return "at " + member.to;
  const auto index = static_cast<std::size_t>(slot.index);
  const auto [from, to] =
      slot.is_beam ? std::pair(analysis.model.beams[index].from, analysis.model.beams[index].to)
                   : std::pair(analysis.model.bars[index].from, analysis.model.bars[index].to);
  const double length = (analysis.model.nodes[static_cast<std::size_t>(to)] -
                         analysis.model.nodes[static_cast<std::size_t>(from)])
                            .norm();
  const bool nearer_from = where <= 0.5;
  return fixed((nearer_from ? where : 1 - where) * length * mm_per_m, 0) + " mm from " +
         (nearer_from ? member.from : member.to);
}

/// Utilisation, verdict, check, name, stress, axial force: the columns before the worst place.
std::string member_columns(const std::string& name, const MemberResult& member,
                           std::size_t name_width, Paint paint) {
  const double used = utilisation_of(member);
  const bool made = used >= 0;
  const std::string word = !made ? "    " : used > 1 ? paint.bad("FAIL") : paint.good("pass");
  const std::string stress =
      member.has_stress ? fixed(member.worst.stress.von_mises * MPa_per_Pa, 1) + " MPa" : "-";
  const std::string force = fixed(member.N, std::abs(member.N) < 100 ? 1 : 0) + " N";
  return right(made ? utilisation_text(used) : "-", 8) + "  " + word + "  " +
         left(nearest_limit(member.checks).name, 8) + "  " + left(name, name_width) +
         right(stress, 12) + right(force, 13);
}

/// Where along the member the check nearest its limit is made, as a share of its length.
double where_checked(const MemberResult& member) {
  const MemberChecks& checks = member.checks;
  const std::string_view nearest = nearest_limit(checks).name;
  if (nearest == "weld") return checks.weld_end;
  if (nearest != "joint") return member.worst.where;
  return checks.joint_at[1].utilisation.value_or(-1) > checks.joint_at[0].utilisation.value_or(-1);
}

std::string member_row(const Analysis& analysis, const CaseResult& result, std::size_t i,
                       std::size_t name_width, Paint paint) {
  const MemberResult& member = result.members[i];
  const std::string& name = analysis.frame.members[i].name;
  const std::string columns = member_columns(name, member, name_width, paint);
  if (!member.has_stress || member.worst.stress.von_mises <= 0) return columns + '\n';
  const std::string place = "  " + place_on_member(analysis, i, where_checked(member));
  const std::size_t width = member_columns(name, member, name_width, {}).size();
  const bool fits = width + place.size() <= terminal_columns;
  return columns + (fits ? "" : "\n" + std::string(26, ' ')) + place + '\n';
}

std::string member_rows(const Analysis& analysis, const CaseResult& result, Paint paint) {
  const std::vector<int> order = ranked(result);
  const std::size_t shown = std::min(order.size(), members_of_a_case);
  std::size_t name_width = 6;
  for (std::size_t k = 0; k < shown; ++k) {
    const std::string& name = analysis.frame.members[static_cast<std::size_t>(order[k])].name;
    name_width = std::max(name_width, std::min<std::size_t>(name.size(), 24));
  }
  const std::string heading = "    used        check     " + left("member", name_width) +
                              right("von Mises", 12) + right("axial", 13) + "  worst";
  std::string text = paint.faint(heading) + '\n';
  for (std::size_t k = 0; k < shown; ++k) {
    text += member_row(analysis, result, static_cast<std::size_t>(order[k]), name_width, paint);
  }
  return text + rest_line(order.size(), shown);
}

std::string vector_text(const Eigen::Vector3d& v, int decimals) {
  return "x " + fixed(v.x(), decimals) + ", y " + fixed(v.y(), decimals) + ", z " +
         fixed(v.z(), decimals);
}

std::string movement_line(const Analysis& analysis, const CaseResult& result) {
  if (result.largest_node < 0) return {};
  const Eigen::Vector3d u =
      result.solution.displacements.segment<3>(6 * result.largest_node) * mm_per_m;
  if (u.norm() == 0) return "  no node moves\n";
  const int decimals = std::max(decimals_for(u.norm()), 2);
  return "  moves most    " +
         analysis.frame.nodes[static_cast<std::size_t>(result.largest_node)].name + " by " +
         fixed(u.norm(), decimals) + " mm (" + vector_text(u, decimals) + ")" +
         (!result.driving ? "\n"
          : result.large  ? " from the nodes that hold the vehicle\n"
                          : " from the mean motion\n");
}

std::string reaction_line(const Analysis& analysis, const CaseResult& result) {
  if (analysis.model.supports.empty()) return {};
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (Eigen::Index i = 0; i + 6 <= result.solution.reactions.size(); i += 6) {
    sum += result.solution.reactions.segment<3>(i);
  }
  return "  supports give " + vector_text(sum, 1) + " N in all\n";
}

std::string sway_line(const CaseResult& result) {
  std::string text;
  if (result.second_order && result.second_order->converged) {
    text += "  second order  movements grow to " + fixed(result.second_order->growth, 3) +
            " times those of first order\n";
  }
  if (result.sway_factor) {
    const std::string what = result.sways_in_suspension ? "suspension gives" : "joints give";
    text += "  sway          the " + what + " way at " + fixed(*result.sway_factor, 2) +
            " times the design loads\n";
  }
  return text;
}

std::string balance_line(const Residual& residual) {
  char text[80];
  std::snprintf(text, sizeof text, "  out of balance %.0e of the forces, %.0e of the moments\n",
                residual.force, residual.moment);
  return text;
}

std::string slack_line(const Analysis& analysis, const CaseResult& result) {
  std::string names;
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    if (result.members[i].slack)
      names += (names.empty() ? "" : ", ") + analysis.frame.members[i].name;
  }
  return names.empty() ? "" : wrapped("  slack         ", names);
}

std::string heading_line(const Analysis& analysis, const CaseResult& result, Paint paint) {
  std::string text = "case " + paint.heading(result.name) + ": ";
  if (!result.worst) {
    text += "no check could be made";
  } else if (result.worst->utilisation > 1) {
    text += paint.bad("FAIL") + ", " + std::to_string(failing_members(result).size()) + " of " +
            std::to_string(result.members.size()) + " members over the limit";
    if (!result.panels.empty()) {
      text += ", " + std::to_string(failing_panels(result).size()) + " of " +
              std::to_string(result.panels.size()) + " panels";
    }
    if (!result.attachments.empty()) {
      text += ", " + std::to_string(failing_attachments(result)) + " of " +
              std::to_string(result.attachments.size()) + " attachments";
    }
    if (!result.gussets.empty()) {
      text += ", " + std::to_string(failing_gussets(result)) + " of " +
              std::to_string(result.gussets.size()) + " gussets";
    }
  } else {
    text += paint.good("pass");
  }
  for (const Case& c : analysis.frame.cases) {
    if (c.name != result.name) continue;
    if (c.rare) text += "\n  rare, so held against the yield strength itself\n";
    if (!c.note.empty()) text += '\n' + wrapped("  ", one_line(c.note, 1000));
  }
  if (text.back() != '\n') text += '\n';
  return text;
}

}  // namespace

std::vector<int> failing_members(const CaseResult& result) {
  std::vector<int> failing;
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    if (utilisation_of(result.members[i]) > 1) failing.push_back(static_cast<int>(i));
  }
  return failing;
}

std::string case_summary(const Analysis& analysis, const CaseResult& result, Paint paint) {
  return heading_line(analysis, result, paint) + driving_lines(analysis, result, paint) +
         member_rows(analysis, result, paint) + panel_rows(analysis, result, paint) +
         attachment_rows(analysis, result, paint) + movement_line(analysis, result) +
         (result.driving ? "" : reaction_line(analysis, result)) + sway_line(result) +
         balance_line(result.solution.residual) + slack_line(analysis, result);
}

}  // namespace tubewright
