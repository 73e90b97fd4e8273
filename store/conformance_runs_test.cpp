// Runs and records: bytes and hashes that keep; errata and successors beside what is frozen.
#include "store/accept.hpp"
#include "store/conformance.hpp"

namespace rigproof::store {
namespace {

// FIPS 180-4's examples: the digests of "abc" and of nothing (values_test.cpp says from where).
constexpr const char* digest_of_abc =
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
constexpr const char* digest_of_nothing =
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

NewRun a_run() {
  return {.machine = "bench left",
          .title = "harbour-lights",
          .taken_at = at("2026-11-20T20:15:00Z"),
          .context = "driver = \"1.2\"\n",
          .capture = "abc"};
}

NewRecord a_record(std::string name = "Loft cinema") {
  return {.name = std::move(name), .body = "abc", .frozen_at = at("2026-11-21T00:00:00Z")};
}

TEST_P(StoreConformance, RunComesBackWithItsCapture) {
  NewRun given = a_run();
  given.build = store().add_document(a_brief())->id;
  const auto added = store().add_run(given);
  ASSERT_TRUE(added) << added.error().message;
  EXPECT_EQ(added->size_bytes, 3);
  EXPECT_EQ(added->sha256, digest_of_abc);
  reopen();
  const auto run = store().run(added->id);
  ASSERT_TRUE(run) << run.error().message;
  EXPECT_EQ(run->info, *added);
  EXPECT_EQ(run->info.machine, given.machine);
  EXPECT_EQ(run->info.title, given.title);
  EXPECT_EQ(run->info.taken_at, given.taken_at);
  EXPECT_EQ(run->info.build, given.build);
  EXPECT_EQ(run->context, given.context);
  EXPECT_EQ(run->capture, given.capture);
}

TEST_P(StoreConformance, CaptureMayBeAnyBytes) {
  NewRun given = a_run();
  given.capture.clear();
  given.context.clear();
  const auto empty = store().add_run(given);
  ASSERT_TRUE(empty) << empty.error().message;
  EXPECT_EQ(empty->sha256, digest_of_nothing);
  EXPECT_EQ(store().run(empty->id)->capture, "");
  for (int i = 0; i < 3'000'000; ++i) given.capture += static_cast<char>(i * 7 + i / 256);
  given.context = std::string("\0\xff", 2);
  const auto large = store().add_run(given);
  ASSERT_TRUE(large) << large.error().message;
  EXPECT_EQ(store().run(large->id)->capture, given.capture);
  EXPECT_EQ(store().run(large->id)->context, given.context);
}

TEST_P(StoreConformance, ListsRunsTheOldestFirst) {
  NewRun given = a_run();
  const RunInfo late = *store().add_run(given);
  given.taken_at = at("2026-11-19T00:00:00Z");
  const RunInfo early = *store().add_run(given);
  EXPECT_EQ(*store().runs(), (std::vector<RunInfo>{early, late}));
}

TEST_P(StoreConformance, RunThatCannotBeIsRefused) {
  NewRun given = a_run();
  given.build = DocumentId{"aaaaaaaaaa"};
  EXPECT_EQ(refusal(store().add_run(given)), ErrorCode::not_found);
  given = a_run();
  given.machine = " ";
  EXPECT_EQ(refusal(store().add_run(given)), ErrorCode::bad_input);
  given = a_run();
  given.capture = std::string(max_capture_bytes + 1, 'c');
  EXPECT_EQ(refusal(store().add_run(given)), ErrorCode::out_of_range);
  EXPECT_TRUE(store().runs()->empty());
  EXPECT_EQ(refusal(store().run({"aaaaaaaaaa"})), ErrorCode::not_found);
}

TEST_P(StoreConformance, RecordComesBackWithErrataAndSuccessors) {
  NewRecord given = a_record();
  given.build = RevisionName{.document = store().add_document(a_brief())->id, .revision = 1};
  const auto frozen = store().freeze_record(given);
  ASSERT_TRUE(frozen) << frozen.error().message;
  EXPECT_EQ(frozen->sha256, digest_of_abc);
  const auto untouched = store().record(frozen->id);
  ASSERT_TRUE(untouched);
  EXPECT_TRUE(untouched->errata.empty());
  EXPECT_TRUE(untouched->successors.empty());

  const auto first = store().add_erratum(frozen->id, "321 mm, not 312", at("2026-11-22T00:00:00Z"));
  ASSERT_TRUE(first) << first.error().message;
  const auto second = opened()->add_erratum(frozen->id, "again", at("2026-11-22T00:00:00Z"));
  ASSERT_TRUE(second);
  EXPECT_EQ(first->number, 1);
  EXPECT_EQ(second->number, 2);
  NewRecord next = a_record("Loft cinema, second edition");
  next.succeeds = frozen->id;
  const auto successor = store().freeze_record(next);
  ASSERT_TRUE(successor) << successor.error().message;
  reopen();
  const auto record = store().record(frozen->id);
  ASSERT_TRUE(record) << record.error().message;
  EXPECT_EQ(record->info, *frozen);
  EXPECT_EQ(record->info.build, given.build);
  EXPECT_EQ(record->body, "abc");
  EXPECT_EQ(record->errata, (std::vector<Erratum>{*first, *second}));
  EXPECT_EQ(record->successors, std::vector<RecordId>{successor->id});
  EXPECT_EQ(store().record(successor->id)->info.succeeds, frozen->id);
  EXPECT_EQ(store().records()->size(), 2U);
}

TEST_P(StoreConformance, RecordThatCannotBeIsRefused) {
  NewRecord given = a_record();
  given.succeeds = RecordId{"aaaaaaaaaa"};
  EXPECT_EQ(refusal(store().freeze_record(given)), ErrorCode::not_found);
  given = a_record();
  given.build = RevisionName{.document = store().add_document(a_brief())->id, .revision = 2};
  EXPECT_EQ(refusal(store().freeze_record(given)), ErrorCode::not_found);
  given = a_record();
  given.body = std::string(max_text_bytes + 1, 'b');
  EXPECT_EQ(refusal(store().freeze_record(given)), ErrorCode::out_of_range);
  EXPECT_TRUE(store().records()->empty());
  const RecordId none{"aaaaaaaaaa"};
  EXPECT_EQ(refusal(store().record(none)), ErrorCode::not_found);
  EXPECT_EQ(refusal(store().add_erratum(none, "x", at("2026-11-22T00:00:00Z"))),
            ErrorCode::not_found);
  const RecordId there = store().freeze_record(a_record())->id;
  EXPECT_EQ(refusal(store().add_erratum(there, " \n", at("2026-11-22T00:00:00Z"))),
            ErrorCode::bad_input);
  EXPECT_TRUE(store().record(there)->errata.empty());
}

}  // namespace
}  // namespace rigproof::store
