#include "engine/output/csv.h"

#include <algorithm>
#include <cstdlib>

#include <gtest/gtest.h>

#include "engine/base/number.h"
#include "engine/output/answers_test.h"

namespace axlewright {
namespace {

using Table = std::vector<std::vector<std::string>>;

/// Reads RFC 4180, section 2, and nothing looser: CR LF, quotes doubled within quotes.
Table parsed(const std::string& csv) {
  Table table;
  std::size_t at = 0;
  while (at < csv.size()) {
    table.emplace_back();
    for (bool more = true; more;) {
      std::string field;
      if (csv[at] == '"') {
        for (++at;; ++at) {
          if (csv[at] == '"' && csv[at + 1] == '"')
            ++at;
          else if (csv[at] == '"')
            break;
          field += csv[at];
        }
        ++at;
      } else {
        while (csv[at] != ',' && csv[at] != '\r') field += csv[at++];
        EXPECT_EQ(field.find_first_of("\"\n"), std::string::npos) << field;
      }
      table.back().push_back(field);
      more = csv[at] == ',';
      at += more ? 1 : 0;
    }
    EXPECT_EQ(csv.substr(at, 2), "\r\n");
    at += 2;
  }
  return table;
}

std::size_t column(const Table& table, const std::string& name) {
  const auto found = std::find(table[0].begin(), table[0].end(), name);
  EXPECT_NE(found, table[0].end()) << name;
  return static_cast<std::size_t>(found - table[0].begin());
}

/// Every row has as many fields as the first.
void expect_rectangle(const Table& table) {
  for (const auto& row : table) EXPECT_EQ(row.size(), table.front().size());
}

TEST(Csv, ASweepReadsBackToTheSameNumbers) {
  const Json sweep = testing::sweep_of("half-converted");
  const Table table = parsed(answer_csv(sweep));
  expect_rectangle(table);
  ASSERT_EQ(table.size(), 1 + sweep["rows"].size());
  EXPECT_EQ(table[0][0], "height_mm");
  for (std::size_t r = 0; r < sweep["rows"].size(); ++r) {
    for (const auto& [name, value] : sweep["rows"][r]["values"].items()) {
      const std::string& field = table[r + 1][column(table, name)];
      if (value.is_null()) {
        EXPECT_EQ(field, "") << name;
      } else {
        EXPECT_EQ(read_number(field), value.get<double>()) << name << " " << field;
      }
    }
  }
}

TEST(Csv, APoseHasALineForEachQuantity) {
  const Json pose = testing::answer_to(
      {{"ask", "pose"}, {"file", testing::example_file("guided")}, {"height_mm", 100}});
  const Table table = parsed(answer_csv(pose));
  expect_rectangle(table);
  EXPECT_EQ(table[0], (std::vector<std::string>{"name", "value", "unit", "words"}));
  ASSERT_EQ(table.size(), 1 + pose["quantities"].size());
  for (std::size_t q = 0; q < pose["quantities"].size(); ++q) {
    EXPECT_EQ(table[q + 1][3], pose["quantities"][q]["words"]);  // "caster, left": a comma inside
    EXPECT_EQ(table[q + 1][2], pose["quantities"][q]["unit"]);
  }
}

TEST(Csv, AComparisonHasTheTruckInFront) {
  const Json answer = testing::answer_to(
      {{"ask", "compare"},
       {"files", {testing::example_file("plain-parallel"), testing::example_file("guided")}},
       {"heights", 3}});
  const Table table = parsed(answer_csv(answer));
  expect_rectangle(table);
  ASSERT_EQ(table.size(), 7u);
  EXPECT_EQ(table[0][0], "truck");
  EXPECT_EQ(table[1][0], "Plain bars, parallel");
  EXPECT_EQ(table[6][0], "Guided bars");
  // A drag link only one of them has: an empty field for the other.
  const std::size_t drag_link = column(table, "length.drag_link_mm");
  EXPECT_NE(table[1][drag_link], "");
  EXPECT_EQ(table[6][drag_link], "");
}

TEST(Csv, SetupAndCheckReadBack) {
  const Json setup = testing::answer_to(
      {{"ask", "setup"}, {"file", testing::example_file("plain-parallel")}, {"heights", 3}});
  const Table lengths = parsed(answer_csv(setup));
  expect_rectangle(lengths);
  ASSERT_EQ(lengths.size(), 4u);
  EXPECT_EQ(read_number(lengths[1][column(lengths, "length_then.drag_link_mm")]),
            setup["adjustments"][1]["length_then_mm"].get<double>());
  const Json check =
      testing::answer_to({{"ask", "check"}, {"file", testing::example_file("guided")}});
  const Table margins = parsed(answer_csv(check));
  expect_rectangle(margins);
  ASSERT_EQ(margins.size(), 1 + check["margins"].size());
  for (std::size_t m = 0; m < check["margins"].size(); ++m) {
    const Json& margin = check["margins"][m];
    EXPECT_EQ(read_number(margins[m + 1][column(margins, "margin")]), margin["margin"]);
    for (const char* key : {"input", "unit", "by", "what_ran_out", "how_it_ran_out"})
      EXPECT_EQ(margins[m + 1][column(margins, key)], margin[key]) << key;
  }
}

TEST(Csv, QuotesAreDoubled) {
  const Json pose{{"ask", "pose"},
                  {"quantities", {{{"name", "a\"b"}, {"unit", ""}, {"words", "x,\ny"}}}},
                  {"values", {{"a\"b", -0.5}}}};
  EXPECT_EQ(answer_csv(pose), "name,value,unit,words\r\n\"a\"\"b\",-0.5,,\"x,\ny\"\r\n");
}

TEST(Csv, APoseThatCannotBeHadHasEmptyFields) {
  const Json sweep{{"ask", "sweep"},
                   {"quantities", {{{"name", "toe_deg"}}}},
                   {"rows", {{{"height_mm", 10.0}, {"report", {{"outcome", "bound"}}}}}}};
  EXPECT_EQ(answer_csv(sweep), "height_mm,outcome,toe_deg\r\n10,bound,\r\n");
}

}  // namespace
}  // namespace axlewright
