// Use case `power`: what a build draws under each load, at the wall, on each plug, in a year.
#pragma once

#include <functional>
#include <optional>

#include "app/workshop.hpp"
#include "sheet/power_answer.hpp"

namespace rigproof::app {

struct PowerAsked {
  const Brief* brief = nullptr;      ///< its markets, use and limits; null: none
  const BuildFile* other = nullptr;  ///< a build to hold it beside; null: none
  bool show_work = false;
  std::function<bool()> stop = {};  ///< ends the trying of remedies
};

/// Without a brief both mains voltages of the certification are computed, and no energy.
[[nodiscard]] sheet::Power power_of_build(const Workshop& workshop, const BuildFile& build,
                                          const PowerAsked& asked);

}  // namespace rigproof::app
