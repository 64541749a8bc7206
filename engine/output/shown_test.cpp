#include "engine/output/shown.h"

#include <gtest/gtest.h>

namespace axlewright {
namespace {

ShownQuantity walk(bool inches) {
  return shown_quantity({{"name", "axle_walk_side_mm"},
                         {"words", "axle walk, sideways"},
                         {"unit", "mm"},
                         {"positive", "to the left"},
                         {"negative", "to the right"}},
                        inches);
}

TEST(ShownNumbers, TheSignIsInWords) {
  EXPECT_EQ(cell_text(walk(false), 12.44, 1), "12.4 left");
  EXPECT_EQ(cell_text(walk(false), -53.66, 1), "53.7 right");
  EXPECT_EQ(value_text(walk(false), -53.66), "53.7 mm right");
}

TEST(ShownNumbers, WhatRoundsToNothingHasNoSide) {
  EXPECT_EQ(cell_text(walk(false), -0.04, 1), "0.0");
  EXPECT_EQ(cell_text(walk(false), 0, 1), "0.0");
  EXPECT_EQ(cell_text(walk(false), -0.051, 1), "0.1 right");
}

TEST(ShownNumbers, WithoutWordsForTheSignThereIsAMinus) {
  const ShownQuantity ratio = shown_plain("steering ratio", "to 1", false);
  EXPECT_EQ(cell_text(ratio, -16.5, 2), "-16.50");
  EXPECT_EQ(cell_text(ratio, -0.001, 2), "0.00");
}

TEST(ShownNumbers, NothingIsADash) {
  EXPECT_EQ(cell_text(walk(false), std::nullopt, 1), "-");
  EXPECT_EQ(number_at(Json{{"a", nullptr}}, "a"), std::nullopt);
  EXPECT_EQ(number_at(Json::object(), "a"), std::nullopt);
}

// One inch is 25.4 mm exactly (ISO 31-1, Annex; the international yard and pound agreement of 1959).
TEST(ShownNumbers, LengthsTurnIntoInches) {
  EXPECT_EQ(value_text(walk(true), 25.4), "1.00 in left");
  EXPECT_EQ(value_text(walk(true), -254), "10.00 in right");
}

// 0.25 deg per 25 mm is 0.01 deg per mm, and so 0.254 deg per inch.
TEST(ShownNumbers, BumpSteerTurnsIntoDegreesPerInch) {
  const ShownQuantity bump =
      shown_plain("bump steer", "deg per 25 mm", true, "to the left", "to the right");
  EXPECT_EQ(value_text(bump, 0.25), "0.254 deg per inch left");
  EXPECT_EQ(value_text(shown_plain("bump steer", "deg per 25 mm", false), 0.25),
            "0.250 deg per 25 mm");
}

TEST(ShownNumbers, SidesAreShort) {
  const ShownQuantity pad = shown_plain("pad", "mm", false, "above the road", "below the road");
  EXPECT_EQ(cell_text(pad, -3, 1), "3.0 below");
  const ShownQuantity caster = shown_plain("caster", "deg", false, "top back", "top forward");
  EXPECT_EQ(cell_text(caster, 5, 2), "5.00 top back");
}

TEST(ShownNumbers, AnglesLoseADecimalFromTenDegreesOn) {
  const ShownQuantity angle = shown_plain("caster", "deg", false);
  EXPECT_EQ(value_text(angle, 9.994), "9.99 deg");
  EXPECT_EQ(value_text(angle, 10.04), "10.0 deg");
}

}  // namespace
}  // namespace axlewright
