#include <gtest/gtest.h>

#include <fmt/format.h>

#include "tests/serve/served_folder.h"

// Who may ask. A web page from elsewhere, open in the same browser, can make it send requests to this machine: it must get
// nothing and change nothing.

namespace axlewright::test {
namespace {

constexpr const char* kNewText = R"({"text": "changed", "version": ""})";

class Gate : public ServedFolder {
 protected:
  std::string here() const { return fmt::format("127.0.0.1:{}", port()); }

  void expect_refused(const Reply& reply, int status) const {
    EXPECT_EQ(reply.status, status);
    EXPECT_FALSE(reply.error().empty());
    EXPECT_EQ(reply.body.find("Small"), std::string::npos);
    for (const auto& [name, value] : reply.headers)
      EXPECT_NE(name.rfind("Access-Control-", 0), 0u) << name;
    expect_nothing_happened();
  }

  /// A save that would succeed but for these headers.
  Reply save_with(const Headers& headers) const {
    const nlohmann::json body{{"text", "changed"}, {"version", version("small.toml")}};
    return put("/files/small.toml", body.dump(), headers);
  }
};

TEST_F(Gate, AnotherNameThatLeadsHereIsRefused) {
  // DNS rebinding: a page of evil.example makes its own name lead to 127.0.0.1, and then is of the same origin as we are.
  const std::string evil = fmt::format("evil.example:{}", port());
  expect_refused(get("/files", {{"Host", evil}, {"Origin", "http://" + evil}}), 403);
  expect_refused(get("/", {{"Host", evil}, {"Origin", ""}}), 403);
  expect_refused(save_with({{"Host", evil}, {"Origin", "http://" + evil}}), 403);
}

TEST_F(Gate, HostsThatOnlyLookLikeOursAreRefused) {
  for (const char* format :
       {"127.0.0.1.evil.example:{}", "evil.example@127.0.0.1:{}", "localhost.:{}", "0.0.0.0:{}",
        "[::1]:{}", "127.1:{}", "2130706433:{}", "127.0.0.1:{}0", "127.0.0.1:0{}"}) {
    SCOPED_TRACE(format);
    expect_refused(get("/files", {{"Host", fmt::format(fmt::runtime(format), port())}}), 403);
  }
  expect_refused(get("/files", {{"Host", "127.0.0.1"}}), 403);
  expect_refused(get("/files", {{"Host", "localhost"}}), 403);
}

TEST_F(Gate, ARequestWithoutAHostIsRefused) {
  expect_refused(get("/files", {{"Host", ""}}), 403);
  expect_refused(exchange("GET /files HTTP/1.0\r\n\r\n"), 403);
}

TEST_F(Gate, TwoHostsAreRefused) {
  expect_refused(get("/files", {{"Host", here()}, {"Host", "evil.example"}}), 403);
  expect_refused(get("/files", {{"Host", here()}, {"host", here()}}), 403);
}

TEST_F(Gate, LocalhostIsANameOfOurs) {
  const std::string localhost = fmt::format("LocalHost:{}", port());
  EXPECT_EQ(get("/files", {{"Host", localhost}, {"Origin", "http://" + localhost}}).status, 200);
}

TEST_F(Gate, ASaveFromAnotherOriginIsRefused) {
  expect_refused(save_with({{"Origin", "https://evil.example"}}), 403);
  expect_refused(save_with({{"Origin", "http://evil.example"}, {"Sec-Fetch-Site", ""}}), 403);
}

TEST_F(Gate, ASaveFromAnotherPortOfThisMachineIsRefused) {
  expect_refused(save_with({{"Origin", "http://127.0.0.1:8080"}}), 403);
  expect_refused(save_with({{"Origin", "http://127.0.0.1"}}), 403);
  expect_refused(save_with({{"Origin", "https://" + here()}}), 403);
}

TEST_F(Gate, ASaveFromTheOtherNameOfThisMachineIsRefused) {
  // Something else may listen on the port under [::1], and localhost may lead there.
  expect_refused(save_with({{"Origin", fmt::format("http://localhost:{}", port())}}), 403);
}

TEST_F(Gate, ASaveFromNowhereIsRefused) {
  // A sandboxed frame or a page opened from disk has the origin "null"; no browser saves without telling one.
  expect_refused(save_with({{"Origin", "null"}}), 403);
  expect_refused(save_with({{"Origin", ""}}), 403);
}

TEST_F(Gate, ASaveFromTwoOriginsIsRefused) {
  expect_refused(save_with({{"Origin", "http://" + here()}, {"Origin", "http://evil.example"}}),
                 403);
}

TEST_F(Gate, ASaveThatTheBrowserCallsForeignIsRefused) {
  for (const char* site : {"cross-site", "same-site", "none", "SAME-ORIGIN", "same-origin, none"}) {
    SCOPED_TRACE(site);
    expect_refused(save_with({{"Sec-Fetch-Site", site}}), 403);
  }
  expect_refused(save_with({{"Sec-Fetch-Site", "same-origin"}, {"Sec-Fetch-Site", "cross-site"}}),
                 403);
}

TEST_F(Gate, FilesAreNotReadForAnotherOrigin) {
  expect_refused(get("/files", {{"Origin", "http://evil.example"}}), 403);
  expect_refused(get("/files/small.toml", {{"Origin", "null"}, {"Sec-Fetch-Site", ""}}), 403);
  // As a script or a picture of another page: without Origin.
  expect_refused(get("/files/small.toml", {{"Origin", ""}, {"Sec-Fetch-Site", "cross-site"}}), 403);
  expect_refused(get("/files/small.toml", {{"Origin", ""}, {"Sec-Fetch-Site", "same-site"}}), 403);
}

TEST_F(Gate, FilesAreNotOpenedByALinkFromElsewhere) {
  expect_refused(
      get("/files/small.toml",
          {{"Origin", ""}, {"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Mode", "navigate"}}),
      403);
}

TEST_F(Gate, ThePageMayBeLinkedButNotLoadedIntoOthers) {
  const Headers link{
      {"Origin", ""}, {"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Mode", "navigate"}};
  EXPECT_EQ(get("/", link).status, 200);
  const Headers script{
      {"Origin", ""}, {"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Mode", "no-cors"}};
  expect_refused(get("/", script), 403);
}

TEST_F(Gate, AnAddressThatIsTypedIsServed) {
  const Headers typed{{"Origin", ""}, {"Sec-Fetch-Site", "none"}, {"Sec-Fetch-Mode", "navigate"}};
  EXPECT_EQ(get("/", typed).status, 200);
  EXPECT_EQ(get("/files", typed).status, 200);
}

TEST_F(Gate, NoOtherOriginGetsLeaveBeforehand) {
  // What a browser asks before it lets a foreign page save: any other answer than leave stops it.
  expect_refused(exchange(request("OPTIONS", "/files/small.toml", "",
                                  {{"Origin", "http://evil.example"},
                                   {"Sec-Fetch-Site", "cross-site"},
                                   {"Access-Control-Request-Method", "PUT"}})),
                 405);
}

TEST_F(Gate, OnlyReadingAndSavingAreKnown) {
  for (const char* method : {"POST", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"}) {
    SCOPED_TRACE(method);
    const Reply reply = exchange(request(method, "/files/small.toml", "", {}));
    expect_refused(reply, 405);
    EXPECT_EQ(reply.headers.at("Allow"), "GET, HEAD, PUT");
  }
  for (const char* method : {"MKCOL", "get", "PRI", "\"", "P\xC3\x9CT"}) {
    SCOPED_TRACE(method);
    expect_refused(exchange(request(method, "/files/small.toml", "", {})),
                   std::string(method) == "PRI" ? 405 : 400);
  }
}

TEST_F(Gate, ABodyThatAFormCanSendIsRefused) {
  // A form of any page may send these types unasked.
  for (const char* type :
       {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
        "application/jsonp", "text/plain; application/json", "application/json, text/plain"}) {
    SCOPED_TRACE(type);
    expect_refused(save_with({{"Content-Type", type}}), 415);
  }
  expect_refused(save_with({{"Content-Type", ""}}), 415);
  expect_refused(save_with({{"Content-Type", "application/json"}, {"Content-Type", "text/plain"}}),
                 415);
}

TEST_F(Gate, JsonMayNameItsCharacters) {
  EXPECT_EQ(save_with({{"Content-Type", "Application/JSON ; charset=utf-8"}}).status, 200);
}

TEST_F(Gate, APackedBodyIsRefused) {
  // A few kilobytes of it may unpack to the whole memory.
  for (const char* how : {"gzip", "br", "deflate", "identity"}) {
    SCOPED_TRACE(how);
    expect_refused(save_with({{"Content-Encoding", how}}), 415);
  }
}

TEST_F(Gate, ABodyInPiecesIsRefused) {
  const std::string chunks = "5\r\n{\"tex\r\n0\r\n\r\n";
  expect_refused(
      put("/files/small.toml", chunks, {{"Transfer-Encoding", "chunked"}, {"Content-Length", ""}}),
      411);
  // With both, two readers may see two requests in it.
  expect_refused(put("/files/small.toml", chunks, {{"Transfer-Encoding", "chunked"}}), 411);
}

TEST_F(Gate, ABodyOfUnknownLengthIsRefused) {
  expect_refused(put("/files/small.toml", kNewText, {{"Content-Length", ""}}), 411);
  expect_refused(
      put("/files/small.toml", kNewText, {{"Content-Length", "10"}, {"content-length", "34"}}),
      411);
}

TEST_F(Gate, ALengthThatIsNoNumberIsRefused) {
  for (const char* length : {"-1", "+5", "0x10", "1e3", "10 10", "10,10", "ten"}) {
    SCOPED_TRACE(length);
    expect_refused(put("/files/small.toml", kNewText, {{"Content-Length", length}}), 400);
  }
}

TEST_F(Gate, ABodyThatIsTooLargeIsRefused) {
  // Whoever sends it may send it to the end, to read the answer then.
  const std::string large(std::size_t{14} << 20, ' ');  // more than the system holds for us
  expect_refused(put("/files/small.toml", large), 413);
  const Visitor visitor(port());
  EXPECT_TRUE(visitor.send(request("PUT", "/files/small.toml", large, {})));
  for (const char* length : {"2097153", "18446744073709551615", "99999999999999999999999"}) {
    SCOPED_TRACE(length);
    expect_refused(put("/files/small.toml", kNewText, {{"Content-Length", length}}), 413);
  }
}

}  // namespace
}  // namespace axlewright::test
