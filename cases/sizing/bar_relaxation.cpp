#include "cases/sizing/bar_relaxation.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "solver/linear_algebra/linear_program.h"

namespace tubewright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// What a variable makes of something: a constant and a coefficient for each column.
struct Linear {
  double constant = 0;
  VectorXd of;
};

/// The programme of one box. Columns: a of each group that is open, then r of each of their bars in
/// each case, over the greater of its allowed elongations.
class BarProgram {
 public:
  /// `known`: elongations beyond what the checks allow, a case, a bar.
  BarProgram(const BarStructure& s, const std::vector<std::vector<Elongation>>& known,
             const ChoiceBox& box, double fixed_mass);

  /// False: the bars of the smallest sizes do not hold themselves, nothing is known.
  bool sound() const { return sound_; }
  void add_cut(const SeparableCut& cut);
  void solve();

  /// Least value of something else, for designs up to the cutoff; -infinity: not known, infinity:
  /// there are none.
  double least(const Linear& of, double cutoff) const;
  const Linear& elongation(size_t c, size_t bar) const { return elongation_[c][bar]; }
  /// The area of an open group.
  std::optional<Linear> area_of(size_t g) const;

  bool infeasible() const { return answer_.state == LinearAnswer::State::infeasible; }
  double bound() const { return least_mass_ + answer_.bound; }
  double area(size_t g) const;
  /// Leaves out sizes that cost more than `spare` above the bound; true if any.
  bool tighten(double spare, ChoiceBox& box) const;
  void choose_branch(BoxAnswer& answer) const;

 private:
  double lo(size_t g) const { return s_.areas[g][static_cast<size_t>(box_.first[g])]; }
  double hi(size_t g) const { return s_.areas[g][static_cast<size_t>(box_.last[g])]; }
  Elongation allowed(size_t c, size_t bar) const;
  void add_row(const VectorXd& row, double least);
  void put_rows();
  void set_up_columns();
  void set_up_case(size_t c);
  void add_bar_rows(size_t c, size_t bar, const Linear& e);
  double value(const Linear& e) const { return e.constant + e.of.dot(answer_.x); }

  const BarStructure& s_;
  const std::vector<std::vector<Elongation>>& known_;
  const ChoiceBox box_;
  bool sound_ = true;
  Eigen::LLT<MatrixXd> K_;
  std::vector<Index> column_of_group_;             ///< -1: one size
  std::vector<std::vector<Index>> column_of_bar_;  ///< a case, a bar; -1: fixed
  std::vector<std::vector<double>> scale_;         ///< of r, a case, a bar
  std::vector<std::vector<Linear>> elongation_;    ///< a case, a bar
  Index columns_ = 0;
  std::vector<VectorXd> rows_;
  std::vector<double> least_;
  double least_mass_ = 0;
  LinearProgram program_;
  LinearAnswer answer_;
  struct BarRows {
    size_t load_case, bar;
    size_t first;  ///< of four
  };
  std::vector<BarRows> bar_rows_;
  struct CutRow {
    const SeparableCut* cut;
    size_t row;
  };
  std::vector<CutRow> cut_rows_;
};

Elongation BarProgram::allowed(size_t c, size_t bar) const {
  const auto g = static_cast<size_t>(s_.bars[bar].group);
  const std::vector<Elongation>& list = s_.cases[c].allowed[bar];
  Elongation e = list[static_cast<size_t>(box_.first[g])];
  for (int j = box_.first[g] + 1; j <= box_.last[g]; ++j) {
    e.least = std::min(e.least, list[static_cast<size_t>(j)].least);
    e.most = std::max(e.most, list[static_cast<size_t>(j)].most);
  }
  e.least = std::max(e.least, known_[c][bar].least);
  e.most = std::min(e.most, known_[c][bar].most);
  return e;
}

BarProgram::BarProgram(const BarStructure& s, const std::vector<std::vector<Elongation>>& known,
                       const ChoiceBox& box, double fixed_mass)
    : s_(s), known_(known), box_(box), least_mass_(fixed_mass) {
  MatrixXd K = s.K0;
  for (const SizedBar& bar : s.bars) {
    K.noalias() += (bar.kappa * lo(static_cast<size_t>(bar.group)) * bar.b) * bar.b.transpose();
  }
  K_.compute(K);
  sound_ = K_.info() == Eigen::Success;
  for (size_t g = 0; g < s.areas.size(); ++g) least_mass_ += s.mass_per_area[g] * lo(g);
  if (!sound_) return;
  set_up_columns();
  for (size_t c = 0; c < s.cases.size(); ++c) set_up_case(c);
}

void BarProgram::set_up_columns() {
  for (size_t g = 0; g < s_.areas.size(); ++g) {
    column_of_group_.push_back(box_.first[g] < box_.last[g] ? columns_++ : -1);
  }
  for (size_t c = 0; c < s_.cases.size(); ++c) {
    std::vector<Index> columns;
    std::vector<double> scale;
    for (size_t b = 0; b < s_.bars.size(); ++b) {
      const Elongation e = allowed(c, b);
      const double greatest = std::max(std::abs(e.least), std::abs(e.most));
      const bool open = column_of_group_[static_cast<size_t>(s_.bars[b].group)] >= 0;
      sound_ = sound_ && (!open || std::isfinite(greatest));
      columns.push_back(open ? columns_++ : -1);
      scale.push_back(greatest);
    }
    column_of_bar_.push_back(std::move(columns));
    scale_.push_back(std::move(scale));
  }
  program_.cost = VectorXd::Zero(columns_);
  program_.lo = VectorXd::Zero(columns_);
  program_.up = VectorXd::Ones(columns_);
  for (size_t g = 0; g < s_.areas.size(); ++g) {
    if (column_of_group_[g] < 0) continue;
    program_.cost[column_of_group_[g]] = s_.mass_per_area[g] * (hi(g) - lo(g));
  }
}

void BarProgram::add_row(const VectorXd& row, double least) {
  rows_.push_back(row);
  least_.push_back(least);
}

/// Elongations and limits of a case as functions of the columns.
void BarProgram::set_up_case(size_t c) {
  if (!sound_) return;
  const BarCase& bar_case = s_.cases[c];
  const Index n = s_.K0.rows();
  const auto bars = static_cast<Index>(s_.bars.size());
  MatrixXd B(n, bars);
  for (Index b = 0; b < bars; ++b) B.col(b) = s_.bars[static_cast<size_t>(b)].b;
  MatrixXd influence = MatrixXd::Zero(n, columns_);  // of the columns on the loads
  VectorXd f = bar_case.f0;
  for (size_t g = 0; g < bar_case.f.size(); ++g) {
    f += lo(g) * bar_case.f[g];
    if (column_of_group_[g] < 0) continue;
    influence.col(column_of_group_[g]) += (hi(g) - lo(g)) * bar_case.f[g];
  }
  for (size_t b = 0; b < s_.bars.size(); ++b) {
    const Index column = column_of_bar_[c][b];
    if (column < 0) continue;
    const auto g = static_cast<size_t>(s_.bars[b].group);
    influence.col(column) -= s_.bars[b].kappa * (hi(g) - lo(g)) * scale_[c][b] * s_.bars[b].b;
    const Elongation e = allowed(c, b);
    program_.lo[column] = std::min(0.0, e.least) / scale_[c][b];
    program_.up[column] = std::max(0.0, e.most) / scale_[c][b];
  }
  const VectorXd u0 = K_.solve(f);
  const MatrixXd KB = K_.solve(B);
  const VectorXd e0 = B.transpose() * u0;
  const MatrixXd E = KB.transpose() * influence;
  std::vector<Linear> elongations;
  for (size_t b = 0; b < s_.bars.size(); ++b) {
    const auto row = static_cast<Index>(b);
    elongations.push_back({e0[row], E.row(row)});
    add_bar_rows(c, b, elongations.back());
  }
  elongation_.push_back(std::move(elongations));
  for (const BarLimit& limit : s_.limits) {
    if (limit.load_case != static_cast<int>(c)) continue;
    const VectorXd Kq = K_.solve(limit.q);
    add_row(-(influence.transpose() * Kq) / limit.most, limit.q.dot(u0) / limit.most - 1);
  }
}

/// The four planes of r = a e, or the limits of e where the size is fixed. All over the scale.
void BarProgram::add_bar_rows(size_t c, size_t bar, const Linear& e) {
  const Elongation limits = allowed(c, bar);
  const Index r = column_of_bar_[c][bar];
  if (r < 0) {
    const double size = scale_[c][bar];
    if (!std::isfinite(size)) return;
    add_row(e.of / size, (limits.least - e.constant) / size);
    add_row(-e.of / size, (e.constant - limits.most) / size);
    return;
  }
  const Index a = column_of_group_[static_cast<size_t>(s_.bars[bar].group)];
  const double scale = scale_[c][bar];
  const double least = limits.least / scale, most = limits.most / scale;
  const VectorXd of = e.of / scale;
  const double constant = e.constant / scale;
  bar_rows_.push_back({c, bar, rows_.size()});
  VectorXd row = VectorXd::Zero(columns_);
  row[r] = 1;
  row[a] = -least;
  add_row(row, 0);  // a (e - least) >= 0
  row[r] = -1;
  row[a] = most;
  add_row(row, 0);  // a (most - e) >= 0
  row = -of;
  row[r] += 1;
  row[a] -= most;
  add_row(row, constant - most);  // (1 - a)(most - e) >= 0
  row = of;
  row[r] -= 1;
  row[a] += least;
  add_row(row, least - constant);  // (1 - a)(e - least) >= 0
}

/// Weights that are convex in A lie below their chord over the box.
void BarProgram::add_cut(const SeparableCut& cut) {
  VectorXd row = VectorXd::Zero(columns_);
  double least = cut.least;
  for (size_t g = 0; g < s_.areas.size(); ++g) {
    const double first = cut.weights[g][static_cast<size_t>(box_.first[g])];
    least -= first;
    if (column_of_group_[g] < 0) continue;
    row[column_of_group_[g]] = cut.weights[g][static_cast<size_t>(box_.last[g])] - first;
  }
  const double size = std::max(row.cwiseAbs().maxCoeff(), std::abs(cut.least));
  cut_rows_.push_back({&cut, rows_.size()});
  add_row(row / size, least / size);
}

void BarProgram::put_rows() {
  program_.rows.resize(static_cast<Index>(rows_.size()), columns_);
  program_.least.resize(static_cast<Index>(rows_.size()));
  for (size_t i = 0; i < rows_.size(); ++i) {
    program_.rows.row(static_cast<Index>(i)) = rows_[i];
    program_.least[static_cast<Index>(i)] = least_[i];
  }
}

void BarProgram::solve() {
  put_rows();
  answer_ = tubewright::solve(program_);
}

double BarProgram::least(const Linear& of, double cutoff) const {
  LinearProgram other = program_;
  const Index rows = other.rows.rows();
  other.rows.conservativeResize(rows + 1, Eigen::NoChange);
  other.least.conservativeResize(rows + 1);
  other.rows.row(rows) = -program_.cost;
  other.least[rows] = least_mass_ - cutoff;
  other.cost = of.of;
  const LinearAnswer found = tubewright::solve(other);
  if (found.state == LinearAnswer::State::infeasible) {
    return std::numeric_limits<double>::infinity();
  }
  return of.constant + found.bound;
}

std::optional<Linear> BarProgram::area_of(size_t g) const {
  if (column_of_group_[g] < 0) return std::nullopt;
  Linear area{lo(g), VectorXd::Zero(columns_)};
  area.of[column_of_group_[g]] = hi(g) - lo(g);
  return area;
}

double BarProgram::area(size_t g) const {
  const Index column = column_of_group_[g];
  return column < 0 ? lo(g) : lo(g) + answer_.x[column] * (hi(g) - lo(g));
}

bool BarProgram::tighten(double spare, ChoiceBox& box) const {
  bool any = false;
  for (size_t g = 0; g < s_.areas.size(); ++g) {
    if (column_of_group_[g] < 0) continue;
    const double cost = answer_.reduced_cost[column_of_group_[g]];
    const double width = hi(g) - lo(g);
    if (cost > 0) {
      const double most = lo(g) + spare / cost * width * (1 + 1e-9);
      while (box.last[g] > box.first[g] && s_.areas[g][static_cast<size_t>(box.last[g])] > most) {
        --box.last[g];
        any = true;
      }
    } else if (cost < 0) {
      const double least = hi(g) - spare / -cost * width * (1 + 1e-9);
      while (box.first[g] < box.last[g] && s_.areas[g][static_cast<size_t>(box.first[g])] < least) {
        ++box.first[g];
        any = true;
      }
    }
  }
  return any;
}

/// The group whose products are farthest from the truth: by the multipliers of their rows where
/// cuts hold the bound, whose chords are judged likewise, else by the work of what they are off.
/// (Judgement: the former takes a third of the boxes on trusses that displacements govern, the
/// latter on those that stresses do.) Split at its area.
void BarProgram::choose_branch(BoxAnswer& answer) const {
  std::vector<double> by_rows(s_.areas.size(), 0.0), by_work = by_rows, by_chords = by_rows;
  for (const BarRows& rows : bar_rows_) {
    const SizedBar& bar = s_.bars[rows.bar];
    const auto g = static_cast<size_t>(bar.group);
    const double a = answer_.x[column_of_group_[g]];
    const double r = answer_.x[column_of_bar_[rows.load_case][rows.bar]];
    const double scale = scale_[rows.load_case][rows.bar];
    const double off = std::abs(r - a * value(elongation_[rows.load_case][rows.bar]) / scale);
    by_rows[g] += off * answer_.multipliers.segment<4>(static_cast<Index>(rows.first)).sum();
    by_work[g] += off * bar.kappa * (hi(g) - lo(g)) * scale * scale;
  }
  for (const CutRow& cut : cut_rows_) {
    const double multiplier = answer_.multipliers[static_cast<Index>(cut.row)];
    if (!(multiplier > 0)) continue;
    for (size_t g = 0; g < s_.areas.size(); ++g) {
      if (column_of_group_[g] < 0) continue;
      // h/A below its chord, as a share of the greater end.
      const double a = answer_.x[column_of_group_[g]], A = area(g);
      const double chord = (1 - a) / lo(g) + a / hi(g) - 1 / A;
      const double size =
          std::max(std::abs(cut.cut->weights[g][static_cast<size_t>(box_.first[g])]),
                   std::abs(cut.cut->weights[g][static_cast<size_t>(box_.last[g])]));
      by_chords[g] +=
          multiplier * chord * std::min(lo(g), A) * size / std::max(size, std::abs(cut.cut->least));
    }
  }
  const auto sum = [](const std::vector<double>& list) {
    return std::accumulate(list.begin(), list.end(), 0.0);
  };
  const bool cuts_hold = sum(by_chords) >= sum(by_rows);
  double best = 0;
  for (size_t g = 0; g < by_rows.size(); ++g) {
    const double score = cuts_hold ? by_rows[g] + by_chords[g] : by_work[g];
    if (answer.box.first[g] == answer.box.last[g] || !(score > best)) continue;
    best = score;
    answer.branch = static_cast<int>(g);
  }
  if (answer.branch < 0) return;
  const auto g = static_cast<size_t>(answer.branch);
  int last = answer.box.first[g];
  while (last + 1 < answer.box.last[g] && s_.areas[g][static_cast<size_t>(last) + 1] <= area(g)) {
    ++last;
  }
  answer.split = last;
}

Shares shares_at(const BarStructure& s, const BarProgram& program) {
  Shares shares;
  for (size_t g = 0; g < s.areas.size(); ++g) {
    // The two sizes next to the area; for a bar their blend of stiffnesses is the bar of that area.
    const std::vector<double>& areas = s.areas[g];
    std::vector<double> list(areas.size(), 0.0);
    const double A = program.area(g);
    size_t j = 0;
    while (j + 2 < areas.size() && areas[j + 1] <= A) ++j;
    if (areas.size() == 1) {
      list[0] = 1;
    } else {
      const double up = std::clamp((A - areas[j]) / (areas[j + 1] - areas[j]), 0.0, 1.0);
      list[j] = 1 - up;
      list[j + 1] = up;
    }
    shares.push_back(std::move(list));
  }
  return shares;
}

/// Each group in the first size that is not below its area.
Choice next_above(const BarStructure& s, const BarProgram& program, const ChoiceBox& box) {
  Choice choice;
  for (size_t g = 0; g < s.areas.size(); ++g) {
    int j = box.first[g];
    while (j < box.last[g] && s.areas[g][static_cast<size_t>(j)] < program.area(g) * (1 - 1e-9)) {
      ++j;
    }
    choice.push_back(j);
  }
  return choice;
}

constexpr int most_bar_rounds = 6;      // in one box
constexpr size_t newest_bar_cuts = 60;  // that a programme takes
constexpr double worth_a_round = 1e-4;
constexpr double surely = 1e-6;  // over a limit: more than rounding

}  // namespace

GreatestUse greatest_use(const BarStructure& s, const Choice& choice) {
  MatrixXd K = s.K0;
  for (const SizedBar& bar : s.bars) {
    const auto g = static_cast<size_t>(bar.group);
    const double A = s.areas[g][static_cast<size_t>(choice[g])];
    K.noalias() += (bar.kappa * A * bar.b) * bar.b.transpose();
  }
  const Eigen::LLT<MatrixXd> factor(K);
  GreatestUse greatest;
  if (factor.info() != Eigen::Success) {
    greatest.use = std::numeric_limits<double>::infinity();
    return greatest;
  }
  const auto consider = [&](double use, int bar) {
    if (use > greatest.use) greatest = {use, bar};
  };
  for (size_t c = 0; c < s.cases.size(); ++c) {
    VectorXd f = s.cases[c].f0;
    for (size_t g = 0; g < s.cases[c].f.size(); ++g) {
      f += s.areas[g][static_cast<size_t>(choice[g])] * s.cases[c].f[g];
    }
    const VectorXd u = factor.solve(f);
    for (size_t b = 0; b < s.bars.size(); ++b) {
      const auto j = static_cast<size_t>(choice[static_cast<size_t>(s.bars[b].group)]);
      const Elongation& limits = s.cases[c].allowed[b][j];
      const double e = s.bars[b].b.dot(u);
      consider(std::max(e / limits.most, e / limits.least), static_cast<int>(b));
    }
    for (const BarLimit& limit : s.limits) {
      if (limit.load_case == static_cast<int>(c)) consider(limit.q.dot(u) / limit.most, -1);
    }
  }
  return greatest;
}

namespace {

/// A choice that passes by greatest_use(), from one that may not: the group of the worst bar a size
/// up (for a limit all groups) until it does, then each group as far down as it still does. Empty:
/// none was found.
Choice repaired(const BarStructure& s, Choice choice) {
  const auto last = [&](size_t g) { return static_cast<int>(s.areas[g].size()) - 1; };
  const auto fails = [&](const Choice& c) { return greatest_use(s, c).use > 1; };
  constexpr int most_steps = 60;
  int step = 0;
  for (; step < most_steps; ++step) {
    const GreatestUse worst = greatest_use(s, choice);
    if (!(worst.use > 1)) break;
    bool moved = false;
    for (size_t g = 0; g < choice.size(); ++g) {
      const bool meant =
          worst.bar < 0 || s.bars[static_cast<size_t>(worst.bar)].group == static_cast<int>(g);
      if (!meant || choice[g] == last(g)) continue;
      ++choice[g];
      moved = true;
    }
    if (!moved) return {};
  }
  if (step == most_steps) return {};
  for (size_t g = 0; g < choice.size(); ++g) {
    Choice lower = choice;
    while (lower[g] > 0) {
      --lower[g];
      if (fails(lower)) break;
      choice = lower;
    }
  }
  return choice;
}

}  // namespace

double BarRelaxation::mass_of(const Choice& choice) const {
  double mass = fixed_mass_;
  for (size_t g = 0; g < choice.size(); ++g) {
    mass += s_.mass_per_area[g] * s_.areas[g][static_cast<size_t>(choice[g])];
  }
  return mass;
}

bool BarRelaxation::surely_fails(const Choice& choice) const {
  return greatest_use(s_, choice).use > 1 + surely;
}

BarRelaxation::BarRelaxation(BarStructure structure, double fixed_mass, CutSource source)
    : s_(std::move(structure)), fixed_mass_(fixed_mass), source_(std::move(source)) {
  constexpr double any = std::numeric_limits<double>::infinity();
  known_.assign(s_.cases.size(), std::vector<Elongation>(s_.bars.size(), {-any, any}));
}

ChoiceBox BarRelaxation::narrow(const ChoiceBox& box, double cutoff) {
  ChoiceBox left = box;
  if (!std::isfinite(cutoff)) return left;
  constexpr int passes = 3;
  constexpr double slack = 1e-7;        // of what rounding may take
  constexpr size_t most_narrowed = 64;  // elongations: two programmes each, which grow with them
  for (int pass = 0; pass < passes; ++pass) {
    BarProgram program(s_, known_, left, fixed_mass_);
    if (!program.sound()) return left;
    program.solve();
    for (size_t g = 0; g < s_.areas.size(); ++g) {
      const auto area = program.area_of(g);
      if (!area) continue;
      const double least = program.least(*area, cutoff);
      const double most = -program.least({-area->constant, -area->of}, cutoff);
      if (!(least <= most)) return left;
      const std::vector<double>& areas = s_.areas[g];
      while (left.first[g] < left.last[g] &&
             areas[static_cast<size_t>(left.first[g])] < least * (1 - slack)) {
        ++left.first[g];
      }
      while (left.last[g] > left.first[g] &&
             areas[static_cast<size_t>(left.last[g])] > most * (1 + slack)) {
        --left.last[g];
      }
    }
    if (s_.cases.size() * s_.bars.size() > most_narrowed) continue;
    for (size_t c = 0; c < s_.cases.size(); ++c) {
      for (size_t b = 0; b < s_.bars.size(); ++b) {
        const Linear& e = program.elongation(c, b);
        const double least = program.least(e, cutoff);
        const double most = -program.least({-e.constant, -e.of}, cutoff);
        if (!(least <= most)) return left;
        const double margin = slack * std::max(std::abs(least), std::abs(most));
        known_[c][b].least = std::max(known_[c][b].least, least - margin);
        known_[c][b].most = std::min(known_[c][b].most, most + margin);
      }
    }
  }
  return left;
}

BoxAnswer BarRelaxation::bound(const ChoiceBox& box, double cutoff) const {
  BoxAnswer answer;
  answer.box = box;
  double before = -INFINITY;
  for (int round = 0; round < most_bar_rounds; ++round) {
    if (answer.box.single()) {
      answer.empty = surely_fails(answer.box.first);
      return answer;
    }
    BarProgram program(s_, known_, answer.box, fixed_mass_);
    if (!program.sound()) return answer;
    size_t used = 0;
    for (const std::vector<SeparableCut>* list : {&std::as_const(answer.cuts), &cuts_}) {
      for (auto cut = list->rbegin(); cut != list->rend() && used < newest_bar_cuts;
           ++cut, ++used) {
        program.add_cut(*cut);
      }
    }
    program.solve();
    if (program.infeasible()) {
      answer.empty = true;
      return answer;
    }
    answer.bound = std::max(answer.bound, program.bound());
    if (answer.bound > cutoff) return answer;
    const bool smaller = program.tighten(cutoff - program.bound(), answer.box);
    const Shares shares = shares_at(s_, program);
    std::vector<SeparableCut> more = source_(shares);
    const bool gained = round == 0 || answer.bound > before + worth_a_round * std::abs(before);
    if ((more.empty() && !smaller) || !gained || round + 1 == most_bar_rounds) {
      program.choose_branch(answer);
      answer.proposal = next_above(s_, program, answer.box);
      answer.proposal =
          mass_of(answer.proposal) <= cutoff ? repaired(s_, answer.proposal) : Choice{};
      return answer;
    }
    before = answer.bound;
    for (SeparableCut& cut : more) answer.cuts.push_back(std::move(cut));
  }
  return answer;
}

}  // namespace tubewright
