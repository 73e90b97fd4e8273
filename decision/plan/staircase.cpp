#include "decision/plan/staircase.hpp"

#include "base/contract.hpp"
#include "decision/plan/compiler.hpp"

namespace rigproof::plan {
namespace {

// Tables, checks and sums do not depend on the cap: the problem is made once.
class Climb {
 public:
  Climb(const PlanInput& input, const PlanOptions& options, Staircase& out)
      : compiler_(input, options), problem_(compiler_.problem()), options_(options), out_(out) {
    if (!options.progress) return;
    progress_ = [this](Progress now) {
      now.nodes += out_.nodes;
      now.stairs = static_cast<std::int64_t>(out_.stairs.size());
      now.under_cap = problem_.caps.front();
      options_.progress(now);
    };
  }
  Climb(const Climb&) = delete;
  Climb& operator=(const Climb&) = delete;

  // The stairs of these caps, the dearest first, appended to `stairs`. False: stopped.
  bool down(std::int64_t from, std::int64_t to, std::vector<Staircase::Stair>& stairs) {
    for (std::int64_t cap = to; cap >= from;) {
      problem_.caps.front() = cap;
      const bool stopped = options_.stop && options_.stop();  // a small search never asks
      const Outcome outcome =
          stopped ? Outcome{.status = Outcome::Status::not_proven}
                  : search(problem_, {.keep = 1, .stop = options_.stop, .progress = progress_});
      out_.nodes += outcome.nodes;
      if (outcome.status == Outcome::Status::not_proven) {
        out_.unsettled.push_back({.from = from, .to = cap});
        return false;
      }
      ++out_.searches;
      if (outcome.best.empty()) break;
      stairs.push_back({.choice = compiler_.translate(outcome.best.front()), .covers_to = cap});
      cap = stairs.back().choice.prices.front() - 1;
    }
    return true;
  }

 private:
  const Compiler compiler_;
  Problem problem_;
  const PlanOptions& options_;
  Staircase& out_;
  std::function<void(const Progress&)> progress_;
};

}  // namespace

Staircase staircase(const PlanInput& input, const PlanOptions& options, const AskedCaps& asked) {
  RP_EXPECT(0 <= asked.from && asked.from <= asked.to);
  Staircase out;
  Climb climb(input, options, out);
  out.complete = true;
  std::int64_t from = asked.from;
  const auto settle_to = [&](std::int64_t to) {
    std::vector<Staircase::Stair> stairs;
    out.complete = climb.down(from, to, stairs) && out.complete;
    // The lowest may reach below: then it is the one that was found there, and covers more.
    if (!stairs.empty() && !out.stairs.empty() && from > asked.from &&
        stairs.back().choice.prices.front() < from) {
      out.stairs.back().covers_to = stairs.back().covers_to;
      stairs.pop_back();
    }
    out.stairs.insert(out.stairs.end(), stairs.rbegin(), stairs.rend());
    from = to + 1;
  };
  for (const std::int64_t end : asked.ends)
    if (from <= end && end < asked.to) settle_to(end);
  settle_to(asked.to);
  return out;
}

}  // namespace rigproof::plan
