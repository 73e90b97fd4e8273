#include "app/relaxations.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace rigproof::app {
namespace {

// Shown values are rounded in the direction that still opens the conflict.
std::string upwards(double value) { return shortest(std::ceil(value * 100.0 - 1e-6) / 100.0); }
std::string downwards(double value) { return shortest(std::floor(value * 100.0 + 1e-6) / 100.0); }

std::string storage_words(double gb) {
  return gb >= 1000.0 ? downwards(gb / 1000.0) + " TB" : downwards(gb) + " GB";
}

std::string days_words(double days) {
  return fmt::format("{} {}", shortest(days), days == 1.0 ? "day" : "days");
}

std::string_view unit_of(plan::EasedIn in) {
  switch (in) {
    case plan::EasedIn::liters:
      return "l";
    case plan::EasedIn::reserve_frac:
      return "frac";
    case plan::EasedIn::gib:
      return "GiB";
    case plan::EasedIn::gb:
      return "GB";
    case plan::EasedIn::fps:
      return "fps";
    case plan::EasedIn::days:
      return "d";
  }
  return {};
}

// `by` and `to` in the words of the trade.
std::string value_words(plan::EasedIn in, double by, double to) {
  switch (in) {
    case plan::EasedIn::liters:
      return fmt::format("{} l more: {} l", upwards(by), upwards(to));
    case plan::EasedIn::reserve_frac:
      return fmt::format("{} percentage points less: {} % (looked for in whole per cent)",
                         shortest(std::round(by * 1e4) / 100.0), shortest(std::round(to * 100.0)));
    case plan::EasedIn::gib:
      return fmt::format("{} GiB less: {} GiB", upwards(by), downwards(to));
    case plan::EasedIn::gb:
      return fmt::format("{} less: {}", storage_words(by), storage_words(to));
    case plan::EasedIn::fps:
      return fmt::format("{} fps less: {} fps (looked for in whole fps)",
                         shortest(std::round(by * 1e6) / 1e6), shortest(to));
    case plan::EasedIn::days:
      return fmt::format("{} older offers: {}", days_words(by), days_words(to));
  }
  return {};
}

std::string drop_words(const std::string& path, bool has_scale) {
  if (has_scale) return "nothing short of leaving it out";
  if (path.starts_with("keep.")) return "letting the kept part go";
  if (path.starts_with("because.")) return "letting another part be chosen";
  if (path.starts_with("insist.")) return "doing without it";
  if (path.starts_with("without.")) return "letting it be chosen";
  if (path == "accept.unknown") return "accepting what is unknown";
  if (path == "accept.verdict") return "accepting thin claims";
  if (path == "accept.adapters") return "accepting adapters";
  if (path == "accept.shared_lanes") return "accepting shared lanes";
  return "leaving it out";
}

void tell_value(const plan::Relaxation& relaxation, const Brief& beside, const std::string& path,
                const std::optional<plan::Scale>& scale, sheet::Relaxation& out) {
  if (const MarketGoal* market = plan::market_of_budget(beside, path); market != nullptr) {
    out.money_to = Money{market->budget.currency, std::llround(relaxation.to)};
    out.money_by = Money{market->budget.currency, out.money_to->minor - market->budget.minor};
    out.says = fmt::format("{} more: {}", to_string(*out.money_by), to_string(*out.money_to));
    return;
  }
  RP_EXPECT(scale.has_value());
  if (!scale) return;
  out.value_to = relaxation.to;
  const double by = std::abs(relaxation.to - scale->asked);
  out.value_by = by;
  out.unit = unit_of(scale->in);
  if (scale->step > 0.0) out.step = scale->step;
  out.says = value_words(scale->in, by, relaxation.to);
}

}  // namespace

sheet::Relaxation told(const plan::Relaxation& relaxation, const Brief& beside,
                       const std::string& path, const std::optional<plan::Scale>& scale) {
  sheet::Relaxation out;
  switch (relaxation.how) {
    case plan::Easing::value:
      out.how = "value";
      tell_value(relaxation, beside, path, scale, out);
      break;
    case plan::Easing::drop:
      out.how = "drop";
      out.says = drop_words(path, scale.has_value());
      break;
    case plan::Easing::not_enough:
      out.how = "not enough";
      out.says =
          "more than this: even without it, other demands of the brief stand against each other";
      break;
    case plan::Easing::stopped:
      out.how = "stopped";
      out.says = "an easing that was not found before the stop";
      break;
  }
  return out;
}

void add_relaxations(Planning& planning, const std::vector<plan::ConflictSet>& sets,
                     const LongJob& job, std::vector<sheet::Conflict>& out, const Wish& wish) {
  const auto hopeless = [](const plan::ConflictSet& set) {
    return !set.known || set.requirements.empty();
  };
  if (std::ranges::any_of(sets, hopeless)) return;
  RP_EXPECT(sets.size() == out.size());
  for (std::size_t s = 0; s < sets.size(); ++s) {
    std::set<std::string> elsewhere;
    for (std::size_t other = 0; other < sets.size(); ++other)
      if (other != s)
        for (const plan::Requirement& requirement : sets[other].requirements)
          elsewhere.insert(requirement.path);
    const Brief beside = plan::without(planning.brief(), elsewhere);
    for (std::size_t r = 0; r < sets[s].requirements.size(); ++r) {
      const std::string& path = sets[s].requirements[r].path;
      const auto scale = planning.scale_of(beside, path);
      out[s].requirements[r].relaxation =
          told(planning.relaxation(beside, path, scale, job, wish), beside, path, scale);
    }
  }
}

}  // namespace rigproof::app
