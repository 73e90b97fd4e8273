#include "tools/make_market.hpp"

#include <algorithm>
#include <array>

#include "base/date.hpp"
#include "tools/make_market_rows.hpp"

namespace rigproof::demo {

namespace {

constexpr std::array sockets = {"K0", "K1", "K2", "K3", "K4"};

struct Share {
  Kind kind;
  int per_mille;  // of all parts but the processors
  void (*add)(Market&, int);
};
// Kits take what is left over.
constexpr std::array shares = {
    Share{Kind::gpu, 200, add_market_cards},    Share{Kind::storage, 160, add_market_drives},
    Share{Kind::board, 140, add_market_boards}, Share{Kind::cooler, 80, add_market_coolers},
    Share{Kind::chassis, 90, add_market_cases}, Share{Kind::psu, 80, add_market_supplies},
    Share{Kind::fan, 50, add_market_fans},      Share{Kind::display, 20, add_market_displays},
    Share{Kind::other, 20, add_market_others},
};

struct Seller {
  std::string_view id, market, currency;
  bool tax_included;
};
constexpr std::array sellers = {
    Seller{"seller-ie-1", "IE", "EUR", true},  Seller{"seller-ie-2", "IE", "EUR", true},
    Seller{"seller-ie-3", "IE", "EUR", true},  Seller{"seller-gb-1", "GB", "GBP", true},
    Seller{"seller-gb-2", "GB", "GBP", true},  Seller{"seller-us-1", "US", "USD", false},
    Seller{"seller-us-2", "US", "USD", false}, Seller{"seller-us-3", "US", "USD", false},
};
constexpr int first_gb = 3;
constexpr int first_us = 5;

void add_sellers(Market& market) {
  Rows& rows = market.rows(table("sellers"));
  for (const Seller& seller : sellers) {
    rows.text(column("sellers", "id"), seller.id)
        .text(column("sellers", "name"), seller.id)
        .text(column("sellers", "market"), seller.market)
        .text(column("sellers", "shipping_upper"), "9.90")
        .text(column("sellers", "currency"), seller.currency);
    rows.end_row();
  }
}

// The last six months, newest first.
std::vector<std::string> days() {
  std::vector<std::string> out;
  const auto october = make_date(2026, 10, 1);
  RP_EXPECT(october);
  for (int ago = 0; october && ago <= 183; ++ago)
    out.push_back(to_string(Date{october->days - ago}));
  return out;
}

void add_provenance(Market& market) {
  Rows& rows = market.rows(table("provenance"));
  for (int t = 0; t < schema::table_count; ++t) {
    if (t == table("provenance")) continue;
    rows.text(column("provenance", "table"), spec(t).name)
        .text(column("provenance", "row"), "*")
        .text(column("provenance", "column"), "*")
        .text(column("provenance", "source"), "tools/make_market: invented")
        .text(column("provenance", "seen"), "2026-10-01")
        .text(column("provenance", "method"), "invented");
    rows.end_row();
  }
}

constexpr std::string_view brief = R"(# Invented for benchmarks; nothing in it is measured.

[brief]
name = "A market"
as_of = 2026-10-01
offers_not_older_than_days = 60

[[markets]]
market = "IE"
currency = "EUR"
budget = "1600.00"

[[titles]]
title = "wide-fallow"
weight = 2
resolution = "2560x1440"
target_fps = 90

[[titles]]
title = "thermal-lines"
resolution = "2560x1440"
target_fps = 90

[limits]
supply_reserve_frac = 0.1

[musts]
memory_gb = 32
storage_gb = 2000

[worths]
saved_frac = 0.25
)";

}  // namespace

Rows::Rows(int table) : table_(table), columns_(spec(table).columns.size()) {
  for (std::size_t c = 0; c < columns_; ++c) {
    if (c > 0) text_ += ',';
    text_ += spec(table).columns[c].name;
  }
  text_ += '\n';
}

void Rows::end_row() {
  for (; at_ + 1 < columns_; ++at_) text_ += ',';
  text_ += '\n';
  at_ = 0;
}

Market::Market() {
  for (int t = 0; t < schema::table_count; ++t) tables_.emplace_back(t);
}

std::string market_id(Kind kind, int number) {
  const std::string digits = std::to_string(number);
  return std::string(spec(table_of(kind)).name) + "-" +
         std::string(digits.size() < 6 ? 6 - digits.size() : 0, '0') + digits;
}

Rows& Market::part(Kind kind, int number, int euro) {
  const auto t = static_cast<std::uint8_t>(table_of(kind));
  std::string id = market_id(kind, number);
  const std::string maker = "House " + std::to_string(number % 41 + 1);
  Rows& row = rows(t);
  row.text({t, 0}, id)
      .text({t, 1}, maker + " " + std::string(spec(t).name) + " " + std::to_string(number))
      .text({t, 2}, maker)
      .text({t, 3}, "H" + std::to_string(100000 + number));
  shop_.push_back({std::move(id), kind, std::int64_t{euro} * 100});
  if (kind == Kind::cpu) ++processors_;
  return row;
}

std::string_view market_socket(int number) {
  return sockets[static_cast<std::size_t>(number % market_sockets)];
}

bool market_ddr4(int number) { return number % market_sockets < 2; }

// Three offers a part: one in each market, by sellers and on days that differ from part to part.
void add_market_offers(Market& market) {
  const auto all_days = days();
  Rows& rows = market.rows(table("offers"));
  std::size_t number = 0;
  for (const Priced& part : market.shop()) {
    Dice dice("offers/" + part.id);
    ++number;
    const std::size_t who[] = {number % first_gb, first_gb + number % (first_us - first_gb),
                               first_us + number % (sellers.size() - first_us)};
    for (const std::size_t at : who) {
      const Seller& seller = sellers[at];
      // Tax and exchange as in the demo: 23 % and 1, 20 % and 0.86, none and 1.12.
      const std::int64_t cents = seller.currency == "EUR"   ? part.cents
                                 : seller.currency == "GBP" ? part.cents * 839 / 1000
                                                            : part.cents * 911 / 1000;
      const auto day =
          static_cast<std::size_t>(dice.chance(80) ? dice.between(0, 59) : dice.between(60, 183));
      rows.text(column("offers", "part"), part.id)
          .text(column("offers", "seller"), seller.id)
          .text(column("offers", "market"), seller.market)
          .text(column("offers", "seen"), all_days[day])
          .text(column("offers", "condition"), dice.chance(94) ? "new" : "refurbished")
          .money(column("offers", "price"), cents * dice.between(970, 1030) / 1000)
          .text(column("offers", "currency"), seller.currency)
          .flag(column("offers", "tax_included"), seller.tax_included)
          .whole(column("offers", "stock"), dice.between(0, 40))
          .whole(column("offers", "delivery_days"), dice.between(1, 7))
          .whole(column("offers", "warranty_months"), std::int64_t{12} * dice.between(1, 5))
          .text(column("offers", "link_kind"), at % 2 == 0 ? "commission" : "plain");
      rows.end_row();
    }
  }
}

namespace {

Files finish(Market& market) {
  add_sellers(market);
  add_market_offers(market);
  add_provenance(market);
  Demo titles;
  add_titles(titles);
  Files files;
  for (int t = 0; t < schema::table_count; ++t)
    files["catalog/" + std::string(spec(t).name) + ".csv"] =
        t == table("titles") ? titles.csv(t) : market.take(t);
  files["briefs/market.toml"] = brief;
  return files;
}

}  // namespace

Files make_market(int parts) {
  RP_EXPECT(parts >= fewest_market_parts && parts <= most_market_parts);
  Market market;
  add_market_processors(market, market_processors);
  const int others = parts - market_processors;
  int left = others;
  for (const Share& share : shares) {
    const auto count = static_cast<int>(std::int64_t{others} * share.per_mille / 1000);
    share.add(market, count);
    left -= count;
  }
  add_market_memory(market, left);
  return finish(market);
}

Files make_market_of_each(int each) {
  RP_EXPECT(each >= fewest_of_each && each <= 100'000);
  constexpr int few = 20;
  Market market;
  add_market_processors(market, each);
  for (const Share& share : shares) {
    const bool planned =
        share.kind != Kind::fan && share.kind != Kind::display && share.kind != Kind::other;
    share.add(market, planned ? each : few);
  }
  add_market_memory(market, each);
  return finish(market);
}

}  // namespace rigproof::demo
