#include "io/variants/frame_figure.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <unordered_map>
#include <vector>

#include "cases/frame/find_parts.h"
#include "io/text/markup.h"
#include "io/text/text_layout.h"

namespace tubewright {

namespace {

constexpr double figure_size = 480;  // units of the drawing across, of the larger side
constexpr double figure_margin = 14;

/// From in front, from the left and from above; x of the paper to the right, y down.
Eigen::Vector2d seen(const Eigen::Vector3d& p) {
  constexpr double turned = 35 * std::numbers::pi / 180, raised = 25 * std::numbers::pi / 180;
  const double across = std::sin(turned) * p.x() + std::cos(turned) * p.y();
  const double away = std::cos(turned) * p.x() - std::sin(turned) * p.y();
  return {across, std::sin(raised) * away - std::cos(raised) * p.z()};
}

struct Window {
  Eigen::Vector2d least = Eigen::Vector2d::Constant(INFINITY);
  Eigen::Vector2d most = Eigen::Vector2d::Constant(-INFINITY);
  double scale = 1;

  void take(const Frame& frame) {
    for (const Node& node : frame.nodes) {
      least = least.cwiseMin(seen(node.at));
      most = most.cwiseMax(seen(node.at));
    }
  }
  void fit() {
    const double size = (most - least).maxCoeff();
    scale = size > 0 ? figure_size / size : 1;
  }
  Eigen::Vector2d at(const Eigen::Vector3d& p) const {
    return (scale * (seen(p) - least)).array() + figure_margin;
  }
  Eigen::Vector2d extent() const { return (scale * (most - least)).array() + 2 * figure_margin; }
};

const char* class_of(MemberChange change) {
  switch (change) {
    case MemberChange::other:
      return "other";
    case MemberChange::resized:
      return "resized";
    case MemberChange::moved:
      return "moved";
    case MemberChange::none:
      break;
  }
  return "same";
}

std::string member_line(const Window& window, const Frame& frame, const Member& member,
                        const std::unordered_map<std::string, int>& number, MemberChange change) {
  const auto place = [&](const std::string& name) {
    return window.at(frame.nodes[static_cast<std::size_t>(number.at(name))].at);
  };
  const Eigen::Vector2d a = place(member.from), b = place(member.to);
  return std::string("<path class=\"") + class_of(change) + "\" d=\"M" + fixed(a.x(), 1) + " " +
         fixed(a.y(), 1) + "L" + fixed(b.x(), 1) + " " + fixed(b.y(), 1) + "\"><title>" +
         escaped(member.name) + "</title></path>\n";
}

std::string figure_of(const Window& window, const Frame& frame,
                      const std::vector<MemberChange>& changes) {
  const auto number = numbers_of_nodes(frame);
  std::string same, changed;  // what was changed lies on top
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    std::string& lines = changes[i] == MemberChange::none ? same : changed;
    lines += member_line(window, frame, frame.members[i], number, changes[i]);
  }
  const Eigen::Vector2d extent = window.extent();
  return "<svg class=\"frame\" role=\"img\" aria-label=\"" + escaped(frame.title) +
         "\" viewBox=\"0 0 " + fixed(extent.x(), 0) + " " + fixed(extent.y(), 0) + "\">\n" + same +
         changed + "</svg>\n";
}

}  // namespace

Pair<std::string> frame_figures(const Comparison& c) {
  Window window;
  for (const Frame& frame : c.frames) window.take(frame);
  window.fit();
  Pair<std::string> figures;
  for (const std::size_t i : {0U, 1U}) {
    figures[i] = figure_of(window, c.frames[i], c.result.changes.members[i]);
  }
  return figures;
}

}  // namespace tubewright
