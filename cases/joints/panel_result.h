// One panel in one load case: what it carries, whether it has buckled, and its checks.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cases/checks/check_result.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/elements/shear_panel.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// What a panel's checks need, the same in every case.
struct PanelFacts {
  double E = 0;
  double nu = 0;
  double yield = 0;            ///< may be NaN: not known
  double ultimate = 0;         ///< may be NaN
  double critical_stress = 0;  ///< shear stress at which the flat sheet buckles
  double rivet_share = 0;      ///< of the shear flow that rivets take, the rest goes to the bond
  double edge_distance = 0;   ///< middle of a tube's face to its border, the narrowest; NaN unknown
  int narrowest = -1;         ///< the member of that tube, -1 unknown
  double wall = 0;            ///< thinnest tube wall under the rivets; NaN unknown
  double least_ultimate = 0;  ///< of the sheet and the tubes under the rivets; may be NaN
  double bond_peak_per_flow = 0;  ///< 1/m; at the rim of a sheet
  double bond_peak_per_net = 0;   ///< 1/m; under a sheet that goes on over the tube
  double bond_peak_per_through = 0;
  std::vector<PanelRow> rows;  ///< of rivets or bond round the panel, one a piece of tube
};

PanelFacts panel_facts(const Frame& frame, const NumberedFrame& numbered, size_t panel);

/// Secant stage of one panel: what buckling leaves of its stiffness, how hard it pulls its edges.
struct SheetStage {
  double tension_share = 0;  ///< k of the incomplete diagonal tension field
  double secant_ratio = 1;   ///< secant stiffness over that of the flat sheet
  double traction = 0;       ///< of the tension field, inward on all four edges, N/m
};

/// The stage that belongs to a flow q0. Folds at 45 degrees; the pull is the even inward load k q
/// of the greatest edge flow, which is in balance with itself on any quadrilateral.
SheetStage sheet_stage(const PanelFacts& facts, const Model& model, const Panel& panel, double q0);

struct NamedCheck {
  std::string name;
  CheckResult result;
  bool counts = true;  ///< false: for information
};

struct PanelResult {
  double flow = 0;                        ///< greatest flow along an edge, N/m, no sign
  std::array<double, 4> edge_flows = {};  ///< N/m, positive: closes the first and third corner
  double shear_stress = 0;
  double critical_stress = 0;
  SheetStage stage;
  std::optional<double> rivet_load;  ///< of the rivet that takes most, N
  std::optional<double> bond_peak;   ///< shear stress of the adhesive, Pa
  std::optional<double> bond_mean;   ///< of the row that takes most
  std::vector<NamedCheck> checks;
};

/// Of those that count the one that is nearest its limit; null if none was made.
const NamedCheck* nearest_limit(const std::vector<NamedCheck>& checks);

/// What one row has to take, N/m.
struct RowLoad {
  double net = 0;      ///< goes into the tube
  double through = 0;  ///< goes on in the sheet on the other side; 0 at the rim
};

/// Of the flows along a row and the pulls of the folds across it. At the rim q (1 + 0.414 k), the
/// edge force q and the pull k q at 45 degrees with it (sqrt(2) q at k = 1, NACA TN 2661 3.11).
/// Between two panels of one sheet flows of one sense and pulls cancel; of what is left of both the
/// greater and 0.414 of the lesser count, which is never less than their resultant. `pulls`: the
/// traction of each panel.
RowLoad row_load(const PanelRow& row, double q0, double pull, double other_q0, double other_pull);

/// `stages`: of all panels. `factor`: the safety factor of the case, on loads. Rivet strengths are
/// divided by gamma_M3 too.
PanelResult panel_result(const Frame& frame, const NumberedFrame& numbered, size_t panel,
                         const PanelFacts& facts, std::span<const SheetStage> stages,
                         const StaticSolution& solution, double factor);

}  // namespace tubewright
