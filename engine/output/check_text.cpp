#include "engine/output/check_text.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/output/answer_parts.h"
#include "engine/output/measured_text.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

/// The part of a told thing behind its head: "track bar" of "the axle sideways: track bar".
std::string behind_head(const std::string& text, const std::string& head) {
  return text.rfind(head + ": ", 0) == 0 ? text.substr(head.size() + 2) : text;
}

void print_holds(Page& page, const Json& holds) {
  int hang = 0;
  for (const Json& one : holds) hang = std::max(hang, text_width(text_at(one, "way")) + 2);
  for (const Json& one : holds) {
    const std::string way = text_at(one, "way");
    page.item(way, behind_head(text_at(one, "text"), way), hang);
  }
}

void print_loose(Page& page, const Json& loose) {
  if (loose.empty()) page.note("Nothing.");
  for (const Json& one : loose) {
    page.item("\xC2\xB7 ", text_at(one, "text"), 2);
    if (!page.style().all) continue;
    for (const std::string& effect : texts_at(one, "effects")) page.item("  moves: ", effect, 9);
  }
}

/// The part of a sentence in front of a list that it spells out: "It is held:" of "It is held: a; b." with a and b listed.
/// Empty if it does not spell it out.
std::string lead_of(const std::string& sentence, const std::vector<std::string>& listed) {
  if (listed.empty()) return "";
  for (const std::string& text : listed) {
    if (text.empty() || sentence.find(text) == std::string::npos) return "";
  }
  std::string lead = sentence.substr(0, sentence.find(listed.front()));
  lead.erase(lead.find_last_not_of(' ') + 1);
  return lead;
}

/// A list of the answer that its story may spell out.
struct ListInStory {
  const char *key, *heading;
  void (*print)(Page& page, const Json& list);
  bool told = false;
};

/// The story; what it lists is set as a list right there, and lists that it leaves out follow under their headings.
void print_story_with_lists(Page& page, const Json& answer) {
  std::array<ListInStory, 2> lists{
      {{"holds", "What holds what", print_holds}, {"loose", "What is loose", print_loose}}};
  for (const std::string& sentence : texts_at(answer, "story")) {
    bool is_list = false;
    for (ListInStory& list : lists) {
      const std::string lead = lead_of(sentence, texts_at(answer, list.key));
      if (lead.empty() || list.told) continue;
      page.paragraph(lead);
      list.print(page, answer[list.key]);
      is_list = list.told = true;
      break;
    }
    if (!is_list) print_sentence(page, sentence);
  }
  for (const ListInStory& list : lists) {
    if (list.told || !answer.contains(list.key) || answer[list.key].empty()) continue;
    page.heading(list.heading);
    list.print(page, answer[list.key]);
  }
}

void print_counts(Page& page, const Json& answer) {
  const auto counts = answer.find("counts");
  if (counts == answer.end()) return;
  const auto count = [&](const char* key) { return number_at(*counts, key).value_or(0); };
  page.heading("The mechanism", "(" + text_at(answer, "soundness") + ")");
  page.note(
      fmt::format("{} bodies and {} joints: {} coordinates, {} equations, {} inputs; "
                  "loose motions: {}.",
                  count("bodies"), count("joints"), count("coordinates"), count("equations"),
                  count("inputs"), count("mobility")));
  const auto proof = answer.find("proof");
  if (proof != answer.end()) page.note(text_at(*proof, "text"));
}

/// As a truck file would have it: without zeros behind the point.
std::string bare_number(const ShownQuantity& length, const Json& mm) {
  return decimal_text(mm.get<double>() * length.scale, 0, decimals_for(length, 0));
}

std::string joint_place(const Json& joint, const ShownQuantity& length) {
  if (joint.contains("length_mm")) return bare_number(length, joint["length_mm"]) + " long";
  std::vector<std::string> place;
  for (const Json& coordinate : joint.value("at_mm", Json::array()))
    place.push_back(bare_number(length, coordinate));
  return with_commas(place);
}

void print_fights(Page& page, const Json& answer) {
  std::vector<std::string> texts;
  for (const Json& fight : answer.value("fights", Json::array()))
    texts.push_back(text_at(fight, "text"));
  print_texts(page, "What rigid parts could not do", texts);
}

void print_expanded(Page& page, const Json& answer) {
  if (!answer.contains("bodies")) return;
  const ShownQuantity length = shown_plain("", "mm", in_inches(answer));
  page.heading("Bodies", "each with the one that its turn counts against");
  TextTable bodies(
      {{{"body"}, Alignment::left, 0, 0, 38}, {{"counts against"}, Alignment::left, 2, 0, 36}});
  for (const Json& body : answer["bodies"])
    bodies.row({{with_blanks(text_at(body, "name"))}, {with_blanks(text_at(body, "carrier"))}});
  page.table(bodies);
  page.heading("Joints", "places in frame axes as measured, " + length.unit);
  TextTable joints({{{"joint"}, Alignment::left, 0, 0, 22},
                    {{"kind"}, Alignment::left, 2, 0, 13},
                    {{"between"}, Alignment::left, 2, 0, 16},
                    {{"x, y, z"}, Alignment::left, 2, 0, 21}});
  for (const Json& joint : answer.value("joints", Json::array())) {
    std::vector<std::string> between;
    for (const std::string& body : texts_at(joint, "between")) between.push_back(with_blanks(body));
    joints.row({{with_blanks(text_at(joint, "name"))},
                {with_blanks(text_at(joint, "kind"))},
                {listed(between)},
                {joint_place(joint, length)}});
  }
  page.table(joints);
}

}  // namespace

void print_check(Page& page, const Json& answer) {
  print_title(page, answer, "what holds it, what is loose");
  print_story_with_lists(page, answer);
  print_margins(page, answer);
  print_texts(page, "Equations that cannot all hold", texts_at(answer, "fighting"));
  print_fights(page, answer);
  print_texts(page, "Held twice, in agreement", texts_at(answer, "set_aside"));
  print_texts(page, "Guided bars", texts_at(answer, "guided_bars"));
  print_texts(page, "Lengths against points", texts_at(answer, "misfits"));
  print_measured(page, answer);
  print_counts(page, answer);
  print_expanded(page, answer);
  print_warnings(page, answer);
  print_cautions(page, answer);
}

}  // namespace axlewright
