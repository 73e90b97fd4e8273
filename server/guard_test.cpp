// Who is let in and who is not, put as requests without sockets.
#include "server/guard.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace rigproof::server {
namespace {

constexpr const char* token = "0123456789abcdef";

Request asked(const std::string& method = "GET", const std::string& path = "/api/workshop") {
  return {.method = method,
          .path = path,
          .query = {},
          .headers = {{"host", "127.0.0.1:8460"}},
          .body = {}};
}

Request with(Request request, const std::string& header, const std::string& value) {
  request.headers[header] = value;
  return request;
}

Guarded open_to_all() { return {.hosts = {"127.0.0.1:8460", "rig.local:8460"}, .token = {}}; }
Guarded with_token() { return {.hosts = {"127.0.0.1:8460"}, .token = token}; }

int status(const Guarded& guarded, const Request& request) {
  const auto refused = refusal(guarded, request);
  return refused ? refused->status : 0;
}

TEST(Guard, OnlyItsOwnNames) {
  EXPECT_EQ(status(open_to_all(), asked()), 0);
  EXPECT_EQ(status(open_to_all(), with(asked(), "host", "RIG.local:8460")), 0);
  // What a page sends that lets its own name lead to this machine.
  for (const char* host : {"evil.example:8460", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:84600",
                           "127.0.0.1:8460.evil.example", "", "x127.0.0.1:8460", "127.0.0.1:8460 "})
    EXPECT_EQ(status(open_to_all(), with(asked(), "host", host)), 403) << host;
  Request nameless = asked();
  nameless.headers.clear();
  EXPECT_EQ(status(open_to_all(), nameless), 403);
  EXPECT_EQ(status(open_to_all(), with(asked("GET", "/"), "host", "evil.example")), 403);
}

TEST(Guard, PagesOfOtherPlacesDoNotReachTheApi) {
  for (const char* site : {"cross-site", "same-site"}) {
    EXPECT_EQ(status(open_to_all(), with(asked(), "sec-fetch-site", site)), 403);
    EXPECT_EQ(status(open_to_all(), with(asked("GET", "/"), "sec-fetch-site", site)), 0)
        << "a link to the pages is no harm";
  }
  for (const char* site : {"same-origin", "none"})
    EXPECT_EQ(status(open_to_all(), with(asked(), "sec-fetch-site", site)), 0);
}

TEST(Guard, WritingNeedsTheOwnOrigin) {
  for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS"}) {
    for (const char* origin : {"http://evil.example", "null", "https://127.0.0.1:8460",
                               "http://127.0.0.1:8461", "http://127.0.0.1:8460/"})
      EXPECT_EQ(status(open_to_all(), with(asked(method), "origin", origin)), 403) << origin;
    EXPECT_EQ(status(open_to_all(), with(asked(method), "origin", "http://127.0.0.1:8460")), 0);
    EXPECT_EQ(status(open_to_all(), asked(method)), 0) << "programs send none";
  }
}

// A form of another page can send these three types without asking first; JSON it cannot.
TEST(Guard, BodiesAreJson) {
  Request post = asked("POST");
  post.body = "{}";
  for (const char* type : {"", "text/plain", "application/x-www-form-urlencoded",
                           "multipart/form-data", "application/jsonx", "text/application/json"})
    EXPECT_EQ(status(open_to_all(), with(post, "content-type", type)), 415) << type;
  for (const char* type : {"application/json", "Application/JSON; charset=utf-8"})
    EXPECT_EQ(status(open_to_all(), with(post, "content-type", type)), 0) << type;
  post.body.clear();
  EXPECT_EQ(status(open_to_all(), post), 0);
  post.body_follows = true;
  EXPECT_EQ(status(open_to_all(), post), 415) << "looked at before the body is read";
}

TEST(Guard, TheTokenComesInAHeaderOrACookie) {
  EXPECT_EQ(status(with_token(), asked()), 401);
  const std::string good = token;
  for (const std::string& header : std::vector<std::string>{"Bearer " + good, "bearer " + good})
    EXPECT_EQ(status(with_token(), with(asked(), "authorization", header)), 0);
  for (const std::string& header : std::vector<std::string>{
           "Bearer " + good + "0", "Bearer 0123456789abcdeX", "Bearer ", good, "Basic " + good,
           "Bearer 0123456789abcde", "Bearer", "Bearer  " + good})
    EXPECT_EQ(status(with_token(), with(asked(), "authorization", header)), 401) << header;
  for (const std::string& cookie :
       std::vector<std::string>{"rigproof_token=" + good, "a=b; rigproof_token=" + good,
                                "rigproof_token=" + good + "; a=b"})
    EXPECT_EQ(status(with_token(), with(asked(), "cookie", cookie)), 0) << cookie;
  for (const std::string& cookie :
       std::vector<std::string>{"xrigproof_token=" + good, "rigproof_tokenx=" + good,
                                "rigproof_token=", "rigproof_token", "a=" + good})
    EXPECT_EQ(status(with_token(), with(asked(), "cookie", cookie)), 401) << cookie;
}

TEST(Guard, AFirstVisitTurnsTheAddressIntoACookie) {
  Request visit = asked("GET", "/anything");
  visit.query["token"] = token;
  const auto answer = refusal(with_token(), visit);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 303);
  EXPECT_THAT(answer->headers, testing::Contains(testing::Pair("Location", "/")));
  EXPECT_THAT(answer->headers,
              testing::Contains(testing::Pair(
                  "Set-Cookie", testing::StartsWith(std::string("rigproof_token=") + token +
                                                    "; Path=/; HttpOnly; SameSite="))));
  // A visitor who has the cookie already gets the token out of the address all the same.
  EXPECT_EQ(status(with_token(), with(visit, "cookie", std::string("rigproof_token=") + token)),
            303);
  visit.query["token"] = "0123456789abcdeX";
  EXPECT_EQ(status(with_token(), visit), 401);
  visit.query["token"] = token;
  visit.path = "/api/workshop";
  EXPECT_EQ(status(with_token(), visit), 401) << "no token in addresses of the API";
  visit.path = "/";
  EXPECT_EQ(status(with_token(), with(visit, "host", "evil.example")), 403);
  EXPECT_EQ(status(open_to_all(), visit), 0) << "no token asked for, no cookie";
}

TEST(Guard, SecretsAreComparedWhole) {
  EXPECT_TRUE(same_secret("abc", "abc"));
  EXPECT_TRUE(same_secret("", ""));
  for (const char* other : {"", "a", "ab", "abd", "bbc", "abcc", "abcabc", "ABC"})
    EXPECT_FALSE(same_secret(other, "abc")) << other;
  EXPECT_FALSE(same_secret(std::string_view("abc\0", 4), "abc"));
  EXPECT_FALSE(same_secret("aaa", "a"));
  EXPECT_FALSE(same_secret("a", "aaa"));
}

// From the guarantees of the service: what pages may load and who may show them.
TEST(Guard, TheSafetyHeaders) {
  std::map<std::string, std::string> headers(safety_headers().begin(), safety_headers().end());
  const std::string policy = headers["Content-Security-Policy"];
  EXPECT_THAT(policy, testing::StartsWith("default-src 'none';"));
  for (const char* unsafe : {"unsafe", "*", "http:", "https:"})
    EXPECT_THAT(policy, testing::Not(testing::HasSubstr(unsafe)));
  EXPECT_THAT(policy, testing::HasSubstr("frame-ancestors 'none'"));
  EXPECT_EQ(headers["X-Content-Type-Options"], "nosniff");
  EXPECT_EQ(headers["Cache-Control"], "no-store");
}

}  // namespace
}  // namespace rigproof::server
