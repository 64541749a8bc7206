#include "engine/output/sweep_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/output/answer_parts.h"
#include "engine/output/extreme_text.h"
#include "engine/output/height_table.h"
#include "engine/output/influence_text.h"
#include "engine/output/lock_text.h"

namespace axlewright {
namespace {

bool has_pose(const Json& row) {
  return row.contains("values");
}

bool lacks_a_pose(const Json& sweep) {
  return !std::all_of(sweep["rows"].begin(), sweep["rows"].end(), has_pose);
}

/// Columns that change with height, and the others in words.
struct SortedColumns {
  std::vector<HeightColumn> changing;
  std::vector<std::string> steady;
};

SortedColumns columns_of(const Json& sweep, const Json& names) {
  SortedColumns sorted;
  for (const Json& name : names) {
    const Json* quantity = find_quantity_of(sweep, name.get<std::string>());
    if (quantity == nullptr) continue;
    HeightColumn column;
    column.quantity = shown_quantity(*quantity, in_inches(sweep));
    column.heading = column.quantity.words;
    column.values = values_over_heights(sweep, column.quantity.name);
    const bool absent = std::none_of(column.values.begin(), column.values.end(),
                                     [](const std::optional<double>& v) { return v.has_value(); });
    if (absent) continue;
    if (is_steady(without_refused_heights(sweep, column))) {
      sorted.steady.push_back(column.heading + ' ' +
                              steady_text(without_refused_heights(sweep, column)));
    } else {
      sorted.changing.push_back(std::move(column));
    }
  }
  return sorted;
}

/// What the groups have on the page that is explained below them.
struct Drawn {
  bool strip = false;
  bool dash = false;  ///< at a height that has a pose
};

void print_group(Page& page, const Json& sweep, const Json& group, Drawn& drawn) {
  const SortedColumns columns = columns_of(sweep, group["names"]);
  if (columns.changing.empty() && columns.steady.empty()) return;
  page.heading(text_at(group, "title"), "over height, going straight");
  if (!columns.steady.empty()) {
    page.note((lacks_a_pose(sweep) ? "The same at every height that has a pose: "
                                   : "The same at every height: ") +
              with_semicolons(columns.steady) + ".");
    if (!columns.changing.empty()) page.blank();
  }
  for (const HeightColumn& column : columns.changing) {
    const HeightColumn posed = without_refused_heights(sweep, column);
    drawn.dash = drawn.dash || std::find(posed.values.begin(), posed.values.end(), std::nullopt) !=
                                   posed.values.end();
  }
  drawn.strip = print_over_heights(page, heights_of(sweep), in_inches(sweep), columns.changing,
                                   Scale::each_its_own) ||
                drawn.strip;
}

void print_groups(Page& page, const Json& sweep) {
  Drawn drawn;
  for (const Json& group : sweep["groups"]) {
    if (page.style().all || group.value("main", false)) print_group(page, sweep, group, drawn);
  }
  if (!drawn.strip) return;
  page.blank();
  page.note(strip_legend(), Ink::faint);
  if (lacks_a_pose(sweep)) page.note("\"-\" is a height at which there is no pose.", Ink::faint);
  if (drawn.dash)
    page.note("\"-\" beside numbers of the same height: the quantity is not told there.",
              Ink::faint);
}

/// A long answer has scrolled its beginning away: the verdict once more, where the eye is.
void print_closing(Page& page, const Json& sweep) {
  std::vector<std::string> broken;
  for (const Json& limit : sweep.value("limits", Json::array())) {
    const std::string verdict = text_at(limit, "verdict");
    if (verdict == "broken" || verdict == "not reached")
      broken.push_back(with_blanks(text_at(limit, "name")));
  }
  std::string text = text_at(sweep, "truck") + ": ";
  if (std::none_of(sweep["rows"].begin(), sweep["rows"].end(), has_pose)) {
    text += "no pose can be had";
  } else if (sweep.value("limits", Json::array()).empty()) {
    text += "no limit is set";
  } else {
    text += broken.empty() ? "no limit is broken" : "broken limits: " + listed(broken);
  }
  page.paragraph(text + ". More: --all has every bar and joint, --csv and --json every digit.");
}

std::string asked_of(const Json& sweep) {
  const ShownQuantity height = shown_plain("", "mm", in_inches(sweep));
  const auto at = [&](const char* key) {
    return number_text(height, number_at(sweep["heights"], key).value_or(0),
                       height.unit == "mm" ? 0 : 1);
  };
  return fmt::format("raised from {} to {} {}, aligned at {}", at("from_mm"), at("to_mm"),
                     height.unit, at("aligned_mm"));
}

}  // namespace

std::vector<std::optional<double>> values_over_heights(const Json& sweep, const std::string& name) {
  std::vector<std::optional<double>> values;
  for (const Json& row : sweep["rows"]) {
    const auto found = row.find("values");
    values.push_back(found == row.end() ? std::nullopt : number_at(*found, name));
  }
  return values;
}

HeightColumn without_refused_heights(const Json& sweep, const HeightColumn& column) {
  HeightColumn posed{column.heading, column.quantity, {}};
  for (std::size_t r = 0; r < column.values.size(); ++r) {
    if (has_pose(sweep["rows"][r])) posed.values.push_back(column.values[r]);
  }
  return posed;
}

Json heights_of(const Json& sweep) {
  Json heights = Json::array();
  for (const Json& row : sweep["rows"]) heights.push_back(row["height_mm"]);
  return heights;
}

void print_sweep(Page& page, const Json& answer) {
  print_title(page, answer, asked_of(answer));
  print_story(page, answer);
  if (std::any_of(answer["rows"].begin(), answer["rows"].end(), has_pose)) {
    print_limits(page, answer);
    print_groups(page, answer);
    if (page.style().all) print_extremes(page, answer);
    print_points_that_matter(page, answer);
    print_locks(page, answer);
    print_margins(page, answer);
    print_refusals(page, answer);
  }
  print_warnings(page, answer);
  print_cautions(page, answer);
  print_closing(page, answer);
}

}  // namespace axlewright
