#include "engine/ask/ask.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/ask/check_answer.h"
#include "engine/ask/compare_answer.h"
#include "engine/ask/edit_answer.h"
#include "engine/ask/pose_answer.h"
#include "engine/ask/setup_answer.h"
#include "engine/ask/sheet_answer.h"
#include "engine/ask/start.h"
#include "engine/ask/sweep_answer.h"
#include "engine/ask/view_answer.h"
#include "engine/base/did_you_mean.h"

namespace axlewright {
namespace {

struct Verb {
  const char* name;
  Result<Json> (*answer)(const Json& question, const AskContext& context);
};

constexpr std::array<Verb, 9> kVerbs{{
    {"check", answer_check},
    {"pose", answer_pose},
    {"sweep", answer_sweep},
    {"compare", answer_compare},
    {"setup", answer_setup},
    {"start", answer_start},
    {"view", answer_view},
    {"edit", answer_edit},
    {"sheet", answer_sheet},
}};

}  // namespace

Result<Json> ask(const Json& question, const AskContext& context) {
  if (!question.is_object() || !question.contains("ask") || !question["ask"].is_string())
    return fail("the question does not say what it asks", "give an object with a text `ask`");
  const std::string asked = question["ask"].get<std::string>();
  std::vector<std::string> names;
  for (const Verb& verb : kVerbs) {
    if (asked == verb.name) return verb.answer(question, context);
    names.emplace_back(verb.name);
  }
  const std::string near = did_you_mean(asked, names);
  return fail(fmt::format("nothing is called \"{}\" here", asked),
              near.empty()
                  ? "ask one of check, pose, sweep, compare, setup, start, view, edit, sheet"
                  : fmt::format("did you mean \"{}\"?", near));
}

}  // namespace axlewright
