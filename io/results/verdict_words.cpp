#include "io/results/verdict_words.h"

#include <algorithm>
#include <optional>

#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"

namespace tubewright {

namespace {

std::string counted(int count, const std::string& noun) {
  return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

/// Names in a headline are cut to leave room for each other.
std::string name_in_headline(const std::string& name) {
  constexpr std::size_t most = 20;
  return one_line(name, most);
}

std::string limit_words(const std::string& check) {
  return check == "fatigue" ? "its fatigue range" : "its " + in_words(check) + " limit";
}

std::string failure_words(const Failure& f, bool short_names) {
  const auto name = [&](const std::string& full) {
    return short_names ? name_in_headline(full) : full;
  };
  return name(f.item) + (f.load_case.empty() ? "" : " in case " + name(f.load_case)) + " is at " +
         utilisation_text(f.utilisation) + " of " + limit_words(f.check);
}

/// What is nearest its limit of all that `studies` hold.
std::optional<Failure> nearest_limit(const FrameStudies& studies) {
  std::optional<Failure> nearest;
  const auto note = [&](const Failure& f) {
    if (!nearest || f.utilisation > nearest->utilisation) nearest = f;
  };
  if (const auto worst = worst_of_all(studies.analysis)) {
    note({worst->check, worst->item, worst->load_case, worst->utilisation});
  }
  for (const LimitCheck& limit : studies.limits) {
    if (limit.result.utilisation) note({limit.name, "frame", "", *limit.result.utilisation});
  }
  if (const auto& fatigue = studies.fatigue; fatigue && fatigue->counts && fatigue->worst >= 0) {
    const auto worst = static_cast<std::size_t>(fatigue->worst);
    note({"fatigue", studies.analysis.frame.members[worst].name, "",
          *fatigue->members[worst].result.utilisation});
  }
  return nearest;
}

std::string failing_sentence(const Verdict& v) {
  const auto worst = std::max_element(
      v.failures.begin(), v.failures.end(),
      [](const Failure& a, const Failure& b) { return a.utilisation < b.utilisation; });
  const auto others = static_cast<int>(v.failures.size()) - 1;
  return failure_words(*worst, true) +
         (others == 0 ? "" : ", " + std::to_string(others) + " more" + " below");
}

std::string unproven_sentence(const FrameStudies& studies) {
  const auto reasons = static_cast<int>(studies.verdict.not_proven.size());
  return "nothing checked fails, but " + counted(reasons, "thing") +
         (reasons == 1 ? " is" : " are") + " unchecked or in doubt, listed below";
}

std::string passing_sentence(const FrameStudies& studies) {
  const std::optional<Failure> nearest = nearest_limit(studies);
  return nearest ? "closest to its limit, " + failure_words(*nearest, true) : "nothing is loaded";
}

std::string tally_words(const Tally& t) {
  return std::to_string(t.by_rule) + " by rule, " + std::to_string(t.by_comparison) +
         " by comparison, " + std::to_string(t.not_made) + " not";
}

nlohmann::ordered_json tally_json(const Tally& t) {
  return {{"all", t.all()},
          {"by_rule", t.by_rule},
          {"by_comparison", t.by_comparison},
          {"not_made", t.not_made}};
}

}  // namespace

const char* answer_word(Verdict::Answer answer) {
  switch (answer) {
    case Verdict::Answer::pass:
      return "PASS";
    case Verdict::Answer::not_proven:
      return "NOT PROVEN";
    case Verdict::Answer::fail:
      break;
  }
  return "FAIL";
}

const char* answer_key(Verdict::Answer answer) {
  switch (answer) {
    case Verdict::Answer::pass:
      return "pass";
    case Verdict::Answer::not_proven:
      return "not_proven";
    case Verdict::Answer::fail:
      break;
  }
  return "fail";
}

std::string verdict_sentence(const FrameStudies& studies) {
  const std::string sentence =
      studies.verdict.answer == Verdict::Answer::fail         ? failing_sentence(studies.verdict)
      : studies.verdict.answer == Verdict::Answer::not_proven ? unproven_sentence(studies)
                                                              : passing_sentence(studies);
  return std::string(answer_word(studies.verdict.answer)) + ": " + sentence;
}

std::string verdict(const FrameStudies& studies, Paint paint) {
  const Verdict::Answer answer = studies.verdict.answer;
  const std::string word = answer_word(answer);
  const std::string rest = verdict_sentence(studies).substr(word.size());
  return (answer == Verdict::Answer::pass   ? paint.good(word)
          : answer == Verdict::Answer::fail ? paint.bad(word)
                                            : paint.doubtful(word)) +
         rest;
}

std::string coverage_sentence(const Verdict& v) {
  std::string text;
  if (v.tube_ends.all() > 0) {
    text += counted(v.tube_ends.all(), "welded tube end") +
            " checked: " + tally_words(v.tube_ends) + "; ";
  }
  return text + counted(v.checks.all(), "check") + " in all: " + tally_words(v.checks);
}

std::vector<std::string> verdict_reasons(const Verdict& v) {
  std::vector<std::string> reasons;
  for (const Failure& f : v.failures) reasons.push_back(failure_words(f, false));
  for (const std::string& open : v.not_proven) reasons.push_back("not proven: " + open);
  return reasons;
}

nlohmann::ordered_json verdict_json(const Verdict& v) {
  return {{"answer", answer_key(v.answer)},
          {"checks_made", v.checks.made()},
          {"checks_by_comparison", v.checks.by_comparison},
          {"checks_not_made", v.checks.not_made},
          {"tube_ends", tally_json(v.tube_ends)},
          {"reasons", verdict_reasons(v)}};
}

nlohmann::ordered_json limits_json(const std::vector<LimitCheck>& limits) {
  nlohmann::ordered_json used = nlohmann::ordered_json::object();
  for (const LimitCheck& limit : limits) {
    used[limit.name] = optional_number(limit.result.utilisation, 1);
  }
  return used;
}

int exit_code(const FrameStudies& studies) {
  return studies.verdict.answer == Verdict::Answer::pass ? 0 : 1;
}

}  // namespace tubewright
