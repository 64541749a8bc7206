// What `check` prints of a truck that was measured and fitted.

#include <string>

#include <gtest/gtest.h>

#include "engine/output/answer_text.h"
#include "engine/output/answers_test.h"

namespace axlewright {
namespace {

using testing::line_with;
using testing::lines_in;

std::string printed(const std::string& units, bool all) {
  const Json answer = testing::answer_to(
      {{"ask", "check"}, {"file", testing::example_file("plain-measured")}, {"units", units}});
  PrintStyle style;
  style.all = all;
  return answer_text(answer, style);
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

TEST(MeasuredText, ShowsEveryReadingWithItsMisfit) {
  const std::string text = printed("mm", false);
  const std::string bench = line_with(text, "  track bar length");
  EXPECT_NE(bench.find("1137.7 mm"), std::string::npos) << bench;
  EXPECT_NE(bench.find("0.5 mm"), std::string::npos) << bench;
  EXPECT_NE(line_with(text, "  track bar slope").find("6.70 deg"), std::string::npos);
  EXPECT_EQ(count_of(text, " worst\n"), 1u);
}

TEST(MeasuredText, ShowsInchesWhereTheyAreAskedFor) {
  EXPECT_NE(line_with(printed("inch", false), "  track bar length").find("44.791 in"),
            std::string::npos);
}

TEST(MeasuredText, ShowsAllCoordinatesAndPointsIfAsked) {
  const std::string some = printed("mm", false), all = printed("mm", true);
  EXPECT_NE(some.find("--all shows"), std::string::npos);
  EXPECT_EQ(all.find("--all shows"), std::string::npos);
  EXPECT_GT(count_of(all, "' "), count_of(some, "' "));
}

TEST(MeasuredText, KeepsToThePage) {
  for (const char* units : {"mm", "inch"}) {
    for (const bool all : {false, true}) {
      for (const std::string& line : lines_in(printed(units, all)))
        EXPECT_LE(text_width(line), 80) << line;
    }
  }
}

}  // namespace
}  // namespace axlewright
