#include "engine/output/height_table.h"

#include <gtest/gtest.h>

#include "engine/output/answers_test.h"

namespace axlewright {
namespace {

const std::string kMark = "\xE2\x97\x8F";
const std::string kZero = "\xE2\x94\x82";

TEST(HeightStrip, TheMarkStandsBetweenTheEnds) {
  EXPECT_EQ(strip_row({0, 8}, 0), kMark + "        ");
  EXPECT_EQ(strip_row({0, 8}, 4), kZero + "   " + kMark + "    ");
  EXPECT_EQ(strip_row({0, 8}, 8), kZero + "       " + kMark);
}

TEST(HeightStrip, ZeroIsDrawnOnlyWhereTheSpanHoldsIt) {
  EXPECT_EQ(strip_row({-4, 4}, 4), "    " + kZero + "   " + kMark);
  EXPECT_EQ(strip_row({3, 11}, 3), kMark + "        ");
  EXPECT_EQ(strip_row({-4, 4}, std::nullopt), "    " + kZero + "    ");
}

std::string table_of(const std::vector<HeightColumn>& columns, const Json& heights,
                     Scale scale = Scale::each_its_own) {
  Page page{PrintStyle{}};
  print_over_heights(page, heights, false, columns, scale);
  return page.take();
}

TEST(HeightTable, WhatIsLeftStandsAtTheLeftOfItsStrip) {
  const HeightColumn walk{
      "walk", shown_plain("", "mm", false, "to the left", "to the right"), {-5.0, 0.0, 5.0}};
  const auto lines = testing::lines_in(table_of({walk}, {0, 100, 200}));
  ASSERT_EQ(lines.size(), 5u);
  EXPECT_EQ(lines[1], "      mm  mm");
  EXPECT_EQ(lines[2], "       0  5.0 right     " + kZero + "   " + kMark);
  EXPECT_EQ(lines[3], "     100  0.0           " + kMark);
  EXPECT_EQ(lines[4], "     200  5.0 left  " + kMark + "   " + kZero);
}

TEST(HeightTable, OneSideIsToldByTheHeadingAndLargerStandsFurtherRight) {
  const HeightColumn back{
      "walk", shown_plain("", "mm", false, "forward", "back"), {0.0, -1.0, -12.0}};
  const auto lines = testing::lines_in(table_of({back}, {0, 1, 2}));
  EXPECT_EQ(lines[1], "      mm  mm back");
  EXPECT_EQ(lines[2], "       0   0.0 " + kMark);
  EXPECT_EQ(lines[4], "       2  12.0 " + kZero + "       " + kMark);
}

TEST(HeightTable, ARowWithoutAPoseHasDashes) {
  const HeightColumn walk{"walk", shown_plain("", "mm", false), {1.0, std::nullopt, 2.0}};
  EXPECT_FALSE(is_steady(walk));
  EXPECT_EQ(testing::lines_in(table_of({walk}, {0, 1, 2}))[3], "       1  -");
}

TEST(HeightTable, ColumnsOfOneScaleShareTheirStrip) {
  const ShownQuantity angle = shown_plain("", "deg", false, "to the left", "to the right");
  const std::string text =
      table_of({{"a", angle, {0.0, 8.0}}, {"b", angle, {0.0, 4.0}}}, {0, 1}, Scale::one_for_all);
  EXPECT_EQ(testing::lines_in(text).back(),
            "       1  8.00 " + kMark + "       " + kZero + "  4.00     " + kMark + "   " + kZero);
}

TEST(HeightTable, TooManyColumnsGoIntoTablesOfAboutOneSize) {
  std::vector<HeightColumn> columns;
  for (int c = 0; c < 6; ++c)
    columns.push_back({"column", shown_plain("", "mm", false), {1.0 * c, 2.0}});
  std::vector<int> wide;
  for (const std::string& line : testing::lines_in(table_of(columns, {0, 1}))) {
    EXPECT_LE(text_width(line), 80);
    if (line.find("height") == std::string::npos) continue;
    int count = 0;
    for (std::size_t at = 0; (at = line.find("column", at)) != std::string::npos; ++at) ++count;
    wide.push_back(count);
  }
  EXPECT_EQ(wide, (std::vector<int>{3, 3}));
}

TEST(HeightTable, AColumnIsSteadyIfAllItsRowsReadTheSame) {
  const ShownQuantity angle = shown_plain("", "deg", false, "in", "out");
  EXPECT_TRUE(is_steady({"toe", angle, {1e-9, -1e-9, 0.004}}));
  EXPECT_FALSE(is_steady({"toe", angle, {0.0, 0.006}}));
  EXPECT_EQ(steady_text({"toe", angle, {-0.25, -0.25}}), "0.25 deg out");
}

}  // namespace
}  // namespace axlewright
