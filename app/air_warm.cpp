#include "app/air_warm.hpp"

#include "coupled/air/air_answer.hpp"

namespace rigproof::app {
namespace {

using coupled::Warmed;
using coupled::Warming;

std::string_view words_of(Warmed which) {
  return which == Warmed::cpu ? "processor" : which == Warmed::gpu ? "card" : "liquid of the loop";
}

std::optional<Quantity> seconds(const Draws& draws) {
  if (draws.is_absent()) return {};
  return quantity(draws, "s");
}

// From this load to the one without work, each at the speed of its own.
std::optional<Warming> rest_after(const Facts& facts, const coupled::Running& running) {
  Measure m;
  m.deciding = true;
  const coupled::AirCase idle = coupled::air_case(facts, power::Load::idle, m);
  const auto answer = coupled::air_answer(facts, power::Load::idle, false, m);
  if (!answer.known) return {};
  return coupled::warming(facts, &running, {&idle, answer.speeds, {}}, m);
}

}  // namespace

std::vector<sheet::AirWarm> warm_lines(const Facts& facts, const coupled::Running& running,
                                       power::Load load) {
  std::vector<sheet::AirWarm> out;
  Measure m;
  const auto warm = coupled::warming(facts, nullptr, running, m);
  if (!warm) return out;
  const auto rest = load == power::Load::idle ? std::nullopt : rest_after(facts, running);
  for (const Warmed which : coupled::all_warmed) {
    const auto& warmed = (*warm)[which];
    if (!warmed) continue;
    sheet::AirWarm line{.what = std::string(words_of(which)),
                        .warm_s = seconds(warmed->settled_s),
                        .rest_s = {},
                        .slows_after_s = warmed->slows_after_s};
    if (rest)
      if (const auto& rested = (*rest)[which]) line.rest_s = seconds(rested->settled_s);
    out.push_back(std::move(line));
  }
  return out;
}

}  // namespace rigproof::app
