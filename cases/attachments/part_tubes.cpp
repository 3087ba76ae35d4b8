#include "cases/attachments/part_tubes.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <utility>
#include <vector>

namespace tubewright {
namespace {

class Parting {
 public:
  explicit Parting(Frame& frame) : frame_(frame) {}

  void run(const TubeCuts& all) {
    std::unordered_map<std::string, Eigen::Vector3d> at;
    for (const Node& n : frame_.nodes) at.emplace(n.name, n.at);
    std::vector<Member> members;
    for (std::size_t i = 0; i < frame_.members.size(); ++i) {
      const Member& whole = frame_.members[i];
      const auto cuts = all.find(i);
      if (cuts == all.end()) {
        members.push_back(whole);
        continue;
      }
      std::vector<Member> pieces;
      std::vector<double> ends;  // of each piece, as fractions
      const double L = (at.at(whole.to) - at.at(whole.from)).norm();
      std::string from = whole.from;
      const auto add = [&](const std::string& to, double end) {
        Member piece = whole;
        piece.name = piece_name(whole, pieces.size());
        piece.tube = whole.tube.empty() ? whole.name : whole.tube;
        piece.from = std::exchange(from, to);
        piece.to = to;
        piece.parted_from = std::max(whole.parted_from, L);
        if (!pieces.empty()) {
          piece.release_from = welded;
          piece.capped[0] = false;
        }
        pieces.push_back(std::move(piece));
        ends.push_back(end);
      };
      for (const auto& [from_start, node] : cuts->second) add(node, from_start / L);
      add(whole.to, 1);
      for (std::size_t k = 0; k + 1 < pieces.size(); ++k) {
        pieces[k].release_to = welded;
        pieces[k].capped[1] = false;
      }
      if (!whole.tube.empty()) {
        move_loads(whole.name, pieces, ends);
        move_listings(whole.name, pieces);
      }
      members.insert(members.end(), pieces.begin(), pieces.end());
    }
    frame_.members = std::move(members);
  }

 private:
  static std::string piece_name(const Member& m, std::size_t k) {
    if (m.tube.empty()) return m.name + "." + std::to_string(k + 1);
    // a to z, then za, zb, ...
    return m.name + std::string(k / 26, 'z') + static_cast<char>('a' + k % 26);
  }

  /// Loads that name a piece of a path; what names a whole tube needs nothing.
  void move_loads(const std::string& name, const std::vector<Member>& pieces,
                  const std::vector<double>& ends) {
    for (Case& c : frame_.cases) {
      std::vector<LineLoad> lines;
      for (const LineLoad& load : c.line_loads) {
        if (load.member != name) {
          lines.push_back(load);
          continue;
        }
        for (const Member& piece : pieces) {
          lines.push_back(load);
          lines.back().member = piece.name;
        }
      }
      c.line_loads = std::move(lines);
      for (PointLoad& load : c.point_loads) {
        if (load.member != name) continue;
        std::size_t k = 0;
        while (k + 1 < ends.size() && load.at > ends[k]) ++k;
        const double start = k == 0 ? 0 : ends[k - 1];
        load.member = pieces[k].name;
        load.at = (load.at - start) / (ends[k] - start);
      }
    }
  }

  /// Groups of tubes that name a piece of a path, likewise.
  void move_listings(const std::string& name, const std::vector<Member>& pieces) {
    const auto move = [&](std::vector<std::string>& listed) {
      const auto found = std::find(listed.begin(), listed.end(), name);
      if (found == listed.end()) return;
      const auto at = listed.erase(found);
      std::vector<std::string> names;
      for (const Member& piece : pieces) names.push_back(piece.name);
      listed.insert(at, names.begin(), names.end());
    };
    for (SizeGroup& group : frame_.groups) move(group.members);
    move(frame_.keep.members);
  }

  Frame& frame_;
};

}  // namespace

std::string node_at(TubeCuts& cuts, std::size_t member, double from_start,
                    const std::string& otherwise) {
  std::map<double, std::string>& nodes = cuts[member];
  const auto there = std::find_if(nodes.begin(), nodes.end(), [&](const auto& cut) {
    return std::abs(cut.first - from_start) <= as_one_place;
  });
  if (there != nodes.end()) return there->second;
  nodes.emplace(from_start, otherwise);
  return otherwise;
}

void part_tubes(Frame& frame, const TubeCuts& cuts) { Parting(frame).run(cuts); }

bool has_flat_faces(const SectionEntry& section) {
  return section.shape == Shape::square_tube || section.shape == Shape::rectangular_tube;
}

}  // namespace tubewright
