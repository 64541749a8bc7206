#include "engine/output/answer_parts.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/output/text_table.h"

namespace axlewright {
namespace {

/// More than this in one paragraph is a wall.
constexpr int kParagraph = 330;  // code points: some four lines of a terminal

/// A sentence of more lines than this is set as a list, if it is one.
constexpr std::size_t kLongSentence = 4;

constexpr std::size_t kMostRefusalsTold = 3;

struct VerdictLook {
  const char* verdict;
  const char* head;  ///< mark and word
  Ink ink;
};

/// In the order in which they are told.
constexpr std::array<VerdictLook, 4> kVerdicts{{
    {"broken", "! broken", Ink::alarm},
    {"not reached", "? not reached", Ink::alarm},
    {"met", "\xC2\xB7 met", Ink::plain},
    {"not told", "- not told", Ink::faint},
}};

ShownQuantity quantity_of_limit(const Json& answer, const Json& limit) {
  const std::string words = text_at(limit, "words"), unit = text_at(limit, "unit");
  const Json* known = find_quantity_of(answer, words, unit);
  return known != nullptr ? shown_quantity(*known, in_inches(answer))
                          : shown_plain(words, unit, in_inches(answer));
}

ShownQuantity without_sides(ShownQuantity quantity) {
  quantity.positive = quantity.negative = "";
  return quantity;
}

/// A number that a person set: as they wrote it, without zeros behind the point.
std::string round_text(const ShownQuantity& quantity, double value) {
  std::string text = value_text(quantity, value);
  const std::size_t end = std::min(text.find(' '), text.size());
  const std::size_t point = text.find('.');
  if (point == std::string::npos || point > end) return text;
  std::size_t keep = end;
  while (text[keep - 1] == '0') --keep;
  if (text[keep - 1] == '.') --keep;
  return text.erase(keep, end - keep);
}

/// "5 deg either way", "3 to 9 deg top back", "at most 5 deg left".
std::string band_text(const ShownQuantity& quantity, std::optional<double> least,
                      std::optional<double> most) {
  if (!least && !most) return "";
  if (!least) return "at most " + round_text(quantity, *most);
  if (!most) return "at least " + round_text(quantity, *least);
  if (quantity.has_sides() && *least == -*most && *most > 0)
    return round_text(without_sides(quantity), *most) + " either way";
  // On one side of zero both ends have the same words behind them: once is enough.
  if (*least * *most > 0) {
    const std::string first = round_text(quantity, *least);
    return first.substr(0, first.find(' ')) + " to " + round_text(quantity, *most);
  }
  return round_text(quantity, *least) + " to " + round_text(quantity, *most);
}

/// What is told of a limit, without its name.
std::string limit_finding(const Json& answer, const Json& limit) {
  const std::optional<double> worst = number_at(limit, "worst");
  if (!worst) return text_at(limit, "text");
  const ShownQuantity quantity = quantity_of_limit(answer, limit);
  const double margin = number_at(limit, "margin").value_or(0);
  const std::optional<double> min = number_at(limit, "min"), max = number_at(limit, "max");
  // In a band about zero the worst is the farthest from zero: where that is nothing, its place means nothing.
  const bool nothing = min && max && *min == -*max &&
                       rounds_to_zero(quantity, *worst, decimals_for(quantity, *worst));
  return fmt::format("{} {}; allowed {}, {} {}", value_text(quantity, *worst),
                     nothing ? "in every pose looked at" : text_at(limit, "place_text"),
                     band_text(quantity, min, max),
                     value_text(without_sides(quantity), std::abs(margin)),
                     margin >= 0                        ? "to spare"
                     : min && *min > 0 && *worst < *min ? "too little"
                                                        : "too far");
}

/// A line for each limit with that verdict; those of which the same is told share one.
std::vector<std::string> limit_lines(const Json& answer, const Json& limits,
                                     const std::string& verdict) {
  struct Line {
    std::vector<std::string> names;
    std::string finding;
  };
  std::vector<Line> lines;
  for (const Json& limit : limits) {
    if (text_at(limit, "verdict") != verdict) continue;
    const std::string finding = limit_finding(answer, limit);
    const auto same = std::find_if(lines.begin(), lines.end(),
                                   [&](const Line& line) { return line.finding == finding; });
    Line& line = same == lines.end() ? lines.emplace_back(Line{{}, finding}) : *same;
    line.names.push_back(with_blanks(text_at(limit, "name")));
  }
  std::vector<std::string> texts;
  texts.reserve(lines.size());
  for (const Line& line : lines) texts.push_back(listed(line.names) + ": " + line.finding);
  return texts;
}

/// A sentence cut behind its semicolons, those in brackets left alone.
std::vector<std::string> parts_of(const std::string& sentence) {
  std::vector<std::string> parts(1);
  int depth = 0;
  for (const char c : sentence) {
    depth += c == '(' ? 1 : c == ')' ? -1 : 0;
    parts.back() += c;
    if (c == ';' && depth == 0) parts.emplace_back();
  }
  return parts;
}

std::string fault_line(const Json& fault) {
  const std::string place = number_at(fault, "line").value_or(0) > 0
                                ? fmt::format("{}:{}:{}", text_at(fault, "file"),
                                              fault["line"].get<int>(), fault["column"].get<int>())
                                : text_at(fault, "file");
  const std::string fix = text_at(fault, "fix");
  return fmt::format("{}{}{}{}", place, place.empty() ? "" : ": ", text_at(fault, "what"),
                     fix.empty() ? "" : " (fix: " + fix + ")");
}

/// What ends an input's way, behind the margin that is left: "then drag link and left knuckle run straight".
std::string end_of(const Json& margin, bool short_of_it) {
  const std::string by = text_at(margin, "by");
  if (by == "nothing")
    return short_of_it ? "missing: the search ends before that" : "nothing runs out within this";
  const std::string ends =
      by == "bind" ? text_at(margin, "what_ran_out") + ' ' + text_at(margin, "how_it_ran_out")
                   : "the road wheels stop answering (dead centre)";
  return (short_of_it ? "missing: before that " : "then ") + ends;
}

std::string joined(const std::vector<std::string>& words, const char* between) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

/// "Limits: 2 broken, 4 met".
std::string limit_counts(const Json& limits) {
  std::vector<std::string> counts;
  for (const VerdictLook& look : kVerdicts) {
    const auto count = std::count_if(limits.begin(), limits.end(), [&](const Json& limit) {
      return text_at(limit, "verdict") == look.verdict;
    });
    if (count > 0) counts.push_back(fmt::format("{} {}", count, look.verdict));
  }
  return "Limits: " + (counts.empty() ? "none set" : joined(counts, ", "));
}

}  // namespace

void print_title(Page& page, const Json& answer, const std::string& asked) {
  const std::string file = text_at(answer, "file");
  page.heading(text_at(answer, "truck") + (asked.empty() ? "" : ": " + asked),
               file.empty() ? "" : "(" + file + ")");
}

void print_sentence(Page& page, const std::string& sentence) {
  const std::vector<std::string> parts = parts_of(sentence);
  const bool is_long = wrapped(sentence, page.style().width).size() > kLongSentence;
  if (!is_long || parts.size() < 3) {
    page.paragraph(sentence);
    return;
  }
  page.paragraph(parts.front());
  for (std::size_t k = 1; k < parts.size(); ++k) page.item("", parts[k], 2);
}

void print_story(Page& page, const Json& answer) {
  const std::vector<std::string> sentences = texts_at(answer, "story");
  int left = 0;
  for (const std::string& sentence : sentences) left += text_width(sentence) + 1;
  // Paragraphs of about one size: none is a wall, none a line left over.
  int paragraphs = (left + kParagraph - 1) / kParagraph;
  std::string paragraph;
  for (const std::string& sentence : sentences) {
    const int share = left / std::max(paragraphs, 1);
    const int with = text_width(paragraph) + text_width(sentence);
    if (!paragraph.empty() && with - share > share - text_width(paragraph)) {
      page.paragraph(paragraph);
      left -= text_width(paragraph);
      --paragraphs;
      paragraph.clear();
    }
    paragraph += (paragraph.empty() ? "" : " ") + sentence;
  }
  if (!paragraph.empty()) page.paragraph(paragraph);
}

void print_limits(Page& page, const Json& answer) {
  const auto limits = answer.find("limits");
  if (limits == answer.end()) return;
  page.heading(limit_counts(*limits));
  int hang = 0;
  for (const VerdictLook& look : kVerdicts) {
    for (const Json& limit : *limits) {
      if (text_at(limit, "verdict") == look.verdict)
        hang = std::max(hang, text_width(look.head) + 2);
    }
  }
  for (const VerdictLook& look : kVerdicts) {
    for (const std::string& line : limit_lines(answer, *limits, look.verdict))
      page.item(look.head, line, hang, look.ink);
  }
  const std::vector<std::string> not_set = texts_at(answer, "not_set");
  const std::vector<std::string> not_checked = texts_at(answer, "not_checked");
  if (!not_set.empty()) page.note("Not set: " + with_commas(not_set) + ".");
  if (!not_checked.empty()) page.note("Not checked: " + with_commas(not_checked) + ".");
}

void print_margins(Page& page, const Json& answer) {
  const auto margins = answer.find("margins");
  if (margins == answer.end() || margins->empty()) return;
  page.heading("How far it can go beyond what the file asks");
  TextTable table(
      {{{}, Alignment::left, 0, 0, 30}, {{}, Alignment::point}, {{}, Alignment::left, 2, 0, 36}});
  for (const Json& margin : *margins) {
    const ShownQuantity quantity = shown_plain("", text_at(margin, "unit"), in_inches(answer));
    const double beyond = std::abs(number_at(margin, "margin").value_or(0));
    const bool short_of_it = number_at(margin, "margin").value_or(0) < 0;
    table.row({{text_at(margin, "input")},
               {value_text(quantity, beyond, quantity.unit == "in" ? 2 : 1)},
               {end_of(margin, short_of_it), short_of_it ? Ink::alarm : Ink::plain}});
  }
  page.table(table);
}

void print_refusals(Page& page, const Json& answer) {
  const auto refusals = answer.find("refusals");
  if (refusals == answer.end() || refusals->empty()) return;
  const double refused = number_at(answer, "refused").value_or(0);
  page.heading(fmt::format("Poses that cannot be had: {} of {}", refused,
                           number_at(answer, "poses").value_or(0)));
  std::size_t told = 0;
  for (const Json& refusal : *refusals) {
    if (told == kMostRefusalsTold && !page.style().all) break;
    page.item("",
              fmt::format("{}: {}", text_at(refusal, "place_text"),
                          text_at(refusal.value("report", Json::object()), "message")),
              0);
    ++told;
  }
  if (static_cast<double>(told) < refused)
    page.note(fmt::format("and {} more", refused - static_cast<double>(told)));
}

void print_warnings(Page& page, const Json& answer) {
  const auto warnings = answer.find("warnings");
  if (warnings == answer.end() || warnings->empty()) return;
  page.heading(counted(warnings->size(), "warning about the file", "warnings about the file"));
  for (const Json& warning : *warnings) page.item("! ", fault_line(warning), 2, Ink::alarm);
}

void print_cautions(Page& page, const Json& answer) {
  const std::vector<std::string> cautions = texts_at(answer, "cautions");
  if (cautions.empty()) return;
  page.heading("Cautions");
  std::string text;
  for (const std::string& caution : cautions) text += (text.empty() ? "" : " ") + caution;
  page.note(text);
}

void print_texts(Page& page, const std::string& heading, const std::vector<std::string>& texts) {
  if (texts.empty()) return;
  page.heading(heading);
  for (const std::string& text : texts) page.item("\xC2\xB7 ", text, 2);
}

const Json* find_quantity_of(const Json& answer, const std::string& name) {
  const auto quantities = answer.find("quantities");
  if (quantities == answer.end()) return nullptr;
  for (const Json& quantity : *quantities) {
    if (text_at(quantity, "name") == name) return &quantity;
  }
  return nullptr;
}

const Json* find_quantity_of(const Json& answer, const std::string& words,
                             const std::string& unit) {
  const auto quantities = answer.find("quantities");
  if (quantities == answer.end()) return nullptr;
  for (const Json& quantity : *quantities) {
    if (text_at(quantity, "words") == words && text_at(quantity, "unit") == unit) return &quantity;
  }
  return nullptr;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string with_commas(const std::vector<std::string>& words) {
  return joined(words, ", ");
}

std::string with_semicolons(const std::vector<std::string>& words) {
  return joined(words, "; ");
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t k = 0; k < words.size(); ++k)
    text += (k == 0 ? "" : k + 1 == words.size() ? " and " : ", ") + words[k];
  return text;
}

}  // namespace axlewright
