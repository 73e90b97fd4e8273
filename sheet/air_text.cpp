// `rigproof air` for people: each load with its fan speed, temperatures, air and level; the claims;
// the working where it is asked for.
#include <fmt/format.h>

#include <cmath>

#include "base/text.hpp"
#include "sheet/air_answer.hpp"
#include "sheet/text.hpp"
#include "sheet/text_claims.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int body_at = 16;
constexpr double least_heard_dba = 5.0;

void put_parts(TextPage& page, const AirLoad& load) {
  for (const AirPart& part : load.parts) {
    if (!part.temp_c) continue;
    std::string text = fmt::format("{}: {} W", clean_text(part.what), readable(part.power_w));
    if (part.lost_percent && part.lost_percent->value >= 0.05)
      text += fmt::format(" of {} W asked, {} lost to heat", readable(part.asked_w),
                          words(*part.lost_percent));
    page.labelled(entry_at, words(*part.temp_c), entry_at + 26, text);
  }
}

void put_followers(TextPage& page, const AirLoad& load) {
  for (const AirFollower& follower : load.followers)
    page.labelled(entry_at, words(follower.temp_c), entry_at + 26, clean_text(follower.what));
}

std::string minutes(double seconds) {
  constexpr double least_min = 2.0;
  return seconds < least_min * 60.0 ? fmt::format("{} s", readable(seconds, 2))
                                    : fmt::format("{} min", readable(seconds / 60.0, 2));
}

std::string minutes(const Quantity& seconds) {
  std::string text = minutes(seconds.value);
  if (seconds.low && seconds.high && minutes(*seconds.low) != minutes(*seconds.high))
    text += fmt::format(" ({} to {})", minutes(*seconds.low), minutes(*seconds.high));
  return text;
}

void put_warm(TextPage& page, const AirLoad& load) {
  std::string text;
  for (const AirWarm& each : load.warm) {
    if (!each.warm_s) continue;
    text += fmt::format("{}{} after {}", text.empty() ? "" : "; ", clean_text(each.what),
                        minutes(*each.warm_s));
    if (each.slows_after_s)
      text += fmt::format(", slowing itself down from {} on", minutes(*each.slows_after_s));
    if (each.rest_s) text += fmt::format(", at rest again {} after the end", minutes(*each.rest_s));
  }
  if (!text.empty()) page.labelled(entry_at, "warm", body_at, text);
}

std::string speed_words(double chassis_percent, double cooler_percent) {
  if (chassis_percent == cooler_percent)
    return fmt::format("fans at {:.0f} % of full speed", chassis_percent);
  return fmt::format("case fans at {:.0f} %, the cooler's at {:.0f} % of full speed",
                     chassis_percent, cooler_percent);
}

std::string heading_of(const AirLoad& load) {
  std::string text = speed_words(load.speed_percent, load.cooler_speed_percent);
  if (!load.speed_found) {
    text += ", as no speed keeps every limit in every draw";
    if (!load.held_by.empty()) text += "; worst: " + load.held_by;
  } else if (!load.held_by.empty()) {
    text += ", held by the " + load.held_by;
  }
  return text + (load.speed_set ? ", as they are set" : "");
}

void put_apart(TextPage& page, const AirLoad& load, const Air& air) {
  if (!load.apart) return;
  page.labelled(
      entry_at, "quieter", body_at,
      fmt::format("{}: {} at {} m, and every limit is kept",
                  speed_words(load.apart->speed_percent, load.apart->cooler_speed_percent),
                  words(load.apart->noise_dba), readable(air.distance_m)));
}

void put_load(TextPage& page, const AirLoad& load, const Air& air) {
  page.heading(0, load.load, load.known ? heading_of(load) : std::string("not known"));
  if (!load.known) return page.blank();
  put_parts(page, load);
  put_followers(page, load);
  page.labelled(
      entry_at, "air", body_at,
      fmt::format("{} m3/h go through{}; {} Pa {} inside", readable(load.through_m3_h),
                  load.changes_per_minute > 0.0
                      ? fmt::format(", {} changes a minute", readable(load.changes_per_minute, 2))
                      : std::string(),
                  readable(std::abs(load.pressure_pa), 2),
                  load.pressure_pa < 0.0 ? "less" : "more"));
  std::string in;
  for (const AirInlet& inlet : load.inlets)
    in += fmt::format("{}{} {} m3/h{}", in.empty() ? "" : "; ", clean_text(inlet.where),
                      readable(inlet.flow_m3_h), inlet.filtered ? " through its filter" : "");
  if (!in.empty())
    page.labelled(entry_at, "enters", body_at,
                  fmt::format("{}; {:.0f} % of it through fans", in, load.by_fans_percent));
  std::string inside = fmt::format("{:.0f} degC around the processor", load.upper_c);
  if (load.lower_c) inside += fmt::format(", {:.0f} degC below the card", *load.lower_c);
  if (load.exhaust_c) inside += ", leaves at " + words(*load.exhaust_c);
  page.labelled(entry_at, "inside", body_at, inside);
  put_warm(page, load);
  if (load.blown_backwards)
    page.labelled(
        entry_at, "fans", body_at,
        "one is blown through against its way by the others: more is not covered by its data");
  if (load.stalled)
    page.labelled(entry_at, "fans", body_at,
                  "one works in its stall range: less air is claimed than was measured there");
  std::string unknown;
  for (const AirSource& source : load.sources)
    if (!source.level_dba) unknown += (unknown.empty() ? "" : ", ") + clean_text(source.what);
  page.labelled(entry_at, "noise", body_at,
                load.noise_dba
                    ? fmt::format("{} at {} m", words(*load.noise_dba), readable(air.distance_m))
                    : "not known: no level is stated for " + unknown);
  if (load.with_room_dba)
    page.labelled(entry_at, "", body_at,
                  words(*load.with_room_dba) + " together with the room's own level");
  for (const AirSource& source : load.sources)
    if (source.level_dba && load.noise_dba)
      page.labelled(body_at,
                    source.level_dba->value < least_heard_dba ? std::string("under 5 dB(A)")
                                                              : words(*source.level_dba),
                    body_at + 26, clean_text(source.what), Ink::soft, Ink::soft);
  put_apart(page, load, air);
  page.blank();
}

void put_missing(TextPage& page, const Air& air) {
  if (air.missing.empty()) return;
  page.heading(0, "LOOK UP", "without these nothing is known of its air");
  for (const Missing& cell : air.missing)
    page.labelled(
        entry_at, "-", entry_at + 2,
        clean_text(cell.how.empty() ? cell.column : cell.how) + " (" + cell_words(cell) + ")");
  page.blank();
}

}  // namespace

std::string air_text(const Air& air, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(air.build),
               fmt::format("air; room at {} degC{}", readable(air.room_c),
                           air.room_stated ? "" : " (taken)"));
  page.blank();
  for (const AirLoad& load : air.loads) put_load(page, load, air);
  put_missing(page, air);
  put_claims(page, air.claims, false);
  page.blank();
  if (!air.work.empty()) {
    page.heading(0, "WORKING", "equations of coupled/air/README.md with the numbers in");
    for (const std::string& line : air.work) page.paragraph(entry_at, clean_text(line));
    page.blank();
  }
  put_notes(page, air.notes);
  return page.take();
}

}  // namespace rigproof::sheet
