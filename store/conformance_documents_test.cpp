// Documents: every revision as it was given, no change lost between two tabs, nothing overwritten.
#include <fmt/format.h>

#include <map>
#include <random>

#include "store/accept.hpp"
#include "store/conformance.hpp"

namespace rigproof::store {
namespace {

TEST_P(StoreConformance, DocumentOfEveryKindComesBackAsGiven) {
  for (const DocumentKind kind :
       {DocumentKind::brief, DocumentKind::build, DocumentKind::mapping, DocumentKind::table}) {
    const auto added = store().add_document({.kind = kind,
                                             .name = "gpu.csv",
                                             .text = "id,name\r\n",
                                             .saved_at = at("2026-11-27T18:04:05Z")});
    ASSERT_TRUE(added) << added.error().message;
    EXPECT_TRUE(is_id(added->id.text)) << added->id.text;
    reopen();
    const auto read = store().document(added->id);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(read->text, "id,name\r\n");
    EXPECT_EQ(read->info, *added);
    EXPECT_EQ(read->info.kind, kind);
    EXPECT_EQ(read->info.name, "gpu.csv");
    EXPECT_EQ(read->info.revision, 1);
    EXPECT_EQ(to_string(read->info.saved_at), "2026-11-27T18:04:05Z");
    EXPECT_FALSE(read->info.deleted);
  }
}

TEST_P(StoreConformance, EveryRevisionStaysReadable) {
  const DocumentId id = store().add_document(a_brief("one", "first"))->id;
  ASSERT_TRUE(store().save_document(
      id, 1, {.name = "two", .text = "second", .saved_at = at("2026-11-02T08:00:00Z")}));
  const auto third = store().save_document(
      id, 2, {.name = "three", .text = "", .saved_at = at("2026-11-03T08:00:00Z")});
  ASSERT_TRUE(third) << third.error().message;
  EXPECT_EQ(third->revision, 3);
  EXPECT_EQ(third->head_revision, 3);
  reopen();
  EXPECT_EQ(store().document(id, 1)->text, "first");
  EXPECT_EQ(store().document(id, 1)->info.name, "one");
  EXPECT_EQ(store().document(id, 1)->info.head_revision, 3);
  EXPECT_EQ(store().document(id, 2)->text, "second");
  EXPECT_EQ(store().document(id, 3)->text, "");
  EXPECT_EQ(store().document(id)->info, *third);
  const auto all = store().revisions(id);
  ASSERT_TRUE(all);
  ASSERT_EQ(all->size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ((*all)[i].revision, static_cast<std::int64_t>(i) + 1);
    EXPECT_EQ((*all)[i], store().document(id, (*all)[i].revision)->info);
  }
}

TEST_P(StoreConformance, SecondOfTwoTabsIsToldAndWritesNothing) {
  const DocumentId id = store().add_document(a_brief())->id;
  const auto other = opened();
  ASSERT_TRUE(other->save_document(
      id, 1, {.name = "theirs", .text = "theirs", .saved_at = at("2026-11-02T08:00:00Z")}));
  const DocumentChange mine{.name = "mine", .text = "mine", .saved_at = at("2026-11-02T08:00:01Z")};
  const auto refused = store().save_document(id, 1, mine);
  EXPECT_EQ(refusal(refused), ErrorCode::conflict);
  EXPECT_EQ(refusal(store().remove_document(id, 1, mine.saved_at)), ErrorCode::conflict);
  EXPECT_EQ(refusal(store().save_document(id, 3, mine)), ErrorCode::conflict) << "not there yet";
  EXPECT_EQ(store().revisions(id)->size(), 2U);
  EXPECT_EQ(store().document(id)->text, "theirs");
  EXPECT_TRUE(store().save_document(id, 2, mine));
}

TEST_P(StoreConformance, RemovedDocumentCanBeBroughtBack) {
  const DocumentId id = store().add_document(a_brief("kept", "words"))->id;
  const auto removed = store().remove_document(id, 1, at("2026-11-05T08:00:00Z"));
  ASSERT_TRUE(removed) << removed.error().message;
  EXPECT_TRUE(removed->deleted);
  EXPECT_EQ(removed->revision, 2);
  EXPECT_EQ(store().document(id)->info, *removed);
  EXPECT_EQ(store().document(id)->text, "words") << "what was deleted, for an undo";
  EXPECT_FALSE(store().document(id, 1)->info.deleted);
  EXPECT_TRUE(store().documents(DocumentKind::brief)->empty());
  EXPECT_EQ(store().documents(DocumentKind::brief, Listed::deleted_too)->size(), 1U);
  EXPECT_EQ(refusal(store().remove_document(id, 2, at("2026-11-05T08:00:01Z"))),
            ErrorCode::not_found);
  ASSERT_TRUE(store().save_document(
      id, 2, {.name = "kept", .text = "words", .saved_at = at("2026-11-05T08:01:00Z")}));
  ASSERT_EQ(store().documents(DocumentKind::brief)->size(), 1U);
  EXPECT_EQ(store().document(id)->info.revision, 3);
}

TEST_P(StoreConformance, OneDocumentForEachTable) {
  NewDocument table = a_brief("gpu.csv", "id\n");
  table.kind = DocumentKind::table;
  const auto first = store().add_document(table);
  ASSERT_TRUE(first);
  EXPECT_EQ(refusal(store().add_document(table)), ErrorCode::conflict);
  ASSERT_TRUE(store().remove_document(first->id, 1, table.saved_at));
  EXPECT_EQ(refusal(store().add_document(table)), ErrorCode::conflict) << "deleted, not gone";
  EXPECT_EQ(refusal(store().save_document(
                first->id, 2, {.name = "cpu.csv", .text = "", .saved_at = table.saved_at})),
            ErrorCode::bad_input);
  table.name = "cpu.csv";
  EXPECT_TRUE(store().add_document(table));
  EXPECT_TRUE(store().add_document(a_brief("gpu.csv"))) << "names of briefs are free";
  EXPECT_TRUE(store().add_document(a_brief("gpu.csv")));
}

TEST_P(StoreConformance, ListsOneKindTheLastSavedFirst) {
  NewDocument brief = a_brief("old");
  const DocumentId old = store().add_document(brief)->id;
  brief.name = "new";
  brief.saved_at = at("2026-11-02T08:00:00Z");
  const DocumentId young = store().add_document(brief)->id;
  brief.kind = DocumentKind::build;
  ASSERT_TRUE(store().add_document(brief));
  auto list = store().documents(DocumentKind::brief);
  ASSERT_TRUE(list);
  ASSERT_EQ(list->size(), 2U);
  EXPECT_EQ((*list)[0].id, young);
  ASSERT_TRUE(store().save_document(
      old, 1, {.name = "old", .text = "x", .saved_at = at("2026-11-03T08:00:00Z")}));
  EXPECT_EQ(store().documents(DocumentKind::brief)->front().id, old);
  EXPECT_EQ(store().documents(DocumentKind::brief)->front().revision, 2);
}

TEST_P(StoreConformance, NothingAnswersToAnIdThatIsNotThere) {
  const DocumentId there = store().add_document(a_brief())->id;
  const Instant now = at("2026-11-02T08:00:00Z");
  const std::string quoted = "' OR 1=1 --";
  const std::string cut = there.text + std::string(1, '\0');
  for (const std::string& text : {std::string("aaaaaaaaaa"), std::string(), quoted, cut,
                                  there.text.substr(0, 9), std::string(1 << 20, 'a')}) {
    const DocumentId id{text};
    EXPECT_EQ(refusal(store().document(id)), ErrorCode::not_found);
    EXPECT_EQ(refusal(store().document(id, 1)), ErrorCode::not_found);
    EXPECT_EQ(refusal(store().revisions(id)), ErrorCode::not_found);
    EXPECT_EQ(refusal(store().remove_document(id, 1, now)), ErrorCode::not_found);
    EXPECT_EQ(refusal(store().save_document(id, 1, {.name = "x", .text = "", .saved_at = now})),
              ErrorCode::not_found);
  }
  for (const std::int64_t revision : {std::int64_t{0}, std::int64_t{2}, std::int64_t{-1},
                                      std::numeric_limits<std::int64_t>::max()})
    EXPECT_EQ(refusal(store().document(there, revision)), ErrorCode::not_found);
}

TEST_P(StoreConformance, RefusesWhatIsBeyondItsLimits) {
  NewDocument large = a_brief("large", std::string(max_text_bytes, 'x'));
  const auto added = store().add_document(large);
  ASSERT_TRUE(added) << added.error().message;
  EXPECT_EQ(store().document(added->id)->text, large.text);
  large.text += 'x';
  EXPECT_EQ(refusal(store().add_document(large)), ErrorCode::out_of_range);

  EXPECT_TRUE(store().add_document(a_brief(std::string(max_line_bytes, 'n'))));
  EXPECT_EQ(refusal(store().add_document(a_brief(std::string(max_line_bytes + 1, 'n')))),
            ErrorCode::out_of_range);
  EXPECT_EQ(refusal(store().add_document(a_brief(""))), ErrorCode::bad_input);
  NewDocument timeless = a_brief();
  timeless.saved_at = {std::numeric_limits<std::int64_t>::min()};
  EXPECT_EQ(refusal(store().add_document(timeless)), ErrorCode::out_of_range);
  EXPECT_EQ(store().documents(DocumentKind::brief)->size(), 2U);
}

/// A workshop in memory that knows only what store.hpp says: the oracle of the walk below.
struct Model {
  struct Revision {
    std::string name;
    std::string text;
    bool deleted = false;
  };
  std::map<DocumentId, std::vector<Revision>> documents{};
};

TEST_P(StoreConformance, LongWalkOfTwoTabsAgreesWithAModel) {
  std::mt19937 random(20261127);
  const auto pick = [&random](std::size_t below) {
    return static_cast<std::size_t>(random()) % below;
  };
  const auto tab_a = opened();
  const auto tab_b = opened();
  Model model;
  std::vector<DocumentId> ids;
  std::array<std::size_t, 3> refused{};  // saves and removals by a stale tab, removals twice
  for (int step = 0; step < 400; ++step) {
    Store& tab = pick(2) == 0 ? *tab_a : *tab_b;
    const std::string text = fmt::format("text {} {}", step, std::string(pick(3000), 'z'));
    const Instant now{1'790'000'000 + step};
    if (ids.empty() || pick(8) == 0) {
      const auto added = tab.add_document({.name = "n", .text = text, .saved_at = now});
      ASSERT_TRUE(added) << added.error().message;
      ASSERT_TRUE(
          model.documents.emplace(added->id, std::vector{Model::Revision{"n", text}}).second);
      ids.push_back(added->id);
      continue;
    }
    const DocumentId& id = ids[pick(ids.size())];
    auto& history = model.documents.at(id);
    const std::size_t after = history.size() - (pick(4) == 0 ? 1 : 0);
    const bool stale = after != history.size();
    const auto after_revision = static_cast<std::int64_t>(after);
    if (pick(4) == 0) {
      const bool gone = history.back().deleted;
      const auto removed = tab.remove_document(id, after_revision, now);
      ASSERT_EQ(refusal(removed), stale  ? std::optional(ErrorCode::conflict)
                                  : gone ? std::optional(ErrorCode::not_found)
                                         : std::nullopt);
      ++refused[stale ? 0 : gone ? 1 : 2];
      if (removed) history.push_back({history.back().name, history.back().text, true});
    } else {
      const auto saved = tab.save_document(
          id, after_revision, {.name = fmt::format("n{}", step), .text = text, .saved_at = now});
      ASSERT_EQ(refusal(saved), stale ? std::optional(ErrorCode::conflict) : std::nullopt);
      if (saved) history.push_back({fmt::format("n{}", step), text, false});
    }
  }
  for (const std::size_t count : refused) EXPECT_GT(count, 0U) << "the walk met every case";
  for (const auto& [id, history] : model.documents) {
    const auto revisions = tab_a->revisions(id);
    ASSERT_TRUE(revisions);
    ASSERT_EQ(revisions->size(), history.size());
    for (std::size_t i = 0; i < history.size(); ++i) {
      const auto read = tab_b->document(id, static_cast<std::int64_t>(i) + 1);
      ASSERT_TRUE(read);
      EXPECT_EQ(read->text, history[i].text);
      EXPECT_EQ(read->info.name, history[i].name);
      EXPECT_EQ(read->info.deleted, history[i].deleted);
    }
  }
  EXPECT_EQ(*store().check(), std::vector<std::string>{});
}

}  // namespace
}  // namespace rigproof::store
