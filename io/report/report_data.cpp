#include "io/report/report_data.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "io/results/analysis_parts.h"
#include "io/results/cautions.h"
#include "io/results/floor_output.h"
#include "io/results/json_parts.h"
#include "io/results/sources.h"
#include "io/results/stability_output.h"
#include "io/results/summary.h"
#include "io/results/torsion_output.h"
#include "io/results/vehicle_summary.h"
#include "io/text/version.h"
#include "io/workshop/cut_output.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

double five_digits(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.5g", value);
  return std::strtod(text, nullptr) + 0.0;
}

/// Five significant digits everywhere; what is not finite is null already.
ordered_json rounded(ordered_json value) {
  if (value.is_number_float()) return five_digits(value.get<double>());
  if (value.is_structured()) {
    for (auto& entry : value) entry = rounded(std::move(entry));
  }
  return value;
}

const char* shape_word(Shape shape) {
  constexpr const char* words[] = {"square_tube", "rectangular_tube", "round_tube",
                                   "round_bar",   "flat_bar",         "properties"};
  return words[static_cast<int>(shape)];
}

const char* kind_word(MemberKind kind) {
  constexpr const char* words[] = {"beam", "link", "cable", "spring"};
  return words[static_cast<int>(kind)];
}

/// Every reason once; checks refer to them by number.
class Reasons {
 public:
  ordered_json number_of(const CheckResult& check) {
    if (check.reason.empty()) return nullptr;
    const auto [place, added] = numbers_.emplace(check.reason, list_.size());
    if (added) list_.push_back(check.reason);
    return place->second;
  }
  const std::vector<std::string>& list() const { return list_; }

 private:
  std::map<std::string, std::size_t> numbers_;
  std::vector<std::string> list_;
};

class Writer {
 public:
  explicit Writer(const ReportSource& s)
      : s_(s), a_(s.studies.analysis), frame_(a_.frame), node_(numbers_of_nodes(frame_)) {}

  ordered_json all() {
    ordered_json d;
    d["schema"] = "tubewright-report/1";
    d["version"] = version();
    d["date"] = s_.date;
    d["title"] = frame_.title;
    d["analysis"] = analysis_name(a_);
    d["input"] = {{"name", input_name()}, {"text", s_.file.text}};
    d["verdict"] = verdict_json();
    d["mass"] = {{"tubes", a_.mass.tubes},
                 {"panels", a_.mass.panels},
                 {"carried", a_.mass.carried},
                 {"total", a_.mass.total},
                 {"centre", numbers(a_.mass.centre, mm_per_m)}};
    d["vehicle"] = vehicle_json(a_);
    d["materials"] = materials();
    d["sections"] = sections();
    add_parts(d);
    d["checks"] = ordered_json::array();
    for (const auto& [name, check] : named_checks({})) {
      d["checks"].push_back({{"name", name}, {"counts", true}});
    }
    d["panel_checks"] = panel_checks();
    d["cases"] = ordered_json::array();
    for (const CaseResult& result : a_.cases) d["cases"].push_back(case_json(result));
    d["reasons"] = reasons_.list();
    d["what_ifs"] = what_ifs_json(s_.studies.what_ifs);
    d["fatigue"] = fatigue();
    add_studies(d);
    Diagnostics warnings = s_.warnings;
    warnings.insert(warnings.end(), a_.remarks.begin(), a_.remarks.end());
    d["warnings"] = diagnostics_json(warnings);
    d["not_checked"] = checks_not_made(s_.studies);
    d["clauses"] = clauses();
    d["sources"] = ordered_json::array();
    for (const RuleSource& r : rule_sources()) {
      d["sources"].push_back({{"subject", r.subject}, {"rule", r.rule}, {"source", r.source}});
    }
    d["assumptions"] = assumptions();
    d["cautions"] = cautions();
    return rounded(std::move(d));
  }

 private:
  std::string input_name() const {
    return s_.file.name == "<stdin>" || s_.file.name == "-"
               ? "standard input"
               : std::filesystem::path(s_.file.name).filename().string();
  }

  ordered_json verdict_json() const {
    const std::optional<WorstOfAll> worst = worst_of_all(a_);
    ordered_json v = {{"passes", worst ? ordered_json(s_.studies.passes()) : ordered_json(nullptr)},
                      {"sentence", sentence()},
                      {"worst", nullptr}};
    if (worst) {
      v["worst"] = {{"case", worst->load_case},
                    {"check", worst->check},
                    {"item", worst->item},
                    {"utilisation", number(worst->utilisation)}};
    }
    return v;
  }

  /// The page says PASS or FAIL by itself: the rest as a sentence of its own.
  std::string sentence() const {
    std::string text = verdict_sentence(s_.studies);
    const std::size_t colon = text.find(": ");
    if (colon != std::string::npos && colon < 12) text.erase(0, colon + 2);
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text + ".";
  }

  /// Null where there are none.
  void add_studies(ordered_json& d) const {
    const FrameStudies& s = s_.studies;
    const ordered_json none = nullptr;
    d["torsion"] = s.torsion ? torsion_part(frame_, *s.torsion) : none;
    d["floor"] = s.floor ? floor_part(*s.floor) : none;
    d["modes"] = s.modes ? modes_list(*s.modes) : none;
    d["buckling"] = s.buckling ? buckling_list(*s.buckling) : none;
    const bool shown = frame_.members.size() <= large_frame && s.cut && s.sheets;
    d["cut"] = shown ? cut_part(frame_, *s.cut, *s.sheets) : none;
  }

  ordered_json materials() const {
    std::vector<std::string> names;
    const auto note = [&](const std::string& name) {
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    };
    for (const SectionEntry& s : frame_.sections) note(s.material);
    for (const Sheet& s : frame_.sheets) note(s.material);
    ordered_json list = ordered_json::array();
    for (const std::string& name : names) {
      const Material& m = find_material(frame_, name)->properties;
      list.push_back({{"name", name},
                      {"E", number(m.E * MPa_per_Pa)},
                      {"G", number(m.G * MPa_per_Pa)},
                      {"density", number(m.density)},
                      {"yield", number(m.yield * MPa_per_Pa)},
                      {"ultimate", number(m.ultimate * MPa_per_Pa)}});
    }
    return list;
  }

  ordered_json sections() const {
    ordered_json list = ordered_json::array();
    const auto size = [](double x) { return x > 0 ? number(x * mm_per_m) : ordered_json(nullptr); };
    for (const SectionEntry& s : frame_.sections) {
      list.push_back({{"name", s.name},
                      {"shape", shape_word(s.shape)},
                      {"height", size(s.height)},
                      {"width", size(s.width)},
                      {"wall", size(s.wall)},
                      {"material", s.material}});
    }
    return list;
  }

  int node(const std::string& name) const { return node_.at(name); }

  /// Nodes, members, panels, supports, masses, wheels.
  void add_parts(ordered_json& d) const {
    for (const char* key : {"nodes", "members", "panels", "supports", "masses", "wheels"}) {
      d[key] = ordered_json::array();
    }
    for (const Node& n : frame_.nodes) {
      d["nodes"].push_back({{"name", n.name}, {"at", numbers(n.at, mm_per_m)}});
    }
    for (const Member& m : frame_.members) d["members"].push_back(member_part(m));
    for (const PanelEntry& p : frame_.panels) {
      const Sheet& sheet = find_sheet(frame_, p.sheet);
      ordered_json corners = ordered_json::array();
      for (const std::string& c : p.corners) corners.push_back(node(c));
      d["panels"].push_back({{"name", p.name},
                             {"corners", corners},
                             {"sheet", p.sheet},
                             {"material", sheet.material},
                             {"thickness", number(sheet.thickness * mm_per_m)},
                             {"offset", number(sheet.offset * mm_per_m)}});
    }
    for (const SupportEntry& s : frame_.supports) {
      ordered_json holds = ordered_json::array();
      for (std::size_t k = 0; k < 6; ++k) {
        if (s.restrained[k]) holds.push_back(direction_names[k]);
      }
      d["supports"].push_back({{"node", node(s.node)}, {"holds", holds}});
    }
    for (const CarriedMass& m : frame_.masses) {
      d["masses"].push_back(
          {{"name", m.name}, {"mass", number(m.mass)}, {"at", numbers(m.at, mm_per_m)}});
    }
    if (!frame_.vehicle) return;
    for (const Wheel& w : frame_.vehicle->wheels) {
      ordered_json carrier = ordered_json::array();
      for (const std::string& c : w.carrier) carrier.push_back(node(c));
      d["wheels"].push_back({{"name", w.name},
                             {"contact", numbers(w.contact, mm_per_m)},
                             {"centre", numbers(w.centre, mm_per_m)},
                             {"carrier", carrier}});
    }
  }

  ordered_json member_part(const Member& m) const {
    const auto section = std::find_if(frame_.sections.begin(), frame_.sections.end(),
                                      [&](const SectionEntry& s) { return s.name == m.section; });
    const bool beam = m.kind == MemberKind::beam;
    const auto bends_freely = [&](const EndConnection& c) {
      return !beam || std::isfinite(c[4]) || std::isfinite(c[5]);
    };
    return {{"name", m.name},
            {"kind", kind_word(m.kind)},
            {"from", node(m.from)},
            {"to", node(m.to)},
            {"section", section == frame_.sections.end()
                            ? ordered_json(nullptr)
                            : ordered_json(section - frame_.sections.begin())},
            {"roll", number(m.roll * degrees_per_radian)},
            {"pinned", {bends_freely(m.release_from), bends_freely(m.release_to)}},
            {"tube", m.tube.empty() ? ordered_json(nullptr) : ordered_json(m.tube)}};
  }

  /// Every check of panels that occurs, in the order met.
  ordered_json panel_checks() {
    ordered_json list = ordered_json::array();
    for (const CaseResult& c : a_.cases) {
      for (const PanelResult& p : c.panels) {
        for (const NamedCheck& check : p.checks) {
          if (std::find(panel_check_names_.begin(), panel_check_names_.end(), check.name) !=
              panel_check_names_.end()) {
            continue;
          }
          panel_check_names_.push_back(check.name);
          list.push_back({{"name", check.name}, {"counts", check.counts}});
        }
      }
    }
    return list;
  }

  ordered_json member_result(const MemberResult& m) {
    const Stress& s = m.worst.stress;
    const auto stress = [&](double value) {
      return m.has_stress ? number(value * MPa_per_Pa) : ordered_json(nullptr);
    };
    ordered_json used = ordered_json::array(), why = ordered_json::array();
    for (const auto& [name, check] : named_checks(m.checks)) {
      used.push_back(optional_number(check->utilisation, 1));
      why.push_back(reasons_.number_of(*check));
    }
    const bool classed = m.checks.section_class > 0;
    ordered_json weld_at = nullptr;
    if (m.checks.weld.utilisation) weld_at = m.checks.weld_end == 0 ? "from" : "to";
    return {{"N", number(m.N)},
            {"axial", stress(s.axial)},
            {"bending", stress(s.bending)},
            {"shear", stress(s.shear)},
            {"von_mises", stress(s.von_mises)},
            {"where", m.has_stress ? number(m.worst.where) : ordered_json(nullptr)},
            {"class", classed ? ordered_json(m.checks.section_class) : ordered_json(nullptr)},
            {"weld_at", weld_at},
            {"used", used},
            {"why", why}};
  }

  ordered_json panel_entry(const PanelResult& p) {
    ordered_json used = ordered_json::array(), why = ordered_json::array();
    for (const std::string& name : panel_check_names_) {
      const auto check = std::find_if(p.checks.begin(), p.checks.end(),
                                      [&](const NamedCheck& c) { return c.name == name; });
      const bool made = check != p.checks.end();
      used.push_back(made ? optional_number(check->result.utilisation, 1) : ordered_json(nullptr));
      why.push_back(made ? reasons_.number_of(check->result) : ordered_json(nullptr));
    }
    return {{"flow", number(p.flow * N_mm_per_N_m)},
            {"stress", number(p.shear_stress * MPa_per_Pa)},
            {"critical", number(p.critical_stress * MPa_per_Pa)},
            {"kept", number(p.stage.secant_ratio)},
            {"rivet", optional_number(p.rivet_load, 1)},
            {"bond", optional_number(p.bond_peak, MPa_per_Pa)},
            {"used", used},
            {"why", why}};
  }

  ordered_json case_json(const CaseResult& result) {
    const auto described = std::find_if(frame_.cases.begin(), frame_.cases.end(),
                                        [&](const Case& c) { return c.name == result.name; });
    ordered_json c;
    c["name"] = result.name;
    c["note"] = described == frame_.cases.end() ? "" : described->note;
    c["rare"] = described != frame_.cases.end() && described->rare;
    c["reserve"] = number(result.safety_factor);
    c["passes"] = result.passes();
    c["worst"] = worst_json(result.worst);
    for (const char* key : {"nodes", "members", "panels", "wheels"}) c[key] = ordered_json::array();
    const Eigen::VectorXd& u = result.solution.displacements;
    for (std::size_t n = 0; n < frame_.nodes.size(); ++n) {
      ordered_json entry = numbers(u.segment<3>(6 * static_cast<Eigen::Index>(n)), mm_per_m);
      for (const ordered_json& turn :
           numbers(u.segment<3>(6 * static_cast<Eigen::Index>(n) + 3), degrees_per_radian)) {
        entry.push_back(turn);
      }
      c["nodes"].push_back(std::move(entry));
    }
    for (const MemberResult& m : result.members) c["members"].push_back(member_result(m));
    for (const PanelResult& p : result.panels) c["panels"].push_back(panel_entry(p));
    c["reactions"] = reactions(result);
    c["pick_ups"] = ordered_json::array();
    for (const PickUp& p : result.pick_ups) {
      c["pick_ups"].push_back({{"node", frame_.nodes[static_cast<std::size_t>(p.node)].name},
                               {"force", numbers(p.force)}});
    }
    c["slack"] = ordered_json::array();
    for (std::size_t i = 0; i < result.members.size(); ++i) {
      if (result.members[i].slack) c["slack"].push_back(frame_.members[i].name);
    }
    c["driving"] = nullptr;
    if (result.driving) {
      const Balance& b = result.driving->balance;
      c["driving"] = {{"acceleration", numbers(b.acceleration, 1 / frame_.gravity)},
                      {"angular", numbers(b.angular, degrees_per_radian)},
                      {"restraint", number(b.restraint_force)},
                      {"tips", result.driving->tips}};
      for (const TyreForce& w : result.driving->wheels) {
        c["wheels"].push_back({{"force", numbers(w.total())},
                               {"lifted", w.lifted},
                               {"friction", number(w.friction_used)}});
      }
    }
    c["moves_most"] = moves_most(result);
    c["out_of_balance"] = {{"force", number(result.solution.equilibrium.force)},
                           {"moment", number(result.solution.equilibrium.moment)}};
    c["sway_factor"] = optional_number(result.sway_factor, 1);
    c["load_reached"] = result.large ? number(result.large->reached) : ordered_json(nullptr);
    c["second_order"] = nullptr;
    if (result.second_order) {
      c["second_order"] = {{"converged", result.second_order->converged},
                           {"growth", number(result.second_order->growth)}};
    }
    return c;
  }

  ordered_json reactions(const CaseResult& result) const {
    ordered_json list = ordered_json::array();
    for (const int n : held_nodes(a_, result)) {
      const auto r = result.solution.reactions.segment<6>(6 * n);
      list.push_back({{"node", frame_.nodes[static_cast<std::size_t>(n)].name},
                      {"force", numbers(r.head<3>())},
                      {"moment", numbers(r.tail<3>())}});
    }
    return list;
  }

  ordered_json moves_most(const CaseResult& result) const {
    const int n = std::max(0, result.largest_node);
    const Eigen::Vector3d u = result.solution.displacements.segment<3>(6 * n) * mm_per_m;
    return {{"node", frame_.nodes[static_cast<std::size_t>(n)].name},
            {"by", number(u.norm())},
            {"vector", numbers(u)}};
  }

  ordered_json fatigue() const {
    if (!s_.studies.fatigue) return nullptr;
    const FatigueScreening& f = *s_.studies.fatigue;
    ordered_json spectrum = ordered_json::array(), members = ordered_json::array();
    for (const FatigueBlockUsed& b : f.blocks) {
      spectrum.push_back({{"what", b.words}, {"cycles", number(b.cycles)}});
    }
    for (std::size_t i = 0; i < f.members.size(); ++i) {
      const MemberFatigue& m = f.members[i];
      const Member& member = frame_.members[i];
      const bool made = m.result.utilisation.has_value();
      ordered_json ranges = ordered_json::array();
      for (const double r : m.ranges) ranges.push_back(number(r * MPa_per_Pa));
      const auto if_made = [&](const ordered_json& value) {
        return made ? value : ordered_json(nullptr);
      };
      members.push_back({{"name", member.name},
                         {"end", if_made(m.end == 0 ? member.from : member.to)},
                         {"utilisation", optional_number(m.result.utilisation, 1)},
                         {"ranges", if_made(ranges)},
                         {"damage", if_made(number(m.damage))},
                         {"cycles", if_made(number(m.cycles))},
                         {"reason", made ? ordered_json(nullptr) : ordered_json(m.result.reason)}});
    }
    return {{"counts", f.counts},     {"category", number(f.category * MPa_per_Pa)},
            {"gamma_Mf", f.gamma_Mf}, {"source", f.source},
            {"spectrum", spectrum},   {"members", members}};
  }

  ordered_json clauses() const {
    std::map<std::string, std::set<std::string>> rules = clauses_followed(a_);
    for (const CaseResult& c : a_.cases) {
      for (const PanelResult& p : c.panels) {
        for (const NamedCheck& check : p.checks) {
          if (!check.result.clause.empty()) {
            rules["panel " + check.name].insert(check.result.clause);
          }
        }
      }
    }
    ordered_json list = ordered_json::object();
    for (const auto& [name, set] : rules) list[name] = set;
    return list;
  }

  std::vector<std::string> assumptions() const {
    std::vector<std::string> list = {
        "Tubes are straight beams between nodes, their shear included; joints are as stiff as "
        "drawn, but for releases.",
        "Loads are multiplied by the reserve of the case before they are held against what is "
        "allowed."};
    if (a_.options.second_order) {
      list.emplace_back(
          "Axial forces, times the reserve, act on the displaced frame (second order).");
    } else if (a_.options.large_displacement) {
      list.emplace_back(
          "Equilibrium is that of the deformed frame, however far it bends; sheets have no part.");
    } else {
      list.emplace_back("Equilibrium is that of the undeformed frame (linear).");
    }
    if (frame_.vehicle) {
      list.emplace_back(
          "Nothing holds the vehicle: wheel loads follow from statics and every mass is "
          "accelerated so that forces and moments close. Displacements are measured from the "
          "frame's own mean motion.");
      if (a_.vehicle) {
        list.push_back("Friction of the tyres " +
                       ordered_json(five_digits(a_.vehicle->friction)).dump() +
                       (frame_.vehicle->friction ? ", as given." : ", as usual on dry roads."));
      }
    }
    return list;
  }

  const ReportSource& s_;
  const Analysis& a_;
  const Frame& frame_;
  std::unordered_map<std::string, int> node_;
  Reasons reasons_;
  std::vector<std::string> panel_check_names_;
};

}  // namespace

ordered_json report_data(const ReportSource& source) { return Writer(source).all(); }

}  // namespace tubewright
