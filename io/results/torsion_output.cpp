#include "io/results/torsion_output.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "io/results/cautions.h"
#include "io/results/joints_output.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t items_shown = 8;

std::string in_N_m_deg(double K) { return three_digits(K * per_degree) + " N m/deg"; }

const char* hold_words(TorsionHold hold) {
  return hold == TorsionHold::free ? "free to warp" : "rear pair clamped";
}

std::string node_names(const Frame& frame, const TwistStation& station) {
  std::string names;
  constexpr std::size_t most = 4;
  for (std::size_t i = 0; i < std::min(most, station.nodes.size()); ++i) {
    names += (i > 0 ? ", " : "") + frame.nodes[static_cast<std::size_t>(station.nodes[i])].name;
  }
  return names + (station.nodes.size() > most ? " ..." : "");
}

std::string stiffness_lines(const Frame& frame, const TorsionStudy& s) {
  const Torsion& t = s.test;
  const double K = t.stiffness;
  std::string text = "torsional stiffness " + torsion_line(frame, s);
  text += "  twist " + fixed(t.twist * degrees_per_radian, 4) + " deg under " + fixed(t.couple, 1) +
          " N m, between the pairs " + frame.torsion->front[0] + "/" + frame.torsion->front[1] +
          " and " + frame.torsion->rear[0] + "/" + frame.torsion->rear[1] + '\n';
  if (s.rigid_joints && !s.joints.rigid && s.joints.sprung > 0) {
    text += "  " + in_N_m_deg(*s.rigid_joints) + " if the joints were rigid: they leave " +
            fixed(100 * K / *s.rigid_joints, 0) + " % of it\n";
  }
  text += joints_lines(s.joints, "  ");
  if (s.other_hold) {
    const bool is_free = t.hold == TorsionHold::free;
    text += "  " + in_N_m_deg(*s.other_hold) +
            (is_free ? " with the rear pair clamped: on its wheels the frame is nearer to free\n"
                     : " free to warp, as on its wheels\n");
  }
  const double frame_mass = s.mass.tubes + s.mass.panels;
  if (frame_mass > 0) {
    text += "  " + fixed(K * per_degree / frame_mass, 1) + " N m/deg for each of its " +
            fixed(frame_mass, 2) + " kg\n";
  }
  if (!frame.panels.empty()) {
    text += s.without_panels
                ? "  " + in_N_m_deg(*s.without_panels) + " without its panels: they make it " +
                      fixed(K / *s.without_panels, 2) + " times as stiff\n"
                : "  without its panels the frame is loose\n";
  }
  if (t.buckling_couple) {
    text += "  the first sheet to buckle is " +
            frame.panels[static_cast<std::size_t>(t.first_to_buckle)].name + ", at " +
            three_digits(*t.buckling_couple) + " N m; beyond that the frame is softer\n";
    if (t.secant_stiffness) {
      text += "  with what they have lost under " + fixed(t.couple, 1) +
              " N m: " + in_N_m_deg(*t.secant_stiffness) + '\n';
    }
  }
  return text;
}

std::string profile_table(const Frame& frame, const TorsionStudy& s, Paint paint) {
  const Torsion& t = s.test;
  std::string text = paint.heading("Twist along the frame") + '\n';
  text += paint.faint("    x mm   twist deg  deg/m to the next   energy  nodes") + '\n';
  for (int i = 0; i < static_cast<int>(t.profile.size()); ++i) {
    const TwistStation& station = t.profile[static_cast<std::size_t>(i)];
    const auto bay = std::find_if(t.bays.begin(), t.bays.end(),
                                  [&](const TwistBay& b) { return b.behind == i; });
    const bool weakest = t.weakest >= 0 && bay != t.bays.end() && bay - t.bays.begin() == t.weakest;
    text += right(fixed(station.x * mm_per_m, 0), 8) +
            right(fixed(station.twist * degrees_per_radian, 4), 12);
    text += bay == t.bays.end() ? std::string(28, ' ')
                                : right(fixed(bay->rate * degrees_per_radian, 4), 19) +
                                      right(fixed(100 * bay->energy_share, 1) + " %", 9);
    text += "  " + node_names(frame, station) + (weakest ? "  <- weakest bay ahead" : "") + '\n';
  }
  if (t.weakest >= 0) {
    const TwistBay& b = t.bays[static_cast<std::size_t>(t.weakest)];
    const TwistStation &behind = t.profile[static_cast<std::size_t>(b.behind)],
                       &ahead = t.profile[static_cast<std::size_t>(b.ahead)];
    text += wrapped("  ", "weakest bay: x " + fixed(behind.x * mm_per_m, 0) + " to " +
                              fixed(ahead.x * mm_per_m, 0) + " mm, between " +
                              node_names(frame, behind) + " and " + node_names(frame, ahead) +
                              ": " + fixed(100 * b.twist / t.twist, 0) + " % of the twist in " +
                              fixed((ahead.x - behind.x) * mm_per_m, 0) + " mm");
  }
  return text;
}

struct Share {
  std::string name;
  double share;
};

std::vector<Share> ranked_shares(const Frame& frame, const TorsionStudy& s) {
  std::vector<Share> list;
  for (std::size_t i = 0; i < s.test.member_share.size(); ++i) {
    list.push_back({frame.members[i].name, s.test.member_share[i]});
  }
  for (std::size_t i = 0; i < s.test.panel_share.size(); ++i) {
    list.push_back({frame.panels[i].name + " (sheet and joint)", s.test.panel_share[i]});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Share& x, const Share& y) { return x.share > y.share; });
  return list;
}

std::string energy_lines(const Frame& frame, const TorsionStudy& s, Paint paint) {
  const std::vector<Share> list = ranked_shares(frame, s);
  std::string text = paint.heading("Where the work goes") + '\n';
  double rest = 1;
  for (std::size_t i = 0; i < std::min(items_shown, list.size()); ++i) {
    text += right(fixed(100 * list[i].share, 1), 7) + " %  " + list[i].name + '\n';
    rest -= list[i].share;
  }
  if (list.size() > items_shown) {
    text += right(fixed(100 * std::max(0.0, rest), 1), 7) + " %  the other " +
            std::to_string(list.size() - items_shown) + '\n';
  }
  return text +
         "  stiffening an item pays at most by its share; stiffening an idle one pays nothing\n";
}

std::string support_lines(const TorsionStudy& s, Paint paint) {
  std::string text = paint.heading("What for") + '\n';
  if (!s.support.support) return text + wrapped("  ", "not found: " + s.support.reason);
  const RollSupport& r = *s.support.support;
  const auto axle = [](double K) {
    return std::isfinite(K) ? in_N_m_deg(K) : std::string("rigid");
  };
  text += "  roll stiffness, frame held: front " + axle(r.front) + ", rear " + axle(r.rear) +
          (r.tyres_known ? " (tyres included)\n" : " (no `tyre_rate`: tyres taken as rigid)\n");
  if (r.kept) {
    text += wrapped(
        "  ", fixed(100 * *r.kept, 0) + " % of the intended roll-stiffness balance (front share " +
                  fixed(r.front_share, 2) + ") survives the frame's twist; 80 % takes a " +
                  "frame about as stiff as both axles together, 90 % two to two and a half "
                  "times that");
  }
  text +=
      wrapped("  ", "a bump of " + fixed(r.lifting_bump * mm_per_m, 1) +
                        " mm under a front wheel lifts the other one; the road can twist the frame "
                        "with " +
                        fixed(r.lifting_couple, 0) + " N m at most before a wheel lifts" +
                        (r.sprung ? ""
                                  : ". Without springs the frame is the suspension: stiffer "
                                    "is not always better"));
  return text;
}

ordered_json profile_json(const Frame& frame, const Torsion& t) {
  ordered_json profile = ordered_json::array();
  for (const TwistStation& station : t.profile) {
    ordered_json nodes = ordered_json::array();
    for (const int n : station.nodes) {
      nodes.push_back(frame.nodes[static_cast<std::size_t>(n)].name);
    }
    profile.push_back({{"x", number(station.x * mm_per_m)},
                       {"twist", number(station.twist * degrees_per_radian)},
                       {"nodes", std::move(nodes)}});
  }
  return profile;
}

ordered_json bays_json(const Torsion& t) {
  ordered_json bays = ordered_json::array();
  for (std::size_t i = 0; i < t.bays.size(); ++i) {
    const TwistBay& b = t.bays[i];
    bays.push_back({{"from", number(t.profile[static_cast<std::size_t>(b.behind)].x * mm_per_m)},
                    {"to", number(t.profile[static_cast<std::size_t>(b.ahead)].x * mm_per_m)},
                    {"twist", number(b.twist * degrees_per_radian)},
                    {"twist_per_m", number(b.rate * degrees_per_radian)},
                    {"energy_share", number(b.energy_share)},
                    {"weakest", static_cast<int>(i) == t.weakest}});
  }
  return bays;
}

/// {name: share} of members or panels.
template <class Item>
ordered_json shares_json(const std::vector<Item>& items, const std::vector<double>& shares) {
  ordered_json list = ordered_json::object();
  for (std::size_t i = 0; i < shares.size(); ++i) list[items[i].name] = number(shares[i]);
  return list;
}

ordered_json roll_support_json(const RollSupportOutcome& outcome) {
  if (!outcome.support) return {{"reason", outcome.reason}};
  const RollSupport& r = *outcome.support;
  return {{"sprung", r.sprung},
          {"front", number(r.front * per_degree)},
          {"rear", number(r.rear * per_degree)},
          {"front_share", number(r.front_share)},
          {"balance_kept", optional_number(r.kept, 1)},
          {"lifting_couple", number(r.lifting_couple)},
          {"lifting_bump", number(r.lifting_bump * mm_per_m)},
          {"tyres_known", r.tyres_known}};
}

}  // namespace

std::string torsion_line(const Frame& frame, const TorsionStudy& s) {
  std::string text = in_N_m_deg(s.test.stiffness) + " (" + hold_words(s.test.hold) + ")";
  if (const auto& wanted = frame.limits.torsional_stiffness) {
    text += torsion_passes(frame, s) ? ", of the " : ", FAIL: less than the ";
    text += in_N_m_deg(*wanted) + " asked for";
  }
  return text + '\n';
}

std::string torsion_text(const Frame& frame, const TorsionStudy& s, Paint paint) {
  return paint.heading(one_line(frame.title, terminal_columns)) + '\n' + stiffness_lines(frame, s) +
         '\n' + profile_table(frame, s, paint) + '\n' + energy_lines(frame, s, paint) + '\n' +
         support_lines(s, paint) + '\n' + list_lines("Bear in mind", torsion_cautions(), paint);
}

std::string torsion_json(const Frame& frame, const TorsionStudy& s, const Diagnostics& warnings) {
  JsonLines out;
  start_results(out, frame, torsion_passes(frame, s), warnings, {});
  write_mass(out, s.mass);
  out.rows("torsion", torsion_part(frame, s));
  return out.finish();
}

ordered_json torsion_part(const Frame& frame, const TorsionStudy& s) {
  const Torsion& t = s.test;
  const std::optional<double> own(t.stiffness);
  const bool free = t.hold == TorsionHold::free;
  return {{"stiffness", number(t.stiffness * per_degree)},
          {"stiffness_rigid_joints", optional_number(s.rigid_joints, per_degree)},
          {"joints", joints_json(s.joints)},
          {"hold", free ? "free" : "clamped"},
          {"couple", number(t.couple)},
          {"twist", number(t.twist * degrees_per_radian)},
          {"stiffness_free", optional_number(free ? own : s.other_hold, per_degree)},
          {"stiffness_clamped", optional_number(free ? s.other_hold : own, per_degree)},
          {"wanted", optional_number(frame.limits.torsional_stiffness, per_degree)},
          {"profile", profile_json(frame, t)},
          {"bays", bays_json(t)},
          {"without_panels", optional_number(s.without_panels, per_degree)},
          {"first_buckling_couple", optional_number(t.buckling_couple, 1)},
          {"stiffness_at_couple", optional_number(t.secant_stiffness, per_degree)},
          {"member_energy", shares_json(frame.members, t.member_share)},
          {"panel_energy", shares_json(frame.panels, t.panel_share)},
          {"roll_support", roll_support_json(s.support)}};
}

}  // namespace tubewright
