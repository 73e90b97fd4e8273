#include "decision/plan/options.hpp"

#include <algorithm>
#include <array>

namespace rigproof::plan {
namespace {

constexpr int most_fans = 3;
constexpr std::array slot_order = {Kind::cpu,     Kind::gpu,    Kind::memory,  Kind::board,
                                   Kind::chassis, Kind::cooler, Kind::storage, Kind::other,
                                   Kind::fan,     Kind::psu,    Kind::display};

bool optional_kind(Kind kind) {
  return kind == Kind::gpu || kind == Kind::fan || kind == Kind::other || kind == Kind::display;
}

// The part the brief keeps or forces for a kind.
std::optional<Row> forced_row(const Catalog& catalog, const Brief& brief, Kind kind) {
  for (const auto* list : {&brief.keep, &brief.because})
    for (const ForcedPart& part : *list)
      if (part.kind == kind)
        if (const auto found = catalog.find_part(part.id)) return found->row;
  return {};
}

class SlotMaker {
 public:
  SlotMaker(const Catalog& catalog, const Brief& brief, const PriceBook& prices,
            const Banned& banned)
      : catalog_(catalog), brief_(brief), prices_(prices), banned_(banned) {}

  KindSlot make(Kind kind) const {
    KindSlot slot{.kind = kind, .options = {}, .without_offer = 0};
    const auto forced = forced_row(catalog_, brief_, kind);
    const bool only_forced = kind == Kind::display || (kind == Kind::other && !brief_.wifi);
    if (optional_kind(kind) && !forced)
      slot.options.push_back({.parts = {}, .prices = std::vector<std::int64_t>(market_count(), 0)});
    if (only_forced && !forced) return slot;
    for (Row row = 0; row < catalog_.rows(table_of(kind)); ++row) {
      if (forced && row != *forced) continue;
      if (kind == Kind::other && !forced &&
          catalog_.word(column("other", "what"), row) != "wifi-card")
        continue;
      const bool kept = prices_.kept({kind, row});
      const int most = kind == Kind::fan && !kept ? most_fans : 1;
      bool any = false;
      for (int count = 1; count <= most; ++count) any = add(slot, {{row, count}}) || any;
      if (!any) ++slot.without_offer;
    }
    if (kind == Kind::storage) add_pairs(slot, forced);
    return slot;
  }

 private:
  std::size_t market_count() const { return static_cast<std::size_t>(prices_.markets()); }

  bool add(KindSlot& slot, std::vector<Chosen> parts) const {
    SlotOption option{.parts = std::move(parts),
                      .prices = std::vector<std::int64_t>(market_count(), 0)};
    for (const Chosen& part : option.parts) {
      const PartRef ref{slot.kind, part.row};
      if (banned_ && *banned_ == ref) return false;
      for (int market = 0; market < prices_.markets(); ++market) {
        const auto price = prices_.price(ref, market, part.count);
        if (!price) return false;
        option.prices[static_cast<std::size_t>(market)] += price->minor * part.count;
      }
    }
    slot.options.push_back(std::move(option));
    return true;
  }

  // Two drives: the same twice, or two different ones; a forced drive is one of the two.
  void add_pairs(KindSlot& slot, std::optional<Row> forced) const {
    const Row rows = catalog_.rows(table_of(Kind::storage));
    for (Row a = 0; a < rows; ++a) {
      if (!prices_.kept({Kind::storage, a}) && (!forced || a == *forced)) add(slot, {{a, 2}});
      for (Row b = a + 1; b < rows; ++b)
        if (!forced || a == *forced || b == *forced) add(slot, {{a, 1}, {b, 1}});
    }
  }

  const Catalog& catalog_;
  const Brief& brief_;
  const PriceBook& prices_;
  const Banned& banned_;
};

}  // namespace

std::vector<KindSlot> slot_options(const Catalog& catalog, const Brief& brief,
                                   const PriceBook& prices, const Banned& banned) {
  const SlotMaker maker(catalog, brief, prices, banned);
  std::vector<KindSlot> slots;
  slots.reserve(slot_order.size());
  for (const Kind kind : slot_order) slots.push_back(maker.make(kind));
  return slots;
}

std::string tie_key(const Catalog& catalog, Kind kind, const SlotOption& option) {
  std::vector<std::string> ids;
  for (const Chosen& part : option.parts)
    for (int i = 0; i < part.count; ++i) ids.emplace_back(catalog.id({kind, part.row}));
  std::ranges::sort(ids);
  std::string key;
  for (const std::string& id : ids) key += id + '\x01';
  return key;
}

}  // namespace rigproof::plan
