#include "engine/truck/edit.h"

#include <gtest/gtest.h>

#include "engine/truck/fault_text.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {

namespace {

// Comments, odd blanks, a Windows line end, letters beyond ASCII before the number in its line.
const char* const kFile =
    "# Ma\xc3\x9f"
    "e der Achse\r\n"
    "format = 1\r\n"
    "units = \"mm\" # not inch\r\n"
    "based_on = [\"platform.toml\"]\r\n"
    "[truck]\r\n"
    "aligned_height =   10\r\n"
    "lean = \"4 deg 30 min\"\r\n"
    "wheelbase = \"13 ft 3 1/2 in\"\r\n"
    "[points]\r\n"
    "a_left = { on = \"axle\", at = [ 0,\t875.0, 470 ], mirror = true } # \xe2\x86\x90 left\r\n"
    "b = { words = \"Stra\xc3\x9f"
    "e\", at = [150, \"-35 1/2 in\", '52.05 cm'], plus_minus = \"2 mm\" }\r\n"
    "[parts.bar]\r\n"
    "kind = \"track bar\"\r\n"
    "length = 905.5\r\n"
    "half_link = 'distance'\r\n"
    "body = false\r\n"
    "[gear]\r\n"
    "stop_left = \"2 turns\"\r\n"
    "ratio = 16.0\r\n"
    "[limits.toe]\r\n"
    "quantity = \"toe\"\r\n"
    "max = 0.25\r\n";

struct Row {
  std::vector<std::string> settings;
  std::string from, to;  ///< the only change
};

std::vector<Setting> settings_of(const std::vector<std::string>& texts) {
  std::vector<Setting> settings;
  for (const std::string& text : texts) settings.push_back({text});
  return settings;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

}  // namespace

TEST(EditText, ChangesOnlyTheBytesOfTheNumber) {
  const std::vector<Row> rows{
      {{"a_left.y=880"}, "875.0", "880.0"},
      {{"a_left.z=+10mm"}, "470 ]", "480 ]"},
      {{"a_left.z=-0.5 in"}, "470 ]", "457.3 ]"},
      {{"a_left.z=1/3 in"}, "470 ]", "470 ]"},
      {{"b.x==-150.1234567"}, "[150,", "[-150.1234567,"},
      {{"b.x=150.000049"}, "[150,", "[150.000049,"},
      {{"b.y=+1 in"}, "-35 1/2 in", "-34 1/2 in"},
      {{"b.y=+1/16 in"}, "-35 1/2 in", "-35 7/16 in"},
      {{"b.y==-10 in"}, "-35 1/2 in", "-10 in"},
      {{"b.y=+1000"}, "-35 1/2 in", "3.8701 in"},
      {{"b.z=500"}, "52.05 cm", "50.00 cm"},
      {{"points.b.plus_minus=1"}, "\"2 mm\"", "\"1 mm\""},
      {{"truck.lean=5 deg 59.9999 min"}, "4 deg 30 min", "5 deg 59.9999 min"},
      {{"truck.lean=6"}, "4 deg 30 min", "6 deg 0 min"},
      {{"truck.wheelbase=4064"}, "13 ft 3 1/2 in", "13 ft 4 in"},
      {{"truck.aligned_height=1 in"}, "  10\r", "  25.4\r"},
      {{"truck.aligned_height=-40"}, "  10\r", "  -40\r"},
      {{"parts.bar.length=906"}, "905.5", "906.0"},
      {{"parts.bar.half_link=ball \"body\""}, "'distance'", "\"ball \\\"body\\\"\""},
      {{"parts.bar.body=true"}, "false", "true"},
      {{"gear.stop_left=900"}, "2 turns", "2.5 turns"},
      {{"gear.ratio=13.5"}, "16.0", "13.5"},
      {{"limits.toe.max=30 min"}, "0.25", "0.50"},
      {{"a_left.z=+10", "a_left.z=+10"}, "470 ]", "490 ]"},
  };
  for (Row row : rows) {
    SCOPED_TRACE(row.settings[0]);
    // A third of an inch: "1/3" is a fraction like any other, and is added only if a sign says so.
    if (row.settings[0] == "a_left.z=1/3 in") row.to = "8.467 ]";
    const auto edited = edit_text(kFile, "kit.toml", settings_of(row.settings));
    ASSERT_TRUE(edited) << text_of(edited.error()[0]);
    EXPECT_EQ(*edited, replaced(kFile, row.from, row.to));
  }
}

TEST(EditText, NumbersOfAFileInInchesStayInInches) {
  const std::string file =
      "format = 1\nunits = \"inch\"\n[points]\na = { on = \"axle\", at = [1.5, 2, 3] }\n";
  const auto edited = edit_text(file, "a.toml", {{"a.x=50.8 mm"}, {"a.y=+0.125"}});
  ASSERT_TRUE(edited);
  EXPECT_EQ(*edited, replaced(file, "1.5, 2,", "2.0, 2.125,"));
}

TEST(EditText, AByteOrderMarkStays) {
  const std::string file = "\xef\xbb\xbfunits = \"mm\"\n[truck]\nwheelbase = 4000\n";
  const auto edited = edit_text(file, "a.toml", {{"truck.wheelbase=4010"}});
  ASSERT_TRUE(edited);
  EXPECT_EQ(*edited, replaced(file, "4000", "4010"));
  const std::string one_line = "\xef\xbb\xbftruck = { wheelbase = 4000 }";
  const auto first_line = edit_text(one_line, "a.toml", {{"truck.wheelbase=4010"}});
  ASSERT_TRUE(first_line);
  EXPECT_EQ(*first_line, replaced(one_line, "4000", "4010"));
}

TEST(EditText, WithoutSettingsNothingChanges) {
  const auto edited = edit_text(kFile, "kit.toml", {});
  ASSERT_TRUE(edited);
  EXPECT_EQ(*edited, kFile);
}

TEST(EditText, SaysWhatItCannotWrite) {
  struct FaultRow {
    std::string setting, what, fix;
  };
  const std::vector<FaultRow> rows{
      {"a_right.z=3", "'a_right' is made by the mirror of 'a_left'", "set 'a_left'"},
      {"c.z=3", "'c.z' is not written in kit.toml",
       "if a layer gives it, set it there ('platform.toml'), or write 'points.c' again in "
       "kit.toml, "
       "the whole entry: there it can be set"},
      {"wheels.section=3", "'wheels.section' is not written in kit.toml",
       "or write the key again, in kit.toml"},
      {"parts.bar.sleeve=3", "'parts.bar.sleeve' is not written in kit.toml", "by hand"},
      {"parts.bar.body=3", "true or false stands there in kit.toml:16", "by hand"},
      {"parts.bar.kind=3", "text stands there in kit.toml:13", "by hand"},
      {"parts.bar.length=true", "a number stands there in kit.toml:14", "by hand"},
      {"parts.bar.length=3 deg", "'length' is given as an angle", "902 mm"},
      {"parts.bar.length=1e13", "'length' is 10000000000000 mm, out of reason", "at most"},
      {"limits.toe.max=3 mm", "'max' is given as a length", "degrees"},
      {"gear.ratio=3 mm", "'ratio' is text where a plain number belongs", "without unit"},
      {"b.z=", "the setting has no value", "POINT.z"},
  };
  for (const FaultRow& row : rows) {
    SCOPED_TRACE(row.setting);
    const auto edited = edit_text(kFile, "kit.toml", {{row.setting}});
    ASSERT_FALSE(edited);
    EXPECT_EQ(edited.error()[0].what.rfind(row.what, 0), 0u) << edited.error()[0].what;
    EXPECT_NE(edited.error()[0].fix.find(row.fix), std::string::npos) << edited.error()[0].fix;
    EXPECT_EQ(edited.error()[0].file, "--set");
  }
}

TEST(EditText, TellsEveryFaultAtOnce) {
  const auto edited = edit_text(kFile, "kit.toml", {{"c.z=3"}, {"a_left.z=+1"}, {"foo"}});
  ASSERT_FALSE(edited);
  ASSERT_EQ(edited.error().size(), 2u);
  EXPECT_EQ(edited.error()[1].line, 3);
}

TEST(EditText, NamesTheLayerThatAnEntryLivesIn) {
  const std::string top = "format = 1\nunits = \"mm\"\nbased_on = [\"base.toml\"]\n";
  const auto edited = edit_text(top, "trucks/top.toml", {{"bar_axle.z=+1"}},
                                sample::serve({{"trucks/base.toml", sample::kTruck}}));
  ASSERT_FALSE(edited);
  EXPECT_EQ(edited.error()[0].what,
            "'bar_axle.z' is not written in trucks/top.toml but in trucks/base.toml");
  EXPECT_EQ(edited.error()[0].fix,
            "set it in trucks/base.toml, or write 'points.bar_axle' again in trucks/top.toml, the "
            "whole entry: there it can be set");
}

TEST(EditText, SaysThatAValueIsBroken) {
  const std::string file = "units = \"mm\"\n[truck]\nwheelbase = \"4000\"\n";
  const auto edited = edit_text(file, "a.toml", {{"truck.wheelbase=4010"}});
  ASSERT_FALSE(edited);
  EXPECT_EQ(edited.error()[0].what, "the value of 'truck.wheelbase' cannot be read here");
  EXPECT_EQ(edited.error()[0].file, "a.toml");
  EXPECT_EQ(edited.error()[0].line, 3);
  EXPECT_FALSE(edit_text("[truck", "a.toml", {}));
}

}  // namespace axlewright
