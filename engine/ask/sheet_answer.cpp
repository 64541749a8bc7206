#include "engine/ask/sheet_answer.h"

#include <utility>

#include <fmt/format.h>

#include "engine/ask/drawing_json.h"
#include "engine/ask/drawn_pose.h"
#include "engine/ask/open.h"
#include "engine/ask/posed_question.h"
#include "engine/ask/question.h"
#include "engine/base/did_you_mean.h"
#include "engine/base/units.h"
#include "engine/sheet/shop_sheet.h"

namespace axlewright {
namespace {

Result<PaperSize> paper_in(const Json& question) {
  const Result<std::string> name = text_in(question, "paper", "A3");
  if (!name) return tl::unexpected(name.error());
  std::vector<std::string> names;
  for (const PaperSize& size : paper_sizes()) {
    if (*name == size.name) return size;
    names.emplace_back(size.name);
  }
  const std::string near = did_you_mean(*name, names);
  return fail(fmt::format("there is no paper \"{}\"", *name),
              near.empty() ? "ask for A2, A3 or 11x17" : fmt::format("did you mean \"{}\"?", near));
}

}  // namespace

Result<Json> answer_sheet(const Json& question, const AskContext& context) {
  const Result<PaperSize> paper = paper_in(question);
  const Result<double> beside = number_in(question, "beside_height_mm", 0);
  const Result<std::vector<std::string>> swept = texts_in(question, "swept");
  if (!paper) return tl::unexpected(paper.error());
  if (!beside) return tl::unexpected(beside.error());
  if (!swept) return tl::unexpected(swept.error());
  Result<PosedQuestion> posed =
      posed_question(question, {"paper", "beside_height_mm", "swept"}, context);
  if (!posed) return tl::unexpected(std::move(posed.error()));
  Rig& rig = posed->rig;
  const Words& words = posed->words;
  Json answer = answer_head(question, rig.truck(), words);
  DrawnPose there(rig, words);
  if (auto faults = there.go_to(posed->request, {}, answer); !faults.empty())
    return tl::unexpected(std::move(faults));
  SheetPlan plan;
  plan.paper = *paper;
  plan.inches = words.inches;
  plan.place = answer["drawn_text"].get<std::string>();
  plan.cautions = cautions().get<std::vector<std::string>>();
  std::optional<double> beside_height;
  if (question.contains("beside_height_mm")) {
    beside_height = from_mm(*beside);
  }
  // Why the pose asked for is not the one drawn.
  plan.notes = answer["story"].get<std::vector<std::string>>();
  const Result<DrawnTruck> drawn = there.drawn(*swept, beside_height);
  if (!drawn) return tl::unexpected(drawn.error());
  if (drawn->beside) {
    plan.place += "; faintly at height " + words.height(*beside_height);
  } else if (beside_height) {
    plan.notes.push_back(no_pose_beside(*beside_height, words));
  }
  answer["drawing"] = json_of(compose_sheet(*drawn, plan));
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
