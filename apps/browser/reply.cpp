#include "apps/browser/reply.h"

#include <exception>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace axlewright {
namespace {

std::string text_of(const Json& answer) {
  return answer.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string faults_text(const std::vector<Fault>& faults) {
  Json list = Json::array();
  for (const Fault& fault : faults) list.push_back(json_of(fault));
  return text_of(Json{{"faults", std::move(list)}});
}

std::string one_fault(std::string what, std::string fix) {
  return faults_text(fail(std::move(what), std::move(fix)).value());
}

}  // namespace

std::string reply(const std::string& question, const AskContext& context) {
  try {
    const Json asked = Json::parse(question, nullptr, false);
    if (asked.is_discarded()) return one_fault("the question is no JSON", "ask in JSON");
    const Result<Json> answer = ask(asked, context);
    return answer ? text_of(*answer) : faults_text(answer.error());
  } catch (const std::exception& error) {
    return one_fault(fmt::format("this should not happen, please report it: {}", error.what()),
                     "change what you asked for, or the file, and ask again");
  }
}

}  // namespace axlewright
