#include <gtest/gtest.h>

#include <fmt/format.h>

#include "tests/serve/served_folder.h"

// Requests that are broken, or far too long: refused or dropped, and the next one is served.

namespace axlewright::test {
namespace {

class Requests : public ServedFolder {
 protected:
  std::string host() const { return fmt::format("Host: 127.0.0.1:{}\r\n", port()); }

  /// Either words with a status, or a closed door.
  void expect_turned_down(const std::string& bytes) const {
    const Reply reply = exchange(bytes);
    if (reply.status != 0) {
      EXPECT_GE(reply.status, 400);
      EXPECT_FALSE(reply.error().empty());
    }
    EXPECT_EQ(reply.body.find("Small"), std::string::npos);
    expect_nothing_happened();
  }
};

TEST_F(Requests, WhatIsNoRequestIsTurnedDown) {
  for (const std::string& bytes :
       {std::string("\r\n\r\n"), std::string("GET\r\n\r\n"), std::string("GET /files\r\n\r\n"),
        "GET /files HTTP/3.0\r\n" + host() + "\r\n", "GET /files HTTP/1.1\n" + host() + "\n",
        "GET /fi les HTTP/1.1\r\n" + host() + "\r\n",
        std::string("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"),
        std::string("\x16\x03\x01\x02\x00\x01\x00\x01\xFC\x03\x03\r\n\r\n", 15),
        std::string("GET /files\0 HTTP/1.1\r\n\r\n", 24), std::string(100, '\0') + "\r\n\r\n"}) {
    SCOPED_TRACE(bytes);
    expect_turned_down(bytes);
  }
}

TEST_F(Requests, AnAddressThatIsTooLongIsRefused) {
  EXPECT_EQ(get("/files/" + std::string(5000, 'a') + ".toml").status, 414);
  EXPECT_EQ(get("/files/" + std::string(9000, 'a') + ".toml").status, 414);
  expect_nothing_happened();
}

TEST_F(Requests, ALineWithoutEndIsDropped) {
  expect_turned_down("GET /" + std::string(std::size_t{4} << 20, 'a'));
}

TEST_F(Requests, AHeaderWithoutEndIsDropped) {
  expect_turned_down("GET /files HTTP/1.1\r\n" + host() +
                     "X: " + std::string(std::size_t{4} << 20, 'a'));
}

TEST_F(Requests, HeadersWithoutEndAreDropped) {
  std::string many;
  for (int k = 0; k < 20000; ++k) many += fmt::format("X-{}: y\r\n", k);
  expect_turned_down("GET /files HTTP/1.1\r\n" + host() + many + "\r\n");
}

TEST_F(Requests, ABodyThatEndsTooSoonSavesNothing) {
  const nlohmann::json body{{"text", "changed"}, {"version", version("small.toml")}};
  const std::string whole = body.dump();
  const Visitor visitor(port());
  // The JSON is complete, but more was promised.
  visitor.send(request("PUT", "/files/small.toml", whole,
                       {{"Content-Length", std::to_string(whole.size() + 1)}}));
  visitor.hang_up();
  visitor.rest();
  expect_nothing_happened();
}

TEST_F(Requests, WhatComesBehindABodyIsNotARequest) {
  const nlohmann::json body{{"text", kSmall}, {"version", version("small.toml")}};
  const std::string second =
      request("PUT", "/files/kits/kit.toml", R"({"text": "x", "version": ""})", {});
  const std::string whole = body.dump();
  const Reply reply = exchange(request("PUT", "/files/small.toml", whole + second,
                                       {{"Content-Length", std::to_string(whole.size())}}));
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.body.find("HTTP/1.1"), std::string::npos);
  expect_nothing_happened();
}

TEST_F(Requests, ThousandsOfRangesGetOneAnswer) {
  std::string ranges = "bytes=0-";
  while (ranges.size() < 8000) ranges += ",0-";
  const Reply reply = get("/files/small.toml", {{"Range", ranges}});
  EXPECT_LT(reply.body.size(), 1000u);
  expect_nothing_happened();
}

TEST_F(Requests, ABodyThatAnnouncesItselfIsTaken) {
  // As curl sends larger ones.
  const nlohmann::json body{{"text", "changed"}, {"version", version("small.toml")}};
  const Reply reply = put("/files/small.toml", body.dump(), {{"Expect", "100-continue"}});
  EXPECT_EQ(reply.status, 100);
  EXPECT_EQ(read(shop_ / "small.toml"), "changed");
}

TEST_F(Requests, OtherAddressesHoldNothing) {
  for (const char* target :
       {"/index.html", "/workspace.html", "/filesx", "/file", "//", "/files.toml", "*",
        "small.toml", "http://127.0.0.1/files", "/%66iles", "/../etc/passwd", "/etc/passwd",
        "/%2e%2e/etc/passwd", "/%0a", "/proc/self/environ"}) {
    SCOPED_TRACE(target);
    const Reply reply = get(target);
    EXPECT_EQ(reply.status, 404);
    EXPECT_FALSE(reply.error().empty());
  }
  EXPECT_EQ(get("/" + std::string(4000, 'a')).status, 404);
  EXPECT_EQ(put("/", "{}").status, 404);
  EXPECT_EQ(put("/files", "{}").status, 404);
  expect_nothing_happened();
}

}  // namespace
}  // namespace axlewright::test
