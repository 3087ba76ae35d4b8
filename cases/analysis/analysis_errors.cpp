#include "cases/analysis/analysis_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {

Diagnostic weightless_vehicle() {
  return {"the vehicle weighs nothing",
          "give its materials a density, or list what it carries under `masses`"};
}

Diagnostic numbers_too_large(const std::string& load_case) {
  return {"case " + quoted(load_case) + " gives numbers too large to represent",
          "check the units of its loads and of the sections"};
}

Diagnostic out_of_balance(const std::string& load_case, double share) {
  return {"case " + quoted(load_case) + " has no answer: loads and forces differ by " +
              decimals(100 * share, 4) + " % of the greatest",
          "members of very different stiffness, or supports that barely hold, leave nothing but "
          "rounding; look at the thinnest members, the softest springs and the supports"};
}

Diagnostic moves_too_far(const std::string& load_case, double moved, double size) {
  return {"case " + quoted(load_case) + " has no answer: a node would move by " + in_mm(moved) +
              ", farther than the frame is large (" + in_mm(size) + ")",
          "something barely holds: look at springs, releases and supports, and at the units of "
          "the loads"};
}

Diagnostic no_large_displacements(const std::string& load_case, const std::string& reason) {
  return {"case " + quoted(load_case) + " cannot be solved with large displacements: " + reason,
          "`--second-order` counts what axial forces do on the displaced frame"};
}

Diagnostic displacement_in_unknown_case(const std::string& load_case, const std::string& advice) {
  return {"`limits.displacement` names case " + quoted(load_case) +
              ", which is none of the vehicle's standard cases",
          advice};
}

Diagnostic joints_give_way(const std::string& load_case, double factor) {
  return {"in case " + quoted(load_case) + " the joints give way at " + decimals(factor, 2) +
              " times its design loads",
          factor <= 1 ? "the frame cannot carry them; brace it"
                      : "members that sway count as longer; `check --second-order` adds what their "
                        "lean does to forces (EN 1993-1-1 5.2.1)"};
}

Diagnostic suspension_gives_way(const std::string& load_case, double factor) {
  return {"in case " + quoted(load_case) + " the suspension gives way at " + decimals(factor, 2) +
              " times its design loads",
          factor <= 1
              ? "its links, pins or springs cannot carry them: look where they are joined"
              : "its links, pins or springs move, not the frame; `check --second-order` adds "
                "what their lean does to forces (EN 1993-1-1 5.2.1)"};
}

Diagnostic no_equilibrium(const std::string& load_case) {
  return {"in case " + quoted(load_case) + " no equilibrium was found on the displaced frame",
          "the design loads are beyond what it can stand upright under, or within a few percent of "
          "it; its numbers are those of first order"};
}

Diagnostic stops_short(const std::string& load_case, const StopsShort& stop) {
  const std::string loads = stop.design ? "loads times the safety factor" : "loads",
                    at = decimals(stop.share, 3) + " of its " + loads;
  std::string what = "finds no equilibrium beyond " + at;
  if (stop.how == PathStop::buckles) {
    what = "loses its stability at " + at + ": a member or the frame buckles sideways";
  } else if (stop.how == PathStop::snaps_through) {
    what = "reaches its greatest load at " + at + " and snaps through";
  }
  return {"in case " + quoted(load_case) + " the frame " + what,
          stop.design
              ? "brace it, or make it stiffer; its checks are no better than those of first order"
              : "brace it, or make it stiffer; its numbers are those of that share of the loads"};
}

Diagnostic sheets_not_settled(const std::string& load_case) {
  return {"in case " + quoted(load_case) + " the state of the buckled sheets did not settle",
          "do not rely on this case; make the sheets thicker or the loads smaller"};
}

Diagnostic turns_over(const std::string& load_case) {
  return {"in case " + quoted(load_case) + " the vehicle turns over",
          "its loads are those of the first moment; ask for less, or lower the load"};
}

}  // namespace tubewright
