// The demo's sellers and offers.
#include <algorithm>
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
// Sellers of one market stand together.
constexpr Seller sellers[] = {
    {"larkmoor", "Larkmoor Parts", "IE", "EUR", 990, 1002, 58, true},
    {"thrum", "Thrum Electrics", "IE", "EUR", 1400, 985, 32, false},
    {"oarlock", "Oarlock Direct", "IE", "EUR", 650, 1022, 26, true},
    {"bittern-lane", "Bittern Lane", "GB", "GBP", 795, 1004, 52, false},
    {"tallow-and-wick", "Tallow & Wick", "GB", "GBP", 995, 990, 20, true},
    {"fennel-row", "Fennel Row Electrics", "GB", "GBP", 0, 1028, 12, false},
    {"copper-gulch", "Copper Gulch Computing", "US", "USD", 1900, 995, 54, true},
    {"wrenfield", "Wrenfield Supply", "US", "USD", 1250, 1015, 30, false},
};
struct Market {
  std::string_view code;
  int first, last;  // of sellers
  int nobody;       // per cent of parts that nobody sells there
};
constexpr Market markets[] = {{"IE", 0, 3, 4}, {"GB", 3, 6, 12}, {"US", 6, 8, 12}};

// Nobody has these just now.
constexpr std::string_view not_sold[] = {"kolbrand-plinth-60", "thessic-rondo-224",
                                         "tidewell-culvert-360-deep", "lumvar-pane-25-quickest"};

// One seller of the first market alone has it, at a price seen eleven days ago: the bargain of
// builds/trap-lone-bargain.toml.
constexpr std::string_view lone_bargain = "brantoak-crown-marl-50";
constexpr int lone_seller = 1;
constexpr int lone_days = 11;

// The small drive of which two are cheaper than one large one is offered in the first market only.
constexpr std::string_view only_in_the_first = "wherrymont-chaff-1-tb";

// Parts of the trap builds and of their remedies, and the tiny cases: two sellers in the first
// market, both seen within the week, and somebody in the others, so that nothing but the trap is
// wrong with them.
constexpr std::string_view well_sold[] = {
    "orrvane-rowan-46",
    "orrvane-rowan-48",
    "orrvane-rowan-56",
    "nimbeck-terrace-v4-wifi",
    "nimbeck-terrace-v4-micro-wifi",
    "quernholt-rill-v4-wifi",
    "quernholt-rill-v4-micro",
    "ullsmoor-rib-ddr5-2x16-5600-cl36",
    "ullsmoor-rib-ddr5-2x16-6000-cl36",
    "ullsmoor-crest-ddr5-2x16-6000-cl30",
    "pollwright-beam-marl-40",
    "brantoak-bough-marl-50",
    "pollwright-long-beam-basalt-50",
    "pollwright-beam-marl-50",
    "nimbeck-gallery-gannet-7",
    "skarnby-cove-marl-50",
    "wherrymont-chaff-1-tb",
    "dovrelund-cobble-2-tb",
    "fjellum-pillar",
    "wexcombe-awning",
    "nordvane-stave-120",
    "ottermill-drift-42",
    "ottermill-drift-50",
    "ottermill-drift-40-slim",
    "kolbrand-plinth-41-bare",
    "grenwick-kettle-750",
    "tollard-ration-670",
    "tollard-ration-660-short",
    "wexcombe-gust-120-chain",
    "fjellum-draught-120",
    "nordvane-vane-120",
    "fjellum-six-fan-hub",
    "kolbrand-matchbox-8",
    "harrowdene-larder-11",
    "quernholt-casket-10",
};

bool is_well_sold(std::string_view part) {
  return std::ranges::find(well_sold, part) != std::end(well_sold);
}

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

// A euro price with 23 % tax as a dollar price without tax at 1.12 dollars a euro, or as a pound
// price with 20 % tax at 0.86 pounds a euro.
std::int64_t converted(std::int64_t cents, std::string_view currency) {
  if (currency == "USD") return divide_rounded(cents * 112, 123);
  if (currency == "GBP") return divide_rounded(cents * 860 * 120, 123 * 1000);
  return cents;
}

struct Seen {
  const Priced* part;
  const Seller* seller;
  int days_ago;
  std::string_view condition;
  std::int64_t cents;  // of the base price
};

int warranty_months(const Seen& seen, Dice& dice) {
  if (seen.condition == "used") return dice.chance(60) ? 0 : 3;
  if (seen.condition == "refurbished") return dice.chance(70) ? 12 : 6;
  switch (seen.part->kind) {
    case Kind::psu:
      return dice.chance(50) ? 60 : 84;
    case Kind::memory:
      return 120;
    case Kind::storage:
      return dice.chance(60) ? 60 : 36;
    case Kind::gpu:
    case Kind::cpu:
      return 36;
    default:
      return 24;
  }
}

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
      .money(in("price"), shop_price(converted(own, seen.seller->currency)))
      .text(in("currency"), seen.seller->currency)
      .flag(in("tax_included"), !dollars)
      .text(in("link_kind"), seen.seller->commission ? "commission" : "plain");
  const bool sure = is_well_sold(seen.part->id) || seen.part->id == lone_bargain;
  const int luck = sure ? 50 : dice.between(1, 100);
  if (luck <= 4 && seen.cents > 0) {
    line.whole(in("stock"), 0);
  } else if (luck <= 85) {
    line.whole(in("stock"), seen.condition == "new" ? dice.between(4, 40) : dice.between(1, 3));
  }
  if (dice.chance(90)) line.whole(in("delivery_days"), dice.between(1, 4) + (luck <= 4 ? 14 : 0));
  const int months = warranty_months(seen, dice);
  if (dice.chance(85)) line.whole(in("warranty_months"), months);
  demo.add(table("offers"), line);
}

// What it cost `days_ago`, against now: memory and drives were cheaper, cards were dearer.
std::int64_t earlier(const Priced& part, int days_ago, Dice& dice) {
  const int per_mille = part.kind == Kind::memory || part.kind == Kind::storage ? -days_ago / 3
                        : part.kind == Kind::gpu                                ? days_ago / 3
                                                                                : days_ago / 6;
  return part.cents * (1000 + per_mille + dice.between(-8, 8)) / 1000;
}

// Who sells a part in a market: mostly somebody, two at the most.
std::vector<const Seller*> sellers_of(const Priced& part, const Market& market, Dice& dice) {
  std::vector<const Seller*> who;
  const bool first = market.first == 0;
  if (first && part.id == lone_bargain) return {&sellers[lone_seller]};
  if (first && is_well_sold(part.id)) return {&sellers[0], &sellers[2]};
  if (part.id == only_in_the_first) return {};
  if (is_well_sold(part.id)) return {&sellers[market.first]};
  if (part.cents > 0 && dice.chance(market.nobody)) return {};
  for (int i = market.first; i < market.last; ++i)
    if (dice.chance(sellers[i].share)) who.push_back(&sellers[i]);
  if (who.empty()) who.push_back(&sellers[market.first]);
  return who;
}

// What the price was on earlier days, back to the first of April.
void add_series(Demo& demo, const Priced& part, const Seller* seller, int from_days, Dice& dice) {
  constexpr int six_months = 183;
  int days_ago = from_days;
  for (int step = dice.between(1, 4); step > 0; --step) {
    days_ago += dice.between(18, 52);
    if (days_ago > six_months) days_ago = six_months;
    add_offer(demo, {&part, seller, days_ago, "new", earlier(part, days_ago, dice)}, dice);
    if (days_ago == six_months) break;
  }
}

void add_offers_in(Demo& demo, const Priced& part, const Market& market) {
  Dice dice("offers/" + std::string(market.code) + "/" + part.id);
  const auto who = sellers_of(part, market, dice);
  const bool watched = part.kind == Kind::gpu || part.kind == Kind::cpu ||
                       part.kind == Kind::memory || part.kind == Kind::storage;
  for (const Seller* seller : who) {
    int days_ago = dice.chance(92) ? dice.between(0, 13) : dice.between(15, 60);
    if (part.cents == 0) days_ago = dice.between(0, 13);
    if (is_well_sold(part.id)) days_ago = dice.between(0, 6);
    if (part.id == lone_bargain && market.first == 0) days_ago = lone_days;
    add_offer(demo, {&part, seller, days_ago, "new", part.cents}, dice);
    if (part.cents > 0 && dice.chance(watched ? 13 : 4))
      add_series(demo, part, seller, days_ago, dice);
  }
  const bool worth_it = part.cents > 9000 && (part.kind == Kind::gpu || part.kind == Kind::cpu ||
                                              part.kind == Kind::psu);
  if (!worth_it || who.empty()) return;
  if (dice.chance(6))
    add_offer(demo,
              {&part, who.back(), dice.between(2, 30), "refurbished",
               part.cents * dice.between(76, 86) / 100},
              dice);
  if (dice.chance(4))
    add_offer(
        demo,
        {&part, who.front(), dice.between(2, 60), "used", part.cents * dice.between(58, 72) / 100},
        dice);
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
  for (const Priced& part : demo.shop()) {
    if (std::ranges::find(not_sold, part.id) != std::end(not_sold)) continue;
    const auto before = demo.rows(table("offers")).size();
    for (const Market& market : markets) add_offers_in(demo, part, market);
    // A part that missed every market by chance is offered in the first.
    if (demo.rows(table("offers")).size() == before) {
      Dice dice("offers/left-over/" + part.id);
      add_offer(demo, {&part, &sellers[0], dice.between(0, 13), "new", part.cents}, dice);
    }
  }
}

}  // namespace rigproof::demo
