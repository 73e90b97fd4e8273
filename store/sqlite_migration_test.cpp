// From version 1 to the newest, with data in it; from newer ones nothing.
#include <array>

#include "store/conformance.hpp"
#include "store/raw_sqlite.hpp"
#include "store/sqlite_schema.hpp"
#include "tests/support/test_folder.hpp"

namespace rigproof::store {
namespace {

using test_support::TestFolder;

class SqliteMigration : public testing::Test {
 protected:
  SqliteMigration() { RawSqlite(path()).run(bytes_of("store/testdata/version_1.sql")); }
  [[nodiscard]] std::string path() const { return folder_.file("workshop.db"); }
  [[nodiscard]] std::unique_ptr<Store> opened() const {
    auto store = open_store("sqlite:" + path());
    if (!store) throw std::runtime_error(store.error().message);
    return std::move(*store);
  }

 private:
  TestFolder folder_;
};

std::vector<std::string> schema_of(const std::string& path) {
  return RawSqlite(path).column("SELECT sql FROM sqlite_schema ORDER BY type, name");
}

TEST_F(SqliteMigration, EverythingOfVersionOneIsThereAfterwards) {
  const auto store = opened();
  EXPECT_EQ(RawSqlite(path()).column("PRAGMA user_version"), std::vector<std::string>{"2"});
  using namespace std::string_literals;
  const DocumentId brief{"abcdefghij"};
  EXPECT_EQ(store->document(brief, 1)->text, "[brief]\n");
  EXPECT_EQ(store->document(brief, 2)->text, "[brief]\nname = \"x\"\n\0end"s);
  EXPECT_EQ(store->document(brief, 2)->info.name, "Quiet 'corner'");
  EXPECT_TRUE(store->document(brief)->info.deleted);
  EXPECT_EQ(store->documents(DocumentKind::table)->at(0).name, "gpu.csv");
  const auto series = store->price_series({.kind = Kind::gpu, .id = "card-a"});
  ASSERT_EQ(series->size(), 2U);
  const SeenOffer plain{.part = {.kind = Kind::gpu, .id = "card-a"},
                        .seller = "north-shop",
                        .market = "IE",
                        .seen = day("2026-09-29"),
                        .price = money("EUR", 41900),
                        .tax_included = true,
                        .stock = 3,
                        .delivery_days = 2,
                        .warranty_months = 24,
                        .link_kind = LinkKind::plain};
  EXPECT_EQ(series->at(1).offer, plain);
  EXPECT_EQ(series->at(1).origin, "september.csv");
  EXPECT_EQ(series->at(0).offer.stock, std::nullopt);
  const auto history = store->item_history({"uvwxyz2345"});
  ASSERT_EQ(history->size(), 2U);
  EXPECT_EQ(history->at(0).fields.done, "cleaned");
  EXPECT_EQ(history->at(1).fields.condition, ItemCondition::faulty);
  EXPECT_EQ(store->run({"aaaaabbbbb"})->capture, "abc");
  EXPECT_EQ(*store->check(), std::vector<std::string>{});
}

TEST_F(SqliteMigration, TheFileIsThenLikeANewOne) {
  static_cast<void>(opened());
  const TestFolder other;
  ASSERT_TRUE(open_store("sqlite:" + other.file("new.db")));
  EXPECT_EQ(schema_of(path()), schema_of(other.file("new.db")));
}

TEST_F(SqliteMigration, WhatIsNewCanBeUsedAtOnce) {
  const auto store = opened();
  const auto frozen =
      store->freeze_record({.name = "r",
                            .body = "b",
                            .frozen_at = at("2026-11-01T00:00:00Z"),
                            .build = RevisionName{.document = {"abcdefghij"}, .revision = 2}});
  ASSERT_TRUE(frozen) << frozen.error().message;
  EXPECT_TRUE(store->save_document({"abcdefghij"}, 3,
                                   {.name = "back", .text = "", .saved_at = {1'790'000'000}}));
  EXPECT_EQ(store->append_prices(a_batch({an_offer()}))->added, 1U);
}

TEST_F(SqliteMigration, NewerFileIsRefusedAndStaysAsItWas) {
  RawSqlite(path()).run("PRAGMA user_version = 3");
  const std::string before = bytes_of(path());
  const auto refused = open_store("sqlite:" + path());
  EXPECT_EQ(refusal(refused), ErrorCode::bad_input);
  EXPECT_NE(refused.error().message.find("newer Rigproof"), std::string::npos)
      << refused.error().message;
  EXPECT_EQ(bytes_of(path()), before);
}

TEST_F(SqliteMigration, StepThatFailsLeavesTheVersionBeforeIt) {
  const auto before = schema_of(path());
  {
    Database database(path(), SQLITE_OPEN_READWRITE);
    const std::array<const char*, 3> steps{
        "", "CREATE TABLE good (x) STRICT",
        "CREATE TABLE half (x INTEGER) STRICT; INSERT INTO half VALUES ('no number')"};
    EXPECT_THROW(migrate(database, std::span(steps).first(2)), Failure);  // STRICT needs a type
    EXPECT_EQ(database.integer("PRAGMA user_version"), 1);
    const std::array<const char*, 3> later{"", "CREATE TABLE good (x INTEGER) STRICT", steps[2]};
    EXPECT_THROW(migrate(database, later), Failure);
    EXPECT_EQ(database.integer("PRAGMA user_version"), 2);
  }
  EXPECT_EQ(schema_of(path()).size(), before.size() + 1)
      << "the good step, nothing of the half one";
  EXPECT_EQ(RawSqlite(path()).column("SELECT id FROM document").size(), 2U);
}

TEST_F(SqliteMigration, OpeningAgainChangesNothing) {
  static_cast<void>(opened());
  const std::string before = bytes_of(path());
  static_cast<void>(opened());
  EXPECT_EQ(bytes_of(path()), before);
}

}  // namespace
}  // namespace rigproof::store
