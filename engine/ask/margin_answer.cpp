#include "engine/ask/margin_answer.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright {

namespace {

const char* word_for(WayEnd end) {
  switch (end) {
    case WayEnd::search:
      return "nothing";
    case WayEnd::bind:
      return "bind";
    case WayEnd::dead_centre:
      return "dead centre";
  }
  return "";
}

}  // namespace

Json json_of(const Margin& margin, const Words& words) {
  const auto shown = [&](double si) { return margin.is_angle ? to_deg(si) : to_mm(si); };
  const auto text = [&](double si) { return margin.is_angle ? words.angle(si) : words.length(si); };
  const double left = margin.margin();
  Json j;
  j["input"] = margin.input;
  j["unit"] = margin.is_angle ? "deg" : "mm";
  j["asked"] = shown(margin.asked);
  j["end"] = shown(margin.end);
  j["margin"] = shown(left);
  j["by"] = word_for(margin.by);
  j["what_ran_out"] = margin.what_ran_out;
  j["how_it_ran_out"] = margin.how_it_ran_out;
  if (margin.by == WayEnd::search) {
    j["text"] = fmt::format("{}: nothing runs out within {} {} what the file asks", margin.input,
                            text(left), left >= 0 ? "beyond" : "before");
  } else {
    j["text"] =
        fmt::format("{}: {} {} {} what the file asks", margin.input,
                    margin.by == WayEnd::bind ? margin.what_ran_out + " " + margin.how_it_ran_out
                                              : "the road wheels stop answering (dead centre)",
                    text(left), left >= 0 ? "beyond" : "before");
  }
  return j;
}

}  // namespace axlewright
