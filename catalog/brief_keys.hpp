// Every key that a brief or a build file may have: one declared table. The reader's checks, the
// nearest-key hints and docs/brief.md are all derived from it; nothing about a key is said twice.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "catalog/schema/spec.hpp"

namespace rigproof {

enum class KeyType : std::uint8_t {
  text,        ///< string, one line, not empty
  choice,      ///< string, one of `choices`
  choices,     ///< list of such strings, none twice
  number,      ///< whole or decimal
  whole,       ///< without a decimal point
  flag,        ///< true or false
  date,        ///< TOML date, or a string YYYY-MM-DD
  money,       ///< string: exact amount
  rate,        ///< string: exact decimal fraction
  market,      ///< string: two capital letters of ISO 3166-1
  currency,    ///< string: three capital letters of ISO 4217
  resolution,  ///< string: 3840x2160
  title,       ///< string: an id of titles.csv
  part,        ///< string: an id of the kind's table
  parts,       ///< an id, or a list of ids and of { id, count }
  mount,       ///< string: name of a mount or socket
};

struct KeySpec {
  std::string_view section;  ///< "" for the top of the file; `*` stands for KIND or RULE
  std::string_view name;     ///< KIND, DRIVE: any kind, any chosen drive
  KeyType type;
  std::string_view meaning;
  bool required = false;  ///< where its section is written
  std::string_view unit = {};
  double min = 0.0;
  double max = 0.0;                 ///< numbers and whole numbers only
  bool more_than_min = false;       ///< the smallest value itself is not allowed
  std::string_view choices = {};    ///< separated by '|'
  std::string_view if_absent = {};  ///< what holds when the key is not written
};

struct SectionSpec {
  std::string_view name;     ///< as in KeySpec::section
  std::string_view written;  ///< as a person writes it: [[markets]]
  std::string_view meaning;
};

namespace keys {

inline constexpr std::string_view loads = "idle|title|all-core|everything";

inline constexpr std::array brief_sections = {
    SectionSpec{"brief", "[brief]", "What the file is and which offers count. Must be there."},
    SectionSpec{"markets", "[[markets]]",
                "Where the build must be affordable: in every one of them. At least one; the first "
                "one's budget and "
                "currency carry the score. No market twice."},
    SectionSpec{"titles", "[[titles]]",
                "What has to run, and how fast. All rates are of rendered frames. No title twice. "
                "Without titles the "
                "plan goes by price and worths."},
    SectionSpec{"limits", "[limits]",
                "Hard limits, checked with physics. Only those written are asked for."},
    SectionSpec{"limits.noise_dba", "noise_dba = { ... }",
                "Sound pressure level. Load and distance are part of it."},
    SectionSpec{"limits.cpu_c", "cpu_c = { ... }", "Processor temperature."},
    SectionSpec{"limits.gpu_c", "gpu_c = { ... }", "Graphics chip temperature."},
    SectionSpec{"limits.board_stage_c", "board_stage_c = { ... }",
                "Temperature of the board's processor power stage."},
    SectionSpec{"limits.drive_c", "drive_c = { ... }", "Drive temperature, the hottest drive."},
    SectionSpec{"limits.exhaust_c", "exhaust_c = { ... }",
                "Temperature of the air that leaves the case."},
    SectionSpec{"limits.wall_power_w", "wall_power_w = { ... }", "Power drawn at the wall."},
    SectionSpec{"limits.volume_l", "volume_l = { ... }", "Outside volume of the case."},
    SectionSpec{"room", "[room]", "Where the build stands."},
    SectionSpec{"musts", "[musts]", "Asked for, whatever it costs."},
    SectionSpec{"worths", "[worths]",
                "In money of the first market: what the full measure would be worth to you."},
    SectionSpec{"keep", "[keep]",
                "Parts already there: they cost nothing, need no offer and must be used."},
    SectionSpec{"because", "[because]",
                "Choices made against the numbers, and why. They are forced but paid for; the "
                "sheet prints what they "
                "cost."},
    SectionSpec{"because.*", "KIND = { ... }", "One forced choice."},
    SectionSpec{"accept", "[accept]",
                "What may enter a plan. Builds with a doubtful or failing must never do."},
    SectionSpec{"accept.*", "[accept.\"RULE\"]",
                "The same for one rule, by its id in quotes, such as "
                "`[accept.\"fit.card-length\"]`. What is not "
                "written here follows `[accept]`."},
    SectionSpec{"display", "[display]",
                "The screen the build must feed. Absent: no link to a screen is checked."},
};

inline constexpr std::array brief_keys = {
    KeySpec{.section = "brief",
            .name = "name",
            .type = KeyType::text,
            .meaning = "what the builds are for, in a few words",
            .required = true},
    KeySpec{.section = "brief",
            .name = "as_of",
            .type = KeyType::date,
            .meaning = "the day the brief speaks of; later offers do not exist yet",
            .required = true},
    KeySpec{.section = "brief",
            .name = "offers_not_older_than_days",
            .type = KeyType::whole,
            .meaning = "an offer seen exactly so many days before as_of still counts",
            .unit = "days",
            .min = 0,
            .max = 36500,
            .if_absent = "offers of any age count"},
    KeySpec{.section = "brief",
            .name = "conditions",
            .type = KeyType::choices,
            .meaning = "conditions of offers that may be bought",
            .choices = "new|refurbished|used",
            .if_absent = "[\"new\"]"},

    KeySpec{.section = "markets",
            .name = "market",
            .type = KeyType::market,
            .meaning = "the country, ISO 3166-1 alpha-2",
            .required = true},
    KeySpec{.section = "markets",
            .name = "currency",
            .type = KeyType::currency,
            .meaning = "ISO 4217; offers in this market must be in it",
            .required = true},
    KeySpec{.section = "markets",
            .name = "budget",
            .type = KeyType::money,
            .meaning = "the most a private buyer pays, tax included",
            .required = true,
            .unit = "money",
            .more_than_min = true},
    KeySpec{.section = "markets",
            .name = "sales_tax",
            .type = KeyType::rate,
            .meaning = "added to offers that exclude tax, line by line, half up",
            .min = 0,
            .max = 1,
            .if_absent = "such offers are an error"},

    KeySpec{.section = "titles",
            .name = "title",
            .type = KeyType::title,
            .meaning = "an id of titles.csv",
            .required = true},
    KeySpec{.section = "titles",
            .name = "weight",
            .type = KeyType::number,
            .meaning = "its share in the score; one title at least has more than 0",
            .min = 0,
            .max = 1000,
            .if_absent = "1"},
    KeySpec{.section = "titles",
            .name = "resolution",
            .type = KeyType::resolution,
            .meaning = "output pixels, across x down",
            .required = true,
            .unit = "px"},
    KeySpec{.section = "titles",
            .name = "target_fps",
            .type = KeyType::number,
            .meaning = "mean rate at which the title is worth its full share; what goes over it "
                       "counts little (1 + 0.25 ln of the ratio)",
            .required = true,
            .unit = "fps",
            .min = 0,
            .max = 2000,
            .more_than_min = true},
    KeySpec{.section = "titles",
            .name = "floor_fps",
            .type = KeyType::number,
            .meaning = "hard: the mean rate it must reach",
            .unit = "fps",
            .min = 0,
            .max = 2000,
            .more_than_min = true,
            .if_absent = "no floor"},
    KeySpec{.section = "titles",
            .name = "p99_frame_time_fps",
            .type = KeyType::number,
            .meaning = "hard: 1000 / the 99 % quantile of frame time in ms must reach it",
            .unit = "fps",
            .min = 0,
            .max = 2000,
            .more_than_min = true,
            .if_absent = "not asked"},
    KeySpec{.section = "titles",
            .name = "render_scale",
            .type = KeyType::number,
            .meaning = "rendered pixels per output pixel, along each axis",
            .min = 0,
            .max = 2,
            .more_than_min = true,
            .if_absent = "1"},
    KeySpec{.section = "titles",
            .name = "generated_per_rendered",
            .type = KeyType::whole,
            .meaning = "generated frames shown for each rendered one",
            .min = 0,
            .max = 3,
            .if_absent = "0"},

    KeySpec{.section = "limits.noise_dba",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "dB(A)",
            .min = 0,
            .max = 120},
    KeySpec{.section = "limits.noise_dba",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.noise_dba",
            .name = "distance_m",
            .type = KeyType::number,
            .meaning = "heard from how far",
            .required = true,
            .unit = "m",
            .min = 0.1,
            .max = 10},
    KeySpec{.section = "limits.cpu_c",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "degC",
            .min = 0,
            .max = 150},
    KeySpec{.section = "limits.cpu_c",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.gpu_c",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "degC",
            .min = 0,
            .max = 150},
    KeySpec{.section = "limits.gpu_c",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.board_stage_c",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "degC",
            .min = 0,
            .max = 150},
    KeySpec{.section = "limits.board_stage_c",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.drive_c",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "degC",
            .min = 0,
            .max = 150},
    KeySpec{.section = "limits.drive_c",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.exhaust_c",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "degC",
            .min = 0,
            .max = 150},
    KeySpec{.section = "limits.exhaust_c",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.wall_power_w",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit",
            .required = true,
            .unit = "W",
            .min = 1,
            .max = 5000},
    KeySpec{.section = "limits.wall_power_w",
            .name = "load",
            .type = KeyType::choice,
            .meaning = "under which load",
            .required = true,
            .choices = loads},
    KeySpec{.section = "limits.volume_l",
            .name = "at_most",
            .type = KeyType::number,
            .meaning = "the limit; no load belongs to it",
            .required = true,
            .unit = "l",
            .min = 1,
            .max = 300},
    KeySpec{.section = "limits",
            .name = "supply_reserve_frac",
            .type = KeyType::number,
            .meaning = "share of the supply's rating that must stay free",
            .min = 0,
            .max = 0.9,
            .if_absent = "no reserve is asked, and that is said"},

    KeySpec{.section = "room",
            .name = "temp_c",
            .type = KeyType::number,
            .meaning = "air that enters the case",
            .unit = "degC",
            .min = -20,
            .max = 60,
            .if_absent = "24, marked as not stated"},

    KeySpec{.section = "musts",
            .name = "memory_gb",
            .type = KeyType::number,
            .meaning = "memory; the trade's GB, counted as GiB",
            .unit = "GiB",
            .min = 1,
            .max = 8192,
            .if_absent = "not asked"},
    KeySpec{.section = "musts",
            .name = "storage_gb",
            .type = KeyType::number,
            .meaning = "all drives together, decimal gigabytes",
            .unit = "GB",
            .min = 1,
            .max = 1e6,
            .if_absent = "not asked"},
    KeySpec{.section = "musts",
            .name = "wifi",
            .type = KeyType::flag,
            .meaning = "a radio, on the board or as a card",
            .if_absent = "false"},

    KeySpec{
        .section = "worths",
        .name = "quiet",
        .type = KeyType::money,
        .meaning = "20 dB(A) or less at the noise limit's load and distance; nothing from 45 on",
        .unit = "money",
        .if_absent = "nothing"},
    KeySpec{.section = "worths",
            .name = "lasting",
            .type = KeyType::money,
            .meaning = "how long it keeps its targets",
            .unit = "money",
            .if_absent = "nothing"},
    KeySpec{.section = "worths",
            .name = "saved_frac",
            .type = KeyType::number,
            .meaning = "what a unit of money not spent is worth",
            .min = 0,
            .max = 1,
            .if_absent = "0"},

    KeySpec{.section = "keep",
            .name = "KIND",
            .type = KeyType::part,
            .meaning = "id of the part that is already there"},
    KeySpec{.section = "because.*",
            .name = "id",
            .type = KeyType::part,
            .meaning = "id of the part that is wanted",
            .required = true},
    KeySpec{.section = "because.*",
            .name = "why",
            .type = KeyType::text,
            .meaning = "the reason, as it will be printed",
            .required = true},

    KeySpec{.section = "accept",
            .name = "verdict",
            .type = KeyType::choice,
            .meaning = "the weakest verdict that may enter",
            .choices = "thin|holds",
            .if_absent = "thin"},
    KeySpec{.section = "accept",
            .name = "unknown",
            .type = KeyType::choice,
            .meaning = "whether a claim that cannot be judged may enter",
            .choices = "refuse|accept",
            .if_absent = "refuse"},
    KeySpec{.section = "accept.*",
            .name = "verdict",
            .type = KeyType::choice,
            .meaning = "for this rule",
            .choices = "thin|holds",
            .if_absent = "as in [accept]"},
    KeySpec{.section = "accept.*",
            .name = "unknown",
            .type = KeyType::choice,
            .meaning = "for this rule",
            .choices = "refuse|accept",
            .if_absent = "as in [accept]"},

    KeySpec{.section = "display",
            .name = "resolution",
            .type = KeyType::resolution,
            .meaning = "pixels, across x down",
            .required = true,
            .unit = "px"},
    KeySpec{.section = "display",
            .name = "refresh_hz",
            .type = KeyType::number,
            .meaning = "refresh rate to be fed",
            .required = true,
            .unit = "Hz",
            .min = 24,
            .max = 1000},
};

inline constexpr std::array build_sections = {
    SectionSpec{"", "top of the file",
                "The parts. A kind that is not written is not in the build."},
    SectionSpec{"*", "{ id = \"...\", count = 2 }",
                "One entry of a kind's list, where there are several of a part."},
    SectionSpec{
        "mounts", "[mounts]",
        "Which place a part takes. What is not written the fit engine decides, and says so."},
};

inline constexpr std::array build_keys = {
    KeySpec{.section = "",
            .name = "name",
            .type = KeyType::text,
            .meaning = "what the build is called",
            .required = true},
    KeySpec{.section = "",
            .name = "KIND",
            .type = KeyType::parts,
            .meaning = "an id, or a list; only one piece of cpu, board, memory, gpu, cooler, case "
                       "and psu, at most four different parts of another kind"},
    KeySpec{.section = "*",
            .name = "id",
            .type = KeyType::part,
            .meaning = "which part",
            .required = true},
    KeySpec{.section = "*",
            .name = "count",
            .type = KeyType::whole,
            .meaning = "how many of it",
            .min = 1,
            .max = 12,
            .if_absent = "1"},
    KeySpec{.section = "mounts",
            .name = "cooler",
            .type = KeyType::mount,
            .meaning = "the mount of the cooler's radiator"},
    KeySpec{.section = "mounts",
            .name = "fan",
            .type = KeyType::mount,
            .meaning = "the mount of the case fans"},
    KeySpec{.section = "mounts",
            .name = "DRIVE",
            .type = KeyType::mount,
            .meaning = "by the id of a drive of this build: the socket it uses"},
};

}  // namespace keys

/// "more than 0, at most 2"; empty where a key has no bounds.
[[nodiscard]] std::string bounds_text(const KeySpec& spec);
/// The choices in words: "new, refurbished or used".
[[nodiscard]] std::string choices_text(std::string_view choices);
/// The page docs/brief.md, whole.
[[nodiscard]] std::string brief_page();
/// The example that stands in the page; it must load beside the ids it uses.
[[nodiscard]] std::string_view brief_example();
[[nodiscard]] std::string_view build_example();

}  // namespace rigproof
