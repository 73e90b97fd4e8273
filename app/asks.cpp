#include "app/asks.hpp"

namespace rigproof::app {
namespace {

void brief_of(Inputs& in, Given& brief) {
  in.subject(
      {.name = "brief", .of = "BRIEF", .meaning = "What the build is for (TOML, docs/brief.md)"},
      brief, GivenKind::brief);
}

void build_of(Inputs& in, Given& build) {
  in.subject({.name = "build", .of = "BUILD", .meaning = "A build file (TOML, docs/brief.md)"},
             build, GivenKind::build);
}

void brief_beside(Inputs& in, Given& brief, std::string meaning) {
  in.beside({.name = "brief", .of = "BRIEF", .meaning = std::move(meaning)}, brief,
            GivenKind::brief);
}

void show_work(Inputs& in, bool& value) {
  in.flag({.name = "show_work", .of = "", .meaning = "Print the equations with the numbers in"},
          value);
}

}  // namespace

void declare(Inputs& in, PlanAsk& ask) {
  brief_of(in, ask.brief);
  in.whole({.name = "best",
            .of = "K",
            .meaning = "How many builds, 1 to 50; no two have the same processor and card chip"},
           ask.best, 1, 50);
  in.time_limit(
      "with the best that was found and how much more there can be; a sheet's runner-ups share "
      "this time",
      ask.time_limit_s);
}

void declare(Inputs& in, OutlookAsk& ask) { brief_of(in, ask.brief); }

void declare(Inputs& in, InsistAsk& ask) {
  brief_of(in, ask.brief);
  in.list({.name = "parts", .of = "PART", .meaning = "Ids of parts that must be in the build"},
          ask.parts);
  in.several({.name = "without",
              .of = "PART",
              .meaning = "A part that may not be in it; can be given more than once"},
             ask.without);
  in.time_limit("with the builds that were found; what lies between them is then not told",
                ask.time_limit_s);
}

void declare(Inputs& in, FrontierAsk& ask) {
  brief_of(in, ask.brief);
  in.text({.name = "from",
           .of = "MONEY",
           .meaning = "The smallest budget asked about, in money of the brief's first market"},
          ask.from);
  in.text({.name = "to",
           .of = "MONEY",
           .meaning = "The largest; budgets of other markets stay as the brief has them"},
          ask.to);
  in.time_limit("with the steps that were found, from the largest budget down", ask.time_limit_s);
}

void declare(Inputs& in, RepairAsk& ask) {
  brief_of(in, ask.brief);
  build_of(in, ask.build);
  in.maybe_whole(
      {.name = "most_swaps", .of = "N", .meaning = "Give up beyond so many parts changed, 0 to 50"},
      ask.most_swaps, 0, 50);
  in.time_limit("with the fewest swaps if they were found by then", ask.time_limit_s);
}

void declare(Inputs& in, ClaimsAsk& ask) {
  build_of(in, ask.build);
  brief_beside(in, ask.brief, "Hold the build against this brief as well");
  in.measured(ask.measured);
}

void declare(Inputs& in, FitAsk& ask) {
  build_of(in, ask.build);
  brief_beside(in, ask.brief,
               "Its limits, and what it accepts; remedies cost and keep what it says");
  in.measured(ask.measured);
}

void declare(Inputs& in, PowerAsk& ask) {
  build_of(in, ask.build);
  brief_beside(in, ask.brief,
               "Its markets (mains_v, circuit_a, kwh_price), hours of use and limits");
  in.beside({.name = "beside", .of = "BUILD", .meaning = "Hold a year of it beside this build"},
            ask.beside, GivenKind::build);
  show_work(in, ask.show_work);
  in.measured(ask.measured);
}

void declare(Inputs& in, AirAsk& ask) {
  build_of(in, ask.build);
  brief_beside(in, ask.brief, "Its room and its limits on temperature and noise");
  in.number({.name = "speed",
             .of = "PERCENT",
             .meaning = "Run all fans at this share of full speed, 10 to 100, instead of what the "
                        "build file sets or the quietest that keeps the limits"},
            ask.speed_percent, 10.0, 100.0, "percent");
  in.number({.name = "cooler_speed",
             .of = "PERCENT",
             .meaning = "The same for the cooler's fans alone; the case's as speed says, else as "
                        "without it"},
            ask.cooler_speed_percent, 10.0, 100.0, "percent");
  in.number({.name = "distance",
             .of = "METERS",
             .meaning = "Heard from so many meters, 0.1 to 10, where the brief does not say"},
            ask.distance_m, 0.1, 10.0, "meters");
  show_work(in, ask.show_work);
  in.measured(ask.measured);
}

void declare(Inputs& in, SheetAsk& ask) {
  build_of(in, ask.build);
  brief_beside(in, ask.brief, "Add prices, titles and runner-ups under this brief");
}

void declare(Inputs& in, CheckAsk& ask) {
  brief_beside(in, ask.brief, "Count for the parts this brief may use, and with what it asks for");
  in.whole({.name = "top",
            .of = "N",
            .meaning = "How many cells to look up first, 0 to 1000, ranked as in "
                       "docs/decisions/0006-what-to-look-up-first.md"},
           ask.top, 0, 1000);
}

}  // namespace rigproof::app
