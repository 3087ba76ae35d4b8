#include "io/results/sources.h"

namespace tubewright {

const std::vector<RuleSource>& rule_sources() {
  static const std::vector<RuleSource> rows = {
      {"section properties", "corner radii included", "EN 10219-2 / EN 10210-2, Annex B"},
      {"beam", "Timoshenko, shear coefficients by Cowper", "J. Appl. Mech. 33 (1966) 335"},
      {"wheel loads", "rigid-vehicle statics, roll moment shared by roll stiffness",
       "Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 174"},
      {"step and kerb", "dynamic factors 4.5 and 1.75",
       "Garrett (1953), in Brown, Robertson & Serpento, Motor Vehicle Structures (2002), pp. 22, "
       "24"},
      {"yield",
       "von Mises at the worst point of the section and the worst place along the member, times "
       "limits.yield_factor (1.5; 1.0 for cases marked rare)",
       "EN 1993-1-1, 6.2.1(5)"},
      {"section class, section",
       "classes 1 to 4; plastic, elastic or effective resistance, N, M, V and T together",
       "EN 1993-1-1 5.5.2, 6.2; EN 1993-1-5 4.4 (from memory)"},
      {"member buckling",
       "curve c cold formed and solid, a (a0) hot finished; interaction Annex B; lengths by the "
       "frame's own buckling; flat bars and tall tubes tip over by curve d",
       "EN 1993-1-1 6.3.1 to 6.3.3 (from memory); Timoshenko & Gere (1961)"},
      {"welds",
       "directional method round the profile by the weakest of what is joined; throats as strong "
       "as the wall on a tube; below 4 mm beside the rule for thin parts, as a comparison",
       "EN 1993-1-8 4.5.3.2, 7.3.1(4); EN 1993-1-3 8.5.2; EN 1993-1-8:2024 for weld metal (from "
       "memory)"},
      {"joint faces",
       "T, Y, X, K with gap and overlap, one plane or two; beyond their ranges a comparison",
       "EN 1993-1-8 Tables 7.2 to 7.14 and 7.19 (in part from memory)"},
      {"frame corners", "N/N_pl + M/M_pl at most α, V a half, N a fifth of its own",
       "CIDECT Design Guide 3 (in part from memory)"},
      {"bends",
       "curved bars; flattened round tube; curved walls of a box as strips on an elastic "
       "foundation; "
       "comparisons",
       "Timoshenko, Strength of Materials II; von Karman (1911), Clark & Reissner (1951) (from "
       "memory); derived"},
      {"attachments",
       "tube face under plates, welds, plates, bolts, holes; springs of the face in series",
       "EN 1993-1-8 Tables 7.13, 7.14, 3.4, 3.10, 4.5.3.3 (in part from memory); stiffness derived "
       "by plate elements"},
      {"gussets",
       "a bar along the free edge; tube faces, welds along the legs, the plate, its free edge",
       "EN 1993-1-8 Tables 7.13, 7.14, 4.5.3.3, EN 1993-1-1 6.2.1(5) (in part from memory); "
       "stiffness derived by plane stress"},
      {"aluminium",
       "column class by alloy; heated beside welds, 30 mm from the face; weld, fusion line and "
       "tube beside it; flat bars tip over",
       "EN 1999-1-1 6.1.6, 6.2, 6.3, 8.6.3, Table 3.2b (from memory)"},
      {"second order",
       "P-Δ and P-δ as couples along each member, iterated with Anderson mixing; stable by inertia",
       "Timoshenko & Gere (1961); checked with the benchmarks of AISC 360-10 C2"},
      {"large displacements", "corotational beams, load steps, limit points",
       "Crisfield (from memory); checked with Mattiasson, Lee's frame, Williams' toggle, Bathe & "
       "Bolourchi"},
      {"fatigue",
       "nominal stress range at tube ends, hot spots of T, Y, X joints, shear and weld root, "
       "ranges to 1.5 f_y, Miner; steel",
       "EN 1993-1-9 7.1, 8, A.5, Tables 8.5, 8.6; CIDECT Design Guide 8 (2000) (from memory)"},
      {"shear panel",
       "edge flows of a quadrilateral, flat sheet, slip of the joint, stretch of the tubes",
       "S. J. Garvey, Aircraft Engineering 23 (1951), from memory, re-derived and checked by "
       "finite elements"},
      {"buckled sheet",
       "critical stress; incomplete diagonal tension, secant stiffness, pull on the tubes",
       "Timoshenko & Gere; NACA TN 2661 (1952)"},
      {"rivets",
       "shear 38 d² or as given, bearing of the thinner part, tear-out, buckling between rivets; "
       "spacing rules as warnings",
       "EN 1999-1-4 8.2 and EN 1993-1-3 Table 8.1 (in part from memory); Flabel"},
      {"bond",
       "peak stress over the width against a quarter (soft: a tenth) of the lap-shear strength",
       "shear lag as Volkersen (1938); allowance: judgement"},
      {"sheet pieces",
       "flush with the outer faces of their tubes; holes 2.2 diameters apart, 1.2 from edges, "
       "clear "
       "of joints",
       "EN 1993-1-8 Table 3.3 (in part from memory); common practice"},
      {"modes",
       "consistent mass with rotary inertia, carried masses by the motion of their nodes, Lanczos, "
       "Sturm count",
       "Przemieniecki (1968); checked with Blevins' tables and NAFEMS FV2, FV4, FV5"},
      {"buckling factors",
       "stress stiffness of the bent axis, tubes cut as each case needs, Sturm count",
       "Timoshenko & Gere (1961)"},
      {"weld shrinkage", "0.1 A_w/t across each weld, A_w = a²; steel",
       "O. W. Blodgett (from memory), a rule for plate"},
      {"balance kept", "K/(K + (K_f + K_r) λ (1 − λ))",
       "derived: two axles, the frame a spring between"},
  };
  return rows;
}

}  // namespace tubewright
