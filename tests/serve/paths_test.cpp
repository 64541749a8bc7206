#include <gtest/gtest.h>

#include "apps/serve/truck_path.h"
#include "tests/serve/served_folder.h"

// Paths that try to get out of the folder, or to something in it that is no truck file.

namespace axlewright::test {
namespace {

class Paths : public ServedFolder {
 protected:
  /// Neither read nor saved, with words for why.
  void expect_refused(const std::string& encoded, int status = 400) const {
    SCOPED_TRACE(encoded);
    const Reply got = get("/files/" + encoded);
    EXPECT_EQ(got.status, status);
    EXPECT_FALSE(got.error().empty());
    EXPECT_EQ(got.body.find("Secret"), std::string::npos);
    const Reply saved = save(encoded, "changed", "");
    EXPECT_EQ(saved.status, status);
    EXPECT_FALSE(saved.error().empty());
    EXPECT_EQ(saved.headers.count("Set-Cookie"), 0u);
    expect_nothing_happened();
  }
};

TEST_F(Paths, UpwardsIsRefused) {
  expect_refused("../outside/secret.toml");
  expect_refused("kits/../../outside/secret.toml");
  expect_refused("kits/../small.toml");
  expect_refused("./small.toml");
  expect_refused("..");
}

TEST_F(Paths, UpwardsEncodedIsRefused) {
  expect_refused("%2e%2e/outside/secret.toml");
  expect_refused("%2E%2E%2Foutside%2Fsecret.toml");
  expect_refused("..%2foutside%2fsecret.toml");
  expect_refused(".%2e/outside/secret.toml");
}

TEST_F(Paths, WhatIsEncodedTwiceIsDecodedOnce) {
  // "%252e%252e" is a folder named "%2e%2e", which is not there.
  expect_refused("%252e%252e/outside/secret.toml", 404);
}

TEST_F(Paths, OtherSpellingsOfADotAreRefused) {
  expect_refused("%c0%ae%c0%ae/outside/secret.toml");           // overlong UTF-8
  expect_refused("%u002e%u002e/outside/secret.toml");           // no encoding of addresses
  expect_refused("\xEF\xBC\x8E\xEF\xBC\x8E/secret.toml", 404);  // a wide dot is no dot
}

TEST_F(Paths, BackslashesAreRefused) {
  expect_refused("..\\outside\\secret.toml");
  expect_refused("kits%5c..%5csmall.toml");
}

TEST_F(Paths, FromTheRootIsRefused) {
  const std::string secret = secret_.string();
  expect_refused(secret);
  expect_refused("/" + secret);
  expect_refused("%2f" + secret.substr(1));
  expect_refused("file://" + secret);
}

TEST_F(Paths, ZeroBytesAreRefused) {
  expect_refused("small.toml%00");
  expect_refused("small.toml%00.toml");
  expect_refused("%00");
}

TEST_F(Paths, ControlCharactersAreRefused) {
  expect_refused("x%0d%0aSet-Cookie:%20a=b%0d%0a.toml");
  expect_refused("x%0a.toml");
  expect_refused("x%7f.toml");
}

TEST_F(Paths, BrokenEncodingIsRefused) {
  for (const char* path : {"%", "%4", "%zz.toml", "%+1.toml", "%-1.toml", "% 1.toml", "x.toml%"})
    expect_refused(path);
  expect_refused("%ff%fe.toml");
  EXPECT_EQ(get("/files/%4").error(), "a % in the address has no two hexadecimal digits behind it");
}

TEST_F(Paths, OtherFilesAreRefused) {
  write(shop_ / "notes.txt", "notes");
  write(shop_ / "small.toml.bak", "old");
  for (const char* path : {"notes.txt", "small.toml.bak", "small", "kits", "small.TOML", "toml"})
    expect_refused(path);
  expect_refused("");
  expect_refused("kits/");
  expect_refused("small.toml/");
  expect_refused("kits//kit.toml");
}

TEST_F(Paths, HiddenFilesAreRefused) {
  std::filesystem::create_directory(shop_ / ".git");
  write(shop_ / ".git" / "config.toml", kSecret);
  write(shop_ / ".hidden.toml", kSecret);
  expect_refused(".git/config.toml");
  expect_refused(".hidden.toml");
  expect_refused(".toml");
}

TEST_F(Paths, LongAndDeepPathsAreRefused) {
  expect_refused(std::string(251, 'a') + ".toml");
  expect_refused(std::string(300, 'a') + "/x.toml");
  std::string deep;
  for (std::size_t k = 0; k <= kMostFolders; ++k) deep += "a/";
  expect_refused(deep + "x.toml");
  std::string long_path;
  while (long_path.size() < 1000) long_path += std::string(200, 'a') + "/";
  expect_refused(long_path + "x.toml");
}

TEST_F(Paths, AFileIsNoFolder) {
  expect_refused("small.toml/x.toml", 404);
}

TEST_F(Paths, WhatIsNotThereIsNotFound) {
  const Reply reply = get("/files/gone.toml");
  EXPECT_EQ(reply.status, 404);
  EXPECT_EQ(reply.error(), "there is no such file");
  EXPECT_EQ(get("/files/gone/x.toml").error(), "there is no such folder");
}

TEST_F(Paths, OrdinaryNamesOfEveryKindAreServed) {
  // With blanks, other scripts, and characters that mean something in an address.
  for (const auto& [name, encoded] : std::map<std::string, std::string>{
           {"my truck.toml", "my%20truck.toml"},
           {"\xC3\xA4 100%?#&+;.toml", "%C3%A4%20100%25%3F%23%26+;.toml"},
           {"a..b.toml", "a..b.toml"},
           {"-rf.toml", "-rf.toml"},
           {"%2e%2e.toml", "%252e%252e.toml"}}) {
    SCOPED_TRACE(name);
    write(shop_ / name, kSmall);
    const Reply reply = get("/files/" + encoded);
    EXPECT_EQ(reply.status, 200);
    EXPECT_EQ(reply.json().value("path", ""), name);
    EXPECT_EQ(reply.json().value("text", ""), kSmall);
  }
}

TEST_F(Paths, AQuestionBehindAnAddressIsPassedOver) {
  EXPECT_EQ(get("/files/small.toml?x=../outside/secret.toml").json().value("text", ""), kSmall);
  EXPECT_EQ(get("/?file=small.toml").body, kPage);
}

}  // namespace
}  // namespace axlewright::test
