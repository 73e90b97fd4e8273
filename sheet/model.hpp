// The view model of everything published about a build. Filled by app/, written by the writers of
// this folder (HTML, Markdown, CSV, JSON); a writer adds no number and no judgement of its own.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/fit/scene.hpp"
#include "base/date.hpp"
#include "base/money.hpp"
#include "claims/claim.hpp"
#include "sheet/physics.hpp"

namespace rigproof::sheet {

/// The best build that does without a chosen part, beside the chosen build. Of a build that was
/// given, not planned: the best one that leaves the other parts as they are.
struct RunnerUp {
  std::string
      name;  ///< the part that takes the place; empty: nothing satisfies the brief without it
  std::string id;
  Money score_change;  ///< runner-up's score minus the build's; <= 0 when the build is proven best
  Money price_change;  ///< in the first market
  std::vector<std::string> gains;  ///< sentences: what would be better with it
  std::vector<std::string> loses;  ///< sentences: what would be worse
  bool others_fixed = false;       ///< with every other part as it is: of a build that was given
};

enum class Origin { chosen, kept, forced };

struct PartLine {
  std::string place;  ///< where it is mounted: "processor socket", "front face"... (order of the
                      ///< vector = order on the sheet)
  std::string kind;
  std::string id, name, maker, maker_code;
  int count = 1;
  Origin origin = Origin::chosen;
  std::string why;  ///< a sentence: what it is there for; for forced parts the maker's own words
  std::optional<Money> because_cost;  ///< forced parts: score lost against the plan without them
  std::optional<RunnerUp> runner_up;
};

struct PriceLine {
  std::string part_id, part_name;
  int count = 1;
  Money each;  ///< tax included
  Money line;
  std::string seller;  ///< empty: kept
  std::optional<Date> seen;
  int age_days = 0;                         ///< before as_of
  std::string tax_note;                     ///< "tax included", "7.25 % sales tax added"
  bool commission = false;                  ///< the link earns the publisher money
  std::optional<Date> good_until = {};      ///< last day on which the brief would still count it
  bool alone = false;                       ///< no other seller's offer vouches for the price
  std::string condition = {};               ///< "new"; empty: nothing was bought
  std::optional<int> stock = {};            ///< absent: not stated
  std::optional<int> warranty_months = {};  ///< 0: stated that there is none; absent: not stated
};

struct MarketPrices {
  std::string market;
  std::vector<PriceLine> lines;
  Money total, budget, left;
  Money shipping_upper;  ///< at most this much more for delivery
  std::string note;
};

struct TitleLine {
  std::string id, name;
  std::string resolution;  ///< "3840x2160"
  double render_scale = 1.0;
  int generated_per_rendered = 0;
  double target_fps = 0.0;
  std::optional<double> floor_fps;
  double weight = 1.0;
  std::optional<Quantity> frame_time_ms;  ///< mean, rendered; absent: unknown (then why_unknown)
  std::optional<Quantity> p99_frame_time_ms;
  std::optional<Quantity> rendered_fps, displayed_fps, p99_frame_time_fps;
  std::string why_unknown;
};

struct Caution {
  std::string subject;  ///< "Mains", "Static"...
  std::string text;
  std::string source;
};

/// What a reader should know of the publisher's interests and of the data.
struct Disclosure {
  std::string subject;  ///< "Links that earn money"
  std::string text;
};

struct PrunedLine {
  std::string why;
  long long count = 0;
};

struct Proof {
  std::string status;  ///< proven, not proven, impossible
  Money bound;
  long long nodes = 0;
  long long leaves = 0;
  std::vector<PrunedLine> pruned;
  std::string note;                            ///< what the proof speaks of: catalog, brief, model
  std::optional<double> stopped_after_s = {};  ///< a time limit ended the search
  std::optional<Money> at_most_more = {};      ///< not proven: bound minus the best score found
};

/// One build of a plan.
struct PlannedBuild {
  Money score;
  std::vector<Money> prices;  ///< in the brief's market order
  std::vector<std::string> markets;
  std::vector<PartLine> parts;
  std::vector<TitleLine> titles;
  std::optional<double> odds_best;      ///< among the builds compared
  std::optional<double> odds_all_hold;  ///< all judged must claims at once
  std::vector<Claim> claims;
  std::optional<double> odds_first_beats = {};  ///< the plan's first build scores higher
  bool rival = false;  ///< beyond the number asked for: best in more than 5 % of the draws
};

/// How far a requirement of a conflict has to be eased so that it opens, the rest of the brief but
/// the other conflicts as it is.
struct Relaxation {
  std::string how;                           ///< value, drop, not enough, stopped
  std::string says;                          ///< "38.00 EUR more: 638.00 EUR"
  std::optional<Money> money_to, money_by;   ///< with `value`, of a budget
  std::optional<double> value_to, value_by;  ///< with `value`, of anything else
  std::string unit;                          ///< of these
  std::optional<double> step;                ///< looked for in whole steps of this size
};

/// One requirement of a conflict.
struct ConflictLine {
  std::string path;  ///< "markets.IE.budget"
  int line = 0;      ///< in the brief
  std::string says;  ///< "at most 600.00 EUR in IE"
  std::optional<Relaxation> relaxation = {};
};
struct Conflict {
  std::vector<ConflictLine> requirements;  ///< irreducible: without any one of them a build exists
  std::vector<std::string> through;        ///< rules in the background that take part
};

/// The integer program of a plan, written beside it for solvers from outside.
struct IntegerProgram {
  std::string file;
  long long columns = 0;
  long long rows = 0;
  std::vector<PrunedLine> left_out;  ///< conditions that are not in it, by rule: how many checks
};

struct Plan {
  std::string brief_name, brief_file;
  Date as_of;
  Proof proof;
  std::vector<PlannedBuild> builds;  ///< best first
  std::vector<Conflict> conflicts;
  std::vector<std::string> notes;  ///< what was not judged and why, worths that count nothing...
  int compared = 0;                ///< builds among which odds_best is counted
  std::optional<IntegerProgram> integer_program = {};
};

struct Sheet {
  std::string title;
  std::string job = {};   ///< what the build is for and for how much, in one plain sentence
  std::string lead;       ///< one or two sentences
  std::string file_stem;  ///< "quiet-living-room"
  Date as_of;
  std::string drawn_by;        ///< empty: left out
  std::string catalog_note;    ///< e.g. that the demo is invented
  std::size_t part_count = 0;  ///< parts in the catalog the plan chose from
  PlannedBuild build;
  Proof proof;
  std::vector<MarketPrices> markets;
  std::vector<Caution> cautions;
  std::vector<std::string> notes;
  std::vector<Disclosure> disclosures = {};
  std::optional<fit::Scene> scene = {};  ///< absent: the build has no case to draw it in
  std::optional<Physics> physics = {};   ///< absent: nothing is known of air and power
};

}  // namespace rigproof::sheet
