#include "engine/ask/edit_answer.h"

#include <utility>

#include "engine/ask/question.h"
#include "engine/base/lines.h"
#include "engine/truck/edit.h"

namespace axlewright {
namespace {

/// A setting changes bytes within lines, never their number.
Json changed_lines(const EditedFile& edited) {
  const std::vector<std::string> before = lines_of(edited.before), after = lines_of(edited.after);
  Json list = Json::array();
  for (std::size_t k = 0; k < before.size() && k < after.size(); ++k) {
    if (before[k] == after[k]) continue;
    list.push_back(Json{{"line", k + 1}, {"before", before[k]}, {"after", after[k]}});
  }
  return list;
}

}  // namespace

Result<Json> answer_edit(const Json& question, const AskContext& context) {
  if (auto faults = unknown_keys(question, {"file"}); !faults.empty())
    return tl::unexpected(std::move(faults));
  if (question.contains("with"))
    return fail("`edit` writes into the file and its layers, and a kit of `with` is none of them",
                "leave `with` out; to write into a kit, name it as `file`");
  const Result<std::string> file = text_in(question, "file", "");
  const Result<std::vector<std::string>> texts = texts_in(question, "set");
  if (!file) return tl::unexpected(file.error());
  if (!texts) return tl::unexpected(texts.error());
  std::vector<Setting> settings;
  for (const std::string& text : *texts) settings.push_back({text});
  Result<std::vector<EditedFile>> edited = edit_files(*file, settings, context.text_of);
  if (!edited) return tl::unexpected(std::move(edited.error()));
  Json answer;
  answer["ask"] = question["ask"];
  answer["version"] = kAnswerVersion;
  answer["file"] = *file;
  answer["files"] = Json::array();
  for (const EditedFile& one : *edited) {
    if (one.before == one.after) continue;
    answer["files"].push_back(Json{{"file", one.file},
                                   {"layer", one.file != *file},
                                   {"before", one.before},
                                   {"after", one.after},
                                   {"lines", changed_lines(one)}});
  }
  return answer;
}

}  // namespace axlewright
