// The shop sheet of the example trucks: what a reader must find on it.

#include "engine/ask/ask.h"

#include <cmath>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tests/support/asked.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

Json sheet_of(const std::string& truck, Json more = Json::object()) {
  Json question{{"ask", "sheet"}, {"file", testing::example_file(truck)}};
  question.update(more);
  return testing::answer(question);
}

/// All lettering, a line for each text, without breaks.
std::string lettering(const Json& drawing) {
  std::string all;
  for (const Json& item : drawing["items"]) {
    if (item.contains("text")) all += item["text"]["text"].get<std::string>() + " ";
  }
  return all;
}

bool says(const Json& drawing, const std::string& text) {
  return lettering(drawing).find(text) != std::string::npos;
}

// ISO 128-2: thick to thin is 2 : 1.
TEST(Sheet, OutlinesAreTwiceAsThickAsTheRest) {
  std::map<std::string, double> weight;
  const Json sheet = sheet_of("guided");
  for (const Json& layer : sheet["drawing"]["layers"])
    weight[layer["name"].get<std::string>()] = layer["weight_mm"].get<double>();
  for (const char* thin : {"hidden", "centre", "detail", "adjacent", "dimension"})
    EXPECT_DOUBLE_EQ(weight["outline"], 2 * weight[thin]) << thin;
}

TEST(Sheet, NamesEveryPartAndView) {
  const Json drawing = sheet_of("guided", {{"height_mm", 120}})["drawing"];
  for (const char* words : {"axle",
                            "tie rod",
                            "guided steering",
                            "guided steering half-link",
                            "guided steering guide",
                            "guided steering carriage",
                            "locator",
                            "knuckle left",
                            "wheel right",
                            "gear",
                            "pitman arm",
                            "upper link",
                            "lower link left",
                            "frame",
                            "spring left",
                            "Front view",
                            "Top view",
                            "Side view, from the truck's left",
                            "third-angle projection",
                            "Scale 1:15",
                            "dimensions in mm"})
    EXPECT_TRUE(says(drawing, words)) << words;
}

Json layout_sheet(const std::string& layout) {
  return testing::answer({{"ask", "sheet"},
                          {"file", testing::source_path("tests/layouts/" + layout + ".toml")},
                          {"height_mm", 90}})["drawing"];
}

TEST(Sheet, NamesCranksRockersAndRelays) {
  const Json four_bar = sheet_of("four-bar")["drawing"];
  for (const char* words : {"locator crank", "locator upper arm", "locator lower arm"})
    EXPECT_TRUE(says(four_bar, words)) << words;
  const Json rockers = sheet_of("rocker-guided")["drawing"];
  for (const char* words : {"locator rocker", "guided steering rocker", "locator half-link"})
    EXPECT_TRUE(says(rockers, words)) << words;
  for (const char* words : {"guide ", "carriage"}) EXPECT_FALSE(says(rockers, words)) << words;
  EXPECT_TRUE(says(layout_sheet("relay_two_arms"), "relay"));
  EXPECT_TRUE(says(layout_sheet("relay_centre"), "centre relay"));
  EXPECT_TRUE(says(layout_sheet("relay_idler"), "idler"));
}

// The file's points: 658.651 and 542.5 of the upper arm, 461.349 and 342.5 of the lower one. Halfway up both lie level.
TEST(Sheet, TellsTheDropOfAFourBarsArms) {
  const Json measured = sheet_of("four-bar", {{"height_mm", 0}})["drawing"];
  EXPECT_TRUE(says(measured, "locator upper arm 116"));
  EXPECT_TRUE(says(measured, "locator lower arm 119"));
  const Json halfway = sheet_of("four-bar", {{"height_mm", 117.5}})["drawing"];
  EXPECT_TRUE(says(halfway, "locator upper arm 0"));
  EXPECT_TRUE(says(halfway, "locator lower arm 0"));
}

TEST(Sheet, CarriesItsCautions) {
  for (const char* truck : testing::kExampleTrucks) {
    const Json sheet = sheet_of(truck);
    for (const Json& caution : sheet["cautions"])
      EXPECT_TRUE(says(sheet["drawing"], caution.get<std::string>())) << truck << caution;
  }
}

// Two places of the file and one of its lengths, read off: wheel centres 875 either side and 462 over the road.
TEST(Sheet, DimensionsAreTheTruckAsItStands) {
  const Json metric = sheet_of("guided")["drawing"];
  EXPECT_TRUE(says(metric, "1750"));
  EXPECT_TRUE(says(metric, "462"));
  EXPECT_TRUE(says(metric, "175"));
  const Json inch = sheet_of("guided", {{"units", "inch"}})["drawing"];
  EXPECT_TRUE(says(inch, "68.90"));
  EXPECT_TRUE(says(inch, "dimensions in inches"));
}

// The locator's near end is 600, its pivot 470 over the road as measured; raised by 120 the drop is 250.
TEST(Sheet, TellsTheDropAtItsHeight) {
  EXPECT_TRUE(says(sheet_of("guided")["drawing"], "130"));
  EXPECT_TRUE(says(sheet_of("guided", {{"height_mm", 120}})["drawing"], "250"));
}

// In third-angle projection the front and top views share their across, front and side their up.
TEST(Sheet, ViewsStandInLine) {
  const Json drawing = sheet_of("plain-mismatched", {{"height_mm", 60}})["drawing"];
  std::vector<double> across, up;
  for (const Json& item : drawing["items"]) {
    if (item["part"] != "track_bar" || item["layer"] != "centre") continue;
    across.push_back(item["line"][0].get<double>());
    up.push_back(item["line"][1].get<double>());
  }
  ASSERT_EQ(across.size(), 3U);  // front, side, top
  // [mm] told to a hundredth.
  EXPECT_NEAR(across[0], across[2], 0.011);
  EXPECT_NEAR(up[0], up[1], 0.011);
}

TEST(Sheet, EverythingIsOnThePaper) {
  for (const char* paper : {"A2", "A3", "11x17"}) {
    for (const char* truck : testing::kExampleTrucks) {
      const Json drawing = sheet_of(truck, {{"paper", paper}, {"height_mm", 235}})["drawing"];
      const double width = drawing["paper_mm"][0], height = drawing["paper_mm"][1];
      for (const Json& item : drawing["items"]) {
        if (!item.contains("line")) continue;
        for (std::size_t k = 0; k + 1 < item["line"].size(); k += 2) {
          EXPECT_GE(item["line"][k].get<double>(), 0) << paper << item;
          EXPECT_LE(item["line"][k].get<double>(), width) << paper << item;
          EXPECT_GE(item["line"][k + 1].get<double>(), 0) << paper << item;
          EXPECT_LE(item["line"][k + 1].get<double>(), height) << paper << item;
        }
      }
    }
  }
}

TEST(Sheet, SaysWhyAnotherPoseIsDrawn) {
  const Json sheet = sheet_of("plain-mismatched", {{"height_mm", 700}});
  EXPECT_FALSE(sheet["complete"].get<bool>());
  EXPECT_TRUE(says(sheet["drawing"], "has no pose at height 700 mm"));
}

}  // namespace
}  // namespace axlewright
