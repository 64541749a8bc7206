#include "apps/browser/reply.h"

#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

tl::expected<std::string, std::string> no_file(const std::string&) {
  return tl::unexpected<std::string>("there is no such file");
}

/// What the only fault says; empty where there is none, or more than one.
std::string only_fault(const std::string& reply) {
  const Json answer = Json::parse(reply);
  if (!answer.contains("faults") || answer.size() != 1 || answer["faults"].size() != 1) return "";
  return answer["faults"][0]["what"].get<std::string>();
}

TEST(Reply, HandsOutTheAnswer) {
  const Json answer = Json::parse(reply(R"({"ask": "start", "layout": "guided"})", {no_file, {}}));
  EXPECT_EQ(answer["ask"], "start");
  EXPECT_EQ(answer["layout"], "guided");
}

TEST(Reply, WhatIsNoJsonIsAFault) {
  for (const char* text : {"", "check", R"({"ask": "check")", "\xff"})
    EXPECT_EQ(only_fault(reply(text, {no_file, {}})), "the question is no JSON") << text;
}

TEST(Reply, WhatCannotBeAnsweredIsAFault) {
  EXPECT_NE(only_fault(reply(R"({"ask": "check", "file": "truck.toml"})", {no_file, {}})), "");
  EXPECT_EQ(only_fault(reply(R"({"ask": "chekc"})", {no_file, {}})),
            "nothing is called \"chekc\" here");
}

// JSON is UTF-8, and a file's bytes need not be: what stands in a fault's line is spelled so that it can be read.
TEST(Reply, BytesThatAreNoTextComeOutAsText) {
  const auto bytes = [](const std::string&) -> tl::expected<std::string, std::string> {
    return "name = \"\xff\"";
  };
  EXPECT_NE(only_fault(reply(R"({"ask": "check", "file": "truck.toml"})", {bytes, {}})), "");
}

TEST(Reply, OurOwnMistakeIsAFaultAndTheNextQuestionIsAnswered) {
  const InvariantHandler before = set_invariant_handler(
      [](const char* expression, const char*, int) { throw std::logic_error(expression); });
  const auto mistaken = [](const std::string&) -> tl::expected<std::string, std::string> {
    AXLEWRIGHT_INVARIANT(1 > 2);
    return "";
  };
  EXPECT_EQ(only_fault(reply(R"({"ask": "check", "file": "truck.toml"})", {mistaken, {}})),
            "this should not happen, please report it: 1 > 2");
  set_invariant_handler(before);
  EXPECT_EQ(Json::parse(reply(R"({"ask": "start", "layout": "plain"})", {no_file, {}}))["ask"],
            "start");
}

}  // namespace
}  // namespace axlewright
