#include "cases/frame/built_in_materials.h"

#include <string>

namespace tubewright {
namespace {

struct Row {
  const char* name;
  double E, G;             // GPa
  double density;          // kg/m3
  double yield, ultimate;  // MPa
  Metal metal = Metal::steel;
  double heat_yield = 0, heat_ultimate = 0;  // MPa, beside a weld; 0: not affected, or no tube
};

// Least values of thin sheet and tube as delivered, of the standard named. SEEN: read in a reprint
// or supplier's quotation of its table; MEMORY: recalled, the page not at hand. E and G: EN
// 1993-1-1 3.2.6 (steel), EN 1999-1-1 3.2.5 (aluminium), EN 1993-1-4 2.1.3 (stainless), all MEMORY;
// density of steel 7850 kg/m3 SEEN in a maker's tables. Row by row: tests/TRUTH.md.
//
// The heat of a weld takes away what cold drawing, quenching or ageing had given. Where a name
// stands for several conditions, the row is the weakest a welder is likely to buy.
constexpr Row table[] = {
    // EN 10025-2, wall up to 16 mm, yield and 360 SEEN; f_u of S275 and S355H as EN 1993-1-1 Table
    // 3.1, MEMORY.
    {"S235", 210, 81, 7850, 235, 360},
    {"S275", 210, 81, 7850, 275, 430},
    {"S355", 210, 81, 7850, 355, 510},
    // EN 10305-1, normalised (+N), SEEN. The as-welded tubes of EN 10305-3 and -5 may differ.
    {"E235", 210, 81, 7850, 235, 340},
    {"E355", 210, 81, 7850, 355, 490},
    // Normalised 4130: yield of a 25 mm bar, tensile strength of a tube supplier's sheet (90 ksi),
    // the lower of each, both SEEN. E and G 205 and 80 GPa by the same data sheets.
    {"4130", 205, 80, 7850, 435, 621},
    // Welded 25CrMo4 is taken as normalised 4130, the same steel by composition (0.22-0.29 C,
    // 0.9-1.2 Cr,
    // 0.15-0.30 Mo). EN 10083-3 gives 700 and 900 MPa quenched and tempered (MEMORY).
    {"25CrMo4", 210, 81, 7850, 435, 621},
    // 1.4301 hot-rolled strip, EN 10088-2 (MEMORY); cold-rolled strip has 230 and 540.
    {"304", 200, 77, 7900, 210, 520, Metal::stainless},
    // EN 485-2 sheet: strengths SEEN in reprints of the table.
    {"EN AW-1050A-H14", 70, 27, 2700, 85, 105, Metal::aluminium},
    {"EN AW-5251-H22", 70, 27, 2690, 120, 190, Metal::aluminium},
    {"EN AW-5754-H22", 70, 27, 2670, 130, 220, Metal::aluminium},
    {"EN AW-5754-H111", 70, 27, 2670, 80, 190, Metal::aluminium},
    // EN 755-2 extrusions, MEMORY, and beside a weld EN 1999-1-1 Table 3.2b, MEMORY: hollow ones
    // up to 5 mm where the wall matters (6082 sheet of EN 485-2 has 260 and 310; 6005A open ones
    // 225 and 270). The table's buckling class: A for T6, B for 5083.
    {"EN AW-5083-H111", 70, 27, 2660, 110, 270, Metal::aluminium, 110, 270},
    {"EN AW-6005A-T6", 70, 27, 2700, 215, 255, Metal::aluminium, 115, 165},
    {"EN AW-6060-T6", 70, 27, 2700, 140, 170, Metal::aluminium, 60, 100},
    {"EN AW-6061-T6", 70, 27, 2700, 240, 260, Metal::aluminium, 115, 175},
    {"EN AW-6063-T6", 70, 27, 2700, 160, 195, Metal::aluminium, 65, 110},
    {"EN AW-6082-T6", 70, 27, 2700, 250, 290, Metal::aluminium, 125, 185},
};

}  // namespace

const std::vector<MaterialEntry>& built_in_materials() {
  static const std::vector<MaterialEntry> materials = [] {
    constexpr double GPa = 1e9, MPa = 1e6;
    std::vector<MaterialEntry> entries;
    for (const Row& row : table) {
      const Material m{row.E * GPa, row.G * GPa, row.density, row.yield * MPa, row.ultimate * MPa};
      const bool artificially_aged = std::string(row.name).ends_with("-T6");
      MaterialEntry entry{row.name,  m,  {},
                          row.metal, {}, artificially_aged ? AlloyClass::A : AlloyClass::B};
      if (row.heat_yield > 0) entry.heat_affected = {row.heat_yield * MPa, row.heat_ultimate * MPa};
      entries.push_back(std::move(entry));
    }
    return entries;
  }();
  return materials;
}

const MaterialEntry* find_material(const Frame& frame, const std::string& name) {
  for (const MaterialEntry& m : frame.materials) {
    if (m.name == name) return &m;
  }
  for (const MaterialEntry& m : built_in_materials()) {
    if (m.name == name) return &m;
  }
  return nullptr;
}

}  // namespace tubewright
