#include <fmt/format.h>

#include "store/accept.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

constexpr std::string_view item_columns = R"sql(
  SELECT item, revision, saved_at, part_kind, part, came, condition, serial, from_whom, came_on,
    due_back, warranty_until, left_on, done
  FROM item_revision AS r )sql";

Named named(const ItemId& id) { return {"item", id.text}; }

Item item_of(const Statement& row) {
  const auto kind = find_kind(row.text(3));
  if (!kind) row.damaged(3);
  return {.id = {row.text(0)},
          .revision = row.integer(1),
          .saved_at = row.instant(2),
          .fields = {.part = {.kind = *kind, .id = row.text(4)},
                     .came = row.word<Came>(5),
                     .condition = row.word<ItemCondition>(6),
                     .serial = row.text(7),
                     .from_whom = row.text(8),
                     .came_on = row.optional_date(9),
                     .due_back = row.optional_date(10),
                     .warranty_until = row.optional_date(11),
                     .left_on = row.optional_date(12),
                     .done = row.text(13)}};
}

std::vector<Item> items_of(Statement rows) {
  std::vector<Item> all;
  while (rows.next()) all.push_back(item_of(rows));
  return all;
}

void add_revision(Database& database, const Item& item) {
  const ItemFields& fields = item.fields;
  database.run(R"sql(
    INSERT INTO item_revision (item, revision, saved_at, part_kind, part, came, condition, serial,
      from_whom, came_on, due_back, warranty_until, left_on, done)
    VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14))sql",
               item.id.text, item.revision, item.saved_at, name_of(fields.part.kind),
               fields.part.id, word(fields.came), word(fields.condition), fields.serial,
               fields.from_whom, fields.came_on, fields.due_back, fields.warranty_until,
               fields.left_on, fields.done);
}

std::int64_t head_of(Database& database, const ItemId& id) {
  const auto head =
      database.integer("SELECT max(revision) FROM item_revision WHERE item = ?1", id.text);
  if (!head) throw nothing_answers(named(id));
  return *head;
}

}  // namespace

Result<Item> SqliteStore::add_item(const ItemFields& fields, Instant saved_at) {
  if (auto good = accept(fields); !good) return tl::unexpected(good.error());
  if (auto good = accept_instant("saved_at", saved_at); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::write, [&] {
    Item item{.id = {unused_id(database_, "SELECT count(*) FROM item WHERE id = ?1")},
              .saved_at = saved_at,
              .fields = fields};
    database_.run("INSERT INTO item (id) VALUES (?1)", item.id.text);
    add_revision(database_, item);
    return item;
  });
}

Result<Item> SqliteStore::change_item(const ItemId& id, std::int64_t after_revision,
                                      const ItemFields& fields, Instant saved_at) {
  if (auto good = accept(fields); !good) return tl::unexpected(good.error());
  if (auto good = accept_instant("saved_at", saved_at); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::write, [&] {
    const std::int64_t head = head_of(database_, id);
    demand_newest(named(id), after_revision, head);
    Item item{.id = id, .revision = head + 1, .saved_at = saved_at, .fields = fields};
    add_revision(database_, item);
    return item;
  });
}

Result<Item> SqliteStore::item(const ItemId& id) {
  return in_transaction(database_, Access::read, [&] {
    Statement found = database_.query(
        fmt::format("{} WHERE item = ?1 ORDER BY revision DESC LIMIT 1", item_columns), id.text);
    if (!found.next()) throw nothing_answers(named(id));
    return item_of(found);
  });
}

Result<std::vector<Item>> SqliteStore::items() {
  return in_transaction(database_, Access::read, [&] {
    return items_of(
        database_.query(fmt::format("{} WHERE revision = (SELECT max(revision) FROM item_revision "
                                    "WHERE item = r.item) ORDER BY part_kind, part, item",
                                    item_columns)));
  });
}

Result<std::vector<Item>> SqliteStore::item_history(const ItemId& id) {
  return in_transaction(database_, Access::read, [&] {
    auto all = items_of(database_.query(
        fmt::format("{} WHERE item = ?1 ORDER BY revision", item_columns), id.text));
    if (all.empty()) throw nothing_answers(named(id));
    return all;
  });
}

}  // namespace rigproof::store
