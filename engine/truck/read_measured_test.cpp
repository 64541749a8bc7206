// [measured] and [readings] as a file spells them, every complaint about them, and the file that a fit writes.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/truck/edit.h"
#include "engine/truck/fault_text.h"
#include "engine/truck/fitted_file.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {

namespace {

/// The sample truck with sections behind it.
std::string sample_with(const std::string& sections) {
  return sample::changed("", "") + "\n" + sections;
}

std::string all_of(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) text += text_of(fault);
  return text;
}

Truck read_sound(const std::string& text) {
  const Result<Truck> truck = sample::read(text);
  EXPECT_TRUE(truck) << all_of(truck.error());
  return truck ? *truck : Truck{};
}

std::string marked(const Fault& fault) {
  return fault.source_line.substr(static_cast<std::size_t>(fault.column) - 1,
                                  static_cast<std::size_t>(fault.length));
}

/// Sections behind the sample, and the one complaint about them.
struct Row {
  std::string sections;
  std::string marked;  ///< what the caret underlines
  std::string what;    ///< begins so
  std::string fix;     ///< contains this
};

void expect_row(const Row& row) {
  SCOPED_TRACE(row.sections);
  const Result<Truck> truck = sample::read(sample_with(row.sections));
  ASSERT_FALSE(truck);
  const std::vector<Fault>& faults = truck.error();
  ASSERT_EQ(faults.size(), 1u) << all_of(faults);
  EXPECT_EQ(faults[0].what.rfind(row.what, 0), 0u) << all_of(faults);
  EXPECT_NE(faults[0].fix.find(row.fix), std::string::npos) << all_of(faults);
  EXPECT_EQ(marked(faults[0]), row.marked) << all_of(faults);
}

const Misfit* misfit_of(const Truck& truck, const std::string& name) {
  for (const Misfit& misfit : truck.fit->misfits) {
    if (misfit.name == name) return &misfit;
  }
  ADD_FAILURE() << "nothing is called " << name;
  return nullptr;
}

}  // namespace

TEST(ReadMeasured, AFileWithoutTheSectionsIsNotFitted) {
  EXPECT_FALSE(read_sound(sample_with("")).fit.has_value());
}

// The bar's points are 905.54 apart; one of them is known within 2, the other counts as exact. On the bench the bar is 906.5, within 1. So the
// one end moves, by 4/5 of what they differ by, along the bar. (The sample's own `length` goes: it would win.)
TEST(ReadMeasured, ALengthMovesTheEndThatIsNotExact) {
  const std::string text = sample::changed("length = \"905.5 mm\"\n", "") +
                           "\n[readings.bench]\nkind = \"length\"\nof = \"bar\"\n"
                           "value = 906.5\nplus_minus = 1\n";
  const Truck truck = read_sound(text);
  ASSERT_TRUE(truck.fit.has_value());
  const Vec3 before(0.150, -0.450, 0.520), frame(0.150, 0.450, 0.620);
  const double apart = (before - frame).norm(), open = 0.9065 - apart;
  const Vec3 moved = find_point(truck, "bar_axle")->at - before;
  // Second order: the bar turns by nothing here, so the share is exact.
  EXPECT_NEAR(moved.norm(), 0.8 * open, 1e-9);
  EXPECT_NEAR((before + moved - frame).norm(), apart + 0.8 * open, 1e-9);
  EXPECT_EQ(find_point(truck, "bar_frame")->at, frame);
  const Misfit* bench = misfit_of(truck, "bench");
  EXPECT_NEAR(bench->error(), -0.2 * open, 1e-9);
  EXPECT_NEAR(bench->checked, 0.2, 1e-6);
  EXPECT_FALSE(bench->is_angle);
  EXPECT_EQ(truck.fit->redundancy, 1);
}

TEST(ReadMeasured, TheSectionsPlusMinusIsThatOfPointsWithoutTheirOwn) {
  const Truck truck = read_sound(sample_with("[measured]\nplus_minus = 1.5\n"));
  EXPECT_NEAR(misfit_of(truck, "bar_frame.x")->plus_minus, 0.0015, 1e-12);
  EXPECT_NEAR(misfit_of(truck, "bar_axle.x")->plus_minus, 0.002, 1e-12);
}

// Definition 3: the length wins. The bar's own `length` is met by the fit, not by the tolerance.
TEST(ReadMeasured, AGivenLengthIsMet) {
  const std::string text = sample::changed("length = \"905.5 mm\"", "length = \"912 mm\"") +
                           "\n[measured]\nplus_minus = 5\n";
  const Truck truck = read_sound(text);
  EXPECT_NEAR((find_point(truck, "bar_axle")->at - find_point(truck, "bar_frame")->at).norm(),
              0.912, 1e-8);
}

// Nothing holds the bell crank's stop on its rail but the statement that it slides there.
TEST(ReadMeasured, APointOnALineIsPutThere) {
  const std::string text =
      sample::changed("shoe = { on = \"slider\", at = [1000, 0, 500] }",
                      "shoe = { on = \"slider\", at = [1003, 4, 500], plus_minus = 6 }") +
      "\n[measured]\n";
  const Vec3 shoe = find_point(read_sound(text), "shoe")->at;
  EXPECT_LT((shoe - Vec3(1.000, 0, 0.500)).norm(), 1e-8);
}

// Pitched axes move x and z; the mirror image is taken in frame axes, afterwards.
TEST(ReadMeasured, AMirroredPointIsMeasuredOnTheSideThatIsWritten) {
  const Truck truck = read_sound(sample_with(
      "[measured]\naxes = \"road\"\nplumbed_at = 600\nplus_minus = 2\n"
      "[readings.gauge]\nkind = \"rake\"\nvalue = \"30 min\"\nplus_minus = \"6 min\"\n"));
  const double rake = from_deg(0.5);
  EXPECT_NEAR(truck.rake, rake, 1e-12);
  const Vec3 left = find_point(truck, "lower_frame_left")->at;
  const Vec3 right = find_point(truck, "lower_frame_right")->at;
  EXPECT_LT((Vec3(left.x(), -left.y(), left.z()) - right).norm(), 1e-12);
  // Written at (-950, 450, 18 3/4 in), turned back about (0, 0, 600).
  const double x = -0.950, z = from_inch(18.75) - 0.600;
  EXPECT_NEAR(left.x(), x * std::cos(rake) + z * std::sin(rake), 1e-12);
  EXPECT_NEAR(left.y(), 0.450, 1e-12);
  EXPECT_NEAR(left.z(), 0.600 + z * std::cos(rake) - x * std::sin(rake), 1e-12);
}

TEST(ReadMeasured, InchFilesMeasureInInches) {
  const std::string text =
      "format = 1\nunits = \"inch\"\nbased_on = [\"truck.toml\"]\n"
      "[parts.bar]\nkind = \"track bar\"\nends = [\"bar_frame\", \"bar_axle\"]\n"
      "[readings.bench]\nkind = \"length\"\nof = \"bar\"\nvalue = 35.66\nplus_minus = 0.02\n";
  const Result<Truck> truck =
      read_truck("inch.toml", sample::serve({{"inch.toml", text}, {"truck.toml", sample::kTruck}}));
  ASSERT_TRUE(truck) << all_of(truck.error());
  EXPECT_NEAR(misfit_of(*truck, "bench")->value, from_inch(35.66), 1e-12);
}

TEST(ReadMeasured, ComplainsOfTheSection) {
  const std::string holes = "[measured]\naxes = \"gauge holes\"\n";
  const std::vector<Row> rows{
      {"[measured]\naxes = \"roads\"", "\"roads\"", "no 'axes' is called 'roads'",
       "did you mean 'road'?"},
      {"[measured]\naxes = 3", "3", "'axes' is a number where text belongs", "\"...\""},
      {"[measured]\nplus_minus = 0", "0", "'plus_minus' is 0 mm, out of reason", "more than 0 mm"},
      {"[measured]\nholes = 3", "holes", "[measured] knows no key 'holes'", "its keys are"},
      {"[measured]\nplumbed_at = 600", "600", "'plumbed_at' is told of road axes alone",
       "axes = \"road\""},
      {"[measured]\naxes = \"road\"\nplumbed_at = 3000", "3000", "'plumbed_at' is 3000 mm, out",
       "at most 2000 mm"},
      {"[measured]\nholes_plus_minus = 1", "1", "'holes_plus_minus' goes with gauge holes alone",
       "axes = \"gauge holes\""},
      {holes + "known_places = [[0, 0, 0], [1, 0, 0]]", "measured",
       "[measured] has no 'gauge_holes'", "gauge_holes = ["},
      {holes + "gauge_holes = [\"bar_frame\", \"sector_low\"]", "measured",
       "[measured] has no 'known_places'", "known_places = ["},
      {holes + "gauge_holes = [\"bar_frame\"]\nknown_places = [[0, 0, 0]]", "[\"bar_frame\"]",
       "'gauge_holes' is no list of two to 12 points", "[\"POINT\", \"POINT\"]"},
      {holes + "gauge_holes = [\"bar_frame\", \"sector_low\"]\nknown_places = [[0, 0, 0]]",
       "[[0, 0, 0]]", "'known_places' has not one place for each gauge hole",
       "in the holes' order"},
      {holes + "gauge_holes = [\"bar_frame\", \"sector_low\"]\nknown_places = [[0, 0, 0], 3]", "3",
       "a known place is no list of three lengths", "[[x, y, z], [x, y, z]]"},
      {holes + "gauge_holes = [\"bar_frame\", \"bar_axle\"]\n"
               "known_places = [[150, 450, 620], [150, -450, 520]]",
       "\"bar_axle\"", "the gauge hole 'bar_axle' rides on axle", "on = \"frame\""},
      {holes + "gauge_holes = [\"bar_frame\", \"bar_fram\"]\n"
               "known_places = [[150, 450, 620], [150, -450, 520]]",
       "\"bar_fram\"", "no point is called 'bar_fram'", "did you mean 'bar_frame'?"},
      {holes + "gauge_holes = [\"sector_low\", \"sector_high\"]\n"
               "known_places = [[400, 500, 700], [400, 500, 800]]",
       "[\"sector_low\", \"sector_high\"]", "the gauge holes stand too near", "at least 200 mm"},
      {holes + "gauge_holes = [\"sector_low\", \"sector_high\"]\n"
               "known_places = [[400, 500, 700], [400, 500, 1300]]",
       "[\"sector_low\", \"sector_high\"]",
       "the gauge holes stand too near to each other, seen from above", "at least 200 mm"},
      {holes + "gauge_holes = [\"sector_low\", \"bar_frame\", \"sector_low\"]\n"
               "known_places = [[400, 500, 700], [150, 450, 620], [400, 500, 700]]",
       "\"sector_low\"", "the gauge hole 'sector_low' is named twice", "each hole once"},
  };
  for (const Row& row : rows) expect_row(row);
}

TEST(ReadMeasured, ComplainsOfReadings) {
  const std::string bench = "[readings.bench]\nkind = \"length\"\n";
  const std::string rest = "value = 905\nplus_minus = 2\n";
  const std::string sweep = "[readings.sweep]\nkind = \"camber sweep\"\nplus_minus = 0.1\n";
  const std::vector<Row> rows{
      {"[readings.bench]\nvalue = 3", "bench", "[readings.bench] has no 'kind'", "'camber sweep'"},
      {"[readings.bench]\nkind = \"lenght\"", "\"lenght\"", "no 'kind' is called 'lenght'",
       "did you mean 'length'?"},
      {"[readings]\nbench = 905", "905", "[readings] 'bench' is a number where a table belongs",
       "[readings.NAME]"},
      {bench + rest, "bench", "[readings.bench] does not say what is so long", "of = \"BAR\""},
      {bench + "of = \"bar\"\nbetween = [\"bar_frame\", \"bar_axle\"]\n" + rest,
       "[\"bar_frame\", \"bar_axle\"]", "both 'of' and 'between' are given", "take one"},
      {bench + "of = \"steer\"\n" + rest, "\"steer\"", "no bar is called 'steer'", "name a bar"},
      {bench + "of = \"barr\"\n" + rest, "\"barr\"", "no bar is called 'barr'",
       "did you mean 'bar'?"},
      {bench + "of = \"bar\"\nplus_minus = 2", "bench", "[readings.bench] has no 'value'",
       "value = LENGTH"},
      {bench + "of = \"bar\"\nvalue = 905", "bench", "[readings.bench] has no 'plus_minus'",
       "plus_minus = HOW WELL"},
      {bench + "of = \"bar\"\nvalue = \"4 deg\"\nplus_minus = 2", "\"4 deg\"",
       "'value' is given as an angle where a length belongs", "write a length"},
      {bench + "of = \"bar\"\nvalue = \"?\"\nplus_minus = 2", "\"?\"",
       "'value' is not filled in yet", "measure it"},
      {bench + "of = \"bar\"\nmirror = true\n" + rest, "mirror",
       "[readings.bench] knows no key 'mirror'", "its keys are"},
      {bench + "between = [\"bar_frame\", \"bar_frame\"]\n" + rest,
       "[\"bar_frame\", \"bar_frame\"]", "'between' names the same point twice",
       "two points that differ"},
      {"[readings.floor]\nkind = \"height\"\nvalue = 500\nplus_minus = 2", "floor",
       "[readings.floor] has no 'point'", "point = \"POINT\""},
      {"[readings.floor]\nkind = \"height\"\npoint = \"bar_axle\"\nvalue = 5001\nplus_minus = 2",
       "5001", "'value' is 5001 mm, out of reason", "at most 5000 mm"},
      {"[readings.gauge]\nkind = \"slope\"\nvalue = 4\nplus_minus = 0.1", "gauge",
       "[readings.gauge] has no 'between'", "between = ["},
      {"[readings.gauge]\nkind = \"lean\"\nvalue = 11\nplus_minus = 0.1", "11",
       "'value' is 11 deg, out of reason", "at most 10 deg"},
      {"[readings.gauge]\nkind = \"lean\"\nvalue = 1\nplus_minus = 6", "6",
       "'plus_minus' is 6 deg, out of reason", "at most 5 deg"},
      {"[readings.gauge]\nkind = \"caster\"\nvalue = 5\nplus_minus = 0.1", "gauge",
       "[readings.gauge] has no 'kingpin'", "kingpin = \"PART\""},
      {"[readings.gauge]\nkind = \"caster\"\nkingpin = \"bar\"\nvalue = 5\nplus_minus = 0.1",
       "\"bar\"", "no kingpin is called 'bar'", "name a kingpin"},
      {sweep + "kingpin = \"kingpin_left\"\ncambers = [1, 2]", "sweep",
       "[readings.sweep] has no 'steers'", "steers = [ANGLE, ANGLE]"},
      {sweep + "kingpin = \"kingpin_left\"\nsteers = [20]\ncambers = [1, 2]", "[20]",
       "'steers' is no list of two to 9 angles", "steers = [ANGLE, ANGLE]"},
      {sweep + "kingpin = \"kingpin_left\"\nsteers = [20, -20]\ncambers = [1, 2, 3]", "[1, 2, 3]",
       "'cambers' has not one camber for each of 'steers'", "in the same order"},
      {sweep + "kingpin = \"kingpin_left\"\nsteers = [20, 21]\ncambers = [1, 2]", "[20, 21]",
       "two of 'steers' are nearly the same", "20 deg to either side"},
  };
  for (const Row& row : rows) expect_row(row);
}

// One behind the other they tell it, and so does the file.
TEST(ReadMeasured, ComplainsOfARakeThatGaugeHolesTellToo) {
  const Result<Truck> truck = sample::read(sample::changed("lean = 5\n", "lean = 5\nrake = 1\n") +
                                           "[measured]\naxes = \"gauge holes\"\nplus_minus = 1\n"
                                           "gauge_holes = [\"sector_low\", \"rail_low\"]\n"
                                           "known_places = [[400, 500, 700], [1000, 0, 400]]\n");
  ASSERT_FALSE(truck);
  EXPECT_EQ(marked(truck.error()[0]), "1");
  EXPECT_EQ(truck.error()[0].what, "the gauge holes tell the rake, and it is told here too");
}

TEST(ReadMeasured, ComplainsOfARakeGivenTwice) {
  const Result<Truck> truck =
      sample::read(sample::changed("lean = 5\n", "lean = 5\nrake = 1\n") +
                   "[readings.gauge]\nkind = \"rake\"\nvalue = 1\nplus_minus = 0.1\n");
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error()[0].what, "the rake is read here and told in [truck] too");
}

// The sample's bar without its own length, read 60 off: any of its ends' numbers, or the reading.
TEST(ReadMeasured, RefusesWhatCannotBeAndSaysWhere) {
  const std::string text = sample::changed("length = \"905.5 mm\"\n", "") +
                           "\n[readings.bench]\nkind = \"length\"\nof = \"bar\"\n"
                           "value = 965\nplus_minus = 1\n";
  const Result<Truck> truck = sample::read(text);
  ASSERT_FALSE(truck);
  const Fault& fault = truck.error()[0];
  EXPECT_EQ(fault.what.rfind("what was measured does not fit together: the worst is bench: "
                             "965 mm measured",
                             0),
            0u)
      << fault.what;
  EXPECT_NE(fault.what.find("one of these is wrong: "), std::string::npos) << fault.what;
  EXPECT_NE(fault.what.find("'bar_axle'"), std::string::npos) << fault.what;
  EXPECT_FALSE(fault.source_line.empty());
}

// Between one in a hundred and one in a thousand: 3.0 standard deviations of the difference of the two.
TEST(ReadMeasured, WarnsOfWhatHardlyFits) {
  const double apart = 905.5385;  // of the points, the root of 900^2 + 100^2
  const double deviation = std::sqrt((2.0 * 2.0 + 1.0) / 3);
  const auto text_with = [&](double deviations) {
    return sample::changed("length = \"905.5 mm\"\n", "") +
           "\n[readings.bench]\nkind = \"length\"\nof = \"bar\"\nvalue = " +
           std::to_string(apart + deviations * deviation) + "\nplus_minus = 1\n";
  };
  EXPECT_TRUE(read_sound(text_with(2.4)).warnings.empty());
  const std::vector<Fault> warnings = read_sound(text_with(3.0)).warnings;
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_EQ(warnings[0].severity, Severity::warning);
  EXPECT_EQ(warnings[0].what.rfind("what was measured hardly fits together: the worst is bench", 0),
            0u);
  EXPECT_FALSE(sample::read(text_with(4.5)));
}

constexpr const char* kLeaned =
    "[measured]\n[readings.gauge]\nkind = \"lean\"\nvalue = 1\nplus_minus = 0.1\n";

// Over a frame that leans a mirror image stands elsewhere than the point of the other side; on the frame itself it does not.
TEST(ReadMeasured, WantsBothSidesOfATruckThatLeaned) {
  const Result<Truck> truck = sample::read(sample_with(kLeaned));
  ASSERT_FALSE(truck);
  ASSERT_EQ(truck.error().size(), 5u) << all_of(truck.error());
  for (const Fault& fault : truck.error()) {
    EXPECT_NE(fault.what.find("is the mirror image of"), std::string::npos) << fault.what;
    EXPECT_EQ(fault.what.find("lower_frame"), std::string::npos) << fault.what;
  }
  EXPECT_EQ(marked(truck.error()[0]), "0");
  EXPECT_NE(truck.error()[0].fix.find("write both sides"), std::string::npos);
}

/// The sample with both sides of what stands on the road written.
std::string both_sides(std::string text) {
  for (const char* point : {"wheel", "kingpin_low", "kingpin_high", "tie_rod", "lower_axle"}) {
    const std::string mirrored = ", mirror = true";
    const std::size_t begin = text.find(std::string(point) + "_left = {");
    const std::size_t mirror = text.find(mirrored, begin);
    text.erase(mirror, mirrored.size());
    std::string right = text.substr(begin, text.find('\n', begin) + 1 - begin);
    text.insert(begin + right.size(), "RIGHT");
    for (std::size_t at = right.find("_left"); at != std::string::npos; at = right.find("_left"))
      right.replace(at, 5, "_right");
    right.insert(right.find(", ", right.find('[')) + 2, "-");
    text.replace(text.find("RIGHT"), 5, right);
  }
  return text;
}

// Nothing holds the axle of the sample fore-aft on the right: it cannot be set straight, and says why.
TEST(ReadMeasured, SaysWhyATruckCannotBeSetStraight) {
  const std::string text = both_sides(sample_with(kLeaned));
  const Result<Truck> truck = sample::read(text);
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error()[0].what.rfind(
                "the truck leaned 1 deg as it stood, and its linkage cannot be set straight: ", 0),
            0u)
      << all_of(truck.error());
  EXPECT_EQ(marked(truck.error()[0]), "gauge");
}

TEST(ReadMeasured, SettingsChangeWhatWasRead) {
  const std::string text = sample::changed("length = \"905.5 mm\"\n", "") +
                           "\n[readings.bench]\nkind = \"length\"\nof = \"bar\"\n"
                           "value = 906.5 # on the bench\nplus_minus = 1\n"
                           "[readings.gauge]\nkind = \"slope\"\nbetween = [\"bar_axle\", "
                           "\"bar_frame\"]\nvalue = \"6 deg 20 min\"\nplus_minus = 0.1\n";
  const Result<Truck> truck = sample::read(text, {{"readings.bench.value=905"}});
  ASSERT_TRUE(truck) << all_of(truck.error());
  EXPECT_NEAR(misfit_of(*truck, "bench")->value, 0.905, 1e-12);
  const Result<std::string> edited = edit_text(
      text, "truck.toml", {{"readings.bench.value=905.2"}, {"readings.gauge.value=6.5 deg"}});
  ASSERT_TRUE(edited) << all_of(edited.error());
  EXPECT_NE(edited->find("value = 905.2 # on the bench"), std::string::npos);
  EXPECT_NE(edited->find("value = \"6 deg 30 min\""), std::string::npos);
}

TEST(FittedFile, ReadsBackAsTheFittedTruck) {
  for (const std::string units : {"mm", "inch"}) {
    const std::string measured =
        "format = 1\nunits = \"" + units +
        "\"\nname = \"My \\\"truck\\\"\"\nbased_on = [\"truck.toml\"]\n"
        "[points]\nhole_left = { on = \"frame\", at = [\"0 mm\", \"400 mm\", \"700 mm\"], mirror = "
        "true }\n"
        "[parts.bar]\nkind = \"track bar\"\nends = [\"bar_frame\", \"bar_axle\"]\n"
        "[measured]\naxes = \"gauge holes\"\ngauge_holes = [\"hole_left\", \"sector_low\"]\n"
        "known_places = [[\"3 mm\", \"401 mm\", \"690 mm\"], [\"403 mm\", \"501 mm\", \"690 "
        "mm\"]]\n"
        "plus_minus = \"2 mm\"\n"
        "[readings.bench]\nkind = \"length\"\nof = \"bar\"\nvalue = \"906 mm\"\nplus_minus = \"1 "
        "mm\"\n";
    std::map<std::string, std::string> files{{"m.toml", measured}, {"truck.toml", sample::kTruck}};
    const Result<Truck> truck = read_truck("m.toml", sample::serve(files));
    ASSERT_TRUE(truck) << all_of(truck.error());
    ASSERT_TRUE(truck->fit.has_value());
    files["f.toml"] = fitted_file(*truck, "m.toml");
    const Result<Truck> fitted = read_truck("f.toml", sample::serve(files));
    ASSERT_TRUE(fitted) << files["f.toml"] << all_of(fitted.error());
    EXPECT_TRUE(fitted->warnings.empty()) << all_of(fitted->warnings);
    EXPECT_FALSE(fitted->fit.has_value());
    EXPECT_EQ(fitted->name, "My \"truck\", as fitted");
    for (const Point& point : fitted->points) {
      const Point* before = find_point(*truck, point.name);
      ASSERT_NE(before, nullptr);
      EXPECT_LT((point.at - before->at).norm(), 3e-6) << point.name;  // the last digit written
      EXPECT_EQ(point.on, before->on);
      EXPECT_EQ(point.mirror_of, before->mirror_of);
    }
    // The holes served the fit alone.
    EXPECT_EQ(find_point(*fitted, "hole_left"), nullptr);
    EXPECT_NE(find_point(*fitted, "sector_low"), nullptr);
  }
}

}  // namespace axlewright
