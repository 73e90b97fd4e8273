#include "decision/plan/options.hpp"

#include <algorithm>
#include <array>

namespace rigproof::plan {
namespace {

constexpr int most_fans = 3;
constexpr std::array slot_order = {Kind::cpu,     Kind::gpu,     Kind::memory, Kind::board,
                                   Kind::chassis, Kind::fan,     Kind::cooler, Kind::other,
                                   Kind::psu,     Kind::storage, Kind::display};

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
            const Banned& banned, const Look& look, int keep)
      : catalog_(catalog),
        brief_(brief),
        prices_(prices),
        banned_(banned),
        look_(look),
        keep_(keep) {}

  KindSlot make(Kind kind) const {
    KindSlot slot{.kind = kind, .options = {}, .outdone = 0, .without_offer = 0};
    const auto forced = forced_row(catalog_, brief_, kind);
    if (optional_kind(kind) && !forced)
      slot.options.push_back({.parts = {}, .prices = std::vector<std::int64_t>(market_count(), 0)});
    if (kind == Kind::display && !forced) return slot;
    const std::vector<Row> rows = candidates(slot, forced);
    for (const Row row : rows) {
      if (forced && row != *forced) continue;
      const int most = kind == Kind::fan && !prices_.kept({kind, row}) ? most_fans : 1;
      for (int count = 1; count <= most; ++count) add(slot, {{row, count}});
    }
    if (kind == Kind::storage) add_pairs(slot, rows, forced);
    if (kind == Kind::other) add_helpers(slot, rows, forced);
    return slot;
  }

 private:
  std::size_t market_count() const { return static_cast<std::size_t>(prices_.markets()); }

  // The parts of a kind that may stand in its slot, alone or beside the forced one.
  std::vector<Row> candidates(KindSlot& slot, std::optional<Row> forced) const {
    const Kind kind = slot.kind;
    const bool beside = kind == Kind::storage || kind == Kind::other;
    std::vector<Row> rows;
    for (Row row = 0; row < catalog_.rows(table_of(kind)); ++row) {
      const bool is_forced = forced && row == *forced;
      if (forced && !is_forced && !beside) continue;
      if (kind == Kind::other && !is_forced && !may_be_asked_for(row)) continue;
      if (can_be_had({kind, row}))
        rows.push_back(row);
      else if (!forced || is_forced)
        ++slot.without_offer;
    }
    if (!look_ || forced) return rows;
    // Two drives may be taken; the best K differ in processor or chip, and a card that states no
    // chip counts as one of its own.
    const bool heads = kind == Kind::cpu || kind == Kind::gpu;
    const int others = kind == Kind::storage ? 2 : heads ? keep_ : 1;
    const int pieces = kind == Kind::storage ? 2 : kind == Kind::fan ? most_fans : 1;
    std::vector<Row> left = not_outdone({.catalog = catalog_,
                                         .prices = prices_,
                                         .look = look_,
                                         .others = others,
                                         .most_pieces = pieces},
                                        kind, rows);
    slot.outdone = rows.size() - left.size();
    return left;
  }

  bool add(KindSlot& slot, std::vector<Chosen> parts) const {
    std::ranges::sort(parts, {}, &Chosen::row);  // one order, whichever of them is forced
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
  void add_pairs(KindSlot& slot, const std::vector<Row>& rows, std::optional<Row> forced) const {
    for (auto a = rows.begin(); a != rows.end(); ++a) {
      if (!prices_.kept({Kind::storage, *a}) && (!forced || *a == *forced)) add(slot, {{*a, 2}});
      for (auto b = a + 1; b != rows.end(); ++b)
        if (!forced || *a == *forced || *b == *forced) add(slot, {{*a, 1}, {*b, 1}});
    }
  }

  std::string_view purpose(Row row) const { return catalog_.word(column("other", "what"), row); }

  // Can some rule or the brief want this part of kind `other`?
  bool may_be_asked_for(Row row) const {
    const auto what = purpose(row);
    if (what == "wifi-card") return brief_.wifi;
    if (what == "adapter") return brief_.accept_adapters;
    return what == "socket-mount" || what == "hub" || what == "cable-set";
  }

  // Two small parts, each for another purpose, or one or two beside the forced one.
  void add_helpers(KindSlot& slot, const std::vector<Row>& rows, std::optional<Row> forced) const {
    std::vector<Row> useful;
    for (const Row row : rows)
      if (!forced || purpose(row) != purpose(*forced)) useful.push_back(row);
    std::vector<Chosen> parts;
    if (forced) parts.push_back({*forced, 1});
    for (std::size_t i = 0; i < useful.size(); ++i) {
      parts.push_back({useful[i], 1});
      if (forced) add(slot, parts);
      for (std::size_t j = i + 1; j < useful.size(); ++j) {
        if (purpose(useful[i]) == purpose(useful[j])) continue;
        parts.push_back({useful[j], 1});
        add(slot, parts);
        parts.pop_back();
      }
      parts.pop_back();
    }
  }

  bool can_be_had(PartRef part) const {
    if (banned_ && *banned_ == part) return false;
    for (int market = 0; market < prices_.markets(); ++market)
      if (!prices_.price(part, market, 1)) return false;
    return true;
  }

  const Catalog& catalog_;
  const Brief& brief_;
  const PriceBook& prices_;
  const Banned& banned_;
  const Look& look_;
  int keep_;
};

}  // namespace

std::vector<KindSlot> slot_options(const Catalog& catalog, const Brief& brief,
                                   const PriceBook& prices, const Banned& banned, const Look& look,
                                   int keep) {
  const SlotMaker maker(catalog, brief, prices, banned, look, keep);
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
