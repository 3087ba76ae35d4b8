// Thin sheet in shear: when it buckles, what it still carries, and what its joint to the tube
// gives.
//
// N, mm and MPa, as the sources have them. Sheet, where nothing else is said: E 70 000, nu 0.33,
// G = E/(2 (1 + nu)) = 26 316.
#include "solver/elements/sheet_buckling.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <array>
#include <cmath>
#include <numbers>

#include "solver/elements/sheet_joint.h"
#include "tests/catch.h"

namespace tubewright::sheet_buckling_test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double E = 70000, nu = 0.33, G = E / (2 * (1 + nu));

/// k_s out of critical_shear_stress: tau = k_s pi^2 E/(12 (1 - nu^2)) (t/b)^2.
double shear_coefficient_of(double ratio, SheetEdge edge) {
  const double t = 1, b = 100;
  const double reference = pi * pi * E / (12 * (1 - nu * nu)) * (t / b) * (t / b);
  return critical_shear_stress(E, nu, t, ratio * b, b, edge) / reference;
}

/// The same for simply supported edges by Ritz's method, w = sum a_mn sin(m pi x/a) sin(n pi y/b).
/// Derived: with a = r b, bending diag (r pi^4/4) (m^2/r^2 + n^2)^2 against shear
/// 2 pi^2 k_s int w_x w_y, the integrals of sine by cosine being 2 p/(pi (p^2 - m^2)) for m + p
/// odd.
double ritz_coefficient(double r, int terms) {
  const int n = terms * terms;
  const auto integral = [](int c, int s) {  // of cos(c pi x) sin(s pi x), x from 0 to 1
    return (c + s) % 2 == 0 ? 0 : 2.0 * s / (pi * (s * s - c * c));
  };
  Eigen::VectorXd bending(n);
  Eigen::MatrixXd shear(n, n);
  for (int i = 0; i < n; ++i) {
    const int m = i / terms + 1, k = i % terms + 1;
    bending[i] = std::pow(pi, 4) * r / 4 * std::pow(m * m / (r * r) + k * k, 2);
    for (int j = 0; j < n; ++j) {
      const int p = j / terms + 1, q = j % terms + 1;
      // w_x of i by w_y of j and the other way round, dx dy = a b, the slopes 1/a and 1/b.
      shear(i, j) =
          pi * pi * pi * pi *
          (m * q * integral(m, p) * integral(q, k) + p * k * integral(p, m) * integral(k, q));
    }
  }
  const Eigen::VectorXd scale = bending.cwiseSqrt().cwiseInverse();
  const Eigen::MatrixXd M = scale.asDiagonal() * shear * scale.asDiagonal();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(M, Eigen::EigenvaluesOnly);
  return 1 / eigen.eigenvalues().cwiseAbs().maxCoeff();
}

}  // namespace

TEST_CASE("critical shear stress of sheets of a car's size") {
  // Derived from k_s = 5.34 + 4.00 (b/a)^2 by hand; printed to 0.01 MPa.
  const auto critical = [](double t, double a, double b) {
    return critical_shear_stress(E, nu, t, a, b, SheetEdge::simply_supported);
  };
  CHECK_THAT(critical(0.9, 600, 700), WithinAbs(1.20, 0.0051));
  CHECK_THAT(critical(1.2, 600, 700), WithinAbs(2.140, 0.00051));
  CHECK_THAT(critical(1.5, 600, 700), WithinAbs(3.34, 0.0051));
  CHECK_THAT(critical(2.0, 600, 700), WithinAbs(5.94, 0.0051));
  CHECK_THAT(critical(1.2, 350, 600), WithinAbs(5.09, 0.0051));
  CHECK_THAT(critical(1.2, 300, 350), WithinAbs(8.56, 0.0051));
}

TEST_CASE("the order of a sheet's sides does not matter, and it stiffens with thickness squared") {
  for (const SheetEdge edge : {SheetEdge::simply_supported, SheetEdge::clamped}) {
    const double tau = critical_shear_stress(E, nu, 1.2, 600, 350, edge);
    CHECK_THAT(critical_shear_stress(E, nu, 1.2, 350, 600, edge), WithinRel(tau, 1e-14));
    CHECK_THAT(critical_shear_stress(E, nu, 2.4, 350, 600, edge), WithinRel(4 * tau, 1e-14));
    CHECK_THAT(critical_shear_stress(E, nu, 2.4, 700, 1200, edge), WithinRel(tau, 1e-14));
    CHECK_THAT(critical_shear_stress(3 * E, nu, 1.2, 350, 600, edge), WithinRel(3 * tau, 1e-14));
  }
}

TEST_CASE("shear buckling coefficients of square and endless sheets") {
  // Timoshenko & Gere, Theory of Elastic Stability (from memory): 9.34 and 5.34 (5.35 exact),
  // clamped 14.58 and 8.98.
  CHECK_THAT(shear_coefficient_of(1, SheetEdge::simply_supported), WithinRel(9.34, 1e-12));
  CHECK_THAT(shear_coefficient_of(1, SheetEdge::clamped), WithinRel(14.58, 1e-12));
  CHECK_THAT(shear_coefficient_of(1e5, SheetEdge::simply_supported), WithinRel(5.34, 1e-9));
  CHECK_THAT(shear_coefficient_of(1e5, SheetEdge::clamped), WithinRel(8.98, 1e-9));
}

TEST_CASE("shear buckling coefficients against the tables they are fitted to") {
  struct Row {
    double ratio, table, ritz, clamped_ritz;
  };
  // table: Timoshenko & Gere, simply supported (from memory; none at 5). The others by Ritz's
  // method with 12 to 16 terms each way (derived). The parabola in b/a misses the table by up to
  // 4 % (6.34 for 6.6) and clamped by up to 2 %.
  for (const Row& row :
       {Row{1.0, 9.34, 9.325, 14.642}, Row{1.2, 8.0, 7.984, 12.643}, Row{1.5, 7.1, 7.070, 11.458},
        Row{2.0, 6.6, 6.546, 10.248}, Row{3.0, 5.9, 5.840, 9.534}, Row{5.0, 0, 5.531, 9.185}}) {
    INFO("a/b " << row.ratio);
    const double k = shear_coefficient_of(row.ratio, SheetEdge::simply_supported);
    if (row.table > 0) CHECK_THAT(k, WithinRel(row.table, 0.04));
    CHECK_THAT(k, WithinRel(row.ritz, 0.033));
    CHECK_THAT(shear_coefficient_of(row.ratio, SheetEdge::clamped),
               WithinRel(row.clamped_ritz, 0.02));
  }
}

TEST_CASE("a Ritz solution written here agrees with the simply supported coefficients") {
  // Upper bounds, converged to a few parts in a thousand; the parabola is off by 3.3 % at most.
  for (const double ratio : {1.0, 1.25, 1.6, 2.0, 2.5, 3.0}) {
    INFO("a/b " << ratio);
    const double k = ritz_coefficient(ratio, 12);
    CHECK_THAT(shear_coefficient_of(ratio, SheetEdge::simply_supported), WithinRel(k, 0.033));
  }
  CHECK_THAT(ritz_coefficient(1, 12), WithinRel(9.325, 1e-3));  // the one above, its own check
}

TEST_CASE("a clamped sheet stands more than a simply supported one, a longer one less") {
  double before[2] = {1e9, 1e9};
  for (double ratio = 1; ratio < 8; ratio *= 1.3) {
    const double k[2] = {shear_coefficient_of(ratio, SheetEdge::simply_supported),
                         shear_coefficient_of(ratio, SheetEdge::clamped)};
    CHECK(k[1] > 1.5 * k[0]);
    for (int i = 0; i < 2; ++i) {
      CHECK(k[i] < before[i]);
      before[i] = k[i];
    }
  }
}

TEST_CASE("share of diagonal tension and the shear stiffness left") {
  struct Row {
    double ratio, k, kept;
  };
  // k: Megson, Aircraft Structures for Engineering Students, 3rd ed., eq. 6.111; kept at nu 0.33:
  // derived from strain energy. Three places printed, so within half of the last.
  for (const Row& row : {Row{1.5, 0.088, 0.958}, Row{2, 0.149, 0.930}, Row{3, 0.234, 0.894},
                         Row{5, 0.336, 0.855}, Row{10, 0.462, 0.811}, Row{20, 0.572, 0.776},
                         Row{50, 0.691, 0.742}, Row{100, 0.762, 0.723}}) {
    INFO("tau/tau_cr " << row.ratio);
    const double k = diagonal_tension_share(row.ratio * 2.14, 2.14);
    CHECK_THAT(k, WithinAbs(row.k, 0.00051));
    CHECK_THAT(shear_stiffness_kept(k, nu), WithinAbs(row.kept, 0.00051));
  }
  const double k10 = diagonal_tension_share(10, 1);
  CHECK_THAT(k10, WithinAbs(0.4621, 0.00005));
  CHECK_THAT(shear_stiffness_kept(k10, nu), WithinAbs(0.8112, 0.00005));
}

TEST_CASE("a sheet below its critical stress carries all in shear and keeps all of G") {
  CHECK(diagonal_tension_share(0, 2.14) == 0);
  CHECK(diagonal_tension_share(2.139, 2.14) == 0);
  CHECK(diagonal_tension_share(2.14, 2.14) == 0);
  CHECK_THAT(diagonal_tension_share(2.14 * (1 + 1e-6), 2.14), WithinAbs(0, 1e-6));  // no jump
  CHECK(shear_stiffness_kept(0, nu) == 1);
}

TEST_CASE("complete diagonal tension with rigid edges leaves E/4 of shear modulus") {
  // Wagner's web: G_PDT = E/4 (derived; textbooks alike), that is (1 + nu)/2 of G: 0.665.
  CHECK_THAT(shear_stiffness_kept(1, nu) * G, WithinRel(E / 4, 1e-12));
  CHECK_THAT(shear_stiffness_kept(1, nu), WithinAbs(0.665, 1e-12));
  CHECK_THAT(diagonal_tension_share(1e30, 1), WithinAbs(1, 1e-12));
  double k_before = 0, kept_before = 1;
  for (double ratio = 1.1; ratio < 1e6; ratio *= 1.7) {
    const double k = diagonal_tension_share(ratio, 1), kept = shear_stiffness_kept(k, nu);
    CHECK(k > k_before);
    CHECK(kept < kept_before);
    CHECK(kept > 0.665);
    k_before = k;
    kept_before = kept;
  }
}

TEST_CASE("the textbook beam with a complete diagonal tension field") {
  // Megson, Aircraft Structures for Engineering Students, 3rd ed., Example 6.3: cantilever with a
  // tip load of 5 kN, 1200 long, 400 deep, uprights every 300, web 2 mm, flanges 350, uprights 300
  // mm2, flange modulus 750 mm3, upright I 2000 mm4. Printed: 42.6 deg, 17.7 kN and 50.7 MPa, 8.6e4
  // N mm and 114.9 MPa, together 165.6 MPa, 3.4 kN, 253 mm (second figures: worked again, derived;
  // the book rounds 17.719 kN/350 mm2 = 50.63 up to 50.7, hence 0.1 MPa).
  const double W = 5000, length = 1200, d = 400, b = 300, t = 2, A_F = 350, A_S = 300;
  const double alpha = tension_field_angle(t, d, b, A_F, A_S);
  CHECK_THAT(std::pow(std::tan(alpha), 4), WithinAbs(0.7143, 0.00005));
  CHECK_THAT(alpha * 180 / pi, WithinAbs(42.593, 0.0005));
  const double flange = W * length / d + W / (2 * std::tan(alpha));
  CHECK_THAT(flange, WithinAbs(17719, 1));
  CHECK_THAT(flange / A_F, WithinAbs(50.7, 0.1));
  const double M = W * b * b * std::tan(alpha) / (12 * d);
  CHECK_THAT(M, WithinAbs(86187, 1));
  CHECK_THAT(M / 750, WithinAbs(114.9, 0.05));
  CHECK_THAT(flange / A_F + M / 750, WithinAbs(165.6, 0.1));
  CHECK_THAT(W * b / d * std::tan(alpha), WithinAbs(3447, 1));
  CHECK_THAT(d / std::sqrt(4 - 2 * b / d), WithinAbs(252.98, 0.005));
  const SheetStress web = tension_field_stress(W / (t * d), 1, alpha);
  CHECK_THAT(web.tension, WithinAbs(12.54, 0.0051));  // 2 W/(t d sin 2 alpha)
  CHECK_THAT(web.compression, WithinAbs(0, 1e-12));
}

TEST_CASE(
    "stiff flanges steepen the folds, stiff uprights flatten them, both alike give 45 degrees") {
  const double t = 2, d = 400, b = 300;
  CHECK_THAT(tension_field_angle(t, d, b, 1e12, 1e12), WithinAbs(pi / 4, 1e-9));
  CHECK_THAT(tension_field_angle(t, d, b, t * d / 2, t * b), WithinAbs(pi / 4, 1e-12));
  const double before = tension_field_angle(t, d, b, 350, 300);
  CHECK(tension_field_angle(t, d, b, 700, 300) < before);
  CHECK(tension_field_angle(t, d, b, 350, 600) > before);
}

TEST_CASE("principal stresses of a partly buckled sheet") {
  // Derived with Megson's eq. 6.113: q = 6 N/mm on 600 x 700 x 1.2, tau 5.0, tau_cr 2.14, folds at
  // 42 degrees: k 0.182, 5.90 and -4.07 MPa.
  const double tau = 6.0 / 1.2;
  const double critical = critical_shear_stress(E, nu, 1.2, 600, 700, SheetEdge::simply_supported);
  const double k = diagonal_tension_share(tau, critical);
  CHECK_THAT(k, WithinAbs(0.182, 0.00051));
  const SheetStress s = tension_field_stress(tau, k, 42 * pi / 180);
  CHECK_THAT(s.tension, WithinAbs(5.90, 0.0051));
  CHECK_THAT(s.compression, WithinAbs(-4.07, 0.0051));
}

TEST_CASE(
    "at 45 degrees the principal stresses carry exactly the applied shear, whatever the share") {
  // Half the difference of the principal stresses is the shear on lines at 45 degrees to them.
  for (const double k : {0.0, 0.2, 0.7, 1.0}) {
    const SheetStress s = tension_field_stress(5, k, pi / 4);
    CHECK_THAT((s.tension - s.compression) / 2, WithinRel(5, 1e-12));
    CHECK_THAT((s.tension + s.compression) / 2, WithinAbs(5 * k, 1e-12));  // pull on every edge
  }
}

TEST_CASE("stiffness and peak stress of bond lines from epoxy to elastic polyurethane") {
  struct Row {
    double G, thickness, stiffness, peak, stiffness_step, peak_step;
  };
  // Derived (shear lag across the width, checked by finite differences); adhesives of several
  // classes 20 mm wide on a 1.2 mm sheet; peaks at a flow of 10 N/mm. Steps: half the last place.
  for (const Row& row :
       {Row{1000, 0.3, 10260, 3.25, 0.6, 0.0051}, Row{500, 0.3, 7253, 2.30, 0.6, 0.0051},
        Row{400, 0.8, 3922, 1.27, 0.6, 0.0051}, Row{150, 1.5, 1439, 0.70, 0.6, 0.0051},
        Row{50, 2.0, 453, 0.55, 0.6, 0.0051}, Row{1, 2.0, 10.0, 0.50, 0.051, 0.0051},
        Row{1, 3.0, 6.7, 0.50, 0.051, 0.0051}}) {
    INFO("G " << row.G << ", " << row.thickness << " mm thick");
    const BondLine bond{row.G, row.thickness, 20};
    CHECK_THAT(bond_stiffness(bond, G * 1.2), WithinAbs(row.stiffness, row.stiffness_step));
    CHECK_THAT(10 * bond_peak_per_flow(bond, G * 1.2), WithinAbs(row.peak, row.peak_step));
  }
  const BondLine epoxy{1000, 0.3, 20};
  CHECK_THAT(bond_stiffness(epoxy, 26316 * 1.2), WithinAbs(10259.8, 0.051));
  CHECK_THAT(bond_peak_per_flow(epoxy, G * 1.2), WithinAbs(0.32489, 0.0000051));
}

TEST_CASE("a chain of thin strips across the bond gives its stiffness and its peak") {
  // Sheet strips in shear in series, adhesive strips to the rigid wall in parallel, summed from the
  // free edge inward: the difference to the closed form falls with the square of the strips' width.
  const double Gt = G * 1.2;
  for (const BondLine& bond :
       {BondLine{1000, 0.3, 20}, BondLine{150, 1.5, 12}, BondLine{1, 3, 25}}) {
    const int strips = 20000;
    const double h = bond.width / strips, adhesive = bond.G / bond.thickness * h;
    double K = adhesive / 2;
    for (int i = 1; i <= strips; ++i) {
      K = (i < strips ? adhesive : adhesive / 2) + 1 / (h / Gt + 1 / K);
    }
    CHECK_THAT(bond_stiffness(bond, Gt), WithinRel(K, 1e-6));
    CHECK_THAT(bond_peak_per_flow(bond, Gt), WithinRel(bond.G / bond.thickness / K, 1e-6));
  }
}

TEST_CASE("a narrow bond is sheared evenly, a wide one no further than the lag reaches") {
  const double Gt = G * 1.2;
  const BondLine narrow{1, 3, 5}, wide{1000, 0.3, 200}, wider{1000, 0.3, 400};
  // tanh(x)/x and x/tanh(x) differ from 1 by x^2/3, here (5/308)^2/3 = 9e-5.
  CHECK_THAT(bond_stiffness(narrow, Gt), WithinRel(1.0 * 5 / 3, 1e-4));
  CHECK_THAT(bond_peak_per_flow(narrow, Gt), WithinRel(1.0 / 5, 1e-4));
  CHECK_THAT(bond_stiffness(wide, Gt), WithinRel(bond_stiffness(wider, Gt), 1e-12));
  CHECK_THAT(bond_stiffness(wide, Gt), WithinRel(std::sqrt(1000 / 0.3 * Gt), 1e-12));
  for (const BondLine& bond : {narrow, wide, BondLine{400, 0.8, 20}}) {
    CHECK(bond_stiffness(bond, Gt) < bond.G * bond.width / bond.thickness);
    CHECK(bond_peak_per_flow(bond, Gt) > 1 / bond.width);  // a peak is above the mean
  }
}

TEST_CASE("solid rivets between aluminium sheet and steel tube") {
  struct Row {
    double sheet, tube, diameter, rivet_E, stiffness, step;
  };
  // Huth's formula (ASTM STP 927, 1986; the bracket from memory), worked by hand, N/mm.
  for (const Row& row :
       {Row{1.2, 1.6, 4.8, 70000, 29400, 51}, Row{1.2, 1.6, 4.8, 210000, 40500, 51},
        Row{0.9, 1.6, 3.2, 70000, 21200, 51}, Row{1.2, 1.6, 4.0, 70000, 27300, 51},
        Row{1.6, 1.6, 4.8, 70000, 33900, 51}}) {
    INFO(row.sheet << "/" << row.tube << " d " << row.diameter << " E " << row.rivet_E);
    const Plate sheet{row.sheet, 70000}, tube{row.tube, 210000};
    const double C = solid_rivet_flexibility(row.diameter, row.rivet_E, sheet, tube);
    CHECK_THAT(1 / C, WithinAbs(row.stiffness, row.step));
    CHECK_THAT(solid_rivet_flexibility(row.diameter, row.rivet_E, tube, sheet),
               WithinRel(C, 1e-14));
  }
  const double C = solid_rivet_flexibility(4.8, 70000, {1.2, 70000}, {1.6, 210000});
  CHECK_THAT(C, WithinAbs(3.400e-5, 0.5e-8));
}

TEST_CASE("buckling and joints come out the same in metres and in millimetres") {
  CHECK_THAT(
      critical_shear_stress(E * 1e6, nu, 1.2e-3, 0.6, 0.7, SheetEdge::clamped),
      WithinRel(1e6 * critical_shear_stress(E, nu, 1.2, 600, 700, SheetEdge::clamped), 1e-12));
  const BondLine mm{400, 0.8, 20}, m{400e6, 0.8e-3, 0.020};
  CHECK_THAT(bond_stiffness(m, G * 1.2 * 1e3), WithinRel(1e6 * bond_stiffness(mm, G * 1.2), 1e-12));
  CHECK_THAT(bond_peak_per_flow(m, G * 1.2 * 1e3),
             WithinRel(1e3 * bond_peak_per_flow(mm, G * 1.2), 1e-12));
  CHECK_THAT(solid_rivet_flexibility(4.8e-3, 70e9, {1.2e-3, 70e9}, {1.6e-3, 210e9}),
             WithinRel(1e-3 * solid_rivet_flexibility(4.8, 7e4, {1.2, 7e4}, {1.6, 2.1e5}), 1e-12));
}

}  // namespace tubewright::sheet_buckling_test
