#include "engine/truck/read.h"

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/truck/fault_text.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {

namespace {

/// One or two roundings of a decimal fraction away from the number that was typed [m, rad].
constexpr double kTyped = 1e-12;

std::string told(const Result<Truck>& truck) {
  std::string text;
  if (!truck) {
    for (const Fault& fault : truck.error()) text += text_of(fault);
  }
  return text;
}

const Point& point(const Truck& truck, const std::string& name) {
  for (const Point& p : truck.points) {
    if (p.name == name) return p;
  }
  ADD_FAILURE() << "no point " << name;
  return truck.points.front();
}

template <class T>
const T& part(const Truck& truck, const std::string& name) {
  for (const Part& p : truck.parts) {
    if (p.name == name) return std::get<T>(p.what);
  }
  ADD_FAILURE() << "no part " << name;
  return std::get<T>(truck.parts.front().what);
}

}  // namespace

TEST(ReadTruck, TakesEveryKindOfEntry) {
  const auto truck = sample::read(sample::kTruck);
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(truck->name, "Sample");
  EXPECT_FALSE(truck->inches);
  EXPECT_NEAR(truck->wheelbase, 4.060, kTyped);
  EXPECT_NEAR(truck->height_range[0], -0.110, kTyped);
  EXPECT_NEAR(truck->aligned_height, 0.010, kTyped);
  EXPECT_NEAR(truck->lean, from_deg(5), kTyped);
  EXPECT_EQ(truck->parts.size(), 10u);
  EXPECT_EQ(truck->joints.size(), 5u);
  EXPECT_EQ(truck->studs.size(), 2u);
  EXPECT_NEAR(truck->wheels.section, from_inch(12.5), kTyped);
  EXPECT_NEAR(truck->wheels.toe_in, from_deg(0.1), kTyped);
  ASSERT_EQ(truck->gear.ratio.size(), 2u);
  EXPECT_NEAR(truck->gear.ratio[1].wheel_angle, from_deg(360), kTyped);
  EXPECT_NEAR(truck->gear.stop_left, truck->gear.stop_right, kTyped);
  EXPECT_NEAR(truck->axle_stops.turn_right, from_deg(33), kTyped);
  EXPECT_NEAR(truck->travel.droop, 0.110, kTyped);
  ASSERT_EQ(truck->limits.size(), 2u);
  EXPECT_NEAR(*truck->limits[0].max, from_deg(3), kTyped);
  EXPECT_TRUE(truck->limits[1].over_grid);
  EXPECT_TRUE(truck->limits[1].held);
  EXPECT_TRUE(truck->warnings.empty());
}

TEST(ReadTruck, KeepsWordsAndChoicesOfParts) {
  const auto truck = sample::read(sample::kTruck);
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(part<Kingpin>(*truck, "kingpin_right").style, KingpinStyle::two_balls);
  EXPECT_FALSE(part<PitmanArm>(*truck, "pitman_arm").anticlockwise);
  EXPECT_EQ(part<GuidedBar>(*truck, "steer").half_link, HalfLink::pinned_body);
  EXPECT_NEAR(*part<Bar>(*truck, "bar").length, 0.9055, kTyped);
  EXPECT_NEAR(*part<Bar>(*truck, "bar").sleeve, 0.0015, kTyped);
  EXPECT_EQ(truck->parts[3].words, "bar");
  EXPECT_EQ(truck->parts[4].words, "lower link, left");
  EXPECT_EQ(truck->parts[5].words, "lower link, right");
  EXPECT_EQ(truck->bodies[0].words, "bell crank");
}

TEST(ReadTruck, KeepsTheOrderOfTheFile) {
  // The parser behind it sorts by name: wheel_left would come last.
  const auto truck = sample::read(sample::kTruck);
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(truck->points[0].name, "wheel_left");
  EXPECT_EQ(truck->points[1].name, "wheel_right");
  EXPECT_EQ(truck->points[2].name, "kingpin_low_left");
  EXPECT_EQ(truck->points[2].place.line, 15);
  EXPECT_EQ(truck->points[2].place.column, 1);
}

TEST(ReadTruck, MirrorTurnsYOverAndChangesSides) {
  const auto truck = sample::read(sample::kTruck);
  ASSERT_TRUE(truck) << told(truck);
  const Point &left = point(*truck, "lower_frame_left"),
              &right = point(*truck, "lower_frame_right");
  EXPECT_EQ(right.at.x(), left.at.x());
  EXPECT_EQ(right.at.y(), -left.at.y());
  EXPECT_EQ(right.at.z(), left.at.z());
  EXPECT_NEAR(right.at.z(), from_inch(18.75), kTyped);
  EXPECT_EQ(right.mirror_of, "lower_frame_left");
  EXPECT_EQ(right.on, "frame");
  EXPECT_EQ(point(*truck, "tie_rod_right").on, "knuckle_right");
  EXPECT_EQ(part<Kingpin>(*truck, "kingpin_right").upper, "kingpin_high_right");
  EXPECT_EQ(part<Bar>(*truck, "lower_right").ends[0], "lower_frame_right");
}

// Along a row of points, in whatever order the file has them, and on the other side in the mirror.
TEST(ReadTruck, PlacesMayCountFromOtherPoints) {
  const auto truck = sample::read(sample::changed(
      "lower_frame_left = { on = \"frame\", at = [-950, 450, \"18 3/4 in\"], mirror = true }",
      "lower_frame_left = { on = \"frame\", from = \"lower_axle_left\", at = [-900, 10, 76.25], "
      "mirror = true }"));
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_LT((point(*truck, "lower_frame_left").at - Vec3(-0.950, 0.460, 0.47625)).norm(), 1e-12);
  EXPECT_LT((point(*truck, "lower_frame_right").at - Vec3(-0.950, -0.460, 0.47625)).norm(), 1e-12);
  EXPECT_EQ(point(*truck, "lower_frame_right").from, "lower_axle_right");
  const auto row = sample::read(sample::changed(
      "bar_frame = { on = \"frame\", at = [150, 450, 620] }\nbar_axle = { on = \"axle\", at = "
      "[150, "
      "-450, 520], plus_minus = \"2 mm\" }",
      "bar_frame = { on = \"frame\", from = \"bar_axle\", at = [0, 900, 100] }\nbar_axle = { on = "
      "\"axle\", from = \"pad\", at = [50, -750, 40] }"));
  ASSERT_TRUE(row) << told(row);
  EXPECT_LT((point(*row, "bar_frame").at - Vec3(0.150, 0.450, 0.620)).norm(), 1e-12);
}

// What counts from a point goes along with a setting of it; a setting of its own is of its `at`.
TEST(ReadTruck, SettingAPointTakesAlongWhatCountsFromIt) {
  const std::string text =
      sample::changed("bar_frame = { on = \"frame\", at = [150, 450, 620] }",
                      "bar_frame = { on = \"frame\", from = \"bar_axle\", at = [0, 900, 100] }");
  const auto truck = sample::read(text, {{"bar_axle.z=+10mm"}, {"bar_frame.x=3"}});
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_LT((point(*truck, "bar_frame").at - Vec3(0.153, 0.450, 0.630)).norm(), 1e-12);
}

TEST(ReadTruck, AMirroredPartMayReachAcross) {
  // A true mirror: what ends on the other side does so on both.
  const std::string text = sample::changed("[\"lower_frame_left\", \"lower_axle_left\"]",
                                           "[\"lower_frame_left\", \"lower_axle_right\"]");
  const auto truck = sample::read(text);
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(part<Bar>(*truck, "lower_right").ends[0], "lower_frame_right");
  EXPECT_EQ(part<Bar>(*truck, "lower_right").ends[1], "lower_axle_left");
}

TEST(ReadTruck, BareNumbersAreInTheUnitOfTheirOwnFile) {
  const std::string top =
      "format = 1\nunits = \"inch\"\nbased_on = [\"base.toml\"]\n[truck]\nwheelbase = 160\n";
  const auto truck =
      read_truck("top.toml", sample::serve({{"top.toml", top}, {"base.toml", sample::kTruck}}));
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_NEAR(truck->wheelbase, from_inch(160), kTyped);
  EXPECT_NEAR(truck->height_range[1], 0.125, kTyped);
  EXPECT_TRUE(truck->inches);
}

TEST(ReadTruck, GuidedBarTakesBodiesFromItsPoints) {
  std::string text = sample::changed("carries = \"tie_rod\"\nnear_end_on = \"pitman\"\n", "");
  const auto truck = sample::read(text);
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(part<GuidedBar>(*truck, "steer").carries, "tie_rod");
  EXPECT_EQ(part<GuidedBar>(*truck, "steer").near_end_on, "pitman");
}

TEST(ReadTruck, ErrorsComeBeforeWarningsInTheOrderOfTheFile) {
  std::string text = sample::changed("sector_low = {",
                                     "spare = { on = \"axle\", at = [1, 2, 3] }\nsector_low = {");
  text.replace(text.find("wheelbase = 4060"), 16, "wheelbase = 4");
  text.replace(text.find("max = 3"), 7, "max = \"3 mm\"");
  const auto truck = sample::read(text);
  ASSERT_FALSE(truck);
  ASSERT_EQ(truck.error().size(), 3u) << told(truck);
  EXPECT_EQ(truck.error()[0].line, 7);
  EXPECT_EQ(truck.error()[1].source_line, "max = \"3 mm\"");
  EXPECT_EQ(truck.error()[2].severity, Severity::warning);
}

TEST(ReadTruck, AFaultOfAMirroredEntryIsToldOnce) {
  const auto truck = sample::read(sample::changed(
      "mirror = true\n\n[parts.pitman_arm]", "mirror = true\nlenght = 4\n\n[parts.pitman_arm]"));
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error().size(), 1u) << told(truck);
}

TEST(ReadTruck, WarningsTravelWithTheTruck) {
  const auto truck = sample::read(sample::changed(
      "sector_low = {", "spare = { on = \"axle\", at = [1, 2, 3] }\nsector_low = {"));
  ASSERT_TRUE(truck) << told(truck);
  ASSERT_EQ(truck->warnings.size(), 1u);
  EXPECT_EQ(truck->warnings[0].what, "nothing uses the point 'spare'");
}

TEST(ReadTruck, AnUnreadableFileIsAFaultWithoutAPlace) {
  const auto truck = read_truck("none.toml", sample::serve({}));
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error()[0].what, "'none.toml' cannot be read: no such file");
  EXPECT_EQ(truck.error()[0].line, 0);
}

// --- settings ---

TEST(Setting, MovesAPointByOrTo) {
  const auto by =
      sample::read(sample::kTruck,
                   {{"bar_axle.z=+10mm"}, {"points.bar_axle.y=-1 in"}, {"parts.bar.length=930"}});
  ASSERT_TRUE(by) << told(by);
  EXPECT_NEAR(point(*by, "bar_axle").at.z(), 0.530, kTyped);
  EXPECT_NEAR(point(*by, "bar_axle").at.y(), -0.450 - 0.0254, kTyped);
  const auto to = sample::read(
      sample::kTruck, {{"bar_axle.z=512"}, {"bar_axle.y==-440"}, {"parts.bar.length=897"}});
  ASSERT_TRUE(to) << told(to);
  EXPECT_NEAR(point(*to, "bar_axle").at.z(), 0.512, kTyped);
  EXPECT_NEAR(point(*to, "bar_axle").at.y(), -0.440, kTyped);
}

TEST(Setting, SetsKeysOfPartsAndSections) {
  const auto truck = sample::read(
      sample::kTruck, {{"truck.aligned_height=1 in"}, {"parts.bar.length=907"}, {"truck.rake=-1"}});
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_NEAR(truck->aligned_height, 0.0254, kTyped);
  EXPECT_NEAR(*part<Bar>(*truck, "bar").length, 0.907, kTyped);
  EXPECT_NEAR(truck->rake, from_deg(-1), kTyped);
}

TEST(Setting, ChangesAPointBeforeItIsMirrored) {
  const auto truck = sample::read(sample::kTruck, {{"lower_axle_left.y=+5"}});
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_NEAR(point(*truck, "lower_axle_right").at.y(), -0.455, kTyped);
}

// --- layers ---

TEST(Layers, ReplaceNamedEntriesWholeAndSectionsByKey) {
  const std::string kit = R"(format = 1
units = "mm"
[points]
bar_axle = { on = "axle", at = [150, -450, 530] }
[parts.bar]
kind = "track bar"
ends = ["bar_frame", "bar_axle"]
[wheels]
loaded_radius = 480
)";
  const std::string top =
      "format = 1\nunits = \"mm\"\nname = \"Top\"\nbased_on = [\"base.toml\", "
      "\"../kits/kit.toml\"]\n";
  const auto truck =
      read_truck("trucks/top.toml", sample::serve({{"trucks/top.toml", top},
                                                   {"trucks/base.toml", sample::kTruck},
                                                   {"kits/kit.toml", kit}}));
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(truck->name, "Top");
  EXPECT_FALSE(point(*truck, "bar_axle").plus_minus.has_value());
  EXPECT_EQ(point(*truck, "bar_axle").place.file, "kits/kit.toml");
  EXPECT_FALSE(part<Bar>(*truck, "bar").length.has_value());
  EXPECT_NEAR(truck->wheels.loaded_radius, 0.480, kTyped);
  EXPECT_NEAR(truck->wheels.section, from_inch(12.5), kTyped);
}

TEST(Layers, ALayerRemovesWhatLiesBelowIt) {
  const std::string kit =
      "format = 1\nunits = \"mm\"\nremove = [\"parts.bracket\", \"travel\", \"limits.bar_tilt\"]\n";
  const std::string top =
      "format = 1\nunits = \"mm\"\nbased_on = [\"base.toml\", \"kit.toml\"]\nremove = "
      "[\"axle_stops.turn_left\"]\n";
  const auto truck = read_truck(
      "top.toml",
      sample::serve({{"top.toml", top}, {"base.toml", sample::kTruck}, {"kit.toml", kit}}));
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(truck->parts.size(), 9u);
  EXPECT_EQ(truck->limits.size(), 1u);
  EXPECT_EQ(truck->travel.bump, 0);
  EXPECT_EQ(truck->axle_stops.turn_left, 0);
  EXPECT_GT(truck->axle_stops.turn_right, 0);
}

TEST(Layers, AFileReachedTwiceCountsOnceWhereItStandsFirst) {
  const std::string one =
      "format = 1\nunits = \"mm\"\nbased_on = [\"base.toml\"]\n[truck]\nwheelbase = 4000\n";
  const std::string two =
      "format = 1\nunits = \"mm\"\nbased_on = [\"base.toml\"]\n[truck]\nlean = 6\n";
  const std::string top = "format = 1\nunits = \"mm\"\nbased_on = [\"one.toml\", \"./two.toml\"]\n";
  const auto truck = read_truck("top.toml", sample::serve({{"top.toml", top},
                                                           {"one.toml", one},
                                                           {"two.toml", two},
                                                           {"base.toml", sample::kTruck}}));
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_NEAR(truck->wheelbase, 4.0, kTyped);
  EXPECT_NEAR(truck->lean, from_deg(6), kTyped);
  EXPECT_EQ(truck->name, "Sample");
}

// Kits win over the file itself, which keeps its name and its unit.
TEST(Layers, KitsGoOnTop) {
  const std::string kit =
      "format = 1\nunits = \"inch\"\nname = \"Kit\"\n[points]\nbar_frame = { on = \"frame\", from "
      "= "
      "\"bar_axle\", at = [0, 35.43, 4] }\n";
  const TextOf files = sample::serve({{"top.toml", sample::kTruck}, {"kits/kit.toml", kit}});
  const auto truck = read_truck("top.toml", files, {{"bar_axle.x=160"}}, {"kits/kit.toml"});
  ASSERT_TRUE(truck) << told(truck);
  EXPECT_EQ(truck->name, "Sample");
  EXPECT_EQ(truck->kits, std::vector<std::string>{"Kit"});
  EXPECT_FALSE(truck->inches);
  const Vec3 there(0.160, -0.450 + from_inch(35.43), 0.520 + from_inch(4));
  EXPECT_LT((point(*truck, "bar_frame").at - there).norm(), 1e-12);
  const auto whole = read_truck("top.toml", files, {}, {"top.toml"});
  ASSERT_TRUE(whole) << "a file that is there already counts once, where it stands first";
}

TEST(Layers, ACircleIsAFault) {
  const std::string a = "format = 1\nunits = \"mm\"\nbased_on = [\"b.toml\"]\n";
  const std::string b = "format = 1\nunits = \"mm\"\nbased_on = [\"a.toml\"]\n";
  const auto truck = read_truck("a.toml", sample::serve({{"a.toml", a}, {"b.toml", b}}));
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error()[0].what, "'based_on' goes in a circle: a.toml -> b.toml -> a.toml");
  EXPECT_EQ(truck.error()[0].file, "b.toml");
  EXPECT_EQ(truck.error()[0].line, 3);
  EXPECT_EQ(truck.error()[0].column, 13);
}

}  // namespace axlewright
