#include "engine/base/number.h"

#include <clocale>

#include <gtest/gtest.h>

namespace axlewright {

TEST(Number, ReadsTheWholeTextOrNothing) {
  EXPECT_EQ(read_number("12.5"), 12.5);
  EXPECT_EQ(read_number("-12.5e1"), -125.0);
  EXPECT_EQ(read_number("+.5"), 0.5);
  for (const char* text :
       {"", "-", ".", "1 ", " 1", "1,5", "--1", "nan", "inf", "0x10", "1e999", "1mm"}) {
    EXPECT_FALSE(read_number(text)) << text;
  }
}

TEST(Number, APrefixEndsWhereTheNumberDoes) {
  EXPECT_EQ(read_number_prefix("35.5in")->length, 4u);
  EXPECT_EQ(read_number_prefix("35.5in")->value, 35.5);
  EXPECT_FALSE(read_number_prefix("-3"));
}

TEST(Number, TheLocaleChangesNothing) {
  // Where a German locale is not installed this shows nothing, and harms nothing.
  const std::string before = std::setlocale(LC_ALL, nullptr);
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_EQ(read_number("12.5"), 12.5);
  EXPECT_EQ(decimal_text(12.5, 0, 3), "12.5");
  std::setlocale(LC_ALL, before.c_str());
}

TEST(Number, DecimalsAreRoundedAndZerosDropped) {
  EXPECT_EQ(decimal_text(512, 0, 3), "512");
  EXPECT_EQ(decimal_text(512.12345, 0, 3), "512.123");
  EXPECT_EQ(decimal_text(512.1, 2, 3), "512.10");
  EXPECT_EQ(decimal_text(500, 0, 0), "500");
  EXPECT_EQ(decimal_text(-0.0001, 0, 3), "0");
  EXPECT_EQ(decimal_text(-0.0001, 1, 3), "0.0");
}

}  // namespace axlewright
