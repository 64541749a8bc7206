// Parts that turn on a pin: four-bars, relays and guided bars on rockers, as the reader takes them and complains of them.

#include <gtest/gtest.h>

#include "engine/truck/fault_rows_test.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {

namespace {

using sample::Row;

const std::string& text_with_linkages() {
  static const std::string text = std::string(sample::kTruck) + R"(
[points.four_pivot]
on = "axle"
at = [-200, 0, 560]
[points.four_pivot_front]
on = "axle"
at = [-100, 0, 565]
[points.four_top]
on = "four_crank"
at = [-200, 0, 650]
[points.four_bottom]
on = "four_crank"
at = [-200, 0, 470]
[points.four_frame_left]
on = "frame"
at = [-200, 430, 650]
[points.four_frame_right]
on = "frame"
at = [-200, -430, 470]

[parts.four]
kind = "four-bar"
upper_arm = ["four_frame_left", "four_top"]
lower_arm = ["four_frame_right", "four_bottom"]
pivot = "four_pivot"
axis = ["four_pivot", "four_pivot_front"]

[points.relay_low]
on = "frame"
at = [300, -400, 560]
[points.relay_high]
on = "frame"
at = [300, -400, 690]

[parts.relay]
kind = "relay"
axis = ["relay_low", "relay_high"]

[points.swing_near]
on = "frame"
at = [-300, 400, 620]
[points.swing_pivot]
on = "axle"
at = [-300, 400, 500]
[points.swing_middle]
on = "swing_through"
at = [-300, 0, 560]
[points.swing_end]
on = "swing_rocker"
at = [-300, -400, 500]
[points.swing_rocker_pivot]
on = "axle"
at = [-300, -400, 300]

[parts.swing]
kind = "guided bar"
near_end = "swing_near"
guide_end = "swing_end"
middle = "swing_middle"
pivot = "swing_pivot"
carriage = "rocker"
rocker_pivot = "swing_rocker_pivot"
rocker_axis = [1, 0, 0]
guide = [0, 1, 0]

[limits.crank_turn]
quantity = "turn.four_crank"
max = 60
[limits.rocker_turn]
quantity = "turn.swing_rocker"
max = 60
[limits.relay_turn]
quantity = "turn.relay"
max = 60
[limits.arm_slope]
quantity = "front_angle.four_upper_arm"
max = 30
[limits.path]
quantity = "near_end_offset.swing"
max = 3
)";
  return text;
}

template <class T>
T part(const Truck& truck, const std::string& name) {
  for (const Part& one : truck.parts) {
    if (one.name == name) return std::get<T>(one.what);
  }
  ADD_FAILURE() << "no part " << name;
  return {};
}

}  // namespace

TEST(Linkages, AreRead) {
  const Result<Truck> truck = sample::read(text_with_linkages());
  ASSERT_TRUE(truck) << sample::all_of(truck.error());
  EXPECT_EQ(sample::all_of(truck->warnings), "");
  const auto four = part<FourBar>(*truck, "four");
  EXPECT_EQ(four.upper_arm[1], "four_top");
  EXPECT_EQ(four.lower_arm[0], "four_frame_right");
  EXPECT_EQ(four.axis.to, "four_pivot_front");
  EXPECT_EQ(four.carries, "axle");
  EXPECT_EQ(part<Relay>(*truck, "relay").carries, "frame");
  const auto swing = part<GuidedBar>(*truck, "swing");
  EXPECT_EQ(swing.carriage, Carriage::rocker);
  EXPECT_EQ(swing.rocker_pivot, "swing_rocker_pivot");
  EXPECT_EQ(swing.rocker_axis.fixed, Vec3(Vec3::UnitX()));
  EXPECT_EQ(swing.guide.fixed, Vec3(Vec3::UnitY()));
}

// The pivot may ride on the crank: then the file says what carries it.
TEST(Linkages, FourBarMayNameWhatCarriesItsCrank) {
  std::string text = sample::changed_in(text_with_linkages(), "[points.four_pivot]\non = \"axle\"",
                                        "[points.four_pivot]\non = \"four_crank\"");
  text = sample::changed_in(text, "axis = [\"four_pivot\", \"four_pivot_front\"]",
                            "axis = [1, 0, 0]\ncarries = \"axle\"");
  text =
      sample::changed_in(text, "[points.four_pivot_front]\non = \"axle\"\nat = [-100, 0, 565]", "");
  const Result<Truck> truck = sample::read(text);
  ASSERT_TRUE(truck) << sample::all_of(truck.error());
  EXPECT_EQ(part<FourBar>(*truck, "four").carries, "axle");
}

TEST(LinkageFaults, OfFourBars) {
  const std::string arm = "[\"four_frame_left\", \"four_top\"]";
  const std::vector<Row> rows{
      {"kind = \"four-bar\"", "kind = \"four bar\"", "\"four bar\"",
       "no 'kind' is called 'four bar'", "did you mean 'four-bar'?", 3},
      {"pivot = \"four_pivot\"\n", "", "four", "[parts.four] has no 'pivot'", "pivot = \"POINT\""},
      {"axis = [\"four_pivot\", \"four_pivot_front\"]", "", "four", "[parts.four] has no 'axis'",
       "or [x, y, z]"},
      {"upper_arm = " + arm, "", "four", "[parts.four] has no 'upper_arm'",
       "[\"POINT\", \"POINT\"]"},
      {arm, "[\"four_top\", \"four_frame_left\"]", "[\"four_top\", \"four_frame_left\"]",
       "the outer end 'four_top' of 'upper_arm' rides on four_crank: the arm holds nothing",
       "the end on the other body first", 2},
      {"[points.four_frame_left]\non = \"frame\"", "[points.four_frame_left]\non = \"axle\"", arm,
       "the outer end 'four_frame_left' of 'upper_arm' rides on axle", "the other body"},
      {"[points.four_top]\non = \"four_crank\"", "[points.four_top]\non = \"frame\"", arm,
       "'four_top' of 'upper_arm' rides on frame", "let it ride on 'four_crank'"},
      {"at = [-200, 430, 650]", "at = [-200, 10, 650]", arm,
       "'four_frame_left' and 'four_top' are 10 mm apart, out of reason for a bar", "20 mm"},
      {"at = [-200, 0, 650]", "at = [-200, 0, 560]", arm,
       "the crank, at 'upper_arm', has no length", "1 mm apart", 2},
      {"[points.four_pivot]\non = \"axle\"", "[points.four_pivot]\non = \"four_crank\"", "four",
       "the crank's pivot rides on the crank alone", "add carries = \"BODY\"", 2},
      {"pivot = \"four_pivot\"\n", "pivot = \"four_pivot\"\ncarries = \"frame\"\n",
       "\"four_pivot\"", "'four_pivot' of 'pivot' rides on axle", "'frame' or 'four_crank'", 4},
      {"[parts.four]", "[bodies.four_crank]\n[parts.four]", "four_crank",
       "a second body is called 'four_crank': [parts.four] makes it", "another name"},
  };
  for (const Row& row : rows) sample::expect_row(text_with_linkages(), row);
}

TEST(LinkageFaults, OfRelays) {
  const std::string axis = "[\"relay_low\", \"relay_high\"]";
  const std::vector<Row> rows{
      {"axis = " + axis, "", "relay", "[parts.relay] has no 'axis'", "[\"POINT\", \"POINT\"]"},
      {"[points.relay_low]\non = \"frame\"", "[points.relay_low]\non = \"relay\"", axis,
       "the relay's axis rides on the relay itself", "on = \"axle\""},
      {"[points.relay_high]\non = \"frame\"", "[points.relay_high]\non = \"axle\"", axis,
       "'relay_high' of 'axis' rides on axle", "let it ride on 'frame'"},
      {"at = [300, -400, 690]", "at = [300, -400, 560]", axis, "the relay's axis has no length",
       "1 mm apart", 2},
      {"quantity = \"turn.relay\"", "quantity = \"turn.bar\"", "\"turn.bar\"",
       "nothing called 'bar' has a turn", "'four_crank', 'relay' and 'swing_rocker'"},
  };
  for (const Row& row : rows) sample::expect_row(text_with_linkages(), row);
}

TEST(LinkageFaults, OfRockers) {
  const std::vector<Row> rows{
      {"rocker_pivot = \"swing_rocker_pivot\"", "", "swing", "[parts.swing] has no 'rocker_pivot'",
       "rocker_pivot = \"POINT\""},
      {"rocker_axis = [1, 0, 0]", "", "swing", "[parts.swing] has no 'rocker_axis'",
       "or [x, y, z]"},
      {"rocker_axis = [1, 0, 0]", "rocker_axis = [0, 0, 0]", "[0, 0, 0]",
       "'rocker_axis' points nowhere", "not all zero"},
      {"guide = [0, 1, 0]", "", "swing", "[parts.swing] has no 'guide'", "or [x, y, z]"},
      {"carriage = \"rocker\"", "carriage = \"rocking\"", "\"rocking\"",
       "no 'carriage' is called 'rocking'", "'point', 'slide' or 'rocker'", 2},
      {"carriage = \"rocker\"", "carriage = \"slide\"", "\"swing_rocker_pivot\"",
       "'rocker_pivot' belongs to a guided bar on a rocker", "say carriage = \"rocker\"", 4},
      {"at = [-300, -400, 300]", "at = [-300, -400, 500]", "swing", "the rocker has no length",
       "1 mm apart", 2},
      {"[points.swing_end]\non = \"swing_rocker\"", "[points.swing_end]\non = \"axle\"",
       "\"swing_end\"", "'swing_end' of 'guide_end' rides on axle",
       "'swing_through' or 'swing_rocker'"},
      {"[points.swing_rocker_pivot]\non = \"axle\"", "[points.swing_rocker_pivot]\non = \"frame\"",
       "\"swing_rocker_pivot\"", "'swing_rocker_pivot' of 'rocker_pivot' rides on frame",
       "'axle' or 'swing_rocker'"},
      {"quantity = \"near_end_offset.swing\"", "quantity = \"near_end_offset.four\"",
       "\"near_end_offset.four\"", "nothing called 'four' has a near_end_offset",
       "'steer' and 'swing'"},
      {"quantity = \"front_angle.four_upper_arm\"", "quantity = \"front_angle.four\"",
       "\"front_angle.four\"", "nothing called 'four' has a front_angle", "'four_upper_arm'"},
  };
  for (const Row& row : rows) sample::expect_row(text_with_linkages(), row);
}

}  // namespace axlewright
