#include <chrono>
#include <memory>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "tests/serve/served_folder.h"

// Visitors who say nothing, or little by little, or never listen; and where the server listens at all.

namespace axlewright::test {
namespace {

using Clock = std::chrono::steady_clock;
using namespace std::chrono_literals;

class Visitors : public ServedFolder {
 protected:
  using Crowd = std::vector<std::unique_ptr<Visitor>>;

  Crowd crowd(int count) const {
    Crowd visitors;
    for (int k = 0; k < count; ++k) visitors.push_back(std::make_unique<Visitor>(port()));
    return visitors;
  }
};

TEST_F(Visitors, FromThisMachineAloneAreHeard) {
  EXPECT_TRUE(Visitor(port(), "127.0.0.1").is_connected());
  // All of 127.x.x.x is this machine, but only one address of it is listened at; 0.0.0.0 would have taken every one.
  EXPECT_FALSE(Visitor(port(), "127.0.0.2").is_connected());
}

TEST_F(Visitors, AThousandOneAfterTheOtherAreServed) {
  for (int k = 0; k < 1000; ++k) ASSERT_EQ(get("/files/small.toml").status, 200);
}

TEST_F(Visitors, ManyAtOnceAreServed) {
  std::vector<std::thread> threads;
  threads.reserve(32);
  for (int k = 0; k < 32; ++k) {
    threads.emplace_back([this] {
      for (int i = 0; i < 10; ++i) EXPECT_EQ(get("/files/small.toml").status, 200);
    });
  }
  for (std::thread& thread : threads) thread.join();
}

TEST_F(Visitors, SilentOnesDoNotKeepOthersOut) {
  // As many as a browser holds ready in advance.
  const Crowd silent = crowd(6);
  const auto begin = Clock::now();
  EXPECT_EQ(get("/files/small.toml").status, 200);
  EXPECT_LT(Clock::now() - begin, 1s);
}

TEST_F(Visitors, SilentAndSlowOnesAreDropped) {
  // One for each thread, so that nobody else is heard until they are dropped.
  const Crowd silent = crowd(4), slow = crowd(4);
  const auto begin = Clock::now();
  bool heard = true;
  std::thread drip([&] {
    for (const char c : request("GET", "/files", "", {}).substr(0, 80)) {
      bool any = false;
      for (const auto& visitor : slow) any = visitor->send(std::string(1, c)) || any;
      heard = any;
      if (!any) return;
      std::this_thread::sleep_for(150ms);
    }
  });
  EXPECT_EQ(get("/files/small.toml").status, 200);
  EXPECT_LT(Clock::now() - begin, 15s);
  drip.join();
  EXPECT_FALSE(heard);
  for (const auto& visitor : silent) EXPECT_EQ(visitor->rest(), "");
}

TEST_F(Visitors, WhoNeverListensIsLeft) {
  serve([] { return std::string(std::size_t{8} << 20, ' '); });
  // More than the system keeps for them; none of them reads.
  const Crowd deaf = crowd(6);
  for (const auto& visitor : deaf) visitor->send(request("GET", "/", "", {}));
  EXPECT_EQ(get("/files/small.toml").status, 200);
}

TEST_F(Visitors, WhoHangsUpEarlyHarmsNobody) {
  serve([] { return std::string(std::size_t{8} << 20, ' '); });
  for (int k = 0; k < 20; ++k) {
    const Visitor visitor(port());
    visitor.send(request("GET", "/", "", {}));
  }
  EXPECT_EQ(get("/files/small.toml").status, 200);
}

TEST_F(Visitors, StoppingWaitsForNobody) {
  const Crowd silent = crowd(20);
  for (std::size_t k = 0; k < 4; ++k)
    silent[k]->send(request("PUT", "/files/small.toml", "", {{"Content-Length", "100"}}));
  std::this_thread::sleep_for(100ms);
  const auto begin = Clock::now();
  stop();
  EXPECT_LT(Clock::now() - begin, 2s);
  EXPECT_EQ(read(shop_ / "small.toml"), kSmall);
}

TEST_F(Visitors, StoppingAtOnceStops) {
  for (int k = 0; k < 50; ++k) serve();
  EXPECT_EQ(get("/files").status, 200);
}

TEST_F(Visitors, APortThatIsTakenIsNotShared) {
  auto folder = TruckFolder::open(shop_.string());
  const auto second = Server::start(
      std::move(*folder), [] { return kPage; }, port());
  ASSERT_FALSE(second.has_value());
  EXPECT_EQ(
      second.error(),
      fmt::format("port {} cannot be had: another program listens there, or it is not allowed",
                  port()));
}

TEST_F(Visitors, APortIsFreeAgainAfterwards) {
  const int port = this->port();
  EXPECT_EQ(get("/files").status, 200);
  stop();
  EXPECT_FALSE(Visitor(port).is_connected());
  auto folder = TruckFolder::open(shop_.string());
  EXPECT_TRUE(Server::start(
                  std::move(*folder), [] { return kPage; }, port)
                  .has_value());
}

}  // namespace
}  // namespace axlewright::test
