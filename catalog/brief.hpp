// The brief: what builds are for. Read from TOML that a person writes (DESIGN section 5).
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/money.hpp"
#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"

namespace rigproof {

/// Largest budget of a market, in minor units: a score of several times as much must stay exact.
inline constexpr std::int64_t most_budget_minor = 100'000'000'000'000;  // 1e14

struct MarketGoal {
  std::string market;                    ///< ISO 3166-1 alpha-2
  Money budget;                          ///< what a private buyer pays
  std::optional<DecimalRate> sales_tax;  ///< needed where offers exclude tax
  std::optional<double> mains_v = {};
  std::optional<double> circuit_a = {};
  std::optional<double> kwh_price = {};  ///< in the budget's currency, tax included
  std::optional<double> kwh_price_night = {};
};

/// Hours of a day under each load, in the order idle, title, all-core, everything; off otherwise.
struct DailyUse {
  std::array<double, 4> hours_per_day{};
  double night_frac = 0.0;  ///< share of the energy that is used at night
};

/// A load of the brief's own.
struct OwnLoad {
  std::string name;
  double cpu_frac = 0.0;  ///< from idle to sustained power
  double gpu_frac = 0.0;
  double hours_per_day = 0.0;
};
inline constexpr std::size_t most_own_loads = 8;

struct TitleGoal {
  std::string title;  ///< id in titles.csv
  double weight = 1.0;
  int width_px = 0;
  int height_px = 0;
  double target_fps = 0.0;                   ///< rendered frames
  std::optional<double> floor_fps;           ///< hard: mean rendered rate
  std::optional<double> p99_frame_time_fps;  ///< hard: 1000 / the 99 % quantile of frame time
  double render_scale = 1.0;                 ///< per axis, (0, 2]
  int generated_per_rendered = 0;            ///< 0 to 3
};

struct PhysicalLimit {
  double at_most = 0.0;
  std::string load;  ///< idle, title, all-core, everything, or the name of one of Brief::loads
  std::optional<double> distance_m;
};

struct ForcedPart {
  Kind kind;
  std::string id;
  std::string why;  ///< `because` only
};

enum class WorstVerdict { thin, holds };  ///< the weakest verdict that may enter a plan
enum class Unknowns { refuse, accept };

struct Accept {
  WorstVerdict verdict = WorstVerdict::thin;
  Unknowns unknown = Unknowns::refuse;
};

struct DisplayGoal {
  int width_px = 0;
  int height_px = 0;
  double refresh_hz = 0.0;
};

struct Brief {
  std::string file;  ///< as given, for messages
  std::string name;
  Date as_of;
  std::optional<int> offers_not_older_than_days;
  std::optional<int> lone_offers_not_older_than_days;  ///< where one seller alone gives a price
  std::vector<std::string> conditions = {"new"};       ///< offers' conditions that may be bought
  std::vector<MarketGoal> markets;  ///< at least one; the first one is the score's
  std::vector<TitleGoal> titles;
  std::map<std::string, PhysicalLimit>
      limits;  ///< noise_dba, cpu_c, gpu_c, ... (each needs an engine)
  std::optional<double> volume_l_at_most;
  std::optional<double> supply_reserve_frac;
  std::optional<double> running_cost_per_year;  ///< in the money of running_cost_market
  std::string running_cost_market;              ///< the first, however they are turned later
  DailyUse use;
  std::vector<OwnLoad> loads;
  double room_c = 24.0;
  bool room_stated = false;
  std::optional<double> room_noise_dba;  ///< where the build is heard
  std::optional<double> memory_gib;      ///< musts.memory_gb (the trade's GB is GiB here)
  std::optional<double> storage_gb;
  bool wifi = false;
  bool front_usb_c = false;
  std::map<std::string, Money> worths;  ///< quiet, lasting; in the first market's currency
  double saved_frac = 0.0;              ///< [0, 1]
  std::vector<ForcedPart> keep;         ///< already there, cost nothing
  std::vector<ForcedPart> because;      ///< forced but paid for
  Accept accept;
  std::map<std::string, Accept> accept_by_rule;  ///< overrides per rule id
  bool accept_adapters = false;                  ///< power adapters between supply and part
  bool accept_shared_lanes = false;              ///< a drive may take lanes from the card's slot
  std::optional<DisplayGoal> display;
  /// Every key that was set: dotted path -> line, e.g. "markets.IE.budget",
  /// "titles.harbour-lights.floor_fps".
  std::map<std::string, int> lines;
};

/// In: TOML bytes. Keys, bounds and meanings: docs/brief.md. Errors: complaints with place, what
/// was expected and, for an unknown key, title or part, the nearest valid one. Unknown rule ids in
/// accept are checked by the rulebook's owner, not here. A rule takes from [accept] what it does
/// not say. `catalog` is used to resolve titles and kept / forced parts (kind and id must exist).
[[nodiscard]] tl::expected<Brief, Complaints> read_brief(std::string_view toml,
                                                         const std::string& file,
                                                         const Catalog& catalog);

}  // namespace rigproof
