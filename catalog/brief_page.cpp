// The page docs/brief.md, made from the declared keys (brief_keys.hpp).
#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <vector>

#include "catalog/brief_keys.hpp"
#include "catalog/build.hpp"
#include "catalog/key_page.hpp"
#include "catalog/toml_reader.hpp"

namespace rigproof {
namespace {

constexpr std::string_view opening =
    "# Brief and build files\n"
    "\n"
    "<!-- Made from catalog/brief_keys.hpp; do not edit. Again: build/.../bin/brief_page "
    "docs/brief.md -->\n"
    "\n"
    "A *brief* says what builds are for; a *build* says which parts were chosen. Both are TOML 1.0 "
    "in UTF-8, at\n"
    "most {} KiB. Amounts of money and tax rates are strings, because they are exact. A key that "
    "is not\n"
    "listed here is an error, never ignored. All errors of a file are reported in one go, each as\n"
    "`file:line:column: what is wrong; expected ...; got \"...\"`, with the nearest valid key or "
    "id.\n"
    "\n"
    "`KIND` stands for one of {}; `RULE` for the id of a rule; `DRIVE` for the id of a drive.\n"
    "A title, a kept or a wanted part must be in the catalog.\n"
    "\n";

std::string kind_list() {
  std::string out;
  for (int k = 0; k < kind_count; ++k)
    out += fmt::format("{}`{}`", k == 0 ? "" : " ", name_of(static_cast<Kind>(k)));
  return out;
}

}  // namespace

std::string bounds_text(const KeySpec& spec) {
  if (spec.min == 0.0 && spec.max == 0.0) return {};
  return spec.more_than_min ? fmt::format("more than {}, at most {}", spec.min, spec.max)
                            : fmt::format("{} to {}", spec.min, spec.max);
}

std::string choices_text(std::string_view choices) {
  std::vector<std::string_view> words;
  while (!choices.empty()) {
    const std::size_t end = std::min(choices.find('|'), choices.size());
    words.push_back(choices.substr(0, end));
    choices.remove_prefix(std::min(end + 1, choices.size()));
  }
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " or " : ", ", words[i]);
  return out;
}

std::string_view brief_example() {
  return R"([brief]
name = "Loft cinema, 4K at 60"
as_of = 2026-10-01
offers_not_older_than_days = 14
conditions = ["new"]

[[markets]]                 # the build must be affordable in every one of them
market = "IE"
currency = "EUR"
budget = "1350.00"          # what a private buyer pays

[[markets]]                 # here offers exclude tax
market = "US"
currency = "USD"
budget = "1300.00"
sales_tax = "0.08875"

[[titles]]
title = "harbour-lights"    # a row of titles.csv
weight = 3
resolution = "3840x2160"
target_fps = 60
floor_fps = 45              # hard
render_scale = 0.67         # per axis

[limits]
noise_dba = { at_most = 34, load = "title", distance_m = 1 }
cpu_c = { at_most = 85, load = "all-core" }
volume_l = { at_most = 45 }
supply_reserve_frac = 0.2

[room]
temp_c = 24

[musts]
memory_gb = 48
storage_gb = 2000
wifi = true

[worths]
quiet = "60.00"
lasting = "90.00"
saved_frac = 0.25

[keep]
psu = "owned-psu"

[accept]
verdict = "thin"
unknown = "refuse"

[accept."fit.card-length"]
verdict = "holds"

[display]
resolution = "3840x2160"
refresh_hz = 60

[because]
case = { id = "white-case", why = "matches the room" }
)";
}

std::string_view build_example() {
  return R"(name = "Loft cinema, first try"
cpu = "quick-eight"
psu = "owned-psu"
case = "white-case"
storage = ["drive-one", "drive-two"]
fan = [{ id = "calm-fan", count = 3 }]

[mounts]
fan = "front"
drive-one = "M2-1"

[[fan_speeds]]                    # as they are set in the firmware
fans = "case"
follows = "cpu"
temp_c = 45
speed_percent = 30

[[fan_speeds]]
fans = "case"
follows = "cpu"
temp_c = 80
speed_percent = 90
)";
}

std::string brief_page() {
  std::string out = fmt::format(opening, max_toml_bytes / 1024, kind_list());
  out += fmt::format("## The brief\n\n```toml\n{}```\n\n", brief_example());
  out += key_tables(keys::brief_sections, keys::brief_keys);
  out += fmt::format("## The build\n\n```toml\n{}```\n\n", build_example());
  out += key_tables(keys::build_sections, keys::build_keys);
  out.pop_back();
  return out;
}

}  // namespace rigproof
