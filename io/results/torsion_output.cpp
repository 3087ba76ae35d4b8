#include "io/results/torsion_output.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "cases/analysis/frame_edits.h"
#include "cases/model/build_model.h"
#include "io/results/cautions.h"
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

std::string stiffness_lines(const TorsionAnswer& a) {
  const Torsion& t = a.torsion;
  const double K = t.stiffness;
  std::string text = "torsional stiffness " + torsion_line(a);
  text += "  twist " + fixed(t.twist * degrees_per_radian, 4) + " deg under " + fixed(t.couple, 1) +
          " N m, between the pairs " + a.frame.torsion->front[0] + "/" + a.frame.torsion->front[1] +
          " and " + a.frame.torsion->rear[0] + "/" + a.frame.torsion->rear[1] + '\n';
  if (a.other_hold) {
    const bool is_free = t.hold == TorsionHold::free;
    text += "  " + in_N_m_deg(*a.other_hold) +
            (is_free ? " with the rear pair clamped: on its wheels the frame is nearer to free\n"
                     : " free to warp, as on its wheels\n");
  }
  const double frame_mass = a.mass.tubes + a.mass.panels;
  if (frame_mass > 0) {
    text += "  " + fixed(K * per_degree / frame_mass, 1) + " N m/deg for each of its " +
            fixed(frame_mass, 2) + " kg\n";
  }
  if (!a.frame.panels.empty()) {
    text += a.without_panels
                ? "  " + in_N_m_deg(*a.without_panels) + " without its panels: they make it " +
                      fixed(K / *a.without_panels, 2) + " times as stiff\n"
                : "  without its panels the frame is loose\n";
  }
  if (t.buckling_couple) {
    text += "  the first sheet to buckle is " +
            a.frame.panels[static_cast<std::size_t>(t.first_to_buckle)].name + ", at " +
            three_digits(*t.buckling_couple) + " N m; beyond that the frame is softer\n";
    if (t.secant_stiffness) {
      text += "  with what they have lost under " + fixed(t.couple, 1) +
              " N m: " + in_N_m_deg(*t.secant_stiffness) + '\n';
    }
  }
  return text;
}

std::string profile_table(const TorsionAnswer& a, Paint paint) {
  const Torsion& t = a.torsion;
  std::string text = paint.heading("Twist along the frame") + '\n';
  text += paint.faint("    x mm   twist deg  deg/m to the next   energy  nodes") + '\n';
  for (int i = 0; i < static_cast<int>(t.profile.size()); ++i) {
    const TwistStation& s = t.profile[static_cast<std::size_t>(i)];
    const auto bay = std::find_if(t.bays.begin(), t.bays.end(),
                                  [&](const TwistBay& b) { return b.behind == i; });
    const bool weakest = t.weakest >= 0 && bay != t.bays.end() && bay - t.bays.begin() == t.weakest;
    text += right(fixed(s.x * mm_per_m, 0), 8) + right(fixed(s.twist * degrees_per_radian, 4), 12);
    text += bay == t.bays.end() ? std::string(28, ' ')
                                : right(fixed(bay->rate * degrees_per_radian, 4), 19) +
                                      right(fixed(100 * bay->energy_share, 1) + " %", 9);
    text += "  " + node_names(a.frame, s) + (weakest ? "  <- weakest bay ahead" : "") + '\n';
  }
  if (t.weakest >= 0) {
    const TwistBay& b = t.bays[static_cast<std::size_t>(t.weakest)];
    const TwistStation &behind = t.profile[static_cast<std::size_t>(b.behind)],
                       &ahead = t.profile[static_cast<std::size_t>(b.ahead)];
    text += wrapped("  ", "weakest bay: x " + fixed(behind.x * mm_per_m, 0) + " to " +
                              fixed(ahead.x * mm_per_m, 0) + " mm, between " +
                              node_names(a.frame, behind) + " and " + node_names(a.frame, ahead) +
                              ": " + fixed(100 * b.twist / t.twist, 0) + " % of the twist in " +
                              fixed((ahead.x - behind.x) * mm_per_m, 0) + " mm");
  }
  return text;
}

struct Share {
  std::string name;
  double share;
};

std::vector<Share> ranked_shares(const TorsionAnswer& a) {
  std::vector<Share> list;
  for (std::size_t i = 0; i < a.torsion.member_share.size(); ++i) {
    list.push_back({a.frame.members[i].name, a.torsion.member_share[i]});
  }
  for (std::size_t i = 0; i < a.torsion.panel_share.size(); ++i) {
    list.push_back({a.frame.panels[i].name + " (sheet and joint)", a.torsion.panel_share[i]});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Share& x, const Share& y) { return x.share > y.share; });
  return list;
}

std::string energy_lines(const TorsionAnswer& a, Paint paint) {
  const std::vector<Share> list = ranked_shares(a);
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

std::string support_lines(const TorsionAnswer& a, Paint paint) {
  std::string text = paint.heading("What for") + '\n';
  if (!a.support.support) return text + wrapped("  ", "not found: " + a.support.reason);
  const RollSupport& r = *a.support.support;
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

}  // namespace

std::variant<TorsionAnswer, Problems> torsion_answer(const Frame& frame, bool clamped) {
  const TorsionHold hold = clamped ? TorsionHold::clamped : TorsionHold::free;
  TorsionOutcome outcome = torsion_test(frame, hold);
  if (const auto* problems = std::get_if<Problems>(&outcome)) return *problems;
  TorsionAnswer a{frame, std::move(std::get<Torsion>(outcome)), {}, {}, {}, {}};
  a.other_hold = torsional_stiffness(frame, clamped ? TorsionHold::free : TorsionHold::clamped);
  if (!frame.panels.empty()) a.without_panels = torsional_stiffness(without_panels(frame), hold);
  const std::optional<double> free = clamped ? a.other_hold : std::optional(a.torsion.stiffness);
  if (free) a.support = roll_support(frame, *free);
  a.mass = mass_summary(frame, build_model(frame));
  return a;
}

bool torsion_passes(const TorsionAnswer& a) {
  const std::optional<double>& wanted = a.frame.limits.torsional_stiffness;
  return !wanted || a.torsion.stiffness >= *wanted;
}

std::string torsion_line(const TorsionAnswer& a) {
  std::string text = in_N_m_deg(a.torsion.stiffness) + " (" + hold_words(a.torsion.hold) + ")";
  if (const auto& wanted = a.frame.limits.torsional_stiffness) {
    text += torsion_passes(a) ? ", of the " : ", FAIL: less than the ";
    text += in_N_m_deg(*wanted) + " asked for";
  }
  return text + '\n';
}

std::string torsion_text(const TorsionAnswer& a, Paint paint) {
  return paint.heading(one_line(a.frame.title, terminal_columns)) + '\n' + stiffness_lines(a) +
         '\n' + profile_table(a, paint) + '\n' + energy_lines(a, paint) + '\n' +
         support_lines(a, paint) + '\n' + list_lines("Bear in mind", torsion_cautions(), paint);
}

std::string torsion_json(const TorsionAnswer& a, const Problems& warnings) {
  const Torsion& t = a.torsion;
  JsonLines out;
  start_results(out, a.frame, torsion_passes(a), warnings, {});
  write_mass(out, a.mass);
  out.open("torsion");
  out.row("stiffness", number(t.stiffness * per_degree));
  out.row("hold", t.hold == TorsionHold::free ? "free" : "clamped");
  out.row("couple", number(t.couple));
  out.row("twist", number(t.twist * degrees_per_radian));
  const std::optional<double> own(t.stiffness);
  const bool free = t.hold == TorsionHold::free;
  out.row("stiffness_free", optional_number(free ? own : a.other_hold, per_degree));
  out.row("stiffness_clamped", optional_number(free ? a.other_hold : own, per_degree));
  out.row("wanted", optional_number(a.frame.limits.torsional_stiffness, per_degree));
  ordered_json profile = ordered_json::array(), bays = ordered_json::array(), members, panels;
  for (const TwistStation& s : t.profile) {
    ordered_json nodes = ordered_json::array();
    for (const int n : s.nodes) nodes.push_back(a.frame.nodes[static_cast<std::size_t>(n)].name);
    profile.push_back({{"x", number(s.x * mm_per_m)},
                       {"twist", number(s.twist * degrees_per_radian)},
                       {"nodes", std::move(nodes)}});
  }
  for (std::size_t i = 0; i < t.bays.size(); ++i) {
    const TwistBay& b = t.bays[i];
    bays.push_back({{"from", number(t.profile[static_cast<std::size_t>(b.behind)].x * mm_per_m)},
                    {"to", number(t.profile[static_cast<std::size_t>(b.ahead)].x * mm_per_m)},
                    {"twist", number(b.twist * degrees_per_radian)},
                    {"twist_per_m", number(b.rate * degrees_per_radian)},
                    {"energy_share", number(b.energy_share)},
                    {"weakest", static_cast<int>(i) == t.weakest}});
  }
  for (std::size_t i = 0; i < t.member_share.size(); ++i) {
    members[a.frame.members[i].name] = number(t.member_share[i]);
  }
  for (std::size_t i = 0; i < t.panel_share.size(); ++i) {
    panels[a.frame.panels[i].name] = number(t.panel_share[i]);
  }
  out.row("profile", profile);
  out.row("bays", bays);
  out.row("without_panels", optional_number(a.without_panels, per_degree));
  out.row("first_buckling_couple", optional_number(t.buckling_couple, 1));
  out.row("stiffness_at_couple", optional_number(t.secant_stiffness, per_degree));
  out.row("member_energy", members.is_null() ? ordered_json::object() : members);
  out.row("panel_energy", panels.is_null() ? ordered_json::object() : panels);
  if (a.support.support) {
    const RollSupport& r = *a.support.support;
    out.row("roll_support", {{"sprung", r.sprung},
                             {"front", number(r.front * per_degree)},
                             {"rear", number(r.rear * per_degree)},
                             {"front_share", number(r.front_share)},
                             {"balance_kept", optional_number(r.kept, 1)},
                             {"lifting_couple", number(r.lifting_couple)},
                             {"lifting_bump", number(r.lifting_bump * mm_per_m)},
                             {"tyres_known", r.tyres_known}});
  } else {
    out.row("roll_support", {{"reason", a.support.reason}});
  }
  out.close();
  return out.finish();
}

}  // namespace tubewright
