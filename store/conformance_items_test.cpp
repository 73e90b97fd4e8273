// Items: every field and every word, a history that keeps, no change lost.
#include <functional>

#include "store/accept.hpp"
#include "store/conformance.hpp"

namespace rigproof::store {
namespace {

const Instant now = at("2026-11-27T09:00:00Z");

ItemFields a_loan() {
  return {.part = {.kind = Kind::psu, .id = "supply-a"},
          .came = Came::loaned,
          .condition = ItemCondition::used,
          .serial = "SN \"12'3\"",
          .from_whom = "the maker",
          .came_on = day("2026-11-01"),
          .due_back = day("2026-12-01"),
          .warranty_until = day("2030-01-31"),
          .left_on = day("2026-11-30"),
          .done = "cleaned\nfan turned round\ttwice"};
}

ItemFields little_known() { return {.part = {.kind = Kind::fan, .id = "fan-a"}}; }

TEST_P(StoreConformance, EveryFieldOfAnItemComesBack) {
  for (const ItemFields& fields : {a_loan(), little_known()}) {
    const auto added = store().add_item(fields, now);
    ASSERT_TRUE(added) << added.error().message;
    EXPECT_TRUE(is_id(added->id.text));
    reopen();
    const auto read = store().item(added->id);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(read->fields, fields);
    EXPECT_EQ(*read, *added);
    EXPECT_EQ(read->revision, 1);
    EXPECT_EQ(read->saved_at, now);
  }
}

TEST_P(StoreConformance, EveryWordOfAnItemIsTaken) {
  for (const auto came : spelled<Came>)
    for (const auto condition : spelled<ItemCondition>) {
      ItemFields fields = little_known();
      fields.came = find_word<Came>(came).value();
      fields.condition = find_word<ItemCondition>(condition).value();
      const auto added = store().add_item(fields, now);
      ASSERT_TRUE(added) << added.error().message;
      EXPECT_EQ(store().item(added->id)->fields, fields);
    }
}

TEST_P(StoreConformance, HistoryOfAnItemKeepsEveryState) {
  const Item first = *store().add_item(a_loan(), now);
  ItemFields fields = a_loan();
  fields.condition = ItemCondition::faulty;
  const auto second = store().change_item(first.id, 1, fields, at("2026-11-28T09:00:00Z"));
  ASSERT_TRUE(second) << second.error().message;
  EXPECT_EQ(second->revision, 2);
  EXPECT_EQ(refusal(opened()->change_item(first.id, 1, a_loan(), now)), ErrorCode::conflict);
  reopen();
  const auto history = store().item_history(first.id);
  ASSERT_TRUE(history);
  EXPECT_EQ(*history, (std::vector<Item>{first, *second}));
  EXPECT_EQ(*store().item(first.id), *second);
}

TEST_P(StoreConformance, ListsItemsInTheirNewestState) {
  const Item fan = *store().add_item(little_known(), now);
  const Item loan = *store().add_item(a_loan(), now);
  const Item changed = *store().change_item(fan.id, 1, little_known(), now);
  EXPECT_EQ(*store().items(), (std::vector<Item>{changed, loan}));  // fan before psu
}

TEST_P(StoreConformance, ItemThatCannotBeIsRefused) {
  const std::vector<std::pair<std::function<void(ItemFields&)>, ErrorCode>> faults{
      {[](ItemFields& f) { f.part.id = "Supply"; }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.came = Came::gifted; }, ErrorCode::bad_input},  // and due back
      {[](ItemFields& f) { f.due_back = day("2026-10-31"); }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.left_on = day("2026-10-31"); }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.serial = "two\nlines"; }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.serial = std::string(max_line_bytes + 1, '1'); },
       ErrorCode::out_of_range},
      {[](ItemFields& f) { f.from_whom = "\xff"; }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.warranty_until = Date{-2'000'000'000}; }, ErrorCode::out_of_range},
      {[](ItemFields& f) { f.done = std::string(1, '\0'); }, ErrorCode::bad_input},
      {[](ItemFields& f) { f.done = std::string(max_prose_bytes + 1, 'd'); },
       ErrorCode::out_of_range}};
  const Item there = *store().add_item(a_loan(), now);
  for (const auto& [spoil, code] : faults) {
    ItemFields fields = a_loan();
    spoil(fields);
    EXPECT_EQ(refusal(store().add_item(fields, now)), code);
    EXPECT_EQ(refusal(store().change_item(there.id, 1, fields, now)), code);
  }
  EXPECT_EQ(*store().items(), std::vector<Item>{there});
  ItemFields long_prose = a_loan();
  long_prose.done = std::string(max_prose_bytes, 'd');
  EXPECT_TRUE(store().add_item(long_prose, now));
}

TEST_P(StoreConformance, NoItemAnswersToAnotherId) {
  const ItemId id{"aaaaaaaaaa"};
  EXPECT_EQ(refusal(store().item(id)), ErrorCode::not_found);
  EXPECT_EQ(refusal(store().item_history(id)), ErrorCode::not_found);
  EXPECT_EQ(refusal(store().change_item(id, 1, a_loan(), now)), ErrorCode::not_found);
}

}  // namespace
}  // namespace rigproof::store
