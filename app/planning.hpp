// A planning session: one workshop, one brief, and everything learned about them while planning,
// asking for runner-ups and looking for conflicts.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/workshop.hpp"
#include "decision/plan/integer_program.hpp"
#include "decision/plan/outlook.hpp"
#include "decision/plan/planner.hpp"
#include "decision/plan/relax.hpp"
#include "decision/plan/requirements.hpp"
#include "decision/plan/staircase.hpp"

namespace rigproof::app {

/// How a long job is stopped and how it reports; both may be empty.
struct LongJob {
  std::function<bool()> stop;
  std::function<void(const plan::Progress&)> progress;
};

/// Parts that a question asks for, or asks to do without, beside what the brief says.
struct Wish {
  std::vector<PartRef> insisted = {};
  std::vector<PartRef> without = {};
};

/// What a wish demands, as requirements beside those of the brief: paths `insist.ID` and
/// `without.ID`, no line.
[[nodiscard]] std::vector<plan::Requirement> requirements(const Catalog& catalog, const Wish& wish);
/// What is left of it when these paths are dropped.
[[nodiscard]] Wish left_of(const Catalog& catalog, const Wish& wish,
                           const std::set<std::string>& dropped);

class Planning {
 public:
  /// Errors: bad_input from prices (currency, missing sales tax). Workshop and brief must outlive
  /// it.
  [[nodiscard]] static Result<std::unique_ptr<Planning>> start(const Workshop& workshop,
                                                               const Brief& brief);
  Planning(const Planning&) = delete;
  Planning& operator=(const Planning&) = delete;
  ~Planning();

  [[nodiscard]] const Catalog& catalog() const;
  [[nodiscard]] const Brief& brief() const;
  [[nodiscard]] const PriceBook& prices() const;
  [[nodiscard]] const plan::FrameModel& frames() const;

  [[nodiscard]] plan::PlanOutcome plan(const plan::PlanOptions& options);
  /// What `plan` proves, as an integer program for solvers from outside (decision/plan/MPS.md),
  /// with the parts that others outdo. Errors: out_of_range (too large to write), stopped.
  [[nodiscard]] Result<plan::MpsModel> integer_program(
      const std::function<bool()>& stop,
      const std::function<void(std::size_t done, std::size_t all)>& values = {});
  /// How many builds the brief leaves possible, and without each of its requirements.
  [[nodiscard]] Result<plan::Outlook> outlook(const plan::OutlookOptions& options);
  /// The score of any build that can be bought; nullopt when a part of it cannot. Slots may be
  /// missing.
  [[nodiscard]] std::optional<plan::PlannedChoice> scored(const Build& build) const;
  /// Plans under another brief of the same workshop, sharing what was learned.
  [[nodiscard]] Result<plan::PlanOutcome> plan_under(const Brief& other,
                                                     const plan::PlanOptions& options);
  /// The best build for every cap on the first price (plan::staircase).
  [[nodiscard]] plan::Staircase staircase(const plan::PlanOptions& options,
                                          const plan::AskedCaps& asked);
  /// Irreducible sets of requirements (plan::conflicts), those of the wish after those of the
  /// brief. The sets share no demand of the brief; what of the wish they speak of they may share.
  /// Kept parts are not let go where nothing would take their place.
  [[nodiscard]] std::vector<plan::ConflictSet> conflicts(const LongJob& job, const Wish& wish = {});
  /// The rules without which, one at a time, this conflict would be none: what its requirements
  /// meet in. None when it takes several, or when stopped.
  struct MetIn {
    std::vector<std::string> rules;
    int not_settled = 0;  ///< rules of which it takes too long to say, and nothing hangs on it
  };
  [[nodiscard]] MetIn met_in(const plan::ConflictSet& conflict, const LongJob& job,
                             const Wish& wish = {});
  /// How far one requirement of a conflict has to be eased so that a build exists, under a brief in
  /// which nothing else forbids it: `beside` is the session's brief, perhaps without other demands,
  /// and `wish` what is left of the wish. `scale` is that of the requirement.
  [[nodiscard]] plan::Relaxation relaxation(const Brief& beside, const std::string& path,
                                            const std::optional<plan::Scale>& scale,
                                            const LongJob& job, const Wish& wish = {});
  /// The scale of a requirement: plan::scale_of.
  [[nodiscard]] std::optional<plan::Scale> scale_of(const Brief& brief, const std::string& path);

  /// The least price in a market of any build that satisfies all but that market's budget.
  struct LeastPrice {
    bool known = false;  ///< false: stopped
    std::optional<std::int64_t> minor;
  };
  [[nodiscard]] LeastPrice least_price(const Brief& brief, const std::string& market,
                                       const LongJob& job, const Wish& wish = {});

 private:
  /// Is there a build under this brief, without one rule perhaps? nullopt: stopped.
  [[nodiscard]] std::optional<bool> satisfiable(const Brief& relaxed, const Wish& wish,
                                                std::string_view without_rule, const LongJob& job);
  struct Parts;
  explicit Planning(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace rigproof::app
