#include "engine/base/quantity_text.h"

#include <numbers>

#include <gtest/gtest.h>

namespace axlewright {

// The sums below are of two or three roundings [m, rad].
constexpr double kRounding = 1e-13;
constexpr double kDegree = std::numbers::pi / 180;

TEST(QuantityText, ReadsLengths) {
  struct Row {
    const char* text;
    double metres;
  };
  // An inch is 25.4 mm exactly.
  const std::vector<Row> rows{{"902 mm", 0.902},
                              {"35.5 in", 0.9017},
                              {"35 1/2 in", 0.9017},
                              {"90.2 cm", 0.902},
                              {"0.9 m", 0.9},
                              {"2 ft 3 in", 0.6858},
                              {"+10mm", 0.010},
                              {"-10 mm", -0.010},
                              {" 1/2 in ", 0.0127},
                              {"2' 3 1/4\"", 0.69215},
                              {"- 2 ft 3 in", -0.6858},
                              {".5in", 0.0127},
                              {"1e3 mm", 1.0},
                              {"3 feet", 0.9144},
                              {"1 inch", 0.0254},
                              {"1 m 20 cm 3 mm", 1.203},
                              {"0 mm", 0}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.text);
    const auto quantity = read_quantity(row.text);
    ASSERT_TRUE(quantity) << quantity.error().what;
    EXPECT_EQ(quantity->kind, UnitKind::length);
    EXPECT_NEAR(quantity->value, row.metres, kRounding);
  }
}

TEST(QuantityText, ReadsAngles) {
  struct Row {
    const char* text;
    double degrees;
  };
  const std::vector<Row> rows{
      {"4 deg", 4},    {"4 deg 30 min", 4.5}, {"-4 deg 30 min", -4.5},     {"3 turns", 1080},
      {"1 turn", 360}, {"6 min", 0.1},        {"12\u00b0 30\u2032", 12.5}, {"2.5 degrees", 2.5}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.text);
    const auto quantity = read_quantity(row.text);
    ASSERT_TRUE(quantity) << quantity.error().what;
    EXPECT_EQ(quantity->kind, UnitKind::angle);
    EXPECT_NEAR(quantity->value, row.degrees * kDegree, kRounding);
  }
  EXPECT_NEAR(read_quantity("0.07 rad")->value, 0.07, kRounding);
}

TEST(QuantityText, SaysWhatIsWrongAndWhere) {
  struct Row {
    const char* text;
    const char* what;
    std::size_t begin, length;
  };
  const std::vector<Row> rows{
      {"", "there is no number", 0, 1},
      {"  ", "there is no number", 1, 1},
      {"+", "there is no number", 0, 1},
      {"mm", "a number is missing here", 0, 2},
      {"nan mm", "a number is missing here", 0, 6},
      {"inf mm", "a number is missing here", 0, 6},
      {"1e999 mm", "a number is missing here", 0, 8},
      {"902", "a unit is missing after the number", 0, 3},
      {"902 mm 3", "a unit is missing after the number", 7, 1},
      {"902 m m", "a number is missing here", 6, 1},
      {"902 milli", "no unit is called 'milli'", 4, 5},
      {"9 degre", "no unit is called 'degre'", 2, 5},
      {"35,5 in", "a comma stands in the number", 2, 1},
      {"35 1/0 in", "this is no fraction", 3, 3},
      {"35 3/2 in", "this is no fraction", 3, 3},
      {"35.5 1/2 in", "this is no fraction", 5, 3},
      {"1/ in", "this is no fraction", 0, 2},
      {"35 1234567890/2 in", "this is no fraction", 3, 12},
      {"2 in 3 ft", "'ft' follows 'in'", 5, 4},
      {"2 in 3 in", "'in' follows 'in'", 5, 4},
      {"2 in 3 deg", "a length and an angle are mixed", 5, 5},
      {"2 ft -3 in", "a number is missing here", 5, 5},
      {"1e308 turns", "the number is too large", 0, 11},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.text);
    const auto quantity = read_quantity(row.text);
    ASSERT_FALSE(quantity);
    EXPECT_EQ(quantity.error().what, row.what);
    EXPECT_EQ(quantity.error().begin, row.begin);
    EXPECT_EQ(quantity.error().length, row.length);
    EXPECT_FALSE(quantity.error().fix.empty());
  }
  EXPECT_EQ(read_quantity("9 degre").error().fix, "did you mean 'degree'?");
}

TEST(QuantityText, TellsHowItIsSpelled) {
  const auto quantity = read_quantity("+2 ft 3 1/4 in");
  ASSERT_TRUE(quantity);
  EXPECT_TRUE(quantity->explicit_sign);
  ASSERT_EQ(quantity->terms.size(), 2u);
  EXPECT_EQ(quantity->terms[1].number_begin, 6u);
  EXPECT_EQ(quantity->terms[1].number_end, 11u);
  EXPECT_TRUE(quantity->terms[1].fraction);
  EXPECT_EQ(quantity->terms[0].spelled, "ft");
}

}  // namespace axlewright
