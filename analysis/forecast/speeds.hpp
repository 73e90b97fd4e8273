// From the cells of a catalog to the stages of a frame: what a title asks, what parts can do, draw
// by draw. Claims and plan compute rates from exactly these draws.
//
// An absent Draws means that a cell is absent: it is noted in the Measure that every function fills
// (hand in a fresh one if only the number is wanted). No allocation beyond the cell draws, made
// once. Draws that leave a column's range are held at its end: a plus-minus can be wider than
// sense.
#pragma once

#include <span>

#include "analysis/forecast/frame_time.hpp"
#include "claims/facts.hpp"
#include "claims/rule.hpp"

namespace rigproof::forecast {

/// The memory at which a processor's frame_speed holds: 5600 MT/s on two modules. Ours: the
/// schema's invented reference needs a number, and this is a usual one.
inline constexpr double reference_mt_s = 5600.0;
/// Channels of the reference, and of a processor that does not say how many it has: common
/// practice, no source.
inline constexpr double usual_memory_channels = 2.0;

/// Row of the goal's title; no_row when the catalog has none of that id.
[[nodiscard]] Row title_row(const Facts& facts, const TitleGoal& goal);

/// The picture a goal asks for, in megapixels.
[[nodiscard]] Picture picture_of(const TitleGoal& goal);

/// Does the title's row speak of that many rendered megapixels? If not, the row's end is noted and
/// the measure is unknown.
[[nodiscard]] bool range_covers(const Facts& facts, const TitleGoal& goal, Measure& measure);

/// What decides how fast memory runs.
struct MemoryPath {
  Row cpu = no_row;
  Row board = no_row;
  std::span<const Chosen> kits;
};
[[nodiscard]] MemoryPath memory_path(const Build& build);

/// (F8) Effective transfer rate, width counted in: 5600 is 5600 MT/s on two channels. Channels and
/// the speed with every slot filled may be absent: then two channels, and the speed with fewer
/// modules.
[[nodiscard]] Draws effective_mt_s(const Facts& facts, const MemoryPath& path, Measure& measure);

/// (F4) Mean processor stage, for a processor and an effective memory rate. A title that does not
/// follow memory (memory_share_frac 0) needs no rate: then an absent one does no harm.
[[nodiscard]] Draws cpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row cpu,
                                 const Draws& effective_mt_s, Measure& measure);

/// (F4) for the build as it stands; the memory's cells are read only if the title follows memory.
[[nodiscard]] Draws cpu_stage_ms(const Facts& facts, const TitleGoal& goal, Measure& measure);

/// (F4), (F5), (F9) Mean card stage of one rendered frame with its generated ones.
[[nodiscard]] Draws gpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row gpu,
                                 Measure& measure);

/// How a title's frames vary.
struct TitleSpread {
  Draws cpu_log_sd, gpu_log_sd, correlation;
  Draws cap_fps = no_cap_fps;
};
[[nodiscard]] TitleSpread title_spread(const Facts& facts, const TitleGoal& goal, Measure& measure);

/// (F1), (F3) Mean frame time in every draw; absent when a stage is.
[[nodiscard]] Draws mean_frame_ms(const Draws& cpu_ms, const Draws& gpu_ms,
                                  const TitleSpread& spread);
/// (F2) The frame time that 99 % of the frames stay within, in every draw.
[[nodiscard]] Draws p99_frame_ms(const Draws& cpu_ms, const Draws& gpu_ms,
                                 const TitleSpread& spread);
/// In every draw a time on the same side of limit_ms as p99_frame_ms: for who decides.
[[nodiscard]] Draws p99_frame_side_ms(const Draws& cpu_ms, const Draws& gpu_ms,
                                      const TitleSpread& spread, double limit_ms);
/// 1000 / frame time, in every draw.
[[nodiscard]] Draws rate_fps(const Draws& frame_ms);

/// All of a title on a build. Absent where a cell is absent, the picture is outside the title's
/// row, or the build has no card (a processor's own graphics are not modelled).
struct TitleForecast {
  Draws rendered_ms = Draws::absent();  ///< mean frame time
  Draws p99_ms = Draws::absent();
};
[[nodiscard]] TitleForecast title_forecast(const Facts& facts, const TitleGoal& goal,
                                           Measure& measure);

}  // namespace rigproof::forecast
