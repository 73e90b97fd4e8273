#include "decision/plan/compiler.hpp"

#include <algorithm>
#include <numeric>

#include "base/contract.hpp"

namespace rigproof::plan {
Compiler::Compiler(const PlanInput& input, const PlanOptions& options)
    : in_(input),
      without_rule_(options.without_rule),
      most_asked_beforehand_(options.most_asked_beforehand) {
  in_.verdicts.use(in_.brief, in_.prices);
  Look look;
  if (!options.with_outdone)
    look = [this](Kind kind, Row row) { return in_.verdicts.look(kind, row); };
  slots_ = slot_options(
      in_.catalog, in_.brief, in_.prices,
      {.without = options.without, .insisted = options.insisted, .stay_near = options.stay_near},
      look, options.keep);
  const bool near_display = options.stay_near != nullptr && options.stay_near->has(Kind::display);
  std::erase_if(slots_, [&](const KindSlot& slot) {
    return slot.kind == Kind::display && slot.options.size() == 1 && !near_display &&
           slot.options.front().parts.empty();
  });
  slot_of_.fill(-1);
  for (std::size_t s = 0; s < slots_.size(); ++s)
    slot_of_[static_cast<std::size_t>(slots_[s].kind)] = static_cast<int>(s);
  groups_.resize(in_.verdicts.rules().size());
  for (auto& of_rule : groups_) of_rule.resize(slots_.size());
  count_left_out();
  add_slots_and_caps(options);
  add_rules();
  add_sums();
  add_score(options.first_only);
  add_groups();
}

PlannedChoice Compiler::translate(const Solution& solution) const {
  PlannedChoice out{.build = {}, .score = solution.score, .prices = solution.costs};
  out.prices.resize(
      in_.brief.markets.size());  // behind the prices stand swaps and the sums of add_sums()
  for (std::size_t s = 0; s < slots_.size(); ++s) {
    const Kind kind = slots_[s].kind;
    auto parts = option(static_cast<int>(s), solution.choice[s]).parts;
    // Which small part is named first must not hang on the order of rows. (Of fans and drives the
    // order says who is seated first.)
    if (kind == Kind::other)
      std::ranges::sort(parts, {},
                        [&](const Chosen& part) { return in_.catalog.id({kind, part.row}); });
    for (const Chosen& part : parts) RP_EXPECT(out.build.add(kind, part.row, part.count));
  }
  return out;
}

Row Compiler::row_of(int slot, int index) const {
  const auto& parts = option(slot, index).parts;
  return parts.empty() ? no_row : parts.front().row;
}

// The slots a rule looks at; kinds that have no slot are absent from every build.
std::vector<int> Compiler::scope_of(const Rule& rule) const {
  std::vector<int> scope;
  for (const Kind kind : rule.kinds)
    if (const int slot = slot_of_[static_cast<std::size_t>(kind)]; slot >= 0) scope.push_back(slot);
  std::ranges::sort(scope);
  return scope;
}

std::uint32_t Compiler::group(std::size_t rule, int slot, int option) {
  auto& known = groups_[rule][static_cast<std::size_t>(slot)];
  if (known.empty()) known.assign(slots_[static_cast<std::size_t>(slot)].options.size(), ~0U);
  std::uint32_t& of_option = known[static_cast<std::size_t>(option)];
  if (of_option == ~0U)
    of_option = in_.verdicts.group(rule, kind_of(slot), this->option(slot, option));
  return of_option;
}

void Compiler::count_left_out() {
  for (const KindSlot& slot : slots_)
    if (slot.without_offer > 0)
      left_out_.push_back({"no offer: " + std::string(name_of(slot.kind)),
                           static_cast<std::int64_t>(slot.without_offer)});
  for (const KindSlot& slot : slots_)
    if (slot.outdone > 0)
      left_out_.push_back({"outdone by a part that looks the same to every rule: " +
                               std::string(name_of(slot.kind)),
                           static_cast<std::int64_t>(slot.outdone)});
}

void Compiler::add_slots_and_caps(const PlanOptions& options) {
  for (const MarketGoal& market : in_.brief.markets) problem_.caps.push_back(market.budget.minor);
  if (options.first_cap) problem_.caps.front() = *options.first_cap;
  const Build* near = options.stay_near;
  if (near != nullptr) problem_.caps.push_back(options.most_swaps);  // behind the prices: swaps
  for (const KindSlot& slot : slots_) {
    std::vector<std::size_t> order(slot.options.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<std::string> keys;
    keys.reserve(slot.options.size());
    for (const SlotOption& candidate : slot.options)
      keys.push_back(tie_key(in_.catalog, slot.kind, candidate));
    std::ranges::sort(order, {}, [&](std::size_t i) -> const std::string& { return keys[i]; });
    std::vector<int> rank(slot.options.size());
    for (std::size_t i = 0; i < order.size(); ++i) rank[order[i]] = static_cast<int>(i);
    Slot out{.name = std::string(name_of(slot.kind)), .options = {}};
    for (std::size_t o = 0; o < slot.options.size(); ++o) {
      out.options.push_back({.costs = slot.options[o].prices, .value = 0.0, .rank = rank[o]});
      if (near != nullptr)
        out.options.back().costs.push_back(swaps(near->of(slot.kind), slot.options[o].parts));
    }
    problem_.slots.push_back(std::move(out));
  }
  // Ties are compared in the order of the kinds, whatever the order of the search.
  problem_.rank_order.resize(slots_.size());
  std::iota(problem_.rank_order.begin(), problem_.rank_order.end(), 0);
  std::ranges::sort(problem_.rank_order, {}, [&](int slot) { return kind_of(slot); });
}

bool Compiler::admits(std::size_t rule, std::span<const int> scope, std::span<const int> choice,
                      Verdicts::Ask ask) {
  auto key = Verdicts::no_groups();
  for (const int slot : scope)
    key[static_cast<std::size_t>(kind_of(slot))] =
        group(rule, slot, choice[static_cast<std::size_t>(slot)]);
  if (const auto known = in_.verdicts.known(rule, key, ask)) return *known;
  std::array<Filling, kind_count> fillings{};
  for (std::size_t i = 0; i < scope.size(); ++i)
    fillings[i] = {kind_of(scope[i]),
                   &option(scope[i], choice[static_cast<std::size_t>(scope[i])])};
  return in_.verdicts.admits(rule, key, {fillings.data(), scope.size()}, ask);
}

}  // namespace rigproof::plan
