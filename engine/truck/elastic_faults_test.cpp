// Complaints about what gives: bushes, radius arms, leaf springs.

#include <gtest/gtest.h>

#include "engine/truck/fault_text.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {
namespace {

/// The sample truck with a radius arm, a leaf spring and a bush, one text changed.
std::string text_with(const std::string& from, const std::string& to) {
  std::string text = sample::changed("[wheels]", R"([parts.arm]
kind = "radius arm"
frame_end = "arm_frame"
axle_ends = ["arm_front", "arm_rear"]
[parts.spring]
kind = "leaf spring"
eye = "spring_eye"
shackle_eye = "spring_far_eye"
shackle = "spring_hanger"
seat = "spring_seat"
rate = 60
[bushes.arm_frame]
ball = "arm_frame"
of = "arm"
axis = [1, 0, 0]
radial = "8 kN/mm"
twist = 3
[wheels])");
  const std::size_t points = text.find("[points]\n");
  text.insert(points + 9, R"(arm_frame = { on = "frame", at = [-900, 470, 470] }
arm_front = { on = "axle", at = [70, 470, 410] }
arm_rear = { on = "axle", at = [-70, 470, 410] }
spring_eye = { on = "frame", at = [620, -440, 580] }
spring_seat = { on = "axle", at = [0, -440, 560] }
spring_far_eye = { on = "spring_shackle", at = [-640, -440, 580] }
spring_hanger = { on = "frame", at = [-660, -440, 690] }
)");
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

std::string faults_of(const std::string& from, const std::string& to) {
  const Result<Truck> truck = sample::read(text_with(from, to));
  std::string text;
  for (const Fault& fault : truck ? truck->warnings : truck.error()) text += text_of(fault);
  return text;
}

struct Row {
  std::string from, to;
  std::string what;  ///< stands in the complaint
  std::string fix;   ///< and this
};

TEST(ElasticFaults, TheSampleItselfHasNone) {
  EXPECT_EQ(faults_of("rate = 60", "rate = 60"), "");
}

TEST(ElasticFaults, EachIsToldWithAWayToMendIt) {
  const std::vector<Row> rows = {
      {"frame_end = \"arm_frame\"", "frame_end = \"arm_rear\"", "rides on axle, not on frame",
       "on = \"frame\""},
      {"axle_ends = [\"arm_front\", \"arm_rear\"]", "axle_ends = [\"arm_front\", \"arm_frame\"]",
       "rides on frame, not on axle", "on = \"axle\""},
      {"shackle_eye = \"spring_far_eye\"", "shackle_eye = \"spring_eye\"", "not on spring_shackle",
       "on = \"spring_shackle\""},
      {"rate = 60", "", "[parts.spring] has no 'rate'", "rate = \"60 N/mm\""},
      {"rate = 60", "rate = \"60 N m/deg\"", "'rate' is text where a stiffness belongs", "kN/mm"},
      {"rate = 60", "rate = 0.5", "'rate' is 0.5 N/mm, out of reason", "from 5 N/mm"},
      {"rate = 60", "rate = 60\npieces = 1", "'pieces' is 1, out of reason", "2"},
      {"rate = 60", "rate = 60\npieces = 2.5", "'pieces' is 2.5, no whole number", "pieces = 6"},
      {"radial = \"8 kN/mm\"", "radial = 0\naxial = 0", "holds nothing", "a ball"},
      {"rate = 60", "rate = 60\nshape = \"round\"", "no 'shape' is called 'round'", "'tapered'"},
      {"rate = 60", "rate = 60\nclamp = 500", "'clamp' is 500 mm, out of reason", "400 mm"},
      {"radial = \"8 kN/mm\"", "radial = \"8 mm\"", "'radial' is text where a stiffness belongs",
       "N/mm"},
      {"twist = 3", "twist = true", "'twist' is true or false where a stiffness belongs",
       "N m/deg"},
      {"twist = 3", "twist = -3", "'twist' is -3 N m/deg, out of reason", "from 0 N m/deg"},
      {"twist = 3", "kind = \"hard\"", "no 'kind' is called 'hard'", "'link end'"},
      {"of = \"arm\"", "of = \"strut\"", "no part or joint is called 'strut'", "'of'"},
      {"ball = \"arm_frame\"\nof = \"arm\"", "ball = \"spring_seat\"",
       "no ball is at 'spring_seat'", "a bar's end"},
      {"ball = \"arm_frame\"\nof = \"arm\"", "ball = \"bar_frame\"",
       "the bush is at an end of 'bar', which is no body", "[parts.bar] body = true"},
      {"[bushes.arm_frame]",
       "[bushes.other]\nball = \"arm_frame\"\naxis = [1, 0, 0]\n[bushes.arm_frame]",
       "[bushes.other] is at 'arm_frame' too", "'of'"},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.from + " -> " + row.to);
    const std::string told = faults_of(row.from, row.to);
    EXPECT_NE(told.find(row.what), std::string::npos) << told;
    EXPECT_NE(told.find(row.fix), std::string::npos) << told;
    EXPECT_NE(told.find("truck.toml:"), std::string::npos) << told;
  }
}

// 1 lbf/in is 0.1751268 N/mm (NIST SP 811, appendix B.8, from memory), and the units agree among themselves.
TEST(Stiffness, ReadsTheSameFromEveryUnit) {
  const auto radial_of = [](const std::string& spelled) {
    const Result<Truck> truck =
        sample::read(text_with("radial = \"8 kN/mm\"", "radial = " + spelled));
    EXPECT_TRUE(truck) << spelled;
    return truck ? truck->bushes.front().radial : NAN;
  };
  EXPECT_DOUBLE_EQ(radial_of("\"8 kN/mm\""), 8e6);
  EXPECT_DOUBLE_EQ(radial_of("8000"), 8e6);
  EXPECT_DOUBLE_EQ(radial_of("\"8000 kN/m\""), 8e6);
  EXPECT_NEAR(radial_of("\"1000 lbf/in\""), 175126.8, 0.1);
}

}  // namespace
}  // namespace axlewright
