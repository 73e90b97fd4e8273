// The small values: hashes, ids, moments. Oracles of the hash: the digests of "abc", of the 448-bit
// text, of nothing and of a million letters, as published with the standard (from memory; sha256sum
// gives the same), and Python's hashlib for every length around the block borders.
#include <gtest/gtest.h>

#include "store/id.hpp"
#include "store/instant.hpp"
#include "store/sha256.hpp"

namespace rigproof::store {
namespace {

TEST(Sha256, PublishedDigests) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

// python3: d = ''.join(hashlib.sha256(bytes((i * 37 + n) % 256 for i in range(n))).hexdigest()
//                      for n in range(300)); hashlib.sha256(d.encode()).hexdigest()
TEST(Sha256, EveryLengthAroundTheBlocks) {
  std::string digests;
  for (std::size_t n = 0; n < 300; ++n) {
    std::string text;
    for (std::size_t i = 0; i < n; ++i) text += static_cast<char>((i * 37 + n) % 256);
    digests += sha256(text);
  }
  EXPECT_EQ(sha256(digests), "37293c9149fd1e92ade27cfaa67205d1fe897e27bf266af051f5258e9af5d6e0");
}

TEST(Id, TenLettersThatDoNotRepeat) {
  std::string last;
  for (int i = 0; i < 1000; ++i) {
    const std::string id = random_id();
    EXPECT_TRUE(is_id(id)) << id;
    EXPECT_NE(id, last);
    last = id;
  }
  for (const char* bad : {"", "abcdefghi", "abcdefghijk", "Abcdefghij", "abcdefghi1", "abcdefghi/",
                          "abcdefgh\xc3\xa4"})
    EXPECT_FALSE(is_id(bad)) << bad;
}

TEST(Id, EveryLetterInEveryPlace) {
  // 32 letters, 4000 draws: that one of 320 is never drawn has odds of 320 (31/32)^4000 < 1e-52.
  std::vector<std::string> seen(id_letters);
  for (int i = 0; i < 4000; ++i) {
    const std::string id = random_id();
    for (std::size_t place = 0; place < id_letters; ++place)
      if (seen[place].find(id[place]) == std::string::npos) seen[place] += id[place];
  }
  for (const std::string& letters : seen) EXPECT_EQ(letters.size(), 32U);
}

// Seconds by Python: calendar.timegm of the same moments.
TEST(Instant, ReadsAndWritesKnownMoments) {
  const std::vector<std::pair<const char*, std::int64_t>> known{
      {"1970-01-01T00:00:00Z", 0},
      {"1969-12-31T23:59:59Z", -1},
      {"2001-09-09T01:46:40Z", 1'000'000'000},
      {"2038-01-19T03:14:08Z", 2'147'483'648},
      {"1900-01-01T00:00:00Z", -2'208'988'800},
      {"2199-12-31T23:59:59Z", 7'258'118'399}};
  for (const auto& [text, seconds] : known) {
    ASSERT_TRUE(parse_instant(text)) << text;
    EXPECT_EQ(parse_instant(text)->since_1970_s, seconds);
    EXPECT_EQ(to_string(Instant{seconds}), text);
    EXPECT_TRUE(in_range(Instant{seconds}));
  }
  EXPECT_FALSE(in_range(Instant{7'258'118'400}));
  EXPECT_FALSE(in_range(Instant{-2'208'988'801}));
}

TEST(Instant, RefusesWhatIsNoMoment) {
  for (const char* bad : {"", "2026-11-27", "2026-11-27T18:04:05", "2026-11-27 18:04:05Z",
                          "2026-02-29T00:00:00Z", "2026-11-27T24:00:00Z", "2026-11-27T18:60:00Z",
                          "2026-11-27T18:04:60Z", "2026-11-27T18:04:5aZ", "2026-11-27T18:04:05z",
                          "2026-11-27T18:04:05Z ", "2200-01-01T00:00:00Z", "2026-11-27T-1:04:05Z"})
    EXPECT_FALSE(parse_instant(bad)) << bad;
}

}  // namespace
}  // namespace rigproof::store
