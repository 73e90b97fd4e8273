#include "app/power_work.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "analysis/power/energy.hpp"
#include "analysis/power/load_cases.hpp"
#include "analysis/power/wall.hpp"
#include "base/text.hpp"

namespace rigproof::app {
namespace {

using power::Load;

std::string number(double value) { return readable(value, 5); }

std::string sum_line(const Facts& facts, Load load, double& sum_w) {
  Measure m;
  const power::PowerTerms terms = power::power_terms(facts, load);
  std::string text;
  sum_w = 0.0;
  for (std::size_t i = 0; i < terms.count; ++i) {
    const Draws watts = power::power_w(facts, terms.all[i], load, m);
    const double middle = watts.is_absent() ? no_number : watts.median();
    sum_w += middle;
    text += fmt::format("{}{} ({})", i == 0 ? "" : " + ",
                        std::isnan(middle) ? std::string("?") : number(middle),
                        name_of(terms.all[i].kind));
  }
  return fmt::format("(P0) {}: {} = {} W", power::name_of(facts.brief, load), text,
                     std::isnan(sum_w) ? std::string("?") : number(sum_w));
}

// (P9) and (P13) at the sum.
void add_wall_lines(const Facts& facts, Load load, std::size_t market, double sum_w,
                    std::vector<std::string>& out) {
  Measure m;
  const power::Wall wall = power::wall_power(facts, load, market, m);
  if (!wall.curve || std::isnan(sum_w)) return;
  const auto volts = wall.mains == power::Mains::v115 ? "115 V" : "230 V";
  if (sum_w < wall.curve->lowest_w()) {
    out.push_back(fmt::format("(P9) {}, {}: below {} W, the lowest certified load; loss 0 to {} W",
                              volts, power::name_of(facts.brief, load),
                              number(wall.curve->lowest_w()),
                              number(wall.curve->most_loss_w(sum_w))));
    return;
  }
  const auto c = wall.curve->coefficients(sum_w);
  const double loss_w = wall.curve->most_loss_w(sum_w);
  out.push_back(fmt::format("(P9) {}, {}: loss = {} + {} x {} + {} x {}^2 = {} W", volts,
                            power::name_of(facts.brief, load), number(c[0]), number(c[1]),
                            number(sum_w), number(c[2]), number(sum_w), number(loss_w)));
  out.push_back(fmt::format("(P13) {}, {}: {} + {} = {} W at the wall", volts,
                            power::name_of(facts.brief, load), number(sum_w), number(loss_w),
                            number(sum_w + loss_w)));
}

void add_energy_line(const Facts& facts, std::size_t market, std::vector<std::string>& out) {
  Measure m;
  std::string text;
  double kwh = 0.0;
  for (const Load load : power::loads_of(facts.brief)) {
    const double hours = power::hours_per_day(facts.brief, load);
    const Draws wall = power::wall_power(facts, load, market, m).wall_w;
    if (hours == 0.0 || wall.is_absent()) continue;
    kwh += hours * wall.median() * power::days_per_year / 1000.0;
    text += fmt::format("{}{} h x {} W", text.empty() ? "" : " + ", number(hours),
                        number(wall.median()));
  }
  if (text.empty()) return;
  const double price = power::mean_kwh_price(facts, market);
  const MarketGoal& goal = facts.brief.markets[market];
  std::string line = fmt::format("(P14) {}: ({}) x {} / 1000 = {} kWh a year", goal.market, text,
                                 number(power::days_per_year), number(kwh));
  if (!std::isnan(price))
    line += fmt::format("; x {} {} = {} {}", number(price), goal.budget.currency.view(),
                        number(kwh * price), goal.budget.currency.view());
  out.push_back(std::move(line));
}

}  // namespace

std::vector<std::string> power_work(const Facts& facts) {
  std::vector<std::string> out;
  const std::size_t markets = facts.brief.markets.size();
  for (const Load load : power::loads_of(facts.brief)) {
    double sum_w = 0.0;
    out.push_back(sum_line(facts, load, sum_w));
    if (!facts.build.has(Kind::psu)) continue;
    std::array<bool, 2> told{};  // once a mains voltage
    for (std::size_t i = 0; i < std::max<std::size_t>(markets, 1); ++i) {
      bool& done = told[power::mains_of(facts, i) == power::Mains::v115 ? 0 : 1];
      if (!done) add_wall_lines(facts, load, i, sum_w, out);
      done = true;
    }
  }
  for (std::size_t i = 0; i < markets; ++i) add_energy_line(facts, i, out);
  return out;
}

}  // namespace rigproof::app
