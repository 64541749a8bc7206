// What runs out, on linkages in the plane whose dead centres are drawn by hand. Millimetres in the drawings, x right, y up.

#include "engine/solve/run_out.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/solve/follower.h"

namespace axlewright {
namespace {

/// A linkage in the plane z = 0.
class Plane {
 public:
  static Vec3 at(double x_mm, double y_mm) { return Vec3(x_mm, y_mm, 0) * 1e-3; }

  BodyId body(const std::string& name) { return m_.add_body(name); }

  JointId pin(const std::string& name, BodyId a, BodyId b, const Vec3& place) {
    return m_.add_pin(name, a, b, place, Vec3::UnitZ());
  }

  void bar(const std::string& name, BodyId a, const Vec3& from, BodyId b, const Vec3& to) {
    m_.add_bar(name, a, from, b, to);
  }

  void slide(const std::string& name, BodyId a, BodyId b, const Vec3& way) {
    m_.add_slide(name, a, b, way);
  }

  void on_line(const std::string& name, BodyId line, const Vec3& origin, const Vec3& way,
               BodyId rider, const Vec3& place) {
    m_.add_joint({.name = name,
                  .kind = JointKind::point_on_line,
                  .body_a = line,
                  .body_b = rider,
                  .a = m_.add_anchor(name, line, origin),
                  .b = m_.add_anchor(name, rider, place),
                  .axis_a = m_.add_axis(name, line, way)});
  }

  void turn_is_set(JointId pin) {
    input_ = m_.add_input({.name = "turn", .kind = InputKind::turn, .joint = pin});
  }

  void place_is_set(BodyId body, const Vec3& place, const Vec3& way) {
    input_ = m_.add_input({.name = "place",
                           .kind = InputKind::coordinate,
                           .anchor = m_.add_anchor("set", body, place),
                           .axis = m_.add_axis("set", kFrame, way)});
  }

  /// Moves the input on by an amount that no pose has.
  SolveReport too_far(double amount) const {
    PathFollower follower(assemble(m_, {input_}));
    std::vector<double> inputs = follower.as_measured_inputs();
    inputs[0] += amount;
    const SolveReport report = follower.go_to(inputs);
    EXPECT_EQ(report.outcome, Outcome::out_of_reach) << report.message;
    return report;
  }

 private:
  Mechanism m_;
  InputId input_;
};

std::string sentence_of(const SolveReport& report) {
  return report.what_ran_out + " " + report.how_it_ran_out;
}

/// Where two circles meet, on the left of the way from a to b.
Vec3 meet(const Vec3& a, double to_a, const Vec3& b, double to_b) {
  const Vec3 span = b - a;
  const double d = span.norm(), along = (d * d + to_a * to_a - to_b * to_b) / (2 * d);
  const double off = std::sqrt(to_a * to_a - along * along);
  return a + span * (along / d) + Vec3(-span.y(), span.x(), 0) * (off / d);
}

/// Crank of 200 on the left, rocker of 250 on the right, pivots 400 apart, coupler 300.
struct FourBar {
  Plane p;
  BodyId crank, rocker;
  Vec3 tip, end;

  FourBar() {
    crank = p.body("crank");
    rocker = p.body("rocker");
    tip = 0.2 * Vec3(std::cos(1.2), std::sin(1.2), 0);
    end = meet(tip, 0.3, Plane::at(400, 0), 0.25);
    p.turn_is_set(p.pin("crank pivot", kFrame, crank, Vec3::Zero()));
    p.pin("rocker pivot", kFrame, rocker, Plane::at(400, 0));
  }
};

// Coupler and rocker reach 550, crank and frame up to 600: the crank cannot go round on the far side.
TEST(RunOut, CouplerAndRockerOfAFourBarRunStraight) {
  FourBar f;
  f.p.bar("coupler", f.crank, f.tip, f.rocker, f.end);
  EXPECT_EQ(sentence_of(f.p.too_far(1.9)), "coupler and rocker run straight");
}

TEST(RunOut, ACouplerThatIsABodyToo) {
  FourBar f;
  const BodyId coupler = f.p.body("coupler");
  f.p.pin("tip", f.crank, coupler, f.tip);
  f.p.pin("end", coupler, f.rocker, f.end);
  const std::string sentence = sentence_of(f.p.too_far(1.9));
  EXPECT_TRUE(sentence == "coupler and rocker run straight" ||
              sentence == "rocker and coupler run straight")
      << sentence;
}

// A coupler of 120 and a rocker of 300 cannot span less than 180; the crank's tip comes as near as 400 - 350 = 50.
TEST(RunOut, AShortCouplerFoldsOverItsRocker) {
  Plane p;
  const BodyId crank = p.body("crank"), rocker = p.body("rocker");
  const Vec3 tip = 0.35 * Vec3(std::cos(0.9), std::sin(0.9), 0);
  p.turn_is_set(p.pin("crank pivot", kFrame, crank, Vec3::Zero()));
  p.pin("rocker pivot", kFrame, rocker, Plane::at(400, 0));
  p.bar("coupler", crank, tip, rocker, meet(tip, 0.12, Plane::at(400, 0), 0.3));
  EXPECT_EQ(sentence_of(p.too_far(-0.8)), "coupler and rocker fold over each other");
}

// Crank 100, rod 250, the rider pulled out: 350 is the farthest.
TEST(RunOut, CrankAndRodRunStraight) {
  Plane p;
  const BodyId crank = p.body("crank"), rider = p.body("rider");
  p.pin("crank pivot", kFrame, crank, Vec3::Zero());
  p.slide("way", kFrame, rider, Vec3::UnitX());
  const Vec3 foot = Plane::at(300, 0);
  p.bar("rod", crank, meet(Vec3::Zero(), 0.1, foot, 0.25), rider, foot);
  p.place_is_set(rider, foot, Vec3::UnitX());
  EXPECT_EQ(sentence_of(p.too_far(0.08)), "rod and crank run straight");
}

// The rider is driven by a four-bar that is nowhere near a dead centre and only passes the force on.
TEST(RunOut, PartsThatPassTheForceOnAreNotNamed) {
  Plane p;
  const BodyId lever = p.body("lever"), relay = p.body("relay"), rider = p.body("rider"),
               crank = p.body("crank");
  p.turn_is_set(p.pin("lever pivot", kFrame, lever, Plane::at(600, -300)));
  p.pin("relay pivot", kFrame, relay, Plane::at(450, -300));
  p.bar("relay link", lever, Plane::at(600, -100), relay, Plane::at(450, -100));
  p.slide("way", kFrame, rider, Vec3::UnitX());
  p.bar("push rod", relay, Plane::at(450, -100), rider, Plane::at(300, -60));
  p.pin("crank pivot", kFrame, crank, Vec3::Zero());
  const Vec3 foot = Plane::at(300, 0);
  p.bar("rod", crank, meet(Vec3::Zero(), 0.1, foot, 0.25), rider, foot);
  EXPECT_EQ(sentence_of(p.too_far(-0.5)), "rod and crank run straight");
}

// A track bar of 400 across to an axle that only rises and shifts: it stands upright once the axle is 400 away.
TEST(RunOut, ATrackBarThatStandsUprightIsAtADeadCentre) {
  Plane p;
  const BodyId sled = p.body("guide block"), axle = p.body("axle");
  p.slide("up and down", kFrame, sled, Vec3::UnitY());
  p.slide("across", sled, axle, Vec3::UnitX());
  p.bar("track bar", kFrame, Plane::at(0, 0), axle,
        Plane::at(390, -std::sqrt(400. * 400 - 390 * 390)));
  p.place_is_set(axle, Plane::at(390, -100), Vec3::UnitY());
  EXPECT_EQ(sentence_of(p.too_far(-0.5)), "track bar is at a dead centre");
}

// A crank pin in a slot that stands square to the slotted rider's way (a yoke): at the end of the stroke the rider cannot turn the crank, and
// no bar is in it.
TEST(RunOut, ACrankInAYokeIsAtADeadCentre) {
  Plane p;
  const BodyId crank = p.body("crank"), yoke = p.body("yoke");
  p.pin("crank pivot", kFrame, crank, Vec3::Zero());
  p.slide("way", kFrame, yoke, Vec3::UnitX());
  const Vec3 tip = 0.1 * Vec3(std::cos(0.9), std::sin(0.9), 0);
  p.on_line("slot", yoke, tip, Vec3::UnitY(), crank, tip);
  p.place_is_set(yoke, tip, Vec3::UnitX());
  EXPECT_EQ(sentence_of(p.too_far(0.08)), "crank is at a dead centre");
}

TEST(RunOut, WordsAgreeInNumber) {
  EXPECT_EQ((RunOut{.parts = {"track bar"}}.sentence()), "track bar is at a dead centre");
  EXPECT_EQ((RunOut{.parts = {"a", "b", "c"}}.sentence()), "a, b and c are at a dead centre");
  EXPECT_EQ(
      (RunOut{.parts = {"drag link", "left knuckle"}, .how = RunOut::How::straight}.sentence()),
      "drag link and left knuckle run straight");
}

}  // namespace
}  // namespace axlewright
