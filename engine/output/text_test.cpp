#include "engine/output/text.h"

#include <gtest/gtest.h>

#include "engine/output/text_table.h"

namespace axlewright {
namespace {

using Lines = std::vector<std::string>;

// Four letters of five bytes each way: what counts is what is seen.
constexpr const char* kBevel = "\xC3\x9F\xE2\x97\x8F\xC3\xA4t";

TEST(TerminalText, WidthCountsCodePointsNotBytes) {
  EXPECT_EQ(text_width(kBevel), 4);
  EXPECT_EQ(padded_right(kBevel, 6), std::string(kBevel) + "  ");
  EXPECT_EQ(padded_left(kBevel, 6), "  " + std::string(kBevel));
  EXPECT_EQ(wrapped(std::string(kBevel) + " ab", 7), (Lines{std::string(kBevel) + " ab"}));
}

TEST(TerminalText, WrapsBetweenWords) {
  EXPECT_EQ(wrapped("the axle  walks\nleft", 9), (Lines{"the axle", "walks", "left"}));
  EXPECT_EQ(wrapped("", 9), (Lines{""}));
}

TEST(TerminalText, ANumberStaysWithItsUnit) {
  EXPECT_EQ(wrapped("it walks 12.4 mm, more", 13), (Lines{"it walks", "12.4 mm, more"}));
  EXPECT_EQ(wrapped("up to 3 trucks", 7), (Lines{"up to 3", "trucks"}));
}

TEST(TerminalText, CutsAWordThatIsLongerThanALine) {
  EXPECT_EQ(wrapped("a bbbbbbb c", 4), (Lines{"a", "bbbb", "bbb", "c"}));
  EXPECT_EQ(wrapped(std::string(kBevel) + kBevel, 4), (Lines{kBevel, kBevel}));
}

TEST(TerminalText, ANameCannotSteerTheTerminal) {
  EXPECT_EQ(printable("a\x1b[31mb\nc\x7f\xC2\x9B"
                      "d"),
            "a [31mb c  d");
  EXPECT_EQ(printable("\xC3\x28"), "\xEF\xBF\xBD(");
  EXPECT_EQ(printable(kBevel), kBevel);
}

TEST(TerminalText, ColourIsAddedAroundTheTextAlone) {
  EXPECT_EQ(inked("broken", Ink::alarm, false), "broken");
  EXPECT_EQ(inked("broken", Ink::alarm, true), "\x1b[1;31mbroken\x1b[0m");
  EXPECT_EQ(inked("met", Ink::plain, true), "met");
}

TEST(TextTable, DecimalPointsStandUnderEachOther) {
  TextTable table({{{"what"}}, {{"deg"}, Alignment::point}});
  table.row({{"a"}, {"53.7 left"}});
  table.row({{"b"}, {"-0.25"}});
  table.row({{"c"}, {"-"}});
  table.row({{"d"}, {"120"}});
  EXPECT_EQ(table.lines(false),
            (Lines{"what  deg", "a      53.7 left", "b      -0.25", "c       -", "d     120"}));
}

TEST(TextTable, ColumnsCountCodePoints) {
  TextTable table({{{"name"}}, {{"n"}, Alignment::right}});
  table.row({{kBevel}, {"1"}});
  table.row({{"abcd"}, {"2"}});
  EXPECT_EQ(table.lines(false), (Lines{"name  n", std::string(kBevel) + "  1", "abcd  2"}));
}

TEST(TextTable, AWideCellWrapsWithinItsRow) {
  TextTable table({{{"joint"}, Alignment::left, 2, 0, 8}, {{"mm"}, Alignment::point}});
  table.row({{"upper link"}, {"1.0"}});
  EXPECT_EQ(table.lines(false), (Lines{"joint  mm", "upper  1.0", "link"}));
}

TEST(TextTable, ASpanTakesNoColumnsWidth) {
  TextTable table({{{"a"}}, {{"b"}}});
  table.span("over the whole grid");
  table.row({{"1"}, {"2"}});
  EXPECT_EQ(table.lines(false), (Lines{"a  b", "over the whole grid", "1  2"}));
}

TEST(Page, WhatIsUnderAHeadingIsIndented) {
  Page page{PrintStyle{}};
  page.heading("Limits", "of the file");
  page.item("met", "walk", 5);
  page.paragraph("end");
  EXPECT_EQ(page.take(), "Limits  of the file\n  met  walk\n\nend\n");
}

}  // namespace
}  // namespace axlewright
