#include "engine/disk/read_file.h"

#include <cstdio>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

std::string scratch(const char* name) {
  return (std::filesystem::path(testing::TempDir()) / name).string();
}

// A file is its bytes: no line end is changed, no byte order mark taken off, nothing ends at a zero.
TEST(ReadFile, GivesTheBytesAsTheyStand) {
  const std::string path = scratch("axlewright_read_file.toml");
  const std::string bytes("\xEF\xBB\xBFname = \"a\"\r\n\0b", 16);
  std::ofstream(path, std::ios::binary) << bytes;
  const auto text = read_file(path);
  ASSERT_TRUE(text) << text.error();
  EXPECT_EQ(*text, bytes);
  std::remove(path.c_str());
}

TEST(ReadFile, SaysWhyAFileCannotBeHad) {
  EXPECT_EQ(read_file(scratch("not_there.toml")).error(), "there is no such file");
  EXPECT_EQ(read_file(testing::TempDir()).error(), "it is a folder, not a file");
}

// A truck file that was changed on the disk reads as changed: nothing is kept from before.
TEST(ReadFile, TextsOnDiskAreReadAnew) {
  const std::string path = scratch("axlewright_texts_on_disk.toml");
  const TextOf text_of = texts_on_disk();
  std::ofstream(path) << "first";
  EXPECT_EQ(text_of(path), "first");
  std::ofstream(path) << "second";
  EXPECT_EQ(text_of(path), "second");
  std::remove(path.c_str());
}

}  // namespace
}  // namespace axlewright
