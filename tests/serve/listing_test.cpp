#include <gtest/gtest.h>

#include <fmt/format.h>

#include "tests/serve/privileges.h"
#include "tests/serve/served_folder.h"

namespace axlewright::test {
namespace {

namespace fs = std::filesystem;

class Listing : public ServedFolder {
 protected:
  std::map<std::string, nlohmann::json> listed() const {
    std::map<std::string, nlohmann::json> files;
    const nlohmann::json answer = get("/files").json();
    for (const nlohmann::json& file : answer.at("files")) files[file.at("path")] = file;
    return files;
  }
};

TEST_F(Listing, TellsTheTruckFilesOfTheFolderAndBelow) {
  write(shop_ / "notes.txt", "notes");
  const auto answer = get("/files").json();
  EXPECT_EQ(answer.at("folder"), "shop");
  ASSERT_EQ(answer.at("files").size(), 2u);
  EXPECT_EQ(answer["files"][0].at("path"), "kits/kit.toml");
  EXPECT_EQ(answer["files"][1].at("path"), "small.toml");
  EXPECT_EQ(answer["files"][1].at("size"), std::string(kSmall).size());
  EXPECT_EQ(answer["files"][1].at("version"), version("small.toml"));
}

TEST_F(Listing, TellsWhatIsThereNow) {
  const auto before = listed();
  write(shop_ / "small.toml", "changed");
  write(shop_ / "new.toml", "");
  fs::remove(shop_ / "kits" / "kit.toml");
  const auto after = listed();
  EXPECT_NE(after.at("small.toml").at("version"), before.at("small.toml").at("version"));
  EXPECT_EQ(after.at("new.toml").at("size"), 0);
  EXPECT_EQ(after.count("kits/kit.toml"), 0u);
}

TEST_F(Listing, PassesOverWhatIsHidden) {
  fs::create_directory(shop_ / ".git");
  write(shop_ / ".git" / "x.toml", kSecret);
  write(shop_ / ".x.toml", kSecret);
  EXPECT_EQ(listed().size(), 2u);
}

TEST_F(Listing, TellsWhyAFileCannotBeRead) {
  fs::create_symlink(secret_, shop_ / "link.toml");
  write(shop_ / "large.toml", std::string((std::size_t{1} << 20) + 1, '#'));
  write(shop_ / "back\\slash.toml", kSmall);
  write(shop_ / "latin\xE4.toml", kSmall);
  const auto files = listed();
  ASSERT_EQ(files.size(), 6u);
  for (const auto& [path, words] : std::map<std::string, std::string>{
           {"link.toml", "it is a symbolic link, and links are not followed"},
           {"large.toml", "it is larger than 1 MiB: that is no truck file"},
           {"back\\slash.toml", "a path has slashes, not backslashes"},
           {"latin\xEF\xBF\xBD.toml", "the path is not UTF-8"}}) {
    SCOPED_TRACE(path);
    EXPECT_EQ(files.at(path).at("error"), words);
    EXPECT_EQ(files.at(path).count("version"), 0u);
  }
}

TEST_F(Listing, TellsWhatItMayNotLookInto) {
  fs::permissions(shop_ / "kits", fs::perms::owner_all);
  fs::permissions(shop_ / "small.toml", fs::perms::owner_read);
  const WithoutPrivileges stranger;
  if (!stranger.is_stranger()) fs::permissions(shop_ / "kits", fs::perms::none);
  const auto files = listed();
  EXPECT_EQ(files.at("kits/").at("error"), "you are not allowed to read it");
  if (stranger.is_stranger()) {
    EXPECT_EQ(files.at("small.toml").at("error"), "you are not allowed to read it");
    EXPECT_EQ(get("/files/small.toml").status, 403);
  }
  if (!stranger.is_stranger()) fs::permissions(shop_ / "kits", fs::perms::owner_all);
}

TEST_F(Listing, FollowsNoFolderRoundInCircles) {
  fs::create_directory_symlink(shop_, shop_ / "kits" / "shop");
  EXPECT_EQ(listed().size(), 2u);
}

TEST_F(Listing, GoesOnlySoDeep) {
  fs::path deep = shop_;
  for (std::size_t k = 0; k < kMostFolders; ++k) deep /= "a";
  fs::create_directories(deep / "a");
  write(deep / "last.toml", kSmall);
  write(deep / "a" / "beyond.toml", kSmall);
  const auto files = listed();
  ASSERT_EQ(files.size(), 4u);
  const std::string last = fs::relative(deep, shop_).string() + "/last.toml";
  EXPECT_EQ(files.at(last).at("version"), version(last));
  EXPECT_EQ(files.at(fs::relative(deep / "a", shop_).string() + "/").at("error"),
            "it lies in too many folders");
}

TEST_F(Listing, RefusesAFolderThatHoldsTooMuch) {
  for (int k = 0; k <= 1000; ++k) write(shop_ / fmt::format("{}.toml", k), "");
  const Reply reply = get("/files");
  EXPECT_EQ(reply.status, 500);
  EXPECT_NE(reply.error().find("serve a folder with less in it"), std::string::npos);
}

TEST_F(Listing, AFileThatIsTooLargeIsNotRead) {
  write(shop_ / "large.toml", std::string((std::size_t{1} << 20) + 1, '#'));
  EXPECT_EQ(get("/files/large.toml").status, 413);
  write(shop_ / "large.toml", std::string(std::size_t{1} << 20, '#'));
  EXPECT_EQ(get("/files/large.toml").status, 200);
}

TEST_F(Listing, AFileThatIsNoTextIsNotRead) {
  write(shop_ / "latin.toml", "# L\xE4nge\n");
  const Reply reply = get("/files/latin.toml");
  EXPECT_EQ(reply.status, 422);
  EXPECT_EQ(reply.error(), "it is not UTF-8 text");
}

TEST(Opening, WhatIsNoFolderIsRefused) {
  EXPECT_EQ(TruckFolder::open("/no/such/folder").error(), "there is no such folder");
  EXPECT_EQ(TruckFolder::open("/dev/null").error(), "it is a file: give the folder that holds it");
}

}  // namespace
}  // namespace axlewright::test
