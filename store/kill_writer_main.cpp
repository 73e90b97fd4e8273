// A writer for the tests of the store: started by them, and killed.
//
//   store_kill_writer FILE batches N   price batches N, N+1... and as many revisions of the journal
//   store_kill_writer FILE torn N      the same, each batch wrongly in two calls: the judge must
//   see it store_kill_writer FILE count N     adds one to the counter N times, against other
//   writers
//
// What is committed is said on standard output, a line each: `p 12` a price batch, `d 5` a revision
// of the journal, `c 7` the counter's new value, `x 7` a refusal of a change made from revision 7.
// Ends with 1 at the first error.
#include <unistd.h>

#include <charconv>
#include <chrono>
#include <cstdio>
#include <string_view>
#include <thread>

#include "store/kill_writer.hpp"

namespace rigproof::store {
namespace {

using kill_writer::batch_of;

constexpr Instant now{1'790'000'000};

/// Straight to the pipe: what was said before the kill has been said.
void say(char what, std::int64_t number) {
  const std::string line = fmt::format("{} {}\n", what, number);
  if (::write(STDOUT_FILENO, line.data(), line.size()) != static_cast<ssize_t>(line.size()))
    _exit(1);
}

template <class T>
T must(Result<T> result) {
  if (result) return std::move(*result);
  std::fprintf(stderr, "%s\n", result.error().message.c_str());
  _exit(1);
}

/// The document of this name, made by whoever comes first.
DocumentInfo named(Store& store, DocumentKind kind, const std::string& name,
                   const std::string& text) {
  for (DocumentInfo& info : must(store.documents(kind)))
    if (info.name == name) return std::move(info);
  return must(store.add_document({.kind = kind, .name = name, .text = text, .saved_at = now}));
}

void append(Store& store, std::int64_t number, bool torn) {
  PriceBatch batch = batch_of(number);
  if (torn) {
    PriceBatch half = batch;
    half.offers.resize(batch.offers.size() / 2);
    must(store.append_prices(half));
  }
  must(store.append_prices(batch));
  say('p', number);
}

void write_batches(Store& store, std::int64_t number, bool torn) {
  DocumentInfo journal =
      named(store, DocumentKind::brief, kill_writer::journal_name, kill_writer::text_of(1));
  say('d', journal.revision);
  for (;; ++number) {
    append(store, number, torn);
    journal = must(store.save_document(journal.id, journal.revision,
                                       {.name = kill_writer::journal_name,
                                        .text = kill_writer::text_of(journal.revision + 1),
                                        .saved_at = now}));
    say('d', journal.revision);
  }
}

/// Read, add one, save if nobody came between; else again. The pause between reading and saving is
/// where the other one comes between.
void count(Store& store, std::int64_t times) {
  const DocumentInfo counter =
      must(store.documents(DocumentKind::mapping)).at(0);  // the test has made it
  while (times > 0) {
    const Document read = must(store.document(counter.id));
    std::int64_t value = 0;
    std::from_chars(read.text.data(), read.text.data() + read.text.size(), value);
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
    const auto saved = store.save_document(
        counter.id, read.info.revision,
        {.name = kill_writer::counter_name, .text = std::to_string(value + 1), .saved_at = now});
    if (!saved && saved.error().code == ErrorCode::conflict) {
      say('x', read.info.revision);
      continue;
    }
    must(saved);
    say('c', value + 1);
    --times;
  }
}

int run(std::string_view path, std::string_view mode, std::string_view number_text) {
  std::int64_t number = 0;
  std::from_chars(number_text.data(), number_text.data() + number_text.size(), number);
  const auto store = must(open_store("sqlite:" + std::string(path)));
  if (mode == "once")
    append(*store, number, false);
  else if (mode == "count")
    count(*store, number);
  else
    write_batches(*store, number, mode == "torn");
  return 0;
}

}  // namespace
}  // namespace rigproof::store

int main(int argc, char** argv) {
  if (argc != 4) return 2;
  return rigproof::store::run(argv[1], argv[2], argv[3]);
}
