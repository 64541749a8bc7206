#include "engine/base/did_you_mean.h"

#include <gtest/gtest.h>

namespace axlewright {

TEST(DidYouMean, CountsEditsAndSwaps) {
  EXPECT_EQ(edit_distance("", "abc"), 3);
  EXPECT_EQ(edit_distance("axle", "axle"), 0);
  EXPECT_EQ(edit_distance("axel", "axle"), 1);
  EXPECT_EQ(edit_distance("track_br", "track_bar"), 1);
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3);
}

TEST(DidYouMean, OffersTheNearestIfItIsNear) {
  const std::vector<std::string> names{"frame", "axle", "knuckle_left", "knuckle_right"};
  EXPECT_EQ(did_you_mean("axel", names), "axle");
  EXPECT_EQ(did_you_mean("knuckle_lef", names), "knuckle_left");
  EXPECT_EQ(did_you_mean("moon", names), "");
  EXPECT_EQ(did_you_mean("", names), "");
  EXPECT_EQ(did_you_mean(std::string(1000, 'a'), names), "");
}

}  // namespace axlewright
