#include <stdexcept>

#include <gtest/gtest.h>

#include "tests/serve/served_folder.h"

namespace axlewright::test {
namespace {

class Page : public ServedFolder {};

TEST_F(Page, IsHandedOutWithWhatItMayDo) {
  const Reply reply = get("/");
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.body, kPage);
  EXPECT_EQ(reply.headers.at("Content-Type"), "text/html; charset=utf-8");
  const std::string policy = reply.headers.at("Content-Security-Policy");
  for (const char* part : {"default-src 'none'", "frame-ancestors 'none'", "connect-src 'self'",
                           "base-uri 'none'", "form-action 'none'", "'wasm-unsafe-eval'"})
    EXPECT_NE(policy.find(part), std::string::npos) << part;
  EXPECT_EQ(policy.find("http:"), std::string::npos);
  EXPECT_EQ(policy.find("'unsafe-eval'"), std::string::npos);
}

TEST_F(Page, EveryAnswerKeepsToItself) {
  for (const Reply& reply :
       {get("/"), get("/files"), get("/files/small.toml"), get("/nothing"), get("/files/../x"),
        get("/", {{"Host", "evil.example"}}), exchange("nonsense\r\n\r\n")}) {
    SCOPED_TRACE(reply.body);
    EXPECT_EQ(reply.headers.at("X-Content-Type-Options"), "nosniff");
    EXPECT_EQ(reply.headers.at("Referrer-Policy"), "no-referrer");
    EXPECT_EQ(reply.headers.at("Cross-Origin-Resource-Policy"), "same-origin");
    EXPECT_EQ(reply.headers.at("Cross-Origin-Opener-Policy"), "same-origin");
    EXPECT_EQ(reply.headers.at("Cache-Control"), "no-store");
    EXPECT_NE(reply.headers.at("Content-Security-Policy").find("frame-ancestors 'none'"),
              std::string::npos);
  }
}

TEST_F(Page, FilesAndErrorsAreJson) {
  for (const char* target : {"/files", "/files/small.toml", "/files/gone.toml", "/nothing"})
    EXPECT_EQ(get(target).headers.at("Content-Type"), "application/json") << target;
}

TEST_F(Page, IsReadAnewForEveryVisit) {
  int visits = 0;
  serve([&visits] { return std::to_string(++visits); });
  EXPECT_EQ(get("/").body, "1");
  EXPECT_EQ(get("/").body, "2");
}

TEST_F(Page, ThatCannotBeReadIsSaidInWords) {
  serve([] { return tl::unexpected<std::string>("there is no such file"); });
  const Reply reply = get("/");
  EXPECT_EQ(reply.status, 404);
  EXPECT_EQ(reply.error(), "there is no such file");
}

TEST_F(Page, AMistakeOfOursEndsOneRequestAlone) {
  serve([]() -> tl::expected<std::string, std::string> { throw std::runtime_error("a mistake"); });
  testing::internal::CaptureStderr();
  const Reply reply = get("/");
  EXPECT_EQ(reply.status, 500);
  EXPECT_FALSE(reply.error().empty());
  EXPECT_NE(testing::internal::GetCapturedStderr().find("a mistake"), std::string::npos);
  EXPECT_EQ(get("/files").status, 200);
}

TEST_F(Page, AskingForTheHeadAloneGivesNoBody) {
  const Reply reply = exchange(request("HEAD", "/files/small.toml", "", {}));
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.headers.at("Content-Length"),
            std::to_string(get("/files/small.toml").body.size()));
  EXPECT_EQ(reply.body, "");
}

TEST_F(Page, HasNoPictureOfItsOwn) {
  // Asked for by browsers unasked; an error would stand in their console.
  EXPECT_EQ(get("/favicon.ico").status, 204);
}

}  // namespace
}  // namespace axlewright::test
