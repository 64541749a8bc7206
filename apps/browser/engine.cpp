// The core as a worker in the browser calls it: a desk of truck files by path, questions in, answers out, texts all of
// them (UTF-8, zero-ended). web/src/engine/binding.ts is the other side.
#include <map>
#include <stdexcept>
#include <string>

#include <emscripten.h>
#include <fmt/format.h>

#include "apps/browser/reply.h"
#include "engine/base/invariant.h"

namespace {

// Tells the share done; false cancels. The worker sets Module.progress.
// clang-format off
EM_JS(bool, tell_progress, (double share), { return Module["progress"](share); });
// clang-format on

void throw_on(const char* expression, const char* file, int line) {
  throw std::logic_error(fmt::format("broken invariant: {} ({}:{})", expression, file, line));
}

/// What one worker keeps between calls.
struct Desk {
  std::map<std::string, std::string> texts;
  std::string answer;  ///< holds the text that axlewright_ask hands out
};

Desk& desk() {
  static Desk the_desk;
  return the_desk;
}

tl::expected<std::string, std::string> text_of(const std::string& path) {
  const auto found = desk().texts.find(path);
  if (found == desk().texts.end()) return tl::unexpected<std::string>("there is no such file");
  return found->second;
}

}  // namespace

extern "C" {

EMSCRIPTEN_KEEPALIVE void axlewright_put(const char* path, const char* text) {
  desk().texts.insert_or_assign(path, text);
}

EMSCRIPTEN_KEEPALIVE void axlewright_remove(const char* path) {
  desk().texts.erase(path);
}

/// The answer stays valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* axlewright_ask(const char* question) {
  axlewright::set_invariant_handler(throw_on);
  desk().answer = axlewright::reply(question, {text_of, tell_progress});
  return desk().answer.c_str();
}
}  // extern "C"
