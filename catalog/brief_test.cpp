// Briefs: every declared key is read and checked, every error stands at its place.
//
// Oracles: values typed here by hand beside the text they come from; lines counted in the text; for
// the declared keys, texts assembled here from a sample per key.
#include "catalog/brief.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "catalog/brief_keys.hpp"
#include "catalog/brief_texts.hpp"

namespace rigproof {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;

using namespace brief_texts;

TEST(Brief, TheExampleOfThePageReadsAsWritten) {
  const auto brief = read(brief_example());
  ASSERT_TRUE(brief) << brief.error().report();
  const Currency euro = *parse_currency("EUR");
  const Currency dollar = *parse_currency("USD");
  EXPECT_EQ(brief->file, "my.toml");
  EXPECT_EQ(brief->name, "Loft cinema, 4K at 60");
  EXPECT_EQ(brief->as_of, *make_date(2026, 10, 1));
  EXPECT_EQ(brief->offers_not_older_than_days, 14);
  EXPECT_THAT(brief->conditions, ElementsAre("new"));
  ASSERT_EQ(brief->markets.size(), 2U);
  EXPECT_EQ(brief->markets[0].market, "IE");
  EXPECT_EQ(brief->markets[0].budget, (Money{euro, 135000}));
  EXPECT_FALSE(brief->markets[0].sales_tax);
  EXPECT_EQ(brief->markets[1].budget, (Money{dollar, 130000}));
  EXPECT_EQ(brief->markets[1].sales_tax->numerator, 8875);
  EXPECT_EQ(brief->markets[1].sales_tax->decimals, 5);
  ASSERT_EQ(brief->titles.size(), 1U);
  const TitleGoal& title = brief->titles[0];
  EXPECT_EQ(title.title, "harbour-lights");
  EXPECT_EQ(title.weight, 3.0);
  EXPECT_EQ(title.width_px, 3840);
  EXPECT_EQ(title.height_px, 2160);
  EXPECT_EQ(title.target_fps, 60.0);
  EXPECT_EQ(title.floor_fps, 45.0);
  EXPECT_FALSE(title.p99_frame_time_fps);
  EXPECT_EQ(title.render_scale, 0.67);
  EXPECT_EQ(title.generated_per_rendered, 0);
  ASSERT_EQ(brief->limits.size(), 2U);
  EXPECT_EQ(brief->limits.at("noise_dba").at_most, 34.0);
  EXPECT_EQ(brief->limits.at("noise_dba").load, "title");
  EXPECT_EQ(brief->limits.at("noise_dba").distance_m, 1.0);
  EXPECT_EQ(brief->limits.at("cpu_c").load, "all-core");
  EXPECT_FALSE(brief->limits.at("cpu_c").distance_m);
  EXPECT_EQ(brief->volume_l_at_most, 45.0);
  EXPECT_EQ(brief->supply_reserve_frac, 0.2);
  EXPECT_TRUE(brief->room_stated);
  EXPECT_EQ(brief->memory_gib, 48.0);
  EXPECT_EQ(brief->storage_gb, 2000.0);
  EXPECT_TRUE(brief->wifi);
  EXPECT_EQ(brief->worths.at("quiet"), (Money{euro, 6000}));
  EXPECT_EQ(brief->worths.at("lasting"), (Money{euro, 9000}));
  EXPECT_EQ(brief->saved_frac, 0.25);
  ASSERT_EQ(brief->keep.size(), 1U);
  EXPECT_EQ(brief->keep[0].kind, Kind::psu);
  EXPECT_EQ(brief->keep[0].id, "owned-psu");
  ASSERT_EQ(brief->because.size(), 1U);
  EXPECT_EQ(brief->because[0].kind, Kind::chassis);
  EXPECT_EQ(brief->because[0].why, "matches the room");
  EXPECT_EQ(brief->accept.verdict, WorstVerdict::thin);
  EXPECT_EQ(brief->accept.unknown, Unknowns::refuse);
  EXPECT_EQ(brief->accept_by_rule.at("fit.card-length").verdict, WorstVerdict::holds);
  EXPECT_EQ(brief->display->refresh_hz, 60.0);
}

TEST(Brief, RemembersTheLineOfEveryKeyThatWasSet) {
  const std::string_view text = brief_example();
  const auto brief = read(text);
  ASSERT_TRUE(brief);
  const std::map<std::string, std::string> written = {
      {"name", "name ="},
      {"offers_not_older_than_days", "offers_not"},
      {"markets.IE", "[[markets]]"},
      {"markets.IE.budget", "budget = \"1350.00\""},
      {"markets.US.sales_tax", "sales_tax ="},
      {"titles.harbour-lights.floor_fps", "floor_fps ="},
      {"limits.noise_dba", "noise_dba ="},
      {"limits.noise_dba.load", "noise_dba ="},
      {"limits.volume_l", "volume_l ="},
      {"limits.supply_reserve_frac", "supply_reserve_frac ="},
      {"musts.wifi", "wifi ="},
      {"worths.quiet", "quiet ="},
      {"keep.psu", "psu ="},
      {"because.case", "case ="},
      {"display", "[display]"},
      {"display.refresh_hz", "refresh_hz"},
      {"accept.unknown", "unknown ="},
      {"accept.verdict", "verdict ="},
      {"accept.fit.card-length.verdict", "verdict = \"holds\""},
      {"room.temp_c", "temp_c"},
  };
  for (const auto& [path, what] : written) {
    ASSERT_TRUE(brief->lines.contains(path)) << path;
    EXPECT_EQ(brief->lines.at(path), line_of(text, what)) << path;
  }
  EXPECT_FALSE(brief->lines.contains("titles.harbour-lights.p99_frame_time_fps"));
  EXPECT_FALSE(brief->lines.contains("brief.name"));
}

TEST(Brief, WhatIsNotWrittenHasTheDeclaredMeaning) {
  const auto brief = read(smallest);
  ASSERT_TRUE(brief) << brief.error().report();
  EXPECT_FALSE(brief->offers_not_older_than_days);
  EXPECT_THAT(brief->conditions, ElementsAre("new"));
  EXPECT_TRUE(brief->titles.empty());
  EXPECT_TRUE(brief->limits.empty());
  EXPECT_FALSE(brief->supply_reserve_frac);
  EXPECT_FALSE(brief->room_stated);
  EXPECT_EQ(brief->room_c, 24.0);
  EXPECT_FALSE(brief->wifi);
  EXPECT_EQ(brief->saved_frac, 0.0);
  EXPECT_FALSE(brief->display);
}

// ---- every declared key -----------------------------------------------------------------------

/// A good value for each key, written by hand.
std::string sample(const KeySpec& spec) {
  static const std::map<std::string_view, std::string> values = {
      {"name", "\"a\""},
      {"as_of", "2026-10-01"},
      {"offers_not_older_than_days", "7"},
      {"lone_offers_not_older_than_days", "7"},
      {"conditions", "[\"used\", \"new\"]"},
      {"market", "\"IE\""},
      {"currency", "\"EUR\""},
      {"budget", "\"9\""},
      {"sales_tax", "\"0.1\""},
      {"mains_v", "230"},
      {"circuit_a", "16"},
      {"kwh_price", "0.3"},
      {"kwh_price_night", "0.2"},
      {"idle_h", "1"},
      {"title_h", "2.5"},
      {"all_core_h", "1"},
      {"everything_h", "0.5"},
      {"night_frac", "0.4"},
      {"running_cost_per_year", "90"},
      {"title", "\"slate-valley\""},
      {"weight", "2"},
      {"resolution", "\"1920x1080\""},
      {"target_fps", "60"},
      {"floor_fps", "30.5"},
      {"p99_frame_time_fps", "20"},
      {"render_scale", "0.5"},
      {"generated_per_rendered", "1"},
      {"cpu_frac", "0.5"},
      {"gpu_frac", "1"},
      {"hours", "2"},
      {"at_most", "40"},
      {"load", "\"idle\""},
      {"distance_m", "0.5"},
      {"supply_reserve_frac", "0.1"},
      {"temp_c", "30"},
      {"noise_dba", "25.5"},
      {"memory_gb", "32"},
      {"storage_gb", "1000"},
      {"wifi", "true"},
      {"front_usb_c", "true"},
      {"adapters", "true"},
      {"shared_lanes", "true"},
      {"quiet", "\"1\""},
      {"lasting", "\"2.50\""},
      {"saved_frac", "0.5"},
      {"KIND", "\"owned-psu\""},
      {"id", "\"owned-psu\""},
      {"why", "\"w\""},
      {"verdict", "\"holds\""},
      {"unknown", "\"accept\""},
      {"refresh_hz", "60"}};
  return values.at(spec.name);
}

/// The section as a TOML header, KIND and RULE made real.
std::string header(std::string_view section) {
  if (section == "markets" || section == "titles" || section == "loads")
    return fmt::format("[[{}]]", section);
  if (section == "because.*") return "[because.psu]";
  if (section == "accept.*") return "[accept.\"fit.card-length\"]";
  return fmt::format("[{}]", section);
}

std::string key_as_written(const KeySpec& spec) {
  return spec.name == "KIND" ? "psu" : std::string(spec.name);
}

/// A whole brief with this key set to `value` (nullptr: left out) and only required keys beside it.
std::string brief_with(const KeySpec& spec, const char* value) {
  std::string own = header(spec.section) + '\n';
  for (const KeySpec& other : keys::brief_keys) {
    if (other.section != spec.section) continue;
    if (other.name == spec.name) {
      if (value != nullptr) own += fmt::format("{} = {}\n", key_as_written(spec), value);
    } else if (other.required) {
      own += fmt::format("{} = {}\n", key_as_written(other), sample(other));
    }
  }
  if (spec.section == "brief") return own + market;
  if (spec.section == "markets") return head + own;
  if (spec.name == "running_cost_per_year") own += "[use]\ntitle_h = 3\n";
  return smallest + own;
}

TEST(BriefKeys, EachIsAcceptedWithAGoodValue) {
  for (const KeySpec& spec : keys::brief_keys)
    EXPECT_EQ(complaints_of(brief_with(spec, sample(spec).c_str())).size(), 0U)
        << only_complaint(brief_with(spec, sample(spec).c_str()));
}

// A time of day is a good value of no key at all.
TEST(BriefKeys, EachIsRefusedAtItsLineWithAValueOfAWrongType) {
  for (const KeySpec& spec : keys::brief_keys) {
    const std::string text = brief_with(spec, "07:32:00");
    const auto all = complaints_of(text);
    ASSERT_EQ(all.size(), 1U) << only_complaint(text) << text;
    EXPECT_EQ(all[0].line, static_cast<std::size_t>(line_of(text, "07:32:00"))) << text;
    EXPECT_EQ(all[0].column, key_as_written(spec).size() + 4) << text;
    EXPECT_EQ(all[0].text, "07:32:00");
    EXPECT_FALSE(all[0].expected.empty()) << text;
  }
}

TEST(BriefKeys, EachRequiredOneIsMissed) {
  for (const KeySpec& spec : keys::brief_keys) {
    const std::string text = brief_with(spec, nullptr);
    if (!spec.required) continue;
    const auto all = complaints_of(text);
    ASSERT_EQ(all.size(), 1U) << only_complaint(text) << text;
    EXPECT_THAT(all[0].what, HasSubstr(fmt::format("has no {}", spec.name)));
    EXPECT_EQ(all[0].line, static_cast<std::size_t>(line_of(text, header(spec.section))));
  }
}

TEST(BriefKeys, NumbersMayReachTheirBoundsAndNotPassThem) {
  int seen = 0;
  for (const KeySpec& spec : keys::brief_keys) {
    if (spec.type != KeyType::number && spec.type != KeyType::whole) continue;
    ++seen;
    const bool whole = spec.type == KeyType::whole;
    const double step = whole ? 1.0 : 1e-6;
    const auto problems = [&](double value) {
      const std::string text =
          whole ? fmt::format("{}", static_cast<int>(value)) : fmt::format("{:.6f}", value);
      return complaints_of(brief_with(spec, text.c_str())).size();
    };
    // A weight of 0 alone is refused for another reason (tested below).
    if (spec.name != "weight") {
      EXPECT_EQ(problems(spec.min), spec.more_than_min ? 1U : 0U)
          << spec.section << '.' << spec.name;
    }
    EXPECT_EQ(problems(spec.max), 0U) << spec.section << '.' << spec.name;
    EXPECT_GE(problems(spec.min - step), 1U) << spec.section << '.' << spec.name;
    EXPECT_EQ(problems(spec.max + step), 1U) << spec.section << '.' << spec.name;
    for (const char* odd : {"nan", "inf", "-inf"})
      EXPECT_EQ(complaints_of(brief_with(spec, odd)).size(), 1U) << spec.name << odd;
  }
  EXPECT_GT(seen, 20);
}

// A key with one letter doubled is a slip of the hand: the right one is named.
TEST(BriefKeys, AMisspeltKeyIsAnsweredWithTheNearestOne) {
  for (const KeySpec& spec : keys::brief_keys) {
    const std::string right = key_as_written(spec);
    if (right.size() < 3) continue;  // `id` is too short for a hint
    const std::string slip = right.substr(0, 2) + right.substr(1);
    const std::string text = brief_with(spec, sample(spec).c_str());
    std::string wrong = text;
    const std::string line = '\n' + right + " = ";
    const std::size_t at = wrong.rfind(line);
    ASSERT_NE(at, std::string::npos) << text;
    wrong.replace(at + 1, right.size(), slip);
    EXPECT_THAT(complaints_of(wrong),
                Contains(AllOf(Field(&Complaint::text, slip), Field(&Complaint::column, 1U),
                               Field(&Complaint::what, HasSubstr("unknown key")),
                               Field(&Complaint::expected, HasSubstr('"' + right + '"')))))
        << wrong;
  }
}

// ---- single rules -----------------------------------------------------------------------------

TEST(Brief, ACostOfAYearWithoutHoursIsRefused) {
  const std::string cost = smallest + "[limits]\nrunning_cost_per_year = 90\n";
  const std::string expected =
      "my.toml:9:25: [use] states no hours, so a year costs nothing; expected hours a day in "
      "[use], "
      "such as title_h = 3";
  EXPECT_EQ(only_complaint(cost), expected);
  EXPECT_EQ(only_complaint(cost + "[use]\nidle_h = 0\nnight_frac = 0.5\n"), expected);
  EXPECT_TRUE(complaints_of(cost + "[use]\nidle_h = 0.1\n").empty());
}

TEST(Brief, SaysPlaceWhatExpectedAndText) {
  EXPECT_EQ(
      only_complaint(
          head +
          "[[markets]]\nmarket = \"IE\"\ncurrency = \"EUR\"\nbugdet = \"1\"\nbudget = \"2\"\n"),
      "my.toml:7:1: unknown key in [[markets]]; expected \"budget\", the nearest key; got "
      "\"bugdet\"");
}

TEST(Brief, ANumberWhereMoneyBelongsIsToBeWrittenAsAString) {
  const std::string text =
      head + "[[markets]]\nmarket = \"IE\"\ncurrency = \"EUR\"\nbudget = 1350\n";
  EXPECT_THAT(only_complaint(text), AllOf(HasSubstr("my.toml:7:10: budget"),
                                          HasSubstr("write it as a string, \"1350\"")));
}

TEST(Brief, MoneyHasNoMoreDecimalsThanItsCurrency) {
  const auto with = [](const char* currency, const char* budget) {
    return head + fmt::format("[[markets]]\nmarket = \"IE\"\ncurrency = \"{}\"\nbudget = \"{}\"\n",
                              currency, budget);
  };
  EXPECT_TRUE(read(with("EUR", "10.05")));
  EXPECT_FALSE(read(with("EUR", "10.005")));
  EXPECT_TRUE(read(with("KWD", "10.005")));  // three minor digits, ISO 4217
  EXPECT_FALSE(read(with("JPY", "10.5")));   // none
  EXPECT_FALSE(read(with("EUR", "0.00")));
  EXPECT_FALSE(read(with("EUR", "-5")));
  EXPECT_FALSE(read(with("EUR", "1,350.00")));
}

TEST(Brief, MarketsAndTitlesStandOnce) {
  EXPECT_THAT(only_complaint(smallest + market),
              HasSubstr("my.toml:9:10: this market stands twice"));
  const std::string title =
      "[[titles]]\ntitle = \"slate-valley\"\nresolution = \"1920x1080\"\ntarget_fps = 60\n";
  EXPECT_TRUE(read(smallest + title));
  EXPECT_THAT(only_complaint(smallest + title + title),
              HasSubstr("my.toml:13:9: this title stands twice"));
}

TEST(Brief, AtLeastOneMarketIsNeeded) {
  EXPECT_THAT(only_complaint(head), HasSubstr("at least one [[markets]]"));
  EXPECT_THAT(only_complaint("markets = []\n" + head), HasSubstr("at least one [[markets]]"));
  EXPECT_THAT(only_complaint(head + "[markets]\nmarket = \"IE\"\n"), HasSubstr("double brackets"));
}

TEST(Brief, AnAlienCountryCodeIsExplained) {
  const auto with = [](const char* code) {
    return head +
           fmt::format("[[markets]]\nmarket = \"{}\"\ncurrency = \"GBP\"\nbudget = \"9\"\n", code);
  };
  EXPECT_TRUE(read(with("GB")));
  EXPECT_THAT(only_complaint(with("UK")), HasSubstr("expected \"GB\""));
  EXPECT_THAT(only_complaint(with("EU")), HasSubstr("not a country's code"));
  EXPECT_THAT(only_complaint(with("ie")), HasSubstr("not a country's code"));
}

TEST(Brief, SomeTitleMustWeigh) {
  const std::string title =
      "[[titles]]\ntitle = \"{}\"\nresolution = \"1920x1080\"\ntarget_fps = 60\nweight = {}\n";
  const std::string zero = fmt::format(fmt::runtime(title), "slate-valley", "0");
  EXPECT_THAT(only_complaint(smallest + zero), HasSubstr("no title has any weight"));
  EXPECT_TRUE(read(smallest + zero + fmt::format(fmt::runtime(title), "harbour-lights", "1")));
}

TEST(Brief, UnknownTitlesAndPartsAreAnsweredWithTheNearestId) {
  const std::string title =
      "[[titles]]\ntitle = \"harbor-lights\"\nresolution = \"1920x1080\"\ntarget_fps = 60\n";
  EXPECT_THAT(
      only_complaint(smallest + title),
      AllOf(HasSubstr("no such title"), HasSubstr("\"harbour-lights\""), HasSubstr("my.toml:9:9")));
  EXPECT_THAT(only_complaint(smallest + "[keep]\npsu = \"ownd-psu\"\n"),
              AllOf(HasSubstr("my.toml:9:7: no such psu"), HasSubstr("\"owned-psu\"")));
  EXPECT_THAT(only_complaint(smallest + "[because]\ncase = { id = \"wite-case\", why = \"x\" }\n"),
              AllOf(HasSubstr("my.toml:9:15: no such case"), HasSubstr("\"white-case\"")));
  EXPECT_THAT(only_complaint(smallest + "[keep]\npsu = \"calm-fan\"\n"),
              HasSubstr("is a part of kind fan; expected one of kind psu"));
}

TEST(Brief, KeepAndBecauseMayNotPullApart) {
  const std::string keep =
      smallest + "[keep]\ncase = \"white-case\"\n[because.case]\nwhy = \"x\"\n";
  EXPECT_THAT(only_complaint(keep + "id = \"black-case\"\n"),
              HasSubstr("[keep] already fixes the case: white-case"));
  EXPECT_TRUE(read(keep + "id = \"white-case\"\n"));
}

TEST(Brief, ARuleTakesWhatItDoesNotSayFromTheWhole) {
  const auto brief =
      read(smallest +
           "[accept.\"fit.card-length\"]\nverdict = \"holds\"\n"
           "[accept.\"power.reserve\"]\nunknown = \"refuse\"\n[accept]\nunknown = \"accept\"\n");
  ASSERT_TRUE(brief) << brief.error().report();
  EXPECT_EQ(brief->accept.verdict, WorstVerdict::thin);
  EXPECT_EQ(brief->accept.unknown, Unknowns::accept);
  EXPECT_EQ(brief->accept_by_rule.at("fit.card-length").verdict, WorstVerdict::holds);
  EXPECT_EQ(brief->accept_by_rule.at("fit.card-length").unknown, Unknowns::accept);
  EXPECT_EQ(brief->accept_by_rule.at("power.reserve").verdict, WorstVerdict::thin);
  EXPECT_EQ(brief->accept_by_rule.at("power.reserve").unknown, Unknowns::refuse);
}

TEST(Brief, ARuleWithoutQuotesIsExplained) {
  EXPECT_THAT(only_complaint(smallest + "[accept.fit.card-length]\nverdict = \"holds\"\n"),
              HasSubstr("engine and name in quotes"));
}

TEST(Brief, LimitsCarryTheirLoadAndOnlyNoiseADistance) {
  EXPECT_THAT(
      only_complaint(smallest + "[limits]\nnoise_dba = { at_most = 34, load = \"title\" }\n"),
      HasSubstr("has no distance_m"));
  EXPECT_THAT(
      only_complaint(smallest +
                     "[limits]\ncpu_c = { at_most = 85, load = \"idle\", distance_m = 1 }\n"),
      HasSubstr("unknown key in cpu_c"));
  EXPECT_THAT(
      only_complaint(smallest + "[limits]\ncpu_c = { at_most = 85, load = \"full\" }\n"),
      HasSubstr("expected idle, title, all-core, everything, or the name of one of [[loads]]"));
  EXPECT_THAT(only_complaint(smallest + "[limits]\ncpu_c = 85\n"),
              HasSubstr("a table: cpu_c = { ... }"));
  EXPECT_THAT(only_complaint(smallest + "[limits]\ncpu_k = 85\n"), HasSubstr("\"cpu_c\""));
}

TEST(Brief, LoadsOfItsOwn) {
  const std::string call =
      "[[loads]]\nname = \"call\"\ncpu_frac = 0.3\ngpu_frac = 0.1\nhours = 3\n";
  const auto brief = read(smallest + call +
                          "[limits]\ncpu_c = { at_most = 60, load = \"call\" }\n"
                          "running_cost_per_year = 90\n");
  ASSERT_TRUE(brief) << brief.error().report();
  ASSERT_EQ(brief->loads.size(), 1U);
  EXPECT_EQ(brief->loads[0].name, "call");
  EXPECT_EQ(brief->loads[0].cpu_frac, 0.3);
  EXPECT_EQ(brief->loads[0].gpu_frac, 0.1);
  EXPECT_EQ(brief->loads[0].hours_per_day, 3.0);
  EXPECT_EQ(brief->limits.at("cpu_c").load, "call");
  EXPECT_THAT(only_complaint(smallest + call + call), HasSubstr("already there"));
  EXPECT_THAT(only_complaint(smallest + "[[loads]]\nname = \"idle\"\ncpu_frac = 0\ngpu_frac = 0\n"),
              HasSubstr("already there"));
  EXPECT_THAT(only_complaint(smallest + call + "[use]\ntitle_h = 22\n"),
              HasSubstr("a day has not so many hours"));
  std::string many;
  for (int i = 0; i < 9; ++i)
    many += fmt::format("[[loads]]\nname = \"{}\"\ncpu_frac = 0\ngpu_frac = 0\n", i);
  EXPECT_THAT(only_complaint(smallest + many), HasSubstr("at most 8 [[loads]]"));
}

TEST(Brief, ResolutionsAreTwoSizes) {
  const auto problems = [](std::string_view size) {
    return complaints_of(smallest +
                         fmt::format("[display]\nrefresh_hz = 60\nresolution = \"{}\"\n", size))
        .size();
  };
  EXPECT_EQ(problems("3840x2160"), 0U);
  EXPECT_EQ(problems("320x200"), 0U);      // the display table's smallest
  EXPECT_EQ(problems("16384x16384"), 0U);  // and largest
  for (const char* wrong :
       {"", "x", "3840", "3840x", "x2160", "3840X2160", "3840 x 2160", "319x200", "320x199",
        "16385x200", "-3840x2160", "3840x2160x1", "99999999999x9", "4K"})
    EXPECT_EQ(problems(wrong), 1U) << wrong;
}

TEST(Brief, DatesAreDaysInTomlOrAsText) {
  const auto with = [](std::string_view date) {
    return fmt::format("[brief]\nname = \"a\"\nas_of = {}\n", date) + market;
  };
  EXPECT_TRUE(read(with("\"2026-10-01\"")));
  EXPECT_EQ(read(with("\"2024-02-29\""))->as_of, *make_date(2024, 2, 29));
  for (const char* wrong :
       {"\"2026-02-29\"", "\"01.10.2026\"", "2026-10-01T10:00:00", "1800-01-01", "20261001"})
    EXPECT_EQ(complaints_of(with(wrong)).size(), 1U) << wrong;
  // One the TOML grammar itself refuses.
  EXPECT_THAT(only_complaint(with("2026-02-29")), HasSubstr("my.toml:3:"));
}

TEST(Brief, EverythingWrongIsSaidInOneGo) {
  const auto all = complaints_of(
      "[brief]\nnam = \"a\"\nas_of = true\n"                 // unknown, missing name, wrong type
      "[[markets]]\nmarket = \"IE\"\ncurrency = \"EURO\"\n"  // no currency, no budget
      "[musts]\nwifi = \"yes\"\n[worth]\n");                 // wrong type, unknown table
  std::vector<std::size_t> lines;
  for (const Complaint& complaint : all) lines.push_back(complaint.line);
  EXPECT_THAT(lines, testing::UnorderedElementsAre(1U, 2U, 3U, 4U, 6U, 8U, 9U));
}

}  // namespace
}  // namespace rigproof
