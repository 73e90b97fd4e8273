#include "analysis/air/regulated.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace rigproof::air {
namespace {

using Case = std::array<Binds, most_regulated>;
using Powers = std::array<double, most_regulated>;

tl::unexpected<Error> wrong(std::size_t part, const char* field, double value) {
  return out_of_range(fmt::format("parts[{}].{}", part, field).c_str(), value);
}

Result<void> check_part(const RegulatedParts& parts, std::size_t i) {
  const auto& [limits, base_c, rise_k_w] = parts[i];
  if (!(limits.limit_w > 0.0 && std::isfinite(limits.limit_w)))
    return wrong(i, "limit_w", limits.limit_w);
  if (!(limits.minimum_w >= 0.0 && limits.minimum_w <= limits.limit_w))
    return wrong(i, "minimum_w", limits.minimum_w);
  if (!(limits.limit_c > -std::numeric_limits<double>::infinity()))
    return wrong(i, "limit_c", limits.limit_c);
  if (!std::isfinite(base_c)) return wrong(i, "base_c", base_c);
  for (std::size_t j = 0; j < parts.size(); ++j)
    if (!(rise_k_w[j] >= 0.0 && std::isfinite(rise_k_w[j])))
      return wrong(i, "rise_k_w", rise_k_w[j]);
  return {};
}

// A system of at most four equations: rows and columns of the parts in `chosen`.
struct Small {
  std::array<std::array<double, most_regulated + 1>, most_regulated> row{};  // last: right side
  std::size_t size = 0;

  // Elimination with partial pivoting in place; returns the determinant, 0 when singular.
  double eliminate() {
    double determinant = 1.0;
    for (std::size_t k = 0; k < size; ++k) {
      std::size_t pivot = k;
      for (std::size_t i = k + 1; i < size; ++i)
        if (std::abs(row[i][k]) > std::abs(row[pivot][k])) pivot = i;
      if (row[pivot][k] == 0.0) return 0.0;
      if (pivot != k) {
        std::swap(row[pivot], row[k]);
        determinant = -determinant;
      }
      determinant *= row[k][k];
      for (std::size_t i = k + 1; i < size; ++i) {
        const double factor = row[i][k] / row[k][k];
        for (std::size_t j = k; j < size; ++j) row[i][j] -= factor * row[k][j];
        row[i][most_regulated] -= factor * row[k][most_regulated];
      }
    }
    return determinant;
  }

  // After `eliminate`.
  [[nodiscard]] Powers solved() const {
    Powers x{};
    for (std::size_t i = size; i-- > 0;) {
      double sum = row[i][most_regulated];
      for (std::size_t j = i + 1; j < size; ++j) sum -= row[i][j] * x[j];
      x[i] = sum / row[i][i];
    }
    return x;
  }
};

// (A41) has one answer for every T0 and all limits when every principal minor of R is positive. One
// below 1e-12 of its diagonal is taken for zero.
bool has_positive_minors(const RegulatedParts& parts) {
  for (unsigned chosen = 1; chosen < 1U << parts.size(); ++chosen) {
    Small minor;
    std::array<std::size_t, most_regulated> members{};
    for (std::size_t i = 0; i < parts.size(); ++i)
      if ((chosen >> i & 1U) != 0) members[minor.size++] = i;
    double diagonal = 1.0;
    for (std::size_t i = 0; i < minor.size; ++i) {
      diagonal *= parts[members[i]].rise_k_w[members[i]];
      for (std::size_t j = 0; j < minor.size; ++j)
        minor.row[i][j] = parts[members[i]].rise_k_w[members[j]];
    }
    if (!(minor.eliminate() > 1e-12 * diagonal)) return false;
  }
  return true;
}

double temp_of(const RegulatedPart& part, const Powers& power_w, std::size_t count) {
  double out = part.base_c;
  for (std::size_t j = 0; j < count; ++j) out += part.rise_k_w[j] * power_w[j];
  return out;
}

// (A42): powers when it is settled what binds; those held by temperature meet it together.
Powers powers_of(const RegulatedParts& parts, const Case& binds) {
  Powers power{};
  Small held;
  std::array<std::size_t, most_regulated> members{};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const PowerLimits& limits = parts[i].limits;
    if (binds[i] == Binds::power) power[i] = limits.limit_w;
    if (binds[i] == Binds::minimum) power[i] = limits.minimum_w;
    if (binds[i] == Binds::temperature) members[held.size++] = i;
  }
  for (std::size_t i = 0; i < held.size; ++i) {
    const RegulatedPart& part = parts[members[i]];
    for (std::size_t j = 0; j < held.size; ++j) held.row[i][j] = part.rise_k_w[members[j]];
    held.row[i][most_regulated] = part.limits.limit_c - temp_of(part, power, parts.size());
  }
  held.eliminate();
  const Powers solved = held.solved();
  for (std::size_t i = 0; i < held.size; ++i) power[members[i]] = solved[i];
  return power;
}

// By how much a case breaks (A41), in kelvin.
double violation_k(const RegulatedParts& parts, const Case& binds, const Powers& power_w) {
  double worst = 0.0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto& [limits, base_c, rise_k_w] = parts[i];
    const double over_k = temp_of(parts[i], power_w, parts.size()) - limits.limit_c;
    if (binds[i] == Binds::power) worst = std::max(worst, over_k);
    if (binds[i] == Binds::minimum) worst = std::max(worst, -over_k);
    if (binds[i] == Binds::temperature)
      worst = std::max({worst, (power_w[i] - limits.limit_w) * rise_k_w[i],
                        (limits.minimum_w - power_w[i]) * rise_k_w[i]});
  }
  return worst;
}

// The next of 3^n cases; parts without a temperature limit stay at their power limit.
bool advance(const RegulatedParts& parts, Case& binds) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (std::isinf(parts[i].limits.limit_c)) continue;
    if (binds[i] == Binds::power) {
      binds[i] = Binds::temperature;
      return true;
    }
    if (binds[i] == Binds::temperature) {
      binds[i] = Binds::minimum;
      return true;
    }
    binds[i] = Binds::power;
  }
  return false;
}

SustainedPowers report(const RegulatedParts& parts, const Case& binds, const Powers& power_w) {
  SustainedPowers out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const PowerLimits& limits = parts[i].limits;
    // A case may be accepted with a rounding error beyond a limit.
    const double power = std::clamp(power_w[i], limits.minimum_w, limits.limit_w);
    out.add({.power_w = power,
             .temp_c = temp_of(parts[i], power_w, parts.size()),
             .binds = binds[i],
             .lost_frac = 1.0 - power / limits.limit_w});
  }
  return out;
}

}  // namespace

Result<SustainedPowers> sustained_powers(const RegulatedParts& parts) {
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (auto well = check_part(parts, i); !well) return tl::unexpected(well.error());
  if (!has_positive_minors(parts))
    return bad_input(
        "parts: their rises are not those of a heat balance (a "
        "minor is not positive)");
  constexpr double settled_k = 1e-9;  // an answer that is right but for rounding
  Case binds{};
  Case best_case{};
  Powers best{};
  double least_k = std::numeric_limits<double>::infinity();
  do {
    const Powers power = powers_of(parts, binds);
    const double off_k = violation_k(parts, binds, power);
    if (off_k < least_k) {
      least_k = off_k;
      best_case = binds;
      best = power;
    }
  } while (least_k > settled_k && advance(parts, binds));
  return report(parts, best_case, best);
}

Result<RegulatedParts> regulated_parts(const HeatField& field,
                                       std::span<const RegulatedBody> bodies) {
  if (bodies.size() > most_regulated)
    return out_of_range("regulated bodies", static_cast<double>(bodies.size()));
  const HeatNetwork& network = field.network();
  std::array<double, most_bodies> heat_w = network.body_heat_w;
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    const std::size_t at = bodies[i].body;
    if (at >= network.bodies) return bad_input(fmt::format("there is no body {}", at));
    if (field.unbounded(body(at)))
      return bad_input(fmt::format("body {}: its heat has no way out", at));
    for (std::size_t j = 0; j < i; ++j)
      if (bodies[j].body == at) return bad_input(fmt::format("body {} is named twice", at));
    heat_w[at] = 0.0;
  }
  const HeatState base = field.state(std::span<const double>(heat_w).first(network.bodies));
  RegulatedParts out;
  for (const RegulatedBody& one : bodies)
    out.add({.limits = one.limits, .base_c = base.body_c[one.body], .rise_k_w = {}});
  for (std::size_t j = 0; j < bodies.size(); ++j) {
    const HeatField::Rise rise = field.rise_of(bodies[j].body);
    for (std::size_t i = 0; i < bodies.size(); ++i)
      out[i].rise_k_w[j] = rise.body_k_w[bodies[i].body];
  }
  return out;
}

}  // namespace rigproof::air
