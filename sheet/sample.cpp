#include "sheet/sample.hpp"

#include <array>

#include "base/contract.hpp"

// A sample sets the members it needs.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace rigproof::sheet {
namespace {

Money eur(std::int64_t minor) { return {parse_currency("EUR").value_or(Currency{}), minor}; }
Money usd(std::int64_t minor) { return {parse_currency("USD").value_or(Currency{}), minor}; }

std::vector<PartLine> parts() {
  std::vector<PartLine> out;
  const auto add = [&](const char* place, const char* kind, const char* id, const char* name,
                       const char* maker, const char* code, int count) -> PartLine& {
    out.push_back({.place = place,
                   .kind = kind,
                   .id = id,
                   .name = name,
                   .maker = maker,
                   .maker_code = code,
                   .count = count,
                   .why = {}});
    return out.back();
  };
  PartLine& board =
      add("board tray", "board", "harrowgate-b7", "Harrowgate B7 small", "Harrowgate", "HB7-M2", 1);
  board.why = "The cheapest board that feeds the card sixteen lanes and has two drive sockets.";
  board.runner_up = RunnerUp{.name = "Harrowgate B9",
                             .id = "harrowgate-b9",
                             .score_change = eur(-610),
                             .price_change = eur(2450),
                             .gains = {"A third drive socket."},
                             .loses = {"24.50 EUR of the budget, of which a quarter counts."}};
  PartLine& cpu =
      add("processor socket", "cpu", "kestle-6c", "Kestle six-core", "Kestle", "K6-3550", 1);
  cpu.why = "Fast enough that the card sets the pace in five of six titles at 3840 x 2160.";
  cpu.runner_up = RunnerUp{.name = "Kestle eight-core",
                           .id = "kestle-8c",
                           .score_change = eur(-1842),
                           .price_change = eur(7100),
                           .gains = {"Slow frames of Salt and Sail 0.7 ms shorter."},
                           .loses = {"71.00 EUR dearer.", "Noise while playing 0.6 dB(A) higher."}};
  PartLine& cooler = add("on the processor", "cooler", "quillfen-tower-158",
                         "Quillfen single tower", "Quillfen", "QT-158", 1);
  cooler.why = "The lowest tower that keeps 85 degrees at the speed the noise limit leaves.";
  cooler.runner_up =
      RunnerUp{.name = "Quillfen double tower",
               .id = "quillfen-tower-165",
               .score_change = eur(-390),
               .price_change = eur(1900),
               .gains = {"Processor 6 degrees cooler with all cores at work."},
               .loses = {"5 mm too high for the side panel without the thinner fan."}};
  PartLine& memory = add("memory slots 2 and 4", "memory", "ostermill-48-kit",
                         "Ostermill 48 GiB kit, two modules", "Ostermill", "OM-48K2-60", 1);
  memory.why =
      "The brief asks for 48 GiB; this is the cheapest kit at the speed the processor takes.";
  memory.runner_up = RunnerUp{.name = "Ostermill 48 GiB low kit",
                              .id = "ostermill-48-low",
                              .score_change = eur(-275),
                              .price_change = eur(1100),
                              .gains = {"Stands free of the cooler's fan."},
                              .loses = {"11.00 EUR dearer."}};
  PartLine& drive = add("drive socket 1 on the board", "storage", "sable-2t", "Sable 2 TB drive",
                        "Sable Works", "SB-2T-N", 1);
  drive.why = "The cheapest 2,000 GB whose write speed is stated.";
  drive.runner_up = RunnerUp{.name = "Sable 4 TB drive",
                             .id = "sable-4t",
                             .score_change = eur(-2105),
                             .price_change = eur(8420),
                             .gains = {"Twice the room."},
                             .loses = {"84.20 EUR dearer."}};
  PartLine& card = add("card slot, upright", "gpu", "brackwell-arc-16",
                       "Brackwell sixteen, two fans", "Brackwell", "BW-16-2F", 1);
  card.why = "It sets the pace: 60 frames a second at 3840 x 2160 drawn at 67 % per axis.";
  card.runner_up = RunnerUp{.name = "Ostermill twelve, three fans",
                            .id = "ostermill-12-3f",
                            .score_change = eur(-3318),
                            .price_change = eur(-6200),
                            .gains = {"62.00 EUR cheaper.", "Noise while playing 1.1 dB(A) lower."},
                            .loses = {"Salt and Sail at 52 frames a second instead of 61.",
                                      "Moss Court no longer fits into the card's memory."}};
  PartLine& chassis = add("around it all", "case", "tarnholt-case-41", "Tarnholt 41, white",
                          "Tarnholt", "TH-41-W", 1);
  chassis.origin = Origin::forced;
  chassis.why = "It matches the room.";
  chassis.because_cost = eur(1240);
  chassis.runner_up =
      RunnerUp{.name = "Tarnholt 44, black",
               .id = "tarnholt-case-44",
               .score_change = eur(1240),
               .price_change = eur(-2300),
               .gains = {"23.00 EUR cheaper.", "The card clears the fans by 22 mm."},
               .loses = {"It is black."}};
  PartLine& fans = add("front face, upper and lower", "fan", "tidewell-120", "Tidewell 120 slow",
                       "Tidewell", "TW-120-900", 2);
  fans.why = "Two intakes keep the card's memory under its limit at 780 rpm.";
  fans.runner_up = RunnerUp{.name = "Tidewell 140 slow",
                            .id = "tidewell-140",
                            .score_change = eur(-120),
                            .price_change = eur(480),
                            .gains = {"0.3 dB(A) quieter."},
                            .loses = {"The radiator mount at the front is blocked."}};
  PartLine& exhaust = add("rear face", "fan", "tarnholt-case-41-fan",
                          "Fan that comes with the case", "Tarnholt", "", 1);
  exhaust.why = "Comes with the case and costs nothing.";
  PartLine& psu =
      add("supply chamber", "psu", "veldrun-750", "Veldrun 750 gold", "Veldrun", "VD-750-G3", 1);
  psu.origin = Origin::kept;
  psu.why = "Already there: costs nothing here and must be used.";
  psu.runner_up = RunnerUp{};
  return out;
}

Quantity between(double value, double low, double high, const char* unit) {
  return {.value = value, .low = low, .high = high, .unit = unit};
}

std::vector<TitleLine> titles() {
  std::vector<TitleLine> out;
  const auto add = [&](const char* id, const char* name, double target, double ms, double frac,
                       double p99_ms) {
    TitleLine title{.id = id,
                    .name = name,
                    .resolution = "3840x2160",
                    .render_scale = 0.67,
                    .target_fps = target};
    title.frame_time_ms = between(ms, ms * (1 - frac), ms * (1 + frac), "ms");
    title.p99_frame_time_ms =
        between(p99_ms, p99_ms * (1 - 1.3 * frac), p99_ms * (1 + 1.3 * frac), "ms");
    title.rendered_fps =
        between(1000 / ms, 1000 / (ms * (1 + frac)), 1000 / (ms * (1 - frac)), "fps");
    title.displayed_fps = title.rendered_fps;
    title.p99_frame_time_fps = between(1000 / p99_ms, 1000 / (p99_ms * (1 + 1.3 * frac)),
                                       1000 / (p99_ms * (1 - 1.3 * frac)), "fps");
    out.push_back(title);
  };
  add("harbour-lights", "Harbour Lights", 60, 14.66, 0.065, 20.1);
  out.back().floor_fps = 45, out.back().weight = 3;
  add("copper-rally", "Copper Rally", 60, 11.36, 0.062, 15.2);
  add("salt-and-sail", "Salt and Sail", 60, 16.42, 0.066, 22.9);
  add("moss-court", "Moss Court", 120, 9.1, 0.08, 13.4);
  out.back().generated_per_rendered = 1;
  out.back().displayed_fps = between(219.8, 203, 239, "fps");
  add("paper-delta", "Paper Delta", 60, 14.08, 0.064, 17.7);
  TitleLine unknown{
      .id = "ninth-lantern", .name = "Ninth Lantern", .resolution = "3840x2160", .target_fps = 60};
  unknown.why_unknown =
      "titles.csv, ninth-lantern, demand_ray is absent; one measured run on any card of a known "
      "chip settles it.";
  out.push_back(unknown);
  return out;
}

struct Offer {
  std::int64_t ie_minor, us_minor;
  const char* ie_seller;
  const char* us_seller;
  int ie_age, us_age;
  bool ie_commission;
};

// In the order of parts().
constexpr std::array<Offer, 10> offers = {{
    {13490, 13995, "Kiln Street Parts", "Stall Nine", 3, 2, true},
    {21900, 21995, "Kiln Street Parts", "Stall Nine", 3, 2, true},
    {3890, 4100, "Long Quay", "Stall Nine", 1, 6, false},
    {15900, 16450, "Long Quay", "Foundry Row", 1, 1, false},
    {11850, 12490, "Kiln Street Parts", "Foundry Row", 9, 1, true},
    {56900, 60150, "Long Quay", "Stall Nine", 1, 2, false},
    {8900, 9250, "Kiln Street Parts", "Foundry Row", 3, 11, true},
    {680, 795, "Long Quay", "Stall Nine", 1, 2, false},
    {0, 0, "", "", 0, 0, false},
    {0, 0, "", "", 0, 0, false},
}};

MarketPrices market(bool ie, const std::vector<PartLine>& lines, Date as_of) {
  const auto money = ie ? eur : usd;
  MarketPrices out{.market = ie ? "IE" : "US",
                   .lines = {},
                   .total = money(0),
                   .budget = money(ie ? 135000 : 145000),
                   .left = money(0),
                   .shipping_upper = money(ie ? 1490 : 2250),
                   .note = {}};
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Offer& offer = offers.at(i);
    const std::int64_t each = ie ? offer.ie_minor : offer.us_minor;
    PriceLine line{.part_id = lines[i].id,
                   .part_name = lines[i].name,
                   .count = lines[i].count,
                   .each = money(each),
                   .line = money(each * lines[i].count),
                   .seller = ie ? offer.ie_seller : offer.us_seller};
    line.tax_note = line.seller.empty() ? "already there"
                    : ie                ? "tax included"
                                        : "7.25 % sales tax added";
    line.commission = ie && offer.ie_commission;
    if (!line.seller.empty()) {
      line.age_days = ie ? offer.ie_age : offer.us_age;
      line.seen = Date{as_of.days - line.age_days};
      line.good_until = Date{line.seen->days + 14};
      line.condition = "new";
      line.alone = ie && i == 6;
      if (i != 2) line.stock = static_cast<int>(3 + i);
      if (i % 3 != 2) line.warranty_months = i == 7 ? 0 : 24;
    }
    out.total.minor += line.line.minor;
    out.lines.push_back(line);
  }
  out.left.minor = out.budget.minor - out.total.minor;
  out.note =
      "Each part at its cheapest admissible offer; delivery from two sellers is not in the total.";
  return out;
}

Proof proof() {
  return {
      .status = "proven",
      .bound = eur(151233),
      .nodes = 48213,
      .leaves = 312,
      .pruned = {{"a better build was already known", 39112},
                 {"over a budget", 6120},
                 {"a rule of two parts fails", 2533},
                 {"physics at the leaf", 136}},
      .note =
          "No build of this catalog scores more under this brief and this model. It says nothing "
          "about parts that are not in the catalog, nor about offers seen after the date."};
}

PlannedBuild build(const std::vector<MarketPrices>& markets) {
  PlannedBuild out{.score = eur(151233),
                   .parts = parts(),
                   .titles = titles(),
                   .odds_best = 0.62,
                   .odds_all_hold = 0.41,
                   .claims = sample_claims()};
  for (const MarketPrices& market : markets) {
    out.markets.push_back(market.market);
    out.prices.push_back(market.total);
  }
  return out;
}

}  // namespace

Sheet sample_sheet() {
  Sheet out{.title = "Loft cinema, 4K at 60",
            .lead = {},
            .file_stem = "loft-cinema",
            .as_of = parse_date("2026-10-01").value_or(Date{}),
            .drawn_by = "Saltmarsh Lane bench",
            .catalog_note =
                "Invented parts, sellers and titles: nothing here can be bought, and nothing was "
                "measured.",
            .part_count = 612,
            .build = {},
            .proof = proof()};
  out.job =
      "A white living-room PC for couch play at 4K (3840 x 2160), quieter than 34 dB(A) at 1 m, "
      "for "
      "at most 1,350 euro in IE and 1,450 US dollars in US, as of 1 October 2026.";
  out.lead = "The proven best of 612 parts.";
  const std::vector<PartLine> lines = parts();
  out.markets = {market(true, lines, out.as_of), market(false, lines, out.as_of)};
  out.build = build(out.markets);
  out.cautions = {
      {"Mains",
       "Switch off and unplug before opening the case. The supply itself is not for users to open: "
       "parts inside stay charged to hundreds of volts after unplugging.",
       "IEC 62368-1, from memory"},
      {"Static",
       "Touch bare metal of the case, or wear a wrist strap, before touching parts: they are "
       "damaged far below what a person feels.",
       "IEC 61340-5-1, from memory"},
      {"Kept supply",
       "Use only the cables that came with this supply. Cables of another set can fit and still "
       "destroy hardware.",
       "common practice, no source"},
      {"Long card", "Support a heavy card while the machine is carried; take it out for transport.",
       "common practice, no source"},
      {"Glass and lifting",
       "Tempered glass breaks all at once: lay panels on something soft, away from hard floors. "
       "Lift with both hands.",
       "EN 12150-1, from memory"},
  };
  out.disclosures = {
      {"Invented", "Parts, sellers and titles are invented: nothing here can be bought."},
      {"Kept parts", "Already there, and counted at no cost: Veldrun 750 gold."},
      {"Links that earn money",
       "The publisher earns money when somebody buys through 4 of the 16 offers shown."}};
  out.notes = {"lasting: not judged yet, scores 0.",
               "Delivery is left out of the price; its upper bound is said per market."};
  out.physics = sample_physics();
  return out;
}

Plan sample_plan() {
  const Sheet sheet = sample_sheet();
  Plan out{.brief_name = sheet.title,
           .brief_file = "briefs/loft-cinema.toml",
           .as_of = sheet.as_of,
           .proof = sheet.proof,
           .builds = {sheet.build, sheet.build},
           .conflicts = {},
           .notes = sheet.notes};
  PlannedBuild& second = out.builds[1];
  second.score = eur(147915);
  second.prices = {eur(127990), usd(134500)};
  second.odds_best = 0.21;
  PartLine& card = second.parts[5];
  card.id = "ostermill-12-3f", card.name = "Ostermill twelve, three fans", card.maker = "Ostermill";
  return out;
}

Plan sample_conflict() {
  Plan out{.brief_name = "Silent, tiny and fast",
           .brief_file = "briefs/impossible.toml",
           .as_of = parse_date("2026-10-01").value_or(Date{}),
           .proof = proof(),
           .builds = {},
           .conflicts = {},
           .notes = {}};
  out.proof.status = "impossible";
  out.proof.bound = {};
  out.conflicts = {
      {.requirements = {{"markets.IE.budget", 7, "at most 600.00 EUR in IE",
                         Relaxation{.how = "value",
                                    .says = "38.00 EUR more: 638.00 EUR",
                                    .money_to = eur(63800),
                                    .money_by = eur(3800),
                                    .value_to = {},
                                    .value_by = {},
                                    .unit = {},
                                    .step = {}}},
                        {"limits.noise_dba", 19, "at most 24 dB(A) at 1 m while playing"},
                        {"titles.harbour-lights.floor_fps", 13,
                         "Harbour Lights never under 45 frames a second"}},
       .through = {"market.budget", "air.noise", "forecast.floor"}}};
  return out;
}

Sheet small_sheet() {
  Sheet out{.title = "Two parts & a claim",
            .job = "Two parts, to look at.",
            .lead = "Small enough to check by eye.",
            .file_stem = "two-parts",
            .as_of = parse_date("2026-10-01").value_or(Date{}),
            .drawn_by = {},
            .catalog_note = {},
            .part_count = 2,
            .build = {},
            .proof = proof()};
  const Sheet whole = sample_sheet();
  out.build = {.score = eur(151233),
               .prices = {eur(35390)},
               .markets = {"IE"},
               .parts = {whole.build.parts[0], whole.build.parts[1]},
               .titles = {whole.build.titles[0]}};
  for (const Claim& claim : whole.build.claims)
    if (claim.id == "fit.gpu-length" || claim.id == "air.noise" || claim.id == "match.m2-lanes" ||
        claim.id == "match.socket")
      out.build.claims.push_back(claim);
  MarketPrices ie = whole.markets[0];
  ie.lines.resize(2);
  ie.total = eur(35390);
  ie.left = eur(135000 - 35390);
  out.markets = {ie};
  out.cautions = {whole.cautions[0]};
  out.notes = {whole.notes[0]};
  out.disclosures = {whole.disclosures[1], whole.disclosures[2]};
  return out;
}

}  // namespace rigproof::sheet
