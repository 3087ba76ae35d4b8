#include "io/frame_file/read_frame.h"

#include <algorithm>
#include <filesystem>
#include <tuple>
#include <unordered_set>
#include <utility>

#include "cases/attachments/expand_attachments.h"
#include "cases/bends/expand_bends.h"
#include "cases/frame/mirror.h"
#include "cases/validate/validate.h"
#include "io/frame_file/checked_value.h"
#include "io/frame_file/frame_parts.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {
namespace {

bool before(const SourceLocation& a, const SourceLocation& b) {
  return std::tie(a.line, a.column) < std::tie(b.line, b.column);
}

/// File order; what has no place comes last.
bool in_file_before(const Diagnostic& a, const Diagnostic& b) {
  const bool a_placed = a.place.line > 0;
  const bool b_placed = b.place.line > 0;
  return a_placed != b_placed ? a_placed : before(a.place, b.place);
}

/// Where the parts of the file begin: a place belongs to the last part that begins before it.
class Parts {
 public:
  explicit Parts(const CheckedValue& top) {
    for (const CheckedValue& field : top.fields) add(field);
    std::sort(starts_.begin(), starts_.end(), before);
  }

  /// Index of the part that holds `place`, 0 = before all parts.
  std::size_t holding(const SourceLocation& place) const {
    return static_cast<std::size_t>(
        std::upper_bound(starts_.begin(), starts_.end(), place, before) - starts_.begin());
  }

 private:
  void add(const CheckedValue& value) {
    if (value.given) starts_.push_back(value.place);
    for (const NamedValue& entry : value.entries) starts_.push_back(entry.place);
  }

  std::vector<SourceLocation> starts_;
};

/// True if a fault would set off others elsewhere: an unreadable node, member end or mirror rule,
/// or a top-level key that is missing, unknown or no map.
bool spoils_references(const YamlNode& root, const CheckedValue& top, const FrameReading& reading) {
  const auto unusable = [](const CheckedValue& v) {
    return v.given && !v.sound && v.entries.empty();
  };
  if (!top["nodes"].sound || (top["mirror"].given && !top["mirror"].sound)) return true;
  for (const char* key : {"materials", "sections", "members", "attachments", "gussets", "sheets",
                          "vehicle", "cases"}) {
    if (unusable(top[key]) && top[key].group == nullptr) return true;
  }
  // A member whose ends are unknown leaves nodes that seem to be joined by nothing.
  const std::vector<Member>& members = reading.frame.members;
  if (std::any_of(members.begin(), members.end(),
                  [](const Member& m) { return m.from.empty() || m.to.empty(); })) {
    return true;
  }
  return std::any_of(reading.diagnostics.begin(), reading.diagnostics.end(),
                     [&](const Diagnostic& p) { return p.place.column <= root.place.column; });
}

Frame built_frame(const CheckedValue& top, const std::string& folder, Diagnostics& diagnostics) {
  Frame frame;
  frame.title = top["frame"].text;
  frame.gravity = top["gravity"].number;
  frame.joint_flexibility = top["joints"].text == "rigid" ? rigid_joints : 1;
  const FileAxes axes{top["axes"].text == "sae_j670"};
  read_materials(top, frame, diagnostics);
  read_sections(top, frame);
  read_nodes(top, axes, frame);
  read_members(top, frame, diagnostics);
  read_attachments(top, frame);
  read_gussets(top, frame);
  read_mirror(top, frame);
  read_supports(top, axes, frame);
  read_masses(top, axes, frame);
  read_sheets(top, frame, diagnostics);
  read_panels(top, frame);
  read_vehicle(top, axes, frame);
  read_cases(top, axes, frame, diagnostics);
  read_rides(top, folder, frame, diagnostics);
  read_torsion(top, frame);
  read_limits(top, frame);
  read_life(top, frame);
  read_stock(top, frame);
  read_groups(top, frame);
  read_bench_test(top, axes, frame, diagnostics);
  return frame;
}

bool has_error(const Diagnostics& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& p) { return p.severity == Severity::error; });
}

/// What only shows in the frame as a whole. Completes the mirror image and the attachments.
Diagnostics faults_of_the_whole(Frame& frame) {
  Diagnostics diagnostics = expand_mirror(frame);
  if (has_error(diagnostics)) return diagnostics;
  append(diagnostics, expand_bends(frame));
  append(diagnostics, expand_attachments(frame));
  const Diagnostics more = validate(frame);
  diagnostics.insert(diagnostics.end(), more.begin(), more.end());
  return diagnostics;
}

}  // namespace

bool FrameReading::sound() const { return !has_error(diagnostics); }

namespace {

/// `diagnostics`: of the text that the tree was parsed from.
FrameReading reading_of(const YamlNode& root, const std::string& folder, Diagnostics diagnostics) {
  FrameReading reading;
  reading.diagnostics = std::move(diagnostics);
  const CheckedValue top = check_frame_keys(root, reading.diagnostics);
  if (top.group == nullptr) return reading;

  reading.frame = built_frame(top, folder, reading.diagnostics);
  if (!spoils_references(root, top, reading)) {
    const Parts parts(top);
    std::unordered_set<std::size_t> faulty;
    for (const Diagnostic& p : reading.diagnostics) faulty.insert(parts.holding(p.place));
    for (Diagnostic& p : faults_of_the_whole(reading.frame)) {
      if (!faulty.contains(parts.holding(p.place))) reading.diagnostics.push_back(std::move(p));
    }
  }
  std::stable_sort(reading.diagnostics.begin(), reading.diagnostics.end(), in_file_before);
  return reading;
}

}  // namespace

FrameReading read_frame(const FrameText& file) {
  Diagnostics diagnostics;
  const std::optional<YamlNode> root = parse_strict_yaml(file.text, diagnostics);
  if (!root) return {{}, std::move(diagnostics)};
  return reading_of(*root, std::filesystem::path(file.name).parent_path().string(),
                    std::move(diagnostics));
}

FrameReading read_frame(const YamlNode& root, const std::string& folder) {
  return reading_of(root, folder, {});
}

}  // namespace tubewright
