#include "apps/threads/in_threads.h"

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/invariant.h"

// What ForEach promises (engine/base/pieces.h), of one thread and of several.

namespace axlewright {
namespace {

using namespace std::chrono_literals;

class InThreads : public ::testing::TestWithParam<std::size_t> {
 protected:
  ForEach for_each = in_threads(GetParam());
};

std::string name_of(const ::testing::TestParamInfo<std::size_t>& info) {
  return std::to_string(info.param);
}

INSTANTIATE_TEST_SUITE_P(Threads, InThreads, ::testing::Values(1, 2, 3, 7, kMostThreads), name_of);

/// What comes out of the pieces, in words; "" if nothing does.
std::string thrown_by(const ForEach& for_each, std::size_t count, const Piece& piece,
                      const Progress& progress = {}) {
  try {
    for_each(count, piece, progress);
  } catch (const std::exception& error) {
    return error.what();
  }
  return "";
}

TEST_P(InThreads, EveryPieceIsDoneOnce) {
  for (const std::size_t count : {0, 1, 2, 5, 500}) {
    std::vector<std::atomic<int>> done(count);
    EXPECT_TRUE(for_each(count, [&](std::size_t k) { ++done[k]; }, {}));
    for (const std::atomic<int>& times : done) EXPECT_EQ(times, 1);
  }
}

TEST_P(InThreads, ProgressIsToldByTheCallerFromNothingUpwards) {
  const std::thread::id caller = std::this_thread::get_id();
  std::vector<double> told;
  const auto note = [&](double share) {
    EXPECT_EQ(std::this_thread::get_id(), caller);
    told.push_back(share);
    return true;
  };
  EXPECT_TRUE(for_each(
      100, [](std::size_t) {}, note));
  ASSERT_FALSE(told.empty());
  EXPECT_EQ(told.front(), 0);
  for (std::size_t k = 1; k < told.size(); ++k) EXPECT_GT(told[k], told[k - 1]);
  EXPECT_LE(told.back(), 1);
}

TEST_P(InThreads, ANoAtFirstBeginsNothing) {
  std::atomic<int> begun = 0;
  EXPECT_FALSE(for_each(
      100, [&](std::size_t) { ++begun; }, [](double) { return false; }));
  EXPECT_EQ(begun, 0);
}

TEST_P(InThreads, AfterANoNothingIsBegunAndNothingIsLeftAtWork) {
  // As many as would take a minute and more, whoever else has the machine.
  constexpr std::size_t kCount = 10000000;
  std::atomic<std::size_t> begun = 0, ended = 0;
  std::atomic<bool> said_no = false;
  const auto piece = [&](std::size_t) {
    ++begun;
    std::this_thread::sleep_for(2ms);
    ++ended;
  };
  const auto no_after_some = [&](double share) {
    EXPECT_FALSE(said_no) << "told on after a no";
    said_no = share > 0;
    return !said_no;
  };
  EXPECT_FALSE(for_each(kCount, piece, no_after_some));
  EXPECT_TRUE(said_no);
  EXPECT_EQ(ended, begun);
  EXPECT_LT(begun, kCount / 2);
}

TEST_P(InThreads, TheLowestOfThoseThatThrewComesOut) {
  // The higher one throws first, where there is a thread for it.
  std::atomic<bool> high_threw = false;
  std::atomic<int> begun = 0, ended = 0;
  const auto piece = [&](std::size_t k) {
    ++begun;
    while (k == 3 && GetParam() > 1 && !high_threw) std::this_thread::yield();
    ++ended;
    if (k == 7) high_threw = true;
    if (k == 3 || k == 7) throw std::runtime_error("piece " + std::to_string(k));
  };
  EXPECT_EQ(thrown_by(for_each, 100, piece), "piece 3");
  EXPECT_EQ(ended, begun);
}

TEST_P(InThreads, AMistakeOfOursReachesTheCaller) {
  const InvariantHandler before =
      set_invariant_handler([](const char* expression, const char*, int) {
        throw std::logic_error(std::string("broken: ") + expression);
      });
  const std::string thrown =
      thrown_by(for_each, 10, [](std::size_t k) { AXLEWRIGHT_INVARIANT(k != 4); });
  set_invariant_handler(before);
  EXPECT_EQ(thrown, "broken: k != 4");
}

TEST_P(InThreads, WhatProgressThrowsComesOutWithNothingLeftAtWork) {
  std::atomic<int> begun = 0, ended = 0;
  const auto piece = [&](std::size_t) {
    ++begun;
    std::this_thread::sleep_for(1ms);
    ++ended;
  };
  const auto throws = [](double share) {
    if (share > 0) throw std::runtime_error("enough");
    return true;
  };
  EXPECT_EQ(thrown_by(for_each, 1000, piece, throws), "enough");
  EXPECT_EQ(ended, begun);
}

TEST(AllThreads, AreOneAtLeast) {
  EXPECT_GE(all_threads(), 1u);
  EXPECT_LE(all_threads(), kMostThreads);
}

// Two pieces that wait for each other: one after the other they never would end.
TEST(AllThreads, SeveralWorkAtOnce) {
  std::atomic<int> here = 0;
  const auto meet = [&](std::size_t) {
    ++here;
    while (here < 2) std::this_thread::yield();
  };
  EXPECT_TRUE(in_threads(2)(2, meet, {}));
}

}  // namespace
}  // namespace axlewright
