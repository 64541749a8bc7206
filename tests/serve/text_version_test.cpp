#include "apps/serve/text_version.h"

#include <set>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

TEST(TextVersion, IsTheSameForTheSameBytes) {
  EXPECT_EQ(version_of("at = [0, 1, 2]"), version_of(std::string("at = [0, 1, 2]")));
}

TEST(TextVersion, TellsEverySmallChange) {
  const std::string text = "at = [0, 10, 200]\n";
  std::set<std::string> versions{version_of(text), version_of(text + "\n")};
  for (std::size_t k = 0; k < text.size(); ++k) {
    std::string changed = text;
    changed[k] ^= 1;
    versions.insert(version_of(changed));
    versions.insert(version_of(text.substr(0, k)));
  }
  EXPECT_EQ(versions.size(), 2 + 2 * text.size());
}

TEST(TextVersion, OfAnEmptyFileIsNotThatOfNone) {
  EXPECT_NE(version_of(""), kNoFile);
}

TEST(TextVersion, IsFnv1a) {
  // Test values of the hash's authors, from memory; the tests above do not need them.
  EXPECT_EQ(version_of(""), "cbf29ce484222325");
  EXPECT_EQ(version_of("a"), "af63dc4c8601ec8c");
  EXPECT_EQ(version_of("foobar"), "85944171f73967e8");
}

}  // namespace
}  // namespace axlewright
