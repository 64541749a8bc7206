#include "engine/output/start_text.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/output/answer_parts.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

/// Names stand as in the file that they are looked up in.
std::string step_cell(const Json& step, const char* key) {
  const auto found = step.find(key);
  if (found == step.end() || found->is_null()) return "";
  return found->is_string() ? found->get<std::string>() : found->dump();
}

void print_steps(Page& page, const Json& answer) {
  const auto steps = answer.find("steps");
  if (steps == answer.end() || steps->empty()) return;
  page.heading("What to measure, in this order");
  TextTable table({{{"step"}, Alignment::right, 0, 0, 4},
                   {{"in the file"}, Alignment::left, 2, 0, 22},
                   {{"what"}, Alignment::left, 2, 0, 24},
                   {{"from"}, Alignment::left, 2, 0, 12},
                   {{"within"}, Alignment::left, 2, 0, 8}});
  for (const Json& step : *steps)
    table.row({{step_cell(step, "step")},
               {step_cell(step, "point")},
               {step_cell(step, "what")},
               {step_cell(step, "from")},
               {step_cell(step, "accuracy")}});
  page.table(table);
}

}  // namespace

void print_start(Page& page, const Json& answer, const std::string& truck_file,
                 const std::string& sheet_file) {
  page.heading("A truck file to fill in: " + with_blanks(text_at(answer, "layout")));
  print_story(page, answer);
  page.heading("Written");
  const int hang = std::min(std::max(text_width(truck_file), text_width(sheet_file)) + 2, 40);
  page.item(truck_file, "the truck, to be filled in", hang);
  page.item(sheet_file, "what to measure on it, in which order", hang);
  if (page.style().all) {
    print_steps(page, answer);
    print_texts(page, "Checks on the spot", texts_at(answer, "checks"));
  }
  page.heading("Next");
  page.item("1. ", fmt::format("measure the truck as {} says", sheet_file), 3);
  page.item("2. ", fmt::format("put the numbers into {}", truck_file), 3);
  page.item("3. ", fmt::format("axlewright check {}", truck_file), 3);
  print_warnings(page, answer);
  print_cautions(page, answer);
}

}  // namespace axlewright
