#include "engine/output/pose_text.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "engine/base/units.h"
#include "engine/output/answer_parts.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr int kWordsWidth = 40;
constexpr int kPairWordsWidth = 26;

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// "caster" of "caster, left", "pad under each wheel" of "pad under the left wheel".
std::string both_sides(const std::string& left_words) {
  std::string words = replaced(left_words, "the left wheel", "each wheel");
  words = replaced(words, "left wheel", "each wheel");
  return replaced(words, ", left", "");
}

/// What a part or a joint of the truck has, not the truck as a whole: "tilt.pitman_ball_deg".
bool is_of_a_part(const ShownQuantity& quantity) {
  return quantity.name.find('.') != std::string::npos;
}

class PoseTable {
 public:
  explicit PoseTable(const Json& answer) : answer_(answer) {
    for (const Json& quantity : answer["quantities"])
      quantities_.push_back(shown_quantity(quantity, in_inches(answer)));
  }

  /// Quantities that have one number, of the truck or of its parts.
  TextTable singles(bool of_parts) const {
    TextTable table({{{of_parts ? "part" : "quantity"}, Alignment::left, 0, 0, kWordsWidth},
                     {{"unit"}},
                     {{"value"}, Alignment::point}});
    for (std::size_t k = 0; k < quantities_.size(); ++k) {
      if (is_of_a_part(quantities_[k]) == of_parts && !is_pair(k) && !ends_pair(k))
        table.row({{quantities_[k].words}, {quantities_[k].unit}, {cell(k)}});
    }
    return table;
  }

  /// Quantities that each side has.
  TextTable pairs() const {
    TextTable table({{{"each side"}, Alignment::left, 0, 0, kPairWordsWidth},
                     {{"unit"}},
                     {{"left"}, Alignment::point},
                     {{"right"}, Alignment::point}});
    for (std::size_t k = 0; k < quantities_.size(); ++k) {
      if (is_pair(k))
        table.row(
            {{both_sides(quantities_[k].words)}, {quantities_[k].unit}, {cell(k)}, {cell(k + 1)}});
    }
    return table;
  }

 private:
  bool is_pair(std::size_t k) const {
    return k + 1 < quantities_.size() && !is_of_a_part(quantities_[k]) &&
           quantities_[k].words != quantities_[k + 1].words &&
           replaced(quantities_[k].words, "left", "right") == quantities_[k + 1].words;
  }

  bool ends_pair(std::size_t k) const { return k > 0 && is_pair(k - 1); }

  std::string cell(std::size_t k) const {
    const std::optional<double> value = number_at(answer_["values"], quantities_[k].name);
    return cell_text(quantities_[k], value,
                     decimals_for(quantities_[k], value.value_or(0) * quantities_[k].scale));
  }

  const Json& answer_;
  std::vector<ShownQuantity> quantities_;
};

void print_points(Page& page, const Json& answer) {
  const bool inches = in_inches(answer);
  const ShownQuantity place = shown_plain("", "mm", inches);
  page.heading("Where the points are", "frame axes, " + place.unit);
  TextTable table({{{"point"}, Alignment::left, 0, 0, 30},
                   {{"on"}, Alignment::left, 2, 0, 16},
                   {{"x forward"}, Alignment::point},
                   {{"y left"}, Alignment::point},
                   {{"z up"}, Alignment::point}});
  for (const Json& point : answer.value("points", Json::array())) {
    std::vector<TableCell> row{{with_blanks(text_at(point, "name"))},
                               {with_blanks(text_at(point, "on"))}};
    for (const Json& coordinate : point["place_mm"])
      row.push_back({number_text(place, coordinate.get<double>(), decimals_for(place, 0))});
    table.row(std::move(row));
  }
  page.table(table);
}

/// How far the numbers can be leant on.
std::string solved_text(const Json& report) {
  const std::string certificate = text_at(report, "certificate");
  std::string text = fmt::format(
      "Solved: {}, {}; every joint closes within {:.0e} mm", text_at(report, "outcome"),
      certificate == "followed" ? "followed step by step from as measured" : certificate,
      to_mm(number_at(report, "residual_m").value_or(0)));
  // Only a truck that holds something twice has this.
  const double miss = to_mm(number_at(report, "set_aside_miss_m").value_or(0));
  if (miss > 0) text += fmt::format(", what is held twice within {:.0e} mm", miss);
  return text + '.';
}

std::string refused_text(const Json& report) {
  return fmt::format("Not solved ({}): the way there ends after {:.0f} % of it.",
                     text_at(report, "outcome"),
                     number_at(report, "path_reached").value_or(0) * 100);
}

}  // namespace

void print_pose(Page& page, const Json& answer) {
  print_title(page, answer, "one pose");
  print_story(page, answer);
  const Json report = answer.value("report", Json::object());
  if (answer.contains("values")) {
    const PoseTable quantities(answer);
    page.heading("The truck as a whole");
    page.table(quantities.singles(false));
    page.heading("Left and right");
    page.table(quantities.pairs());
    if (page.style().all) {
      page.heading("Bars and joints");
      page.table(quantities.singles(true));
      print_points(page, answer);
    }
    page.blank();
    page.note(solved_text(report), Ink::faint);
  } else {
    page.heading("No pose");
    page.note(refused_text(report), Ink::alarm);
  }
  print_warnings(page, answer);
  print_cautions(page, answer);
}

}  // namespace axlewright
