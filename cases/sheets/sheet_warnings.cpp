#include "cases/sheets/sheet_warnings.h"

#include <vector>

#include "cases/frame/wording.h"

namespace tubewright {
namespace {

Diagnostic not_drawn(const std::string& sheet, const std::string& panel, const std::string& why,
                     const std::string& advice) {
  return {"sheet " + quoted(sheet) + " is not drawn at panel " + quoted(panel) + ": " + why,
          advice};
}

}  // namespace

std::string some_of(const std::set<std::string>& names) {
  constexpr std::size_t names_told = 4;
  std::vector<std::string> told(names.begin(), names.end());
  const std::size_t more = told.size() > names_told ? told.size() - names_told : 0;
  told.resize(told.size() - more);
  return quoted_list(told) + (more > 0 ? " and " + std::to_string(more) + " more" : "");
}

Diagnostic not_drawn_over_unknown_tube(const std::string& sheet, const std::string& panel,
                                       const std::string& tube) {
  return not_drawn(sheet, panel, quoted(tube) + " is known by its properties only",
                   "how far the sheet reaches over it is not known; give the tube's sizes");
}

Diagnostic not_drawn_across_itself(const std::string& sheet, const std::string& panel) {
  return not_drawn(sheet, panel, "its outline crosses itself",
                   "a notch or an opening is narrower than the tubes round it");
}

Diagnostic panels_drawn_apart(const std::string& sheet) {
  return {"panels of sheet " + quoted(sheet) + " meet at a corner only, or lie on one another",
          "each of them is drawn as a piece by itself"};
}

Diagnostic panel_warped(const std::string& panel, double warp) {
  return {"panel " + quoted(panel) + " is warped by " + in_mm(warp),
          "it is a piece by itself, drawn on its mean plane; try it on before drilling"};
}

Diagnostic sheet_on_edges(const std::string& sheet, const std::set<std::string>& tubes) {
  return {"sheet " + quoted(sheet) + " lies on edges, not faces, of " + some_of(tubes),
          "turn the tube with `roll`, or bend a flange; the outline takes a face's width"};
}

Diagnostic no_room_for_rivets(const std::string& sheet, const std::set<std::string>& tubes) {
  return {"sheet " + quoted(sheet) + " has no room for a rivet on " + some_of(tubes),
          "their joints take all of it"};
}

Diagnostic rivets_left_out(const std::string& sheet, const std::string& piece, std::size_t count) {
  return {"of sheet " + quoted(sheet) + " " + std::to_string(count) +
              (count == 1 ? " rivet is" : " rivets are") + " left out at panel " + quoted(piece),
          "nearer than 2.2 hole diameters to another, or than 1.2 to an edge (EN 1993-1-8 "
          "Table 3.3): take thinner rivets or wider tubes"};
}

Diagnostic tubes_through_sheet(const std::string& sheet, const std::set<std::string>& tubes) {
  return {"sheet " + quoted(sheet) + " is in the way of " + some_of(tubes),
          "they come out on its side: notch the sheet round them, or put it on the other "
          "side (`side`, or `offset` with the other sign); the outline has no notches"};
}

Diagnostic pieces_lap(const std::string& first, const std::string& second,
                      const std::set<std::string>& tubes) {
  return {"the pieces of sheet " + quoted(first) + " and " + quoted(second) + " both reach over " +
              some_of(tubes),
          "lap them and drill both at once, or cut one back; the drawings do not"};
}

}  // namespace tubewright
