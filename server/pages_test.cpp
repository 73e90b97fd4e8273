// The embedded pages: which address gives what, in which coding. The two packed files were made by
// `printf ... | gzip -n9` and stand here as bytes.
#include "server/pages.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "server/gzip.hpp"

namespace rigproof::server {
namespace {

using testing::Contains;
using testing::Not;
using testing::Pair;

constexpr unsigned char packed_script[] = {
    0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0x03, 0xcb, 0x49, 0x2d, 0x51, 0x48,
    0x54, 0xb0, 0x55, 0x30, 0xe4, 0x02, 0x00, 0x5e, 0x95, 0xef, 0xc7, 0x0a, 0x00, 0x00, 0x00};
constexpr unsigned char packed_page[] = {
    0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0x03, 0xb3, 0x29, 0xb0, 0x2b, 0x48, 0x4c,
    0x4f, 0xb5, 0xd1, 0x2f, 0xb0, 0xe3, 0x02, 0x00, 0x3c, 0xa2, 0x45, 0x71, 0x0c, 0x00, 0x00, 0x00};
const Asset two[] = {
    {.path = "/assets/a-1.js", .type = "text/javascript", .gzip = packed_script, .immutable = true},
    {.path = "/index.html", .type = "text/html; charset=utf-8", .gzip = packed_page}};

Response got(const std::string& path, const std::string& accepts = "gzip, deflate, br",
             const std::string& method = "GET") {
  return page(two, {.method = method,
                    .path = path,
                    .query = {},
                    .headers = {{"accept-encoding", accepts}},
                    .body = {}});
}

std::string packed(std::span<const unsigned char> bytes) { return {bytes.begin(), bytes.end()}; }

TEST(Pages, EveryAddressWithoutADotIsThePage) {
  for (const char* path : {"/", "/brief/abc", "/x.y/z", "/index.html", ""})
    EXPECT_EQ(got(path).body, packed(packed_page)) << path;
  EXPECT_EQ(got("/assets/a-1.js").body, packed(packed_script));
}

TEST(Pages, NothingElseIsThere) {
  for (const char* path : {"/assets/b.js", "/../etc/passwd.txt", "/assets/../index.html",
                           "/%2e%2e/index.html.", "/etc/shadow.d/..", "/assets/a-1.js/."})
    EXPECT_EQ(got(path).status, 404) << path;
  const Response other = got("/", "gzip", "POST");
  EXPECT_EQ(other.status, 405);
  EXPECT_THAT(other.headers, Contains(Pair("Allow", "GET")));
}

TEST(Pages, WhoTakesNoGzipGetsThemUnpacked) {
  for (const char* none : {"", "identity", "br", "gzip;q=0", "*;q=0", "gzip; q=0.000"}) {
    const Response plain = got("/assets/a-1.js", none);
    EXPECT_EQ(plain.body, "let a = 1\n") << none;
    EXPECT_THAT(plain.headers, Not(Contains(Pair("Content-Encoding", testing::_))));
    EXPECT_THAT(plain.headers, Contains(Pair("Vary", "Accept-Encoding")));
  }
  for (const char* some : {"gzip", "br, GZIP;q=0.5", "*", "x-gzip", "deflate,gzip;q=1.0"})
    EXPECT_THAT(got("/assets/a-1.js", some).headers, Contains(Pair("Content-Encoding", "gzip")))
        << some;
}

TEST(Pages, OnlyNamesThatChangeWithTheirContentAreKeptByBrowsers) {
  EXPECT_THAT(got("/assets/a-1.js").headers,
              Contains(Pair("Cache-Control", testing::HasSubstr("immutable"))));
  EXPECT_THAT(got("/").headers, Not(Contains(Pair("Cache-Control", testing::_))));
}

// assets() is that of no_pages.cpp here.
TEST(Pages, WithoutPagesTheApiIsNamed) {
  const Response none =
      page(assets(), {.method = "GET", .path = "/", .query = {}, .headers = {}, .body = {}});
  EXPECT_EQ(none.status, 200);
  EXPECT_THAT(none.body, testing::HasSubstr("/api/openapi.json"));
}

TEST(Gzip, WhatIsDamagedIsSaid) {
  EXPECT_EQ(unpacked(packed_page).value_or(""), "<p>page</p>\n");
  EXPECT_FALSE(unpacked(std::span(packed_page).first(12)));
  EXPECT_FALSE(unpacked({}));
  auto damaged = std::to_array(packed_page);
  damaged[damaged.size() - 6] ^= 0xFF;  // of its checksum
  EXPECT_FALSE(unpacked(damaged));
}

}  // namespace
}  // namespace rigproof::server
