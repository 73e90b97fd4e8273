#include "store/sqlite_store.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace rigproof::store {

Failure nothing_answers(const Named& thing) {
  return Failure({ErrorCode::not_found, fmt::format("{} '{}': there is none with this id",
                                                    thing.what, excerpt(thing.id))});
}

void demand_newest(const Named& thing, std::int64_t after_revision, std::int64_t head_revision) {
  if (after_revision == head_revision) return;
  throw Failure({ErrorCode::conflict,
                 fmt::format("{} '{}': the change was made from revision {}, the newest is {}",
                             thing.what, thing.id, after_revision, head_revision)});
}

std::string unused_id(Database& database, std::string_view taken) {
  std::string id = random_id();
  while (database.integer(taken, id) != 0) id = random_id();
  return id;
}

}  // namespace rigproof::store
