// The demo's sellers and offers.
#include <algorithm>
#include <tuple>
#include <vector>

#include "base/contract.hpp"
#include "base/date.hpp"
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("offers", name); }
consteval ColumnId seller_in(std::string_view name) { return column("sellers", name); }

struct Seller {
  std::string_view id, name, market, currency;
  int shipping_cents;
  int per_mille;  // how its prices lie to the base
  int share;      // per cent of parts it has
  bool commission;
};
constexpr Seller sellers[] = {
    {"larkmoor", "Larkmoor Parts", "IE", "EUR", 990, 1002, 72, true},
    {"thrum", "Thrum Electrics", "IE", "EUR", 1400, 985, 48, false},
    {"oarlock", "Oarlock Direct", "IE", "EUR", 650, 1022, 44, true},
    {"copper-gulch", "Copper Gulch Computing", "US", "USD", 1900, 995, 74, true},
    {"wrenfield", "Wrenfield Supply", "US", "USD", 1250, 1015, 58, false},
};

// Nobody has these just now.
constexpr std::string_view not_sold[] = {"kolbrand-plinth-60", "thessic-rondo-224",
                                         "tidewell-culvert-360-deep", "lumvar-pane-25-quickest"};

std::string days_before_october(int days) {
  const auto october = make_date(2026, 10, 1);
  RP_EXPECT(october);
  return october ? to_string(Date{october->days - days}) : "";
}

// Shops end their prices in 90 cents; a boxed thing costs nothing.
std::int64_t shop_price(std::int64_t cents) {
  if (cents == 0) return 0;
  return std::max<std::int64_t>(100 * divide_rounded(cents, 100), 100) - 10;
}

// A euro price with 23 % tax as a dollar price without tax, at 1.12 dollars a euro.
std::int64_t to_dollars(std::int64_t cents) { return divide_rounded(cents * 112, 123); }

struct Seen {
  const Priced* part;
  const Seller* seller;
  int days_ago;
  std::string_view condition;
  std::int64_t cents;  // of the base price
};

void add_offer(Demo& demo, const Seen& seen, Dice& dice) {
  const bool dollars = seen.seller->currency == "USD";
  const std::int64_t own =
      divide_rounded(seen.cents * (seen.seller->per_mille + dice.between(-22, 22)), 1000);
  Line line(table("offers"));
  line.text(in("part"), seen.part->id)
      .text(in("seller"), seen.seller->id)
      .text(in("market"), seen.seller->market)
      .text(in("seen"), days_before_october(seen.days_ago))
      .text(in("condition"), seen.condition)
      .money(in("price"), shop_price(dollars ? to_dollars(own) : own))
      .text(in("currency"), seen.seller->currency)
      .flag(in("tax_included"), !dollars)
      .text(in("link_kind"), seen.seller->commission ? "commission" : "plain");
  const int luck = dice.between(1, 100);
  if (luck <= 4 && seen.cents > 0) {
    line.whole(in("stock"), 0);
  } else if (luck <= 85) {
    line.whole(in("stock"), seen.condition == "new" ? dice.between(1, 40) : dice.between(1, 3));
  }
  if (dice.chance(90)) line.whole(in("delivery_days"), dice.between(1, 4) + (luck <= 4 ? 14 : 0));
  demo.add(table("offers"), line);
}

// Who sells a part: mostly somebody in each market, four at the most.
std::vector<const Seller*> sellers_of(const Priced& part, Dice& dice) {
  std::vector<const Seller*> who;
  for (const auto& [first, last, nobody] : {std::tuple{0, 3, 5}, std::tuple{3, 5, 7}}) {
    if (part.cents > 0 && dice.chance(nobody)) continue;
    const auto before = who.size();
    for (int i = first; i < last; ++i)
      if (dice.chance(sellers[i].share)) who.push_back(&sellers[i]);
    if (who.size() == before) who.push_back(&sellers[first]);
  }
  if (who.size() > 4) who.erase(who.begin() + dice.between(0, 2));
  if (who.empty()) who.push_back(&sellers[0]);
  return who;
}

void add_offers_of(Demo& demo, const Priced& part) {
  Dice dice("offers/" + part.id);
  const auto who = sellers_of(part, dice);
  for (const Seller* seller : who) {
    const int days_ago =
        part.cents == 0 || dice.chance(87) ? dice.between(1, 13) : dice.between(15, 41);
    add_offer(demo, {&part, seller, days_ago, "new", part.cents}, dice);
    // Some prices were seen before, mostly a little higher.
    if (days_ago < 14 && dice.chance(8)) {
      add_offer(demo,
                {&part, seller, days_ago + dice.between(15, 28), "new",
                 part.cents * dice.between(100, 106) / 100},
                dice);
    }
  }
  const bool worth_it = part.cents > 9000 && (part.kind == Kind::gpu || part.kind == Kind::cpu ||
                                              part.kind == Kind::psu);
  if (worth_it && dice.chance(9)) {
    add_offer(demo,
              {&part, who.back(), dice.between(2, 30), "refurbished",
               part.cents * dice.between(76, 86) / 100},
              dice);
  }
}

}  // namespace

void add_sellers_and_offers(Demo& demo) {
  for (const Seller& seller : sellers) {
    Line line(table("sellers"));
    line.text(seller_in("id"), seller.id)
        .text(seller_in("name"), seller.name)
        .text(seller_in("market"), seller.market)
        .money(seller_in("shipping_upper"), seller.shipping_cents)
        .text(seller_in("currency"), seller.currency);
    demo.add(table("sellers"), line);
  }
  for (const Priced& part : demo.shop())
    if (std::ranges::find(not_sold, part.id) == std::end(not_sold)) add_offers_of(demo, part);
}

}  // namespace rigproof::demo
