// The same digits with any number of threads: whole answers, as text.

#include <cmath>
#include <string>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "apps/threads/in_threads.h"
#include "engine/ask/json.h"
#include "engine/study/sweep.h"
#include "tests/support/asked.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

#if defined(__SANITIZE_THREAD__)
constexpr std::size_t kThreads[] = {
    3};  // thirty times slower, and it looks for something else than digits
#else
constexpr std::size_t kThreads[] = {1, 2, 3, 7};
#endif

std::string answer_in(std::size_t threads, const Json& question) {
  AskContext context;
  context.text_of = testing::text_of_file;
  if (threads > 0) context.for_each = in_threads(threads);
  const Result<Json> answer = ask(question, context);
  EXPECT_TRUE(answer.has_value()) << question;
  return answer ? answer->dump() : "";
}

/// Gives the answer that all of them get; 0 threads: as asked without saying.
std::string same_in_any(const Json& question) {
  const std::string alone = answer_in(0, question);
  for (const std::size_t threads : kThreads)
    EXPECT_TRUE(answer_in(threads, question) == alone) << threads << " threads";
  return alone;
}

Json sweep_of(const std::string& truck, int heights) {
  return {{"ask", "sweep"}, {"file", testing::example_file(truck)}, {"heights", heights}};
}

TEST(SweepInThreads, RigidBars) {
  same_in_any(sweep_of("plain-mismatched", 11));
}

TEST(SweepInThreads, GuidedBars) {
  same_in_any(sweep_of("guided", 7));
}

TEST(SweepInThreads, ArmsOnBushes) {
  same_in_any(sweep_of("radius-arm", 2));
}

TEST(SweepInThreads, BothAxlesRaised) {
  Json question = sweep_of("two-axle", 3);
  question["rear_with_front"] = true;
  same_in_any(question);
}

// More poses cannot be had than are kept: the first ones are, in the order of the heights.
TEST(SweepInThreads, PosesThatCannotBeHad) {
  Json question = sweep_of("plain-mismatched", 5);
  question["set"] = {"travel.droop=400mm"};
  const Json answer = Json::parse(same_in_any(question));
  EXPECT_EQ(answer["refusals"].size(), kRefusalsKept);
  EXPECT_GT(answer["refused"], kRefusalsKept);
}

// More heights than are looked at before their notes are made into findings.
TEST(SweepInThreads, ManyHeights) {
  same_in_any(sweep_of("plain-parallel", 66));
}

TEST(SweepInThreads, TrucksSideBySide) {
  same_in_any(
      {{"ask", "compare"},
       {"files", {testing::example_file("plain-mismatched"), testing::example_file("guided")}},
       {"heights", 3}});
}

TEST(SweepInThreads, StoppedIsAFault) {
  const std::thread::id caller = std::this_thread::get_id();
  AskContext context;
  context.text_of = testing::text_of_file;
  context.for_each = in_threads(3);
  for (const double enough : {0.0, 0.05, 0.5, 0.95}) {
    double last = -1;
    context.progress = [&](double share) {
      EXPECT_EQ(std::this_thread::get_id(), caller);
      EXPECT_LT(last, enough) << "told on after a no";
      last = share;
      return share < enough;
    };
    const Result<Json> answer = ask(sweep_of("plain-mismatched", 20), context);
    ASSERT_FALSE(answer.has_value());
    EXPECT_NE(answer.error().front().what.find("stopped"), std::string::npos);
  }
}

/// Poses far apart, steered in every way.
std::vector<PoseRequest> some_poses() {
  std::vector<PoseRequest> poses;
  for (const double height : {0.0, 0.2, 0.1}) {
    for (const SteerBy by : {SteerBy::straight_ahead, SteerBy::held, SteerBy::pitman}) {
      PoseRequest pose;
      pose.height = height;
      pose.travel = 0.03;
      pose.lean = 0.02;
      pose.steer_by = by;
      if (by == SteerBy::pitman) pose.steer = 0.3;
      poses.push_back(pose);
    }
  }
  return poses;
}

/// To the last digit; what a pose does not have is NaN, the same in both.
void expect_same(const std::vector<double>& values, const std::vector<double>& wanted) {
  ASSERT_EQ(values.size(), wanted.size());
  for (std::size_t k = 0; k < wanted.size(); ++k)
    EXPECT_TRUE(values[k] == wanted[k] || (std::isnan(values[k]) && std::isnan(wanted[k]))) << k;
}

// What lets every piece have a rig of its own.
TEST(ACopiedRig, GivesTheSamePosesAndLeavesTheOtherAlone) {
  for (const char* truck :
       {"trucks/guided.toml", "trucks/radius-arm.toml", "trucks/two-axle.toml"}) {
    SCOPED_TRACE(truck);
    std::vector<std::vector<double>> alone;
    Rig first(testing::truck_of(truck));
    for (const PoseRequest& pose : some_poses()) alone.push_back(first.solve(pose).values);
    ASSERT_FALSE(alone.back().empty());

    Rig rig(testing::truck_of(truck));
    rig.solve(some_poses().back());
    Rig copy = rig;  // in the middle of its work
    for (std::size_t k = 0; k < alone.size(); ++k) {
      copy.solve(some_poses()[alone.size() - 1 - k]);
      const PoseRequest pose = some_poses()[k];
      expect_same(rig.solve(pose).values, alone[k]);
      expect_same(copy.solve(pose).values, alone[k]);
    }
  }
}

}  // namespace
}  // namespace axlewright
