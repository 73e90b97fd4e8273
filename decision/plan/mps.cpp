#include "decision/plan/mps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "decision/plan/mps_parts.hpp"

namespace rigproof::plan {
namespace {

// (M1), the part of one option. Resource 0 is the price of the score.
double worth_of(const Problem& problem, std::size_t slot, const Option& option) {
  const double value = slot < static_cast<std::size_t>(problem.head) ? 0.0 : option.value;
  return value - problem.money_weight * static_cast<double>(option.costs.front());
}

// (M2)
void add_options(const Problem& problem, const MpsOptions& options, MpsModel& model) {
  for (std::size_t s = 0; s < problem.slots.size(); ++s) {
    const Slot& slot = problem.slots[s];
    model.first_column.push_back(static_cast<int>(model.linear.columns.size()));
    const int row =
        model.linear.add_row(fmt::format("one_{}", slot.name), LinearModel::Sense::equal, 1.0);
    for (std::size_t o = 0; o < slot.options.size(); ++o) {
      const std::string name = options.option_name
                                   ? options.option_name(static_cast<int>(s), static_cast<int>(o))
                                   : std::to_string(o);
      const int column =
          model.linear.add_column({.name = fmt::format("x_{}_{}", slot.name, name),
                                   .kind = LinearModel::Kind::binary,
                                   .objective = -worth_of(problem, s, slot.options[o])});
      model.linear.enter(row, column, 1.0);
    }
  }
}

// (M3)
void add_caps(const Problem& problem, const MpsOptions& options, MpsModel& model) {
  for (std::size_t r = 0; r < problem.caps.size(); ++r) {
    const std::string name =
        r < options.cap_names.size() ? options.cap_names[r] : std::to_string(r);
    const int row = model.linear.add_row("cap_" + name, LinearModel::Sense::at_most,
                                         static_cast<double>(problem.caps[r]));
    for (std::size_t s = 0; s < problem.slots.size(); ++s)
      for (std::size_t o = 0; o < problem.slots[s].options.size(); ++o) {
        const auto cost = static_cast<double>(problem.slots[s].options[o].costs[r]);
        if (cost != 0.0) model.linear.enter(row, model.first_column[s] + static_cast<int>(o), cost);
      }
  }
}

void add_checks(const Problem& problem, const MpsOptions& options, MpsModel& model) {
  std::map<std::string, std::int64_t> left_out;
  int number = 0;
  for (const Check& check : problem.checks) {
    if (options.stop && options.stop()) return;  // mps_model() asks again
    if (check.scope.size() == 2) continue;       // among the pairs
    if (!add_check_rows(problem, check, options.most_check_cases, fmt::format("check_{}", number++),
                        model))
      ++left_out[check.why];
  }
  for (const auto& [why, count] : left_out) model.left_out.push_back({why, count});
}

std::string comment_of(const MpsOptions& options, const MpsModel& model) {
  std::string out = options.comment;
  if (!out.empty() && out.back() != '\n') out += '\n';
  out +=
      "The objective is minus the score, to be minimised: MPS knows no other. The score is minus\n"
      "the optimum, rounded to whole units. The constant stands as the column `constant`, fixed\n"
      "to 1. x: an option, binary; y, v: the value of the head, fixed by the options.\n";
  if (model.left_out.empty()) {
    out += "Complete: every condition is in it.\n";
    return out;
  }
  out +=
      "A relaxation: these conditions over several slots are NOT in it (number of checks, name).\n"
      "What it allows has to be asked of them as well; no score is above its optimum.\n";
  for (const Pruned& check : model.left_out)
    out += fmt::format("left out: {} {}\n", check.count, check.why);
  return out;
}

}  // namespace

Result<MpsModel> mps_model(const Problem& problem, const MpsOptions& options) {
  MpsModel model;
  model.linear.name = NameBook().take(options.name);
  add_options(problem, options, model);
  add_caps(problem, options, model);
  const auto pairs = forbidden_pairs(problem, options.stop);
  for (const ForbiddenPairs& two : pairs)
    add_pair_rows(two,
                  fmt::format("no_{}_{}", problem.slots[static_cast<std::size_t>(two.first)].name,
                              problem.slots[static_cast<std::size_t>(two.second)].name),
                  model.first_column[static_cast<std::size_t>(two.first)],
                  model.first_column[static_cast<std::size_t>(two.second)], model.linear);
  add_checks(problem, options, model);
  if (options.stop && options.stop()) return fail(ErrorCode::stopped, "stopped");
  const auto head = add_head(problem, options, pairs, model);
  if (!head) return tl::unexpected(head.error());
  const double constant = *head + problem.money_weight * static_cast<double>(problem.budget);
  model.linear.add_column(
      {.name = "constant", .kind = LinearModel::Kind::one, .objective = -constant});
  model.comment = comment_of(options, model);
  return model;
}

std::string mps_text(const MpsModel& model) { return mps_text(model.linear, model.comment); }

}  // namespace rigproof::plan
