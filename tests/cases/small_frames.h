// Frames in a few lines, for tests.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "tests/catch.h"

namespace tubewright::testing {

inline void add_node(Frame& f, const std::string& name, double x, double y, double z) {
  f.nodes.push_back({name, {x, y, z}, {static_cast<int>(f.nodes.size()) + 101, 3}});
}

inline Member& add_member(Frame& f, const std::string& name, const std::string& from,
                          const std::string& to) {
  Member m;
  m.name = name;
  m.from = from;
  m.to = to;
  m.section = "tube";
  m.place = {static_cast<int>(f.members.size()) + 201, 3};
  f.members.push_back(m);
  return f.members.back();
}

/// A frame with the section `tube`, 25 x 25 x 2 in S235, rigid joints as in a textbook, and nothing
/// else.
inline Frame empty_frame() {
  Frame f;
  f.title = "test";
  f.joint_flexibility = rigid_joints;
  SectionEntry tube;
  tube.name = "tube";
  tube.height = tube.width = 0.025;
  tube.wall = 0.002;
  tube.material = "S235";
  tube.place = {11, 3};
  f.sections.push_back(tube);
  return f;
}

/// A rectangle A B C D, 600 by 400 mm in the plane z = 0, without a diagonal.
inline Frame rectangle() {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.6, 0, 0);
  add_node(f, "C", 0.6, 0.4, 0);
  add_node(f, "D", 0, 0.4, 0);
  add_member(f, "AB", "A", "B");
  add_member(f, "BC", "B", "C");
  add_member(f, "CD", "C", "D");
  add_member(f, "DA", "D", "A");
  return f;
}

inline Frame braced_rectangle() {
  Frame f = rectangle();
  add_member(f, "AC", "A", "C");
  return f;
}

inline Case& add_case(Frame& f, const std::string& name, CaseKind kind = CaseKind::fixed_supports) {
  Case c;
  c.name = name;
  c.kind = kind;
  c.place = {static_cast<int>(f.cases.size()) + 301, 3};
  f.cases.push_back(c);
  return f.cases.back();
}

/// All messages and advice, one a line: for a failed check to show, and to look for words in.
inline std::string text_of(const Diagnostics& diagnostics) {
  std::string text;
  for (const Diagnostic& p : diagnostics) text += p.message + " | " + p.advice + '\n';
  return text;
}

/// The answer of a study or an analysis; fails the test with what was wrong where there is none.
template <class Answer>
Answer answer_of(const Result<Answer>& outcome) {
  if (const auto* diagnostics = outcome.error()) FAIL(text_of(*diagnostics));
  return *outcome;
}

}  // namespace tubewright::testing
