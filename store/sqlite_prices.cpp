#include "store/accept.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

SeenOffer offer_of(const Statement& row, const PartName& part) {
  const auto currency = parse_currency(row.text(4));
  if (!currency) row.damaged(4);
  SeenOffer offer{.part = part,
                  .seller = row.text(0),
                  .market = row.text(1),
                  .seen = row.date(2),
                  .condition = row.word<Condition>(3),
                  .price = {.currency = *currency, .minor = row.integer(5)},
                  .tax_included = row.flag(6),
                  .stock = row.optional_int(7),
                  .delivery_days = row.optional_int(8),
                  .warranty_months = row.optional_int(9)};
  if (!row.is_null(10)) offer.link_kind = row.word<LinkKind>(10);
  return offer;
}

/// Rows that are there already stay as they are: the unique index over all they say decides.
std::size_t insert_new(Database& database, std::int64_t batch,
                       const std::vector<SeenOffer>& offers) {
  Statement insert(database, R"sql(
    INSERT INTO price (batch, part_kind, part, seller, market, seen, condition, currency,
      price_minor, tax_included, stock, delivery_days, warranty_months, link_kind)
    VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)
    ON CONFLICT DO NOTHING)sql");
  std::size_t added = 0;
  for (const SeenOffer& offer : offers) {
    insert
        .with(batch, name_of(offer.part.kind), offer.part.id, offer.seller, offer.market,
              offer.seen, word(offer.condition), offer.price.currency.view(), offer.price.minor,
              offer.tax_included, offer.stock, offer.delivery_days, offer.warranty_months,
              offer.link_kind ? std::optional(word(*offer.link_kind)) : std::nullopt)
        .run();
    added += static_cast<std::size_t>(database.changes());
  }
  return added;
}

}  // namespace

Result<Appended> SqliteStore::append_prices(const PriceBatch& batch) {
  if (auto good = accept(batch); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::write, [&]() -> Appended {
    // The batch is written last, when the number of its offers is known, and only if it has any;
    // until then its number is a promise that the deferred foreign key holds us to.
    database_.execute("PRAGMA defer_foreign_keys = ON");
    const std::int64_t number =
        database_.integer("SELECT max(number) FROM price_batch").value_or(0) + 1;
    const std::size_t added = insert_new(database_, number, batch.offers);
    if (added > 0)
      database_.run(
          "INSERT INTO price_batch (number, origin, appended_at, offers) VALUES (?1, ?2, ?3, ?4)",
          number, batch.origin, batch.appended_at, static_cast<std::int64_t>(added));
    return {.added = added, .known = batch.offers.size() - added};
  });
}

Result<std::vector<PricePoint>> SqliteStore::price_series(const PartName& part) {
  if (auto good = accept(part); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::read, [&] {
    Statement rows = database_.query(R"sql(
      SELECT p.seller, p.market, p.seen, p.condition, p.currency, p.price_minor, p.tax_included,
        p.stock, p.delivery_days, p.warranty_months, p.link_kind, b.origin, b.appended_at
      FROM price p JOIN price_batch b ON b.number = p.batch
      WHERE p.part_kind = ?1 AND p.part = ?2 ORDER BY p.seen, p.number)sql",
                                     name_of(part.kind), part.id);
    std::vector<PricePoint> series;
    while (rows.next())
      series.push_back({.offer = offer_of(rows, part),
                        .origin = rows.text(11),
                        .appended_at = rows.instant(12)});
    return series;
  });
}

}  // namespace rigproof::store
