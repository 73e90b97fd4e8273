#include "app/outlook_words.hpp"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <cmath>

#include "base/text.hpp"
#include "catalog/title_name.hpp"

namespace rigproof::app {
namespace {

using How = plan::BuildCount::How;

// Beyond a trillion, names of numbers tell people less than their digits do.
constexpr double first_power = 1e15;

double two_digits(double value) {
  if (value < 10.0) return std::round(value);
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  return std::round(value / step) * step;
}

std::string counting_number(double builds) { return readable(std::round(builds), 15); }

std::string interval_words(const plan::BuildCount& count) {
  return fmt::format("(90 %: {} to {})", how_many(count.low), how_many(count.high));
}

std::string probes_words(std::int64_t probes) {
  return counting_number(static_cast<double>(probes)) + " probes";
}

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

// "the budget in IE (line 12)".
std::string with_line(const OutlookLine& line) {
  return line.requirement.line > 0 ? fmt::format("{} (line {})", line.noun, line.requirement.line)
                                   : line.noun;
}

// "about 2.1 million would be left".
std::string left_words(const plan::BuildCount& count) {
  if (count.how == How::counted)
    return fmt::format("exactly {} would be left", counting_number(count.builds));
  if (count.how == How::few_found) return "a few would be left";
  return fmt::format("about {} would be left {}", how_many(count.builds), interval_words(count));
}

// "of 8.1 million builds that your catalog can form".
std::string of_all(const OutlookAnswer& answer) {
  return fmt::format("of {} builds that your catalog can form", how_many(answer.all_builds));
}

std::string left_sentence(const OutlookAnswer& answer) {
  const plan::BuildCount& count = answer.possible;
  switch (count.how) {
    case How::counted:
      if (count.builds == 0.0)
        return fmt::format(
            "No build is left {}: every choice of parts ends against a rule or a "
            "requirement.",
            of_all(answer));
      return fmt::format("Exactly {} {} {} left.", counting_number(count.builds), of_all(answer),
                         count.builds == 1.0 ? "is" : "are");
    case How::estimated:
      return fmt::format("About {} {} are left {}.", how_many(count.builds), of_all(answer),
                         interval_words(count));
    case How::few_found:
      return fmt::format("Few {} are left: {} of {} ended in one, too few to say how many.",
                         of_all(answer), count.found, probes_words(count.probes));
    case How::at_least:  // of a brief's own count nothing smaller is known
      break;
    case How::none_found:
      return fmt::format(
          "None found in {}, {}. There may be some all the same: `rigproof plan` "
          "finds one or proves that there is none.",
          probes_words(count.probes), of_all(answer));
    case How::not_known:
      break;
  }
  return "Stopped before it was known how many builds are left.";
}

std::string forbidding_sentence(const OutlookAnswer& answer) {
  if (answer.without.empty() || answer.possible.how == How::not_known) return {};
  const OutlookLine& most = answer.without.front();
  const bool any_left = answer.possible.builds > 0.0;
  if (most.count.builds <= 0.0)
    return "Without any one of the requirements nothing was found either: several stand against "
           "each other. `rigproof plan` says which.";
  if (!any_left)
    return fmt::format("{} stands in the way: without it {}.", capital(with_line(most)),
                       left_words(most.count));
  if (most.count.how == How::at_least)
    return fmt::format(
        "{} may forbid most of the rest: without it at least as many would be left, and too few "
        "probes ended in one to say how many more.",
        capital(with_line(most)));
  const double seen =
      answer.possible.how == How::counted ? answer.possible.builds : answer.possible.high;
  if (answer.possible.how == How::few_found && most.count.how == How::estimated)
    return fmt::format("{} forbids most of the rest: without it {}.", capital(with_line(most)),
                       left_words(most.count));
  if (most.count.low > seen || (most.count.how == How::counted && most.count.builds > seen))
    return fmt::format("{} forbids most of the rest: without it {}.", capital(with_line(most)),
                       left_words(most.count));
  if (most.count.builds <= answer.possible.builds)
    return "No requirement alone forbids more: without any one of them as many are left.";
  return fmt::format("{} seems to forbid most of the rest: without it {}.",
                     capital(with_line(most)), left_words(most.count));
}

}  // namespace

std::string how_many(double builds) {
  if (builds < 10'000.0) return counting_number(builds);
  const double rounded = two_digits(builds);
  if (rounded >= first_power) {
    const double power = std::floor(std::log10(rounded) + 1e-9);
    return fmt::format("{:.1f}e{:.0f}", rounded / std::pow(10.0, power), power);
  }
  struct Named {
    double of;
    const char* name;
  };
  constexpr std::array names = {Named{1e12, "trillion"}, Named{1e9, "billion"},
                                Named{1e6, "million"}};
  for (const Named& each : names)
    if (rounded >= each.of) return fmt::format("{} {}", readable(rounded / each.of, 2), each.name);
  return counting_number(rounded);
}

std::string count_words(const plan::BuildCount& count) {
  switch (count.how) {
    case How::counted:
      return count.builds == 0.0 ? "None."
                                 : fmt::format("Exactly {}.", counting_number(count.builds));
    case How::estimated:
      return fmt::format("About {} {}.", how_many(count.builds), interval_words(count));
    case How::few_found:
      return count.found == 0 ? std::string("Few; none of its own probes ended in a build.")
                              : fmt::format("Few: {} of {} ended in a build.", count.found,
                                            probes_words(count.probes));
    case How::at_least:
      return fmt::format(
          "At least as many as with it; {} of {} of its own ended in a build, too few to say how "
          "many more.",
          count.found, probes_words(count.probes));
    case How::none_found:
      return fmt::format("None found in {}.", probes_words(count.probes));
    case How::not_known:
      break;
  }
  return "Not known: stopped before.";
}

std::string noun_of(const Catalog& catalog, const std::string& path) {
  const auto middle = [&](std::string_view head, std::string_view tail) {
    return path.substr(head.size(), path.size() - head.size() - tail.size());
  };
  const auto is = [&](std::string_view head, std::string_view tail) {
    return path.size() > head.size() + tail.size() && path.starts_with(head) &&
           path.ends_with(tail);
  };
  if (is("markets.", ".budget")) return "the budget in " + middle("markets.", ".budget");
  if (is("markets.", ".circuit_a")) return "the circuit in " + middle("markets.", ".circuit_a");
  if (is("titles.", ".floor_fps"))
    return "the least frame rate in " + title_name(catalog, middle("titles.", ".floor_fps"));
  if (is("titles.", ".p99_frame_time_fps"))
    return "the limit on slow frames in " +
           title_name(catalog, middle("titles.", ".p99_frame_time_fps"));
  if (is("keep.", "")) return "keeping the " + middle("keep.", "");
  if (is("because.", "")) return "the choice of the " + middle("because.", "");
  struct Noun {
    std::string_view path;
    const char* noun;
  };
  constexpr std::array nouns = {
      Noun{"limits.volume_l", "the limit on the volume of the case"},
      Noun{"limits.supply_reserve_frac", "the reserve of the supply"},
      Noun{"limits.noise_dba", "the limit on noise"},
      Noun{"limits.cpu_c", "the limit on the processor's temperature"},
      Noun{"limits.gpu_c", "the limit on the card's temperature"},
      Noun{"limits.coolant_c", "the limit on the temperature of the loop's liquid"},
      Noun{"limits.board_stage_c", "the limit on the temperature of the power stage"},
      Noun{"limits.drive_c", "the limit on the drives' temperature"},
      Noun{"limits.exhaust_c", "the limit on the temperature of the air that leaves"},
      Noun{"limits.wall_power_w", "the limit on power at the wall"},
      Noun{"limits.running_cost_per_year", "the limit on what a year costs"},
      Noun{"musts.memory_gb", "the memory asked for"},
      Noun{"musts.storage_gb", "the storage asked for"},
      Noun{"musts.wifi", "the radio asked for"},
      Noun{"musts.front_usb_c", "the USB-C port at the front"},
      Noun{"display", "what the display needs"},
      Noun{"accept.verdict", "refusing claims that are thin"},
      Noun{"accept.unknown", "refusing claims that are unknown"},
      Noun{"accept.adapters", "doing without power adapters"},
      Noun{"accept.shared_lanes", "leaving the card its lanes"},
      Noun{"offers_not_older_than_days", "the age that offers may have"},
      Noun{"lone_offers_not_older_than_days", "the age that a lone seller's offer may have"}};
  for (const Noun& each : nouns)
    if (path == each.path) return each.noun;
  if (is("accept.", "")) return "what is accepted of " + middle("accept.", "");
  return path;
}

std::vector<std::string> sentences_on(const OutlookAnswer& answer) {
  std::vector<std::string> out = {left_sentence(answer)};
  if (std::string second = forbidding_sentence(answer); !second.empty())
    out.push_back(std::move(second));
  return out;
}

std::vector<std::string> notes_on(const OutlookAnswer& answer) {
  std::vector<std::string> out;
  bool any_probes = answer.possible.probes > 0;
  bool any_leaves = answer.possible.leaves > 0;
  for (const OutlookLine& line : answer.without) {
    any_probes = any_probes || line.count.probes > 0;
    any_leaves = any_leaves || line.count.leaves > 0;
  }
  if (any_probes)
    out.emplace_back(
        "About means: estimated from random probes of the choices, without bias, with the interval "
        "that holds the true number nine times in ten. The same brief and catalog give the same "
        "numbers.");
  if (any_leaves)
    out.emplace_back(
        "Temperatures and noise were judged on some of the builds that the probes came to, drawn "
        "at "
        "random; the intervals are wider for it.");
  if (!answer.without.empty())
    out.emplace_back(
        "Without a requirement means with everything else kept. A kept part that need not be used "
        "may still be used.");
  if (answer.stopped) out.emplace_back("Stopped: what is not known was not reached.");
  return out;
}

}  // namespace rigproof::app
