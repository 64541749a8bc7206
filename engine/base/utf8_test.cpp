#include "engine/base/utf8.h"

#include <gtest/gtest.h>

namespace axlewright {

// The borders of the well-formed byte sequences: The Unicode Standard, table 3-7.
TEST(Utf8, KnowsTheBordersOfEverySequence) {
  for (const char* good :
       {"a", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80",
        "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf"}) {
    EXPECT_EQ(utf8_sequence_length(good), std::string_view(good).size());
  }
  for (const char* bad : {"", "\x80", "\xc1\xbf", "\xc2",
                          "\xc2"
                          "a",
                          "\xe0\x9f\xbf", "\xed\xa0\x80", "\xe2\x82", "\xf0\x8f\xbf\xbf",
                          "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff"}) {
    EXPECT_EQ(utf8_sequence_length(bad), 0u);
  }
}

TEST(Utf8, WhatBelongsNowhereIsReplacedByteForByte) {
  EXPECT_TRUE(
      is_utf8("Stra\xc3\x9f"
              "e"));
  EXPECT_FALSE(
      is_utf8("Stra\xdf"
              "e"));
  EXPECT_EQ(valid_utf8("a\xff\xc3\xa4\xe2"), "a\xef\xbf\xbd\xc3\xa4\xef\xbf\xbd");
  EXPECT_EQ(count_code_points("a\xc3\xa4\xe2\x86\x90"), 3);
}

}  // namespace axlewright
