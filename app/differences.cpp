#include "app/differences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "analysis/match/match_rules.hpp"
#include "app/describe.hpp"
#include "catalog/why_no_price.hpp"

namespace rigproof::app {
namespace {

constexpr double least_rate_change_frac = 0.005;  // smaller changes of a frame rate are not told

// Pieces of `here` beyond those of `there`.
std::vector<Chosen> beyond(std::span<const Chosen> here, std::span<const Chosen> there) {
  std::vector<Chosen> out;
  for (const Chosen& part : here) {
    const auto same = std::ranges::find(there, part.row, &Chosen::row);
    const int left = part.count - (same == there.end() ? 0 : same->count);
    if (left > 0) out.push_back({part.row, left});
  }
  return out;
}

using ClaimKey = std::tuple<std::string_view, std::string_view, std::string_view>;
ClaimKey key_of(const Claim& claim) { return {claim.id, claim.where, claim.load}; }

bool says_the_same(const Claim& a, const Claim& b) {
  const auto margin = [](const Claim& claim) { return claim.margin ? claim.margin->value : 0.0; };
  return a.verdict == b.verdict && margin(a) == margin(b) && a.odds == b.odds;
}

}  // namespace

std::string names_in(const Catalog& catalog, const Build& build, Kind kind) {
  std::string names;
  for (const Chosen& part : build.of(kind)) {
    if (!names.empty()) names += " + ";
    if (part.count > 1) names += fmt::format("{} x ", part.count);
    names += catalog.name({kind, part.row});
  }
  return names.empty() ? fmt::format("no {}", name_of(kind)) : names;
}

sheet::MovedPart moved_part(const Catalog& catalog, const Brief& brief, const PriceBook& prices,
                            PartRef part, int count) {
  sheet::MovedPart out{.id = std::string(catalog.id(part)),
                       .name = std::string(catalog.name(part)),
                       .count = count,
                       .price = {},
                       .note = {}};
  if (const auto price = prices.price(part, 0, count))
    out.price = in_first_currency(brief, price->minor * count);
  if (prices.kept(part)) out.note = "kept";
  for (int market = 0; market < prices.markets(); ++market)
    if (!prices.price(part, market, count)) {
      const MarketGoal& goal = brief.markets[static_cast<std::size_t>(market)];
      out.note = fmt::format(
          "{}: {}", goal.market,
          no_price_words(brief, goal, why_no_price(catalog, brief, part, market, count)));
      break;
    }
  return out;
}

std::vector<sheet::SlotChange> slot_changes(const Planning& planning, const Build& from,
                                            const Build& to) {
  std::vector<sheet::SlotChange> out;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    sheet::SlotChange change{.kind = std::string(name_of(kind)),
                             .out = {},
                             .in = {},
                             .swaps = plan::swaps(from.of(kind), to.of(kind))};
    if (change.swaps == 0) continue;
    const auto moved = [&](const Chosen& part) {
      return moved_part(planning.catalog(), planning.brief(), planning.prices(), {kind, part.row},
                        part.count);
    };
    for (const Chosen& part : beyond(from.of(kind), to.of(kind))) change.out.push_back(moved(part));
    for (const Chosen& part : beyond(to.of(kind), from.of(kind))) change.in.push_back(moved(part));
    out.push_back(std::move(change));
  }
  return out;
}

std::vector<sheet::TitleChange> title_changes(const std::vector<sheet::TitleLine>& from,
                                              const std::vector<sheet::TitleLine>& to) {
  std::vector<sheet::TitleChange> out;
  for (std::size_t t = 0; t < from.size() && t < to.size(); ++t) {
    const auto& then = from[t].rendered_fps;
    const auto& now = to[t].rendered_fps;
    if (!then && !now) continue;
    if (then && now && std::fabs(now->value - then->value) < least_rate_change_frac * then->value)
      continue;
    out.push_back({.id = to[t].id,
                   .name = to[t].name,
                   .target_fps = to[t].target_fps,
                   .from_fps = then,
                   .to_fps = now});
  }
  return out;
}

std::vector<sheet::ClaimChange> claim_changes(const std::vector<Claim>& from,
                                              const std::vector<Claim>& to) {
  std::multimap<ClaimKey, const Claim*> left;
  for (const Claim& claim : from)
    if (claim.grade == Grade::must) left.emplace(key_of(claim), &claim);
  std::vector<sheet::ClaimChange> out;
  for (const Claim& claim : to) {
    if (claim.grade != Grade::must) continue;
    const auto before = left.find(key_of(claim));
    if (before == left.end()) {
      out.push_back({.from = {}, .to = claim});
      continue;
    }
    if (!says_the_same(*before->second, claim))
      out.push_back({.from = *before->second, .to = claim});
    left.erase(before);
  }
  for (const Claim& claim : from) {
    const auto found = left.find(key_of(claim));
    if (found == left.end() || found->second != &claim) continue;
    out.push_back({.from = claim, .to = {}});
    left.erase(found);
  }
  return out;
}

sheet::Differences differences(const Planning& planning, const Viewed& from, const Viewed& to) {
  sheet::Differences out;
  if (from.scored && to.scored) {
    out.score_change =
        in_first_currency(planning.brief(), to.view.score.minor - from.view.score.minor);
    out.markets = to.view.markets;
    for (std::size_t m = 0; m < to.view.prices.size(); ++m)
      out.price_changes.push_back(
          {to.view.prices[m].currency, to.view.prices[m].minor - from.view.prices[m].minor});
  }
  out.slots = slot_changes(planning, from.build, to.build);
  for (const sheet::SlotChange& change : out.slots) out.swaps += change.swaps;
  out.titles = title_changes(from.view.titles, to.view.titles);
  out.claims = claim_changes(from.view.claims, to.view.claims);
  return out;
}

}  // namespace rigproof::app
