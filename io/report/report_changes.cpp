#include "io/report/report_changes.h"

#include "cases/frame/find_parts.h"
#include "io/changes/loss_output.h"
#include "io/changes/rank_output.h"
#include "io/results/json_parts.h"
#include "io/workshop/piece_words.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

ordered_json figures(const FrameFigures& f) {
  return {{"mass", number(f.mass)},
          {"stiffness", optional_number(f.stiffness, per_degree)},
          {"worst", f.worst ? number(f.worst->utilisation) : ordered_json(nullptr)},
          {"mechanism", f.mechanism},
          {"passes", f.passes}};
}

/// "20.0 x 20.0 x 2.0": the material is that of the tube.
std::string size_alone(const SectionEntry& section) {
  std::string size = size_text(section);
  const std::string material = " " + section.material;
  if (size.ends_with(material)) size.resize(size.size() - material.size());
  return size;
}

ordered_json resized(const std::optional<Resized>& r) {
  if (!r) return nullptr;
  ordered_json json = figures(r->frame);
  json["size"] = size_alone(r->section);
  return json;
}

ordered_json group(const TubeWorth& t) {
  return {{"name", t.name},
          {"members", t.members},
          {"mass", number(t.mass)},
          {"per_kg", optional_number(t.stiffness_per_kg, per_degree)},
          {"up", resized(t.up)},
          {"down", resized(t.down)},
          {"without", figures(t.without)},
          {"removable", t.removable}};
}

ordered_json diagonal(const Diagonal& d) {
  ordered_json tubes = ordered_json::array();
  for (const auto& [from, to] : d.tubes) tubes.push_back(from + "-" + to);
  return {{"tubes", std::move(tubes)},
          {"mass", number(d.mass)},
          {"welded", figures(d.welded)},
          {"pinned", figures(d.pinned)},
          {"per_kg", optional_number(d.stiffness_per_kg, per_degree)}};
}

const char* word_of(LossKind kind) {
  switch (kind) {
    case LossKind::tube:
      return "tube";
    case LossKind::end:
      return "weld";
    case LossKind::panel:
      return "panel";
    case LossKind::rivets:
      return "rivets";
    case LossKind::bond:
      break;
  }
  return "bond";
}

ordered_json loss(const LossStudy& study, const Loss& l) {
  ordered_json json = {{"kind", word_of(l.kind)},
                       {"name", l.name},
                       {"member", l.member < 0 ? ordered_json(nullptr) : ordered_json(l.member)},
                       {"worst", number(l.worst)},
                       {"stiffness", optional_number(l.answer.stiffness, per_degree)},
                       {"mechanism", l.answer.mechanism},
                       {"must_hold", l.must_hold},
                       {"follows", what_follows(l)},
                       {"fatigue", optional_number(l.fatigue, 1)},
                       {"redundancy", nullptr}};
  if (l.kind == LossKind::tube && !study.redundancy.empty()) {
    json["redundancy"] = number(study.redundancy[static_cast<std::size_t>(l.member)]);
  }
  return json;
}

}  // namespace

ordered_json report_rank(const Frame& frame, const RankStudy& study) {
  ordered_json groups = ordered_json::array(), diagonals = ordered_json::array();
  for (const TubeWorth& t : study.groups) groups.push_back(group(t));
  for (const Diagonal& d : study.diagonals) diagonals.push_back(diagonal(d));
  ordered_json worth = ordered_json::array();  // of each member
  for (std::size_t m = 0; m < frame.members.size(); ++m) worth.push_back(nullptr);
  for (const TubeWorth& t : study.tubes) {
    worth[static_cast<std::size_t>(t.members.front())] =
        optional_number(t.stiffness_per_kg, per_degree);
  }
  return {
      {"best", best_sentence(frame, study)},
      {"whole", figures(study.whole)},
      {"groups", std::move(groups)},
      {"worth", std::move(worth)},
      {"diagonal_size", study.diagonal_section.empty()
                            ? ordered_json(nullptr)
                            : ordered_json(size_text(find_section(frame, study.diagonal_section)))},
      {"diagonals", std::move(diagonals)}};
}

ordered_json report_losses(const LossStudy& study) {
  ordered_json losses = ordered_json::array();
  for (const Loss& l : study.losses) losses.push_back(loss(study, l));
  return {{"sentence", loss_sentence(study)},
          {"stiffness", optional_number(study.whole.stiffness, per_degree)},
          {"redundancy_sum",
           study.redundancy.empty() ? ordered_json(nullptr) : number(study.redundancy_sum)},
          {"held_by_supports", study.held_by_supports},
          {"losses", std::move(losses)},
          {"inspect", study.inspect}};
}

}  // namespace tubewright
