#include "decision/plan/options.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

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
            const PartsAsked& asked, const Look& look, int keep)
      : catalog_(catalog),
        brief_(brief),
        prices_(prices),
        asked_(asked),
        look_(look),
        keep_(keep) {}

  KindSlot make(Kind kind) const {
    KindSlot slot{.kind = kind, .options = {}, .outdone = 0, .without_offer = 0};
    const std::vector<Row> must = must_have(kind);
    if (optional_kind(kind) && must.empty())
      slot.options.push_back({.parts = {}, .prices = std::vector<std::int64_t>(market_count(), 0)});
    std::vector<Row> rows;
    if (kind != Kind::display || !must.empty()) rows = candidates(slot, must);
    for (const Row row : rows) {
      const int most = kind == Kind::fan ? most_fans : 1;
      for (int count = 1; count <= most; ++count) add(slot, {{row, count}}, must);
    }
    if (kind == Kind::storage) add_pairs(slot, rows, must);
    if (kind == Kind::other) add_helpers(slot, rows, must);
    add_own_filling(slot, rows, must);
    return slot;
  }

 private:
  std::size_t market_count() const { return static_cast<std::size_t>(prices_.markets()); }

  // What has to stand in the slot: the part the brief keeps or forces, and those insisted on.
  std::vector<Row> must_have(Kind kind) const {
    std::vector<Row> must;
    if (const auto forced = forced_row(catalog_, brief_, kind)) must.push_back(*forced);
    for (const PartRef& part : asked_.insisted)
      if (part.kind == kind && !contains(must, part.row)) must.push_back(part.row);
    return must;
  }

  static bool contains(const std::vector<Row>& rows, Row row) {
    return std::ranges::find(rows, row) != rows.end();
  }

  // What the build to stay near has of a kind.
  std::span<const Chosen> own(Kind kind) const {
    return asked_.stay_near == nullptr ? std::span<const Chosen>{} : asked_.stay_near->of(kind);
  }
  bool is_own(Kind kind, Row row) const {
    return std::ranges::find(own(kind), row, &Chosen::row) != own(kind).end();
  }

  // The parts of a kind that may stand in its slot, alone or beside those that must.
  std::vector<Row> candidates(KindSlot& slot, const std::vector<Row>& must) const {
    const Kind kind = slot.kind;
    const bool beside = kind == Kind::storage || kind == Kind::other;
    std::vector<Row> rows;
    for (Row row = 0; row < catalog_.rows(table_of(kind)); ++row) {
      const bool needed = contains(must, row);
      if (!must.empty() && !needed && !beside) continue;
      if (kind == Kind::other && !needed && !is_own(kind, row) && !may_be_asked_for(row)) continue;
      if (can_be_had({kind, row}))
        rows.push_back(row);
      else if (must.empty() || needed)
        ++slot.without_offer;
    }
    if (!look_ || !must.empty()) return rows;
    // Two drives may be taken; the best K differ in processor or chip, and a card that states no
    // chip counts as one of its own.
    const bool heads = kind == Kind::cpu || kind == Kind::gpu;
    const int others = kind == Kind::storage ? 2 : heads ? keep_ : 1;
    int pieces = kind == Kind::storage ? 2 : kind == Kind::fan ? most_fans : 1;
    std::vector<Row> spared;
    for (const Chosen& part : own(kind)) {
      spared.push_back(part.row);
      pieces = std::max(pieces, part.count);  // they may be exchanged in the same number
    }
    std::vector<Row> left = not_outdone({.catalog = catalog_,
                                         .prices = prices_,
                                         .look = look_,
                                         .others = others,
                                         .most_pieces = pieces,
                                         .spared = spared},
                                        kind, rows);
    slot.outdone = rows.size() - left.size();
    return left;
  }

  // An option, if its parts can be bought in that number and those that must be are among them. Of
  // a kept part there is one piece.
  bool add(KindSlot& slot, std::vector<Chosen> parts, const std::vector<Row>& must) const {
    if (parts.size() > Build::most_of_a_kind) return false;
    for (const Row row : must)
      if (std::ranges::find(parts, row, &Chosen::row) == parts.end()) return false;
    std::ranges::sort(parts, {}, &Chosen::row);  // one order, whichever of them is forced
    SlotOption option{.parts = std::move(parts),
                      .prices = std::vector<std::int64_t>(market_count(), 0)};
    for (const Chosen& part : option.parts) {
      const PartRef ref{slot.kind, part.row};
      if (banned(ref) || (part.count > 1 && prices_.kept(ref))) return false;
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
  void add_pairs(KindSlot& slot, const std::vector<Row>& rows, const std::vector<Row>& must) const {
    const auto of_must = [&](Row row) { return must.empty() || contains(must, row); };
    for (auto a = rows.begin(); a != rows.end(); ++a) {
      if (of_must(*a)) add(slot, {{*a, 2}}, must);
      for (auto b = a + 1; b != rows.end(); ++b)
        if (of_must(*a) || of_must(*b)) add(slot, {{*a, 1}, {*b, 1}}, must);
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

  // Two small parts, each for another purpose, or none to two beside those that must be there.
  void add_helpers(KindSlot& slot, const std::vector<Row>& rows,
                   const std::vector<Row>& must) const {
    std::vector<Row> useful;
    std::vector<Chosen> parts;
    parts.reserve(must.size() + 2);
    for (const Row row : must) parts.push_back({row, 1});
    for (const Row row : rows)
      if (std::ranges::none_of(must, [&](Row each) { return purpose(row) == purpose(each); }))
        useful.push_back(row);
    // One part alone is an option already.
    if (must.size() > 1) add(slot, parts, must);
    for (std::size_t i = 0; i < useful.size(); ++i) {
      parts.push_back({useful[i], 1});
      if (!must.empty()) add(slot, parts, must);
      for (std::size_t j = i + 1; j < useful.size(); ++j) {
        if (purpose(useful[i]) == purpose(useful[j])) continue;
        parts.push_back({useful[j], 1});
        add(slot, parts, must);
        parts.pop_back();
      }
      parts.pop_back();
    }
  }

  // The filling of the build to stay near, where no plan would think of it, and that with one part
  // left out or exchanged.
  void add_own_filling(KindSlot& slot, const std::vector<Row>& rows,
                       const std::vector<Row>& must) const {
    const Kind kind = slot.kind;
    std::vector<Chosen> filling(own(kind).begin(), own(kind).end());
    std::ranges::sort(filling, {}, &Chosen::row);
    if (filling.empty() ||
        std::ranges::find(slot.options, filling, &SlotOption::parts) != slot.options.end())
      return;
    using Words = std::vector<std::pair<Row, int>>;
    const auto words = [](const std::vector<Chosen>& parts) {
      Words out;
      for (const Chosen& part : parts) out.emplace_back(part.row, part.count);
      std::ranges::sort(out);
      return out;
    };
    std::set<Words> known{Words{}};  // an empty slot is an option already, where it may be
    for (const SlotOption& option : slot.options) known.insert(words(option.parts));
    const auto add_new = [&](const std::vector<Chosen>& parts) {
      if (known.insert(words(parts)).second) add(slot, parts, must);
    };
    add_new(filling);
    for (std::size_t i = 0; i < filling.size(); ++i) {
      auto changed = filling;
      for (const Row row : rows) {
        if (is_own(kind, row)) continue;
        if (kind == Kind::other && purpose(row) != purpose(filling[i].row)) continue;
        changed[i].row = row;
        add_new(changed);
      }
      changed.erase(changed.begin() + static_cast<std::ptrdiff_t>(i));
      add_new(changed);
    }
  }

  bool banned(PartRef part) const {
    return std::ranges::find(asked_.without, part) != asked_.without.end();
  }

  bool can_be_had(PartRef part) const {
    if (banned(part)) return false;
    for (int market = 0; market < prices_.markets(); ++market)
      if (!prices_.price(part, market, 1)) return false;
    return true;
  }

  const Catalog& catalog_;
  const Brief& brief_;
  const PriceBook& prices_;
  const PartsAsked& asked_;
  const Look& look_;
  int keep_;
};

}  // namespace

std::vector<KindSlot> slot_options(const Catalog& catalog, const Brief& brief,
                                   const PriceBook& prices, const PartsAsked& asked,
                                   const Look& look, int keep) {
  const SlotMaker maker(catalog, brief, prices, asked, look, keep);
  std::vector<KindSlot> slots;
  slots.reserve(slot_order.size());
  for (const Kind kind : slot_order) slots.push_back(maker.make(kind));
  return slots;
}

int swaps(std::span<const Chosen> from, std::span<const Chosen> to) {
  const auto fewer_in = [](std::span<const Chosen> here, std::span<const Chosen> there) {
    const auto count_in_there = [&](Row row) {
      const auto found = std::ranges::find(there, row, &Chosen::row);
      return found == there.end() ? 0 : found->count;
    };
    return static_cast<int>(std::ranges::count_if(
        here, [&](const Chosen& part) { return count_in_there(part.row) < part.count; }));
  };
  return std::max(fewer_in(from, to), fewer_in(to, from));
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
