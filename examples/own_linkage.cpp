// A linkage of one's own, without any truck: Watt's four-bar, whose middle runs up and down on a line that is nearly straight.
// Each pose is set beside what a ruler and a compass give: two circles that meet.

#include <algorithm>
#include <cmath>
#include <cstdio>

#include <engine/base/number.h>
#include <engine/base/units.h>
#include <engine/solve/follower.h>

namespace aw = axlewright;
using aw::Vec3;

namespace {

// Seen from ahead, y left and z up [m]. The left arm hangs on B and ends in A, the right arm on D and ends in C; the crank
// joins A to C, and its middle is the place to look at.
const Vec3 B(0, 0.300, 0.060), A(0, 0, 0.060), C(0, 0, -0.060), D(0, -0.300, -0.060);
const Vec3 kMiddle = (A + C) / 2;

/// The same place by compass: A turned about B, then C where the circle about A meets the circle about D.
Vec3 middle_by_compass(double turn) {
  const double arm = (A - B).norm(), crank = (C - A).norm();
  const Vec3 a(0, B.y() - arm * std::cos(turn), B.z() - arm * std::sin(turn));
  const Vec3 line = D - a;
  const double apart = line.norm(),
               along = (apart * apart + crank * crank - arm * arm) / (2 * apart);
  const Vec3 square(0, -line.z(), line.y());  // towards the side on which C was assembled
  const Vec3 c = a + (line * along + square * std::sqrt(crank * crank - along * along)) / apart;
  return (a + c) / 2;
}

}  // namespace

int main() {
  // Bodies and joints as they stand. The right arm only keeps its two ends apart: a bar, no body. (What add_pin() and
  // add_bar() do not make, add_joint() does.)
  aw::Mechanism m;
  const aw::BodyId arm = m.add_body("left arm"), crank = m.add_body("crank");
  const aw::JointId pivot = m.add_pin("left arm's pivot", aw::kFrame, arm, B, Vec3::UnitX());
  m.add_pin("crank's upper pin", arm, crank, A, Vec3::UnitX());
  m.add_bar("right arm", aw::kFrame, D, crank, C);
  const aw::InputId turn =
      m.add_input({.name = "left arm's turn", .kind = aw::InputKind::turn, .joint = pivot});

  // What holds it, what is loose: with its one input held nothing may move.
  const aw::Assembly assembly = aw::assemble(m, {turn});
  std::printf("Loose with the arm held: %d\n\n", assembly.mobility);
  std::printf("  arm's turn  crank's middle [mm]\n       deg        up    to the left\n");

  aw::PathFollower follower(assembly);
  double worst = 0;
  for (int deg = -20; deg <= 20; deg += 5) {
    const aw::SolveReport& report = follower.go_to({aw::from_deg(deg)});
    if (!report.usable()) {
      std::printf("%10d  %s\n", deg, report.message.c_str());
      return 3;
    }
    const Vec3 place =
        follower.kinematics().pose[static_cast<std::size_t>(crank.value)].place(kMiddle);
    worst = std::max(worst, (place - middle_by_compass(aw::from_deg(deg))).norm());
    std::printf("%10d  %8s  %13s\n", deg, aw::decimal_text(aw::to_mm(place.z()), 2, 2).c_str(),
                aw::decimal_text(aw::to_mm(place.y()), 3, 3).c_str());
  }
  const double tolerance = 1e-9;  // [m]: a nanometre; the follower closes to a tenth of it
  std::printf("\nNowhere a nanometre off the compass: %s\n", worst < tolerance ? "yes" : "NO");
  return worst < tolerance ? 0 : 1;
}
