// What is asked of the frame beyond its load cases: torsion, limits, stock, bench test.
#include <unordered_map>

#include "io/frame_file/frame_parts.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {

void read_torsion(const CheckedValue& top, Frame& frame) {
  const CheckedValue& v = top["torsion"];
  if (!v.sound) return;
  const std::vector<std::string> front = texts(v["front"]);
  const std::vector<std::string> rear = texts(v["rear"]);
  frame.torsion =
      TorsionTest{{front[0], front[1]}, {rear[0], rear[1]}, v["couple"].number, v.place};
}

void read_limits(const CheckedValue& top, Frame& frame) {
  const CheckedValue& v = top["limits"];
  if (!v.sound) return;
  frame.limits.yield_factor = v["yield_factor"].number;
  frame.limits.torsional_stiffness = number_if_given(v["torsional_stiffness"]);
  frame.limits.mass = number_if_given(v["mass"]);
  frame.limits.deflection = number_if_given(v["deflection"]);
  frame.limits.frequency = number_if_given(v["frequency"]);
  for (const NamedValue& load_case : v["displacement"].entries) {
    for (const NamedValue& node : load_case.value.entries) {
      const CheckedValue& most = node.value;
      frame.limits.displacements.push_back(
          {load_case.name,
           node.name,
           {number_if_given(most["x"]), number_if_given(most["y"]), number_if_given(most["z"])},
           node.place});
    }
  }
}

void read_life(const CheckedValue& top, Frame& frame) {
  const CheckedValue& v = top["life"];
  if (v.group == nullptr) return;
  Life life;
  life.place = v.place;
  life.category = v["category"].number;
  life.damage_tolerant = v["design"].text == "damage_tolerant";
  life.high_consequence = v["consequence"].text != "low";
  for (const CheckedValue& block : v["spectrum"].items) {
    if (block.group == nullptr) continue;  // not a map, which is told
    life.spectrum.push_back({block["case"].text, block["from"].text, block["vertical"].number,
                             block["cycles"].number, block.place});
  }
  frame.life = std::move(life);
}

void read_stock(const CheckedValue& top, Frame& frame) {
  const CheckedValue& v = top["stock"];
  if (!v.sound) return;
  Stock stock;
  stock.length = v["length"].number;
  stock.kerf = v["kerf"].number;
  stock.end_trim = v["end_trim"].number;
  for (const CheckedValue& size : v["sizes"].items) {
    const ShapeSizes s = shape_sizes(size);
    stock.sizes.push_back({s.shape, s.height, s.width, s.wall, number_if_given(size["price"]),
                           s.shape == Shape::properties ? given_properties(size) : Section{}});
  }
  for (const CheckedValue& die : v["dies"].items) stock.dies.push_back(die.number);
  frame.stock = std::move(stock);
}

void read_groups(const CheckedValue& top, Frame& frame) {
  for (const NamedValue& entry : top["groups"].entries) {
    frame.groups.push_back({entry.name, texts(entry.value), entry.place});
  }
  const CheckedValue& keep = top["keep"];
  if (keep.given) frame.keep = {texts(keep), keep.place};
}

void read_bench_test(const CheckedValue& top, const FileAxes& axes, Frame& frame,
                     Diagnostics& diagnostics) {
  const CheckedValue& v = top["bench_test"];
  if (v.group == nullptr) return;
  BenchTest test;
  for (const NamedValue& entry : v["weights"].entries) {
    test.weights.emplace_back(entry.name, entry.value.number);
  }
  std::unordered_map<std::string, std::size_t> gauge_at;
  for (const NamedValue& entry : v["gauges"].entries) {
    gauge_at.emplace(entry.name, test.gauges.size());
    test.gauges.push_back({entry.name, entry.value.index < 0 ? 2 : entry.value.index, {}});
  }
  for (const NamedValue& entry : v["readings"].entries) {
    const auto gauge = gauge_at.find(entry.name);
    if (gauge == gauge_at.end()) {
      diagnostics.push_back(error_at(entry.place, reading_without_gauge(entry.name)));
      continue;
    }
    GaugeReading& g = test.gauges[gauge->second];
    g.reading = axes.component(g.direction, entry.value.number);
  }
  if (v.sound) frame.bench_test = std::move(test);
}

}  // namespace tubewright
