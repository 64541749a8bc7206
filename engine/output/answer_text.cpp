#include "engine/output/answer_text.h"

#include <array>
#include <string_view>

#include "engine/base/invariant.h"
#include "engine/output/check_text.h"
#include "engine/output/compare_text.h"
#include "engine/output/pose_text.h"
#include "engine/output/setup_text.h"
#include "engine/output/start_text.h"
#include "engine/output/sweep_text.h"

namespace axlewright {
namespace {

struct Printer {
  std::string_view verb;
  void (*print)(Page& page, const Json& answer);
};

constexpr std::array<Printer, 5> kPrinters{{
    {"check", print_check},
    {"pose", print_pose},
    {"sweep", print_sweep},
    {"compare", print_compare},
    {"setup", print_setup},
}};

/// The answer with every text of it fit to be shown: names come out of files.
Json made_printable(Json answer) {
  if (answer.is_string()) return printable(answer.get<std::string>());
  if (answer.is_structured()) {
    for (Json& inside : answer) inside = made_printable(std::move(inside));
  }
  return answer;
}

}  // namespace

std::string answer_text(const Json& answer, const PrintStyle& style) {
  Page page(style);
  const std::string verb = text_at(answer, "ask");
  for (const Printer& printer : kPrinters) {
    if (printer.verb != verb) continue;
    printer.print(page, made_printable(answer));
    return page.take();
  }
  AXLEWRIGHT_INVARIANT(!"an answer to a question that there is");
  return "";
}

std::string start_text(const Json& answer, const std::string& truck_file,
                       const std::string& sheet_file, const PrintStyle& style) {
  Page page(style);
  print_start(page, made_printable(answer), printable(truck_file), printable(sheet_file));
  return page.take();
}

}  // namespace axlewright
