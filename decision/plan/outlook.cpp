#include "decision/plan/outlook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "decision/plan/outlook_family.hpp"
#include "decision/plan/outlook_pilot.hpp"

namespace rigproof::plan {
namespace {

using internal::alike_in_pairs;
using internal::count_family;
using internal::most_briefs;
using internal::Pilot;

// Pairs of drives grow with the square of their number, and each is looked at.
constexpr std::uint64_t most_fillings = 200'000;
// A requirement that refuses fewer of a brief's probes has none of its own.
constexpr double little = 0.02;

// Digits of a product, by long multiplication.
class LargeProduct {
 public:
  void times(std::uint64_t factor) {
    std::uint64_t carry = 0;
    for (std::uint32_t& limb : limbs_) {
      const std::uint64_t value = limb * factor + carry;
      limb = static_cast<std::uint32_t>(value % base);
      carry = value / base;
    }
    for (; carry > 0; carry /= base) limbs_.push_back(static_cast<std::uint32_t>(carry % base));
    while (limbs_.size() > 1 && limbs_.back() == 0) limbs_.pop_back();
  }
  std::string digits() const {
    std::string out = fmt::format("{}", limbs_.back());
    for (std::size_t i = limbs_.size() - 1; i-- > 0;) out += fmt::format("{:09}", limbs_[i]);
    return out;
  }

 private:
  static constexpr std::uint64_t base = 1'000'000'000;  // a factor is below 2^32: no sum overflows
  std::vector<std::uint32_t> limbs_{1};                 // the lowest first
};

// Whoever keeps a part may use it when they need not: it is there, and costs nothing.
Brief buying_of(const Brief& brief, const Brief& eased) {
  Brief out = eased;
  out.keep = brief.keep;
  return out;
}

// Do the fillings or prices of slots hang on this requirement?
bool changes_stock(const std::string& path) {
  return path.starts_with("keep.") || path.starts_with("because.") || path == "accept.adapters" ||
         path == "offers_not_older_than_days" || path == "lone_offers_not_older_than_days";
}

Result<void> few_enough(const Catalog& catalog) {
  const std::uint64_t drives = catalog.rows(table_of(Kind::storage));
  if (drives * (drives + 3) / 2 > most_fillings)
    return tl::unexpected(Error{
        ErrorCode::out_of_range,
        fmt::format("storage.csv has {} rows: more pairs of drives than an outlook looks at ({}).",
                    drives, most_fillings)});
  return {};
}

struct Eased {
  Brief brief;
  bool own_stock = false;
};

class Counting {
 public:
  Counting(const PlanInput& input, const OutlookOptions& options) : in_(input), options_(options) {}

  void run(Outlook& out) {
    for (const Requirement& requirement : requirements(in_.brief, &in_.catalog)) {
      out.without.push_back({.requirement = requirement, .count = {}});
      eased_.push_back({.brief = plan::without(in_.brief, {requirement.path}),
                        .own_stock = changes_stock(requirement.path)});
    }
    Stock stock(slot_options(in_.catalog, in_.brief, in_.prices), in_.prices, in_.verdicts);
    const Pilot pilot(
        stock, in_.verdicts, in_.brief,
        {.probes = options_.pilot_probes, .seed = ~options_.seed, .stop = options_.stop});
    if (pilot.leaf_share() < internal::seldom) more_ = 5;
    std::vector<std::size_t> sharing;
    std::vector<std::size_t> apart;
    for (std::size_t i = 0; i < eased_.size(); ++i)
      (shares_tree(stock, pilot, i) && sharing.size() + 1 < most_briefs ? sharing : apart)
          .push_back(i);
    count_together(stock, pilot, sharing, out);
    for (const std::size_t i : apart) {
      if (stop_asked()) break;
      count_apart(stock, pilot, i, out);
    }
    out.stopped = stop_asked();
    for (WithoutOne& one : out.without) raise(out.possible, one.count);
  }

 private:
  bool stop_asked() const { return options_.stop && options_.stop(); }

  bool changes(std::size_t rule, std::size_t i) const {
    return !in_.verdicts.reads_alike(rule, in_.brief, eased_[i].brief);
  }

  // Where what it changes refuses next to nothing, its builds are nearly those of the brief.
  bool shares_tree(const Stock& stock, const Pilot& pilot, std::size_t i) const {
    if (eased_[i].own_stock) return false;
    for (std::size_t m = 0; m < in_.brief.markets.size(); ++m)
      if (eased_[i].brief.markets[m].budget.minor != in_.brief.markets[m].budget.minor)
        return false;
    if (!alike_in_pairs(stock, in_.verdicts, in_.brief, eased_[i].brief)) return false;
    double refused = 0.0;
    for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r)
      if (const double by = pilot.refused_by(r); by > 0.0 && changes(r, i)) refused += by;
    return refused < little;
  }

  void count_together(Stock& stock, const Pilot& pilot, const std::vector<std::size_t>& sharing,
                      Outlook& out) {
    std::vector<const Brief*> briefs = {&in_.brief};
    for (const std::size_t i : sharing) briefs.push_back(&eased_[i].brief);
    const auto favors = pilot.favors(stock, [](std::size_t) { return false; });
    const auto counts = count_family(stock, in_.verdicts, briefs, favors,
                                     {.exact_nodes = options_.exact_nodes,
                                      .probes = options_.probes * more_,
                                      .costly_leaves = options_.costly_leaves,
                                      .seed = options_.seed,
                                      .stop = options_.stop},
                                     &pilot.judge());
    out.possible = counts.front();
    // Without a requirement there is more to walk, never less.
    if (out.possible.how != BuildCount::How::counted) exact_nodes_ = 0;
    for (std::size_t k = 0; k < sharing.size(); ++k) out.without[sharing[k]].count = counts[k + 1];
  }

  void count_apart(Stock& shared, const Pilot& pilot, std::size_t i, Outlook& out) {
    const Brief& brief = eased_[i].brief;
    std::unique_ptr<Stock> own;
    if (eased_[i].own_stock) {
      auto prices = PriceBook::make(in_.catalog, buying_of(in_.brief, brief), Faulty::skip);
      if (!prices) return;
      auto slots = together(slot_options(in_.catalog, brief, *prices),
                            slot_options(in_.catalog, in_.brief, *prices));
      own = std::make_unique<Stock>(std::move(slots), std::move(*prices), in_.verdicts);
    }
    Stock& stock = own ? *own : shared;
    // What the requirement makes the rules refuse may come back without it, or may not.
    auto favors = pilot.favors(stock, [](std::size_t) { return false; });
    const auto hopeful = pilot.favors(stock, [&](std::size_t rule) { return changes(rule, i); });
    for (std::size_t s = 0; s < favors.size(); ++s)
      for (std::size_t o = 0; o < favors[s].size(); ++o)
        favors[s][o] = (favors[s][o] + hopeful[s][o]) / 2.0;
    out.without[i].count = count_family(stock, in_.verdicts, {&brief}, favors,
                                        {.exact_nodes = exact_nodes_,
                                         .probes = options_.probes_each * more_,
                                         .costly_leaves = options_.costly_leaves_each,
                                         .seed = options_.seed,
                                         .stop = options_.stop},
                                        own ? nullptr : &pilot.judge())
                               .front();
  }

  // Asking less never forbids a build: what is counted without a requirement is at least what is
  // counted with it.
  static void raise(const BuildCount& with, BuildCount& without) {
    using enum BuildCount::How;
    if (with.how == not_known || with.how == none_found) return;
    if (without.how == not_known || without.how == counted || with.builds <= 0.0) return;
    without.builds = std::max(without.builds, with.builds);
    if (with.how == few_found) {
      if (without.how == none_found) without.how = few_found;
      return;
    }
    if (without.how != estimated) {
      without.how = at_least;
      return;
    }
    without.low = std::max(without.low, with.low);
    without.high = std::max(without.high, with.high);
  }

  const PlanInput& in_;
  const OutlookOptions& options_;
  std::vector<Eased> eased_;
  int exact_nodes_ = options_.exact_nodes;  // of the trees that come after the brief's own
  int more_ = 1;  // probes, where few of them come to an end, and are quick for it
};

}  // namespace

Result<std::string> formable_builds(const Catalog& catalog, const Brief& brief) {
  if (const auto few = few_enough(catalog); !few) return tl::unexpected(few.error());
  // Without a market everything can be had.
  Brief as_asked = brief;
  as_asked.markets.clear();
  Brief free = as_asked;
  free.keep.clear();
  free.because.clear();
  free.wifi = true;
  free.accept_adapters = true;
  const auto prices = PriceBook::make(catalog, free, Faulty::skip);
  if (!prices) return tl::unexpected(prices.error());
  const auto slots =
      together(slot_options(catalog, free, *prices), slot_options(catalog, as_asked, *prices));
  LargeProduct product;
  for (const KindSlot& slot : slots) product.times(slot.options.size());
  return product.digits();
}

Result<Outlook> outlook(const PlanInput& input, const OutlookOptions& options) {
  Outlook out;
  auto all = formable_builds(input.catalog, input.brief);
  if (!all) return tl::unexpected(all.error());
  out.all = std::move(*all);
  out.all_builds = std::stod(out.all);
  Counting(input, options).run(out);
  return out;
}

}  // namespace rigproof::plan
