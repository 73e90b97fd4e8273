// Loading whole folders: what is accepted, and every kind of bad input with its exact place. Lines
// and columns are counted by hand in the rows given; the tables are small_catalog's unless one is
// replaced.
#include "catalog/load.hpp"

#include <gtest/gtest.h>

#include <map>

#include "base/text.hpp"

namespace rigproof {
namespace {

using Folder = std::map<std::string, std::string>;

const std::string offers_header =
    "part,seller,market,seen,condition,price,currency,tax_included,stock\n";

Folder good_folder() {
  return {
      {"cpu.csv",
       "id,name,socket,cores,sustained_power_w,picture\nquick-six,Quick Six,S1,6,95.5,yes\n"},
      {"board.csv", "id,name\nplain-board,Plain Board\n"},
      {"memory.csv", "id,name\npair-32,Pair 32\n"},
      {"gpu.csv", "id,name,length_mm\nbroad-card,Broad Card,300\n"},
      {"storage.csv", "id,name\ndrive-one,Drive One\n"},
      {"cooler.csv", "id,name,height_mm\ntall-tower,Tall Tower,160\nflat-one,Flat One,\n"},
      {"case.csv", "id,name,form_factors\nwhite-case,White Case,ATX|Mini-ITX\n"},
      {"psu.csv", "id,name\nowned-psu,Owned Supply\n"},
      {"sellers.csv",
       "id,name,market,shipping_upper,currency\nshop-a,Shop A,IE,7.5,EUR\nshop-b,Shop B,US,,\n"},
      {"offers.csv", offers_header + "quick-six,shop-a,IE,2026-09-20,new,199.90,EUR,yes,3\n"}};
}

Folder with(const std::string& file, const std::string& text) {
  Folder folder = good_folder();
  folder[file] = text;
  return folder;
}

// In map order, which is not the schema's: the order of files given must not matter.
tl::expected<Loaded, Complaints> load(const Folder& folder, bool skip_bad = false) {
  std::vector<TableFile> files;
  for (const auto& [name, bytes] : folder) files.push_back({name, bytes});
  return load_catalog(files, {.skip_bad = skip_bad});
}

Catalog loaded(const Folder& folder) {
  auto got = load(folder);
  if (!got) throw std::runtime_error(got.error().report());
  return std::move(got->catalog);
}

// `line:column: what; expected ...; got` of all complaints must contain these texts, one each, in
// this order.
void expect_complaints(const Folder& folder, const std::vector<std::string>& wanted) {
  const auto got = load(folder);
  ASSERT_FALSE(got) << "loaded, but should not";
  EXPECT_EQ(got.error().count(), wanted.size()) << got.error().report();
  for (std::size_t i = 0; i < std::min(wanted.size(), got.error().shown().size()); ++i) {
    const std::string text = to_string(got.error().shown()[i]);
    EXPECT_NE(text.find(wanted[i]), std::string::npos)
        << "wanted: " << wanted[i] << "\ngot:    " << text;
  }
}

void expect_cpu(const std::string& text, const std::vector<std::string>& wanted) {
  Folder folder = with("cpu.csv", text);
  folder["offers.csv"] = offers_header;
  expect_complaints(folder, wanted);
}

void expect_offers(const std::string& rows, const std::vector<std::string>& wanted) {
  expect_complaints(with("offers.csv", offers_header + rows), wanted);
}

TEST(Load, GivesEveryValueOfAGoodFolder) {
  const Catalog c = loaded(
      with("titles.csv",
           "id,name,cpu_ms,cpu_log_sd,raster_ms,raster_ms_per_mpix,gpu_log_sd,stage_correlation,"
           "megapixels_low,megapixels_high\nslate,Slate Valley,5,0.1,2,1,0.1,-0.5,1,9\n"));
  EXPECT_EQ(c.part_count(), 9U);
  const PartRef cpu = c.find_part("quick-six").value();
  EXPECT_EQ(cpu, (PartRef{Kind::cpu, 0}));
  EXPECT_EQ(c.id(cpu), "quick-six");
  EXPECT_EQ(c.name(cpu), "Quick Six");
  EXPECT_EQ(c.word(column("cpu", "socket"), 0), "S1");
  EXPECT_EQ(c.number(column("cpu", "cores"), 0), 6.0);
  EXPECT_EQ(c.number(column("cpu", "sustained_power_w"), 0), 95.5);
  EXPECT_EQ(c.flag(column("cpu", "picture"), 0), true);
  EXPECT_TRUE(c.absent(column("cpu", "frame_speed"), 0));
  EXPECT_FALSE(c.flag(column("board", "wifi"), 0).has_value());
  EXPECT_TRUE(c.has_token(column("case", "form_factors"), 0, "Mini-ITX"));
  EXPECT_FALSE(c.has_token(column("case", "form_factors"), 0, "ITX"));
  EXPECT_EQ(c.number(column("titles", "stage_correlation"), 0), -0.5);
  EXPECT_EQ(c.find_row(table("titles"), "slate"), Row{0});
  EXPECT_FALSE(c.find_row(table("titles"), "quick-six"));
  EXPECT_FALSE(c.find_row(table("gpu"), "quick-six"));
  EXPECT_FALSE(c.find_part("nobody"));
  EXPECT_EQ(c.minor(column("sellers", "shipping_upper"), 0), 750);
  EXPECT_FALSE(c.minor(column("sellers", "shipping_upper"), 1));
  ASSERT_EQ(c.rows(table("offers")), 1U);
  EXPECT_EQ(c.part(column("offers", "part"), 0), cpu);
  EXPECT_EQ(c.reference(column("offers", "seller"), 0), Row{0});
  EXPECT_EQ(c.minor(column("offers", "price"), 0), 19990);
  EXPECT_EQ(c.date(column("offers", "seen"), 0), make_date(2026, 9, 20));
  EXPECT_EQ(c.row_key(table("offers"), 0), "quick-six/shop-a/IE/2026-09-20/new");
  EXPECT_EQ(c.line(table("cooler"), 1), 3U);
  EXPECT_TRUE(c.present(table("titles")));
  EXPECT_FALSE(c.present(table("fan")));
}

TEST(Load, SemicolonsWithDecimalCommasGiveTheSameValues) {
  const Catalog c = loaded(
      with("cpu.csv", "\xEF\xBB\xBFid;name;sustained_power_w\r\nquick-six;Quick, Six;95,5\r\n"));
  EXPECT_EQ(c.number(column("cpu", "sustained_power_w"), 0), 95.5);
  EXPECT_EQ(c.name({Kind::cpu, 0}), "Quick, Six");
  const Catalog money =
      loaded(with("offers.csv",
                  "part;seller;market;seen;condition;price;currency;tax_included\n"
                  "quick-six;shop-a;IE;2026-09-20;new;199,90;EUR;yes\n"));
  EXPECT_EQ(money.minor(column("offers", "price"), 0), 19990);
  EXPECT_EQ(loaded(with("cpu.csv", "id;name;sustained_power_w\nquick-six;Q;95.5\n"))
                .number(column("cpu", "sustained_power_w"), 0),
            95.5);
}

TEST(Load, OneFileKeepsToOneDecimalSign) {
  // Line 3 is the second kind seen, though line 4 has it too; each of the later kind is bad.
  expect_cpu("id;name;sustained_power_w\nquick-six;Q;95,5\na;A;65.5\nb;B;70.5\nc;C;105,5\n",
             {"cpu.csv:3:5: the number has a decimal point, but line 2 of this file has a decimal "
              "comma; expected one "
              "decimal sign in a file; got \"65.5\"",
              "cpu.csv:4:5: the number has a decimal point"});
  expect_cpu("id;name;sustained_power_w\nquick-six;Q;1.095,5\n",
             {"cpu.csv:2:13: the number has both"});
  expect_cpu("id,name,sustained_power_w\nquick-six,Q,\"95,5\"\n",
             {"cpu.csv:2:13: the number has a comma"});
}

TEST(Load, NumbersAreFiniteAndInRange) {
  expect_cpu(
      "id,name,sustained_power_w,cores\n"
      "a,A,-3,4\nb,B,1200,4\nc,C,0.5,4\nd,D,nan,4\ne,E,inf,4\nf,F,65 "
      "W,4\ng,G,65,4.5\nh,H,1e400,4\ni,I,65,-1\n",
      {"cpu.csv:2:5: sustained_power_w is negative; expected 1 to 1000 W; got \"-3\"",
       "cpu.csv:3:5: sustained_power_w is too large; expected 1 to 1000 W; got \"1200\"",
       "cpu.csv:4:5: sustained_power_w is too small; expected 1 to 1000 W; got \"0.5\"",
       "cpu.csv:5:5: sustained_power_w is not a finite number",
       "cpu.csv:6:5: sustained_power_w is not a finite",
       "cpu.csv:7:5: sustained_power_w is not a finite number; expected a number of W",
       "cpu.csv:8:8: cores is not whole", "cpu.csv:9:5: sustained_power_w is not a finite",
       "cpu.csv:10:8: cores is negative; expected 1 to 256; got \"-1\""});
}

TEST(Load, BoundsBelongToTheRange) {
  const Catalog c =
      loaded(with("cpu.csv", "id,name,cores,memory_max_gib\nquick-six,A,1,8192\nb,B,256,1\n"));
  EXPECT_EQ(c.number(column("cpu", "cores"), 1), 256.0);
}

TEST(Load, WordsFlagsDatesAndCodesAreChecked) {
  expect_complaints(with("board.csv", "id,name,form_factor,wifi\na,A,MicroATX,yes\nb,B,ATX,true\n"),
                    {"board.csv:2:5: form_factor has no such choice; expected one of ATX, "
                     "microATX, Mini-ITX (did you "
                     "mean \"microATX\"?); got \"MicroATX\"",
                     "board.csv:3:9: not an answer; expected yes or no; got \"true\""});
  expect_complaints(
      with("case.csv", "id,name,form_factors\na,A,ATX|EATX\nb,B,ATX||Mini-ITX\nc,C,ATX|ATX\n"),
      {"case.csv:2:5: form_factors has no such choice",
       "case.csv:3:5: form_factors has an empty word",
       "case.csv:4:5: form_factors names \"ATX\" twice"});
  expect_complaints(
      with("sellers.csv", "id,name,market\nshop-a,A,UK\nb,B,EL\nc,C,ie\nd,D,XX\n"),
      {"sellers.csv:2:10: market is not a known market; expected GB",
       "sellers.csv:3:5: market is not a known market; expected GR",
       "sellers.csv:4:5: market is not a known market; expected IE, in capital letters",
       "sellers.csv:5:5: market is not a known market"});
  expect_cpu("id,name\nQuick Six,A\nquick--six,A\n,A\nd,\n",
             {"cpu.csv:2:1: id is not a slug", "cpu.csv:3:1: id is not a slug",
              "cpu.csv:4:1: id is empty; expected a value", "cpu.csv:5:3: name is empty"});
}

TEST(Load, OffersAreChecked) {
  expect_offers(
      "quick-six,shop-a,IE,2026-02-30,new,1,EUR,yes,\n"
      "quick-six,shop-a,IE,2026-09-21,new,-1,EUR,yes,\n"
      "quick-six,shop-a,IE,2026-09-22,new,1.999,EUR,yes,\n"
      "quick-six,shop-a,IE,2026-09-23,mint,1,EUR,yes,\n"
      "quick-six,shop-a,IE,2026-09-24,new,1,EURO,yes,\n"
      "quick-six,shop-a,IE,2026-09-25,new,,EUR,yes,1.5\n",
      {"offers.csv:2:21: not a date; expected a day of the years 1900 to 2199, as YYYY-MM-DD",
       "offers.csv:3:36: the amount is negative; expected 0 EUR or more; got \"-1\"",
       "offers.csv:4:36: not an amount of EUR", "offers.csv:5:32: condition has no such choice",
       "offers.csv:6:38: currency is not a known currency", "offers.csv:7:36: price is empty",
       "offers.csv:7:45: stock is not whole"});
}

TEST(Load, AnAmountNeedsACurrencyAndKeepsItsDigits) {
  expect_complaints(with("sellers.csv", "id,name,market,shipping_upper,currency\nshop-a,A,IE,5,\n"),
                    {"sellers.csv:2:13: the amount has no currency"});
  // JPY has no minor unit, KWD has three digits ([iso-4217]).
  const Catalog c = loaded(with("sellers.csv",
                                "id,name,market,shipping_upper,currency\nshop-a,A,IE,5,EUR\n"
                                "b,B,JP,500,JPY\nc,C,KW,1.25,KWD\n"));
  EXPECT_EQ(c.minor(column("sellers", "shipping_upper"), 1), 500);
  EXPECT_EQ(c.minor(column("sellers", "shipping_upper"), 2), 1250);
}

TEST(Load, ReferencesMustResolve) {
  expect_offers(
      "quick-sixx,shop-a,IE,2026-09-20,new,1,EUR,yes,\nquick-six,shop-x,IE,2026-09-20,new,1,EUR,"
      "yes,\n",
      {"offers.csv:2:1: there is no such part; expected an id that exists; did you mean "
       "\"quick-six\"?; got "
       "\"quick-sixx\"",
       "offers.csv:3:11: there is no such row in sellers.csv; expected an id that exists; did you "
       "mean \"shop-a\"?; "
       "got \"shop-x\""});
  expect_complaints(with("cooler_sockets.csv", "cooler,socket\nquick-six,S1\ntall-tower,S1\n"),
                    {"cooler_sockets.csv:2:1: there is no such row in cooler.csv; expected an id "
                     "of cooler.csv, not one of "
                     "cpu.csv; got \"quick-six\""});
}

TEST(Load, IdsAreUniqueOverAllPartTables) {
  expect_cpu("id,name\nquick-six,A\nb,B\nquick-six,C\n",
             {"cpu.csv:4:1: the id \"quick-six\" appears twice; expected an id of its own; the "
              "first stands in cpu.csv:2"});
  expect_complaints(with("psu.csv", "id,name\nowned-psu,O\nwhite-case,W\n"),
                    {"psu.csv:3:1: the id \"white-case\" appears twice; expected an id of its own; "
                     "the first stands in case.csv:2"});
  // A seller may be called like a part.
  EXPECT_TRUE(load(with("sellers.csv", "id,name,market\nshop-a,A,IE\nquick-six,B,IE\n")));
}

TEST(Load, KeysOfSeveralColumnsAreUnique) {
  expect_complaints(
      with("cooler_sockets.csv",
           "cooler,socket\ntall-tower,S1\ntall-tower,S2\nflat-one,S1\ntall-tower,S1\n"),
      {"cooler_sockets.csv:5:1: the row's key appears twice; expected cooler + socket that differ "
       "from those in "
       "cooler_sockets.csv:2"});
}

TEST(Load, AMarketHasOneCurrency) {
  expect_offers(
      "quick-six,shop-a,IE,2026-09-20,new,1,EUR,yes,\npair-32,shop-b,US,2026-09-20,new,1,USD,no,\n"
      "pair-32,shop-a,IE,2026-09-20,new,1,GBP,yes,\n",
      {"offers.csv:4:36: the market IE has offers in two currencies; expected EUR, as in "
       "offers.csv:2; got \"GBP\""});
}

TEST(Load, FanPointsMakeACurve) {
  const auto points = [](const std::string& rows) {
    auto files = with("fan.csv", "id,name\ncalm-fan,A\nquick-fan,B\n");
    files["fan_points.csv"] = "fan,flow_m3_h,pressure_pa\n" + rows;
    return files;
  };
  expect_complaints(points("calm-fan,0,5\ncalm-fan,30,9\nquick-fan,0,9\nquick-fan,60,0\n"),
                    {"fan_points.csv:3:13: the pressure does not fall with the flow; expected less "
                     "than the 5 Pa at 0 m3/h; got \"9\""});
  expect_complaints(
      points("calm-fan,10,5\n"),
      {"fan_points.csv:2:13: one point makes no curve; expected points from no flow to "
       "no pressure, two at least; got \"5\""});
  // Points of fans that are bad themselves are no curve of one fan: only the fans are told.
  auto bad_fans = points("calm-fan,0,5\nquick-fan,30,9\n");
  bad_fans["fan.csv"] = "id,name,size_mm\ncalm-fan,A,-1\nquick-fan,B,-1\n";
  const auto refused = load(bad_fans);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().count(), 2U) << refused.error().report();
  // A hump on the way is a fan's own; the last row need not be the last point.
  EXPECT_TRUE(load(points("calm-fan,60,0\ncalm-fan,0,5\ncalm-fan,30,9\n")));
}

TEST(Load, HeadersAreChecked) {
  expect_cpu("id,name,sokcet\nquick-six,A,S\n",
             {"cpu.csv:1:9: cpu has no such column; expected socket perhaps; got \"sokcet\""});
  expect_cpu("id,name,name\nquick-six,A,B\n", {"cpu.csv:1:9: the column appears twice"});
  expect_cpu("id,socket\nquick-six,S\n", {"cpu.csv:1: the column name is missing"});
  expect_cpu("", {"cpu.csv:1: the file is empty"});
  expect_cpu("id\tname\nquick-six\tA\n", {"cpu.csv:1:1: the cells are separated by tabs"});
  expect_cpu("id,\"name\"x\nquick-six,A\n", {"cpu.csv:1:10: there is text after a closing quote"});
}

TEST(Load, RowsHaveAsManyCellsAsTheHeader) {
  expect_cpu("id,name,socket\nquick-six,A\nb,B,S,x\nc,C,S\n",
             {"cpu.csv:2: the row has 2 cells; expected 3, as the header has",
              "cpu.csv:3:7: the row has 4 cells; expected 3, as the header has; got \"x\""});
}

TEST(Load, RowsWithoutTextAreBlank) {
  EXPECT_EQ(
      loaded(with("board.csv", "id,name,socket\nb,B,S\n,,\n\n , ,\n,\n")).rows(table("board")), 1U);
}

TEST(Load, FoldersAreChecked) {
  expect_complaints({}, {"there is no table in the folder; expected at least one of cpu.csv, "
                         "board.csv, memory.csv, gpu.csv"});
  Folder folder = with("psus.csv", "id,name\n");
  folder.erase("psu.csv");
  expect_complaints(folder, {"psus.csv: there is no such table; expected psu.csv perhaps"});
  const auto twice = load_catalog({{"a/cpu.csv", "id,name\n"}, {"b/cpu.csv", "id,name\n"}});
  ASSERT_FALSE(twice);
  EXPECT_EQ(to_string(twice.error().shown()[0]),
            "b/cpu.csv: the table is given twice; expected one file a table");
}

// A part is usable with kind, id and name, so one table of one row is a catalog. What names a row
// of a table that is not there is told at its place.
TEST(Load, AnyTableMayBeAbsent) {
  const Catalog one = loaded({{"cpu.csv", "id,name\nquick-six,Quick Six\n"}});
  EXPECT_EQ(one.part_count(), 1U);
  EXPECT_TRUE(one.absent(column("cpu", "socket"), 0));
  EXPECT_FALSE(one.present(table("offers")));
  Folder folder = good_folder();
  folder.erase("sellers.csv");
  expect_complaints(folder, {"offers.csv:2:11: "});
  folder = good_folder();
  folder.erase("cpu.csv");
  expect_complaints(folder, {"offers.csv:2:1: "});
}

TEST(Load, ABinaryFileIsOneComplaint) {
  std::string binary = with("cpu.csv", "").at("board.csv");
  binary += std::string(5000, '\0');
  expect_complaints(with("board.csv", binary), {"board.csv:3:1: not a text file"});
}

TEST(Load, ProvenanceMustSpeakOfWhatExists) {
  const std::string header = "table,row,column,source,plus_minus\n";
  expect_complaints(
      with("provenance.csv",
           header + "gpus,*,*,S,\ngpu,broad-cart,*,S,\ngpu,*,lenght_mm,S,\ngpu,*,name,S,2\n"
                    "cooler_sockets,tall-tower/S1,*,S,\n"),
      {"provenance.csv:2:1: there is no such table to speak of; expected gpu perhaps; got \"gpus\"",
       "provenance.csv:3:5: gpu.csv has no such row; expected an id that exists; did you mean",
       "provenance.csv:4:7: gpu has no such column; expected length_mm perhaps",
       "provenance.csv:5:14: plus_minus for name, which is no number",
       "provenance.csv:6:16: cooler_sockets.csv has no such row; expected * or a key of 2 parts"});
}

// The rows of a table without its key columns have no names; found by load_fuzz.
TEST(Load, ProvenanceOfAnUnusableTableIsNotJudged) {
  Folder folder = with("cooler_sockets.csv", "cooler,sokcet\ntall-tower,S1\n");
  folder["provenance.csv"] = "table,row,column,source\ncooler_sockets,tall-tower/S1,*,S\n";
  expect_complaints(
      folder,
      {"cooler_sockets.csv:1: the column socket is missing",
       "cooler_sockets.csv:1:8: cooler_sockets has no such column; expected socket perhaps"});
}

TEST(Load, ComplaintsComeInFileOrderAndAreAllCounted) {
  Folder folder = with("cpu.csv", "id,name,cores\nquick-six,A,0\nb,B,4\n");
  folder["offers.csv"] = offers_header;
  for (int i = 0; i < 150; ++i)
    folder["offers.csv"] += "nobody,shop-a,IE,2026-09-20,new,-1,EUR,yes,\n";
  folder["psu.csv"] = "id,name\nowned-psu,\n";
  const auto got = load(folder);
  ASSERT_FALSE(got);
  // One each in cpu and psu, one price a row (those rows are taken out, so their part is not looked
  // up).
  EXPECT_EQ(got.error().count(), 152U);
  ASSERT_EQ(got.error().shown().size(), 100U);
  EXPECT_EQ(got.error().shown()[0].file, "cpu.csv");
  EXPECT_EQ(got.error().shown()[1].file, "psu.csv");
  for (std::size_t i = 2; i < 100; ++i) EXPECT_EQ(got.error().shown()[i].line, i);
}

// References are judged after the cells, yet stand between them in the report.
TEST(Load, LateComplaintsAreSortedIn) {
  expect_offers(
      "quick-six,shop-a,IE,2026-09-20,new,1,EUR,yes,\nnobody-here,shop-a,IE,2026-09-20,new,1,EUR,"
      "yes,\n"
      "quick-six,shop-a,IE,2026-09-20,mint,1,EUR,yes,\n",
      {"offers.csv:3:1: there is no such part", "offers.csv:4:32: condition"});
}

TEST(Load, SkipBadLeavesOutBadRowsAndWhatRefersToThem) {
  Folder folder = with("cooler.csv", "id,name,height_mm\ntall-tower,Tall,-1\nflat-one,Flat,40\n");
  folder["cooler_sockets.csv"] = "cooler,socket\ntall-tower,S1\nflat-one,S1\n";
  folder["provenance.csv"] =
      "table,row,column,source,plus_minus\ncooler_sockets,tall-tower/"
      "S1,*,S,\ncooler,flat-one,height_mm,S,0.25\n";
  folder["offers.csv"] = offers_header +
                         "tall-tower,shop-a,IE,2026-09-20,new,1,EUR,yes,\nflat-one,shop-a,IE,2026-"
                         "09-20,new,2,EUR,yes,\n";
  const auto got = load(folder, true);
  ASSERT_TRUE(got) << got.error().report();
  const Catalog& c = got->catalog;
  EXPECT_FALSE(c.find_part("tall-tower"));
  const PartRef flat = c.find_part("flat-one").value();
  EXPECT_EQ(flat.row, 0U);
  EXPECT_EQ(c.line(table("cooler"), 0), 3U);
  ASSERT_EQ(c.rows(table("offers")), 1U);
  EXPECT_EQ(c.part(column("offers", "part"), 0), flat);
  EXPECT_EQ(c.minor(column("offers", "price"), 0), 200);
  EXPECT_EQ(c.rows(table("cooler_sockets")), 1U);
  EXPECT_EQ(c.rows(table("provenance")), 1U);
  EXPECT_EQ(c.half_width(column("cooler", "height_mm"), 0), 0.25);
  std::vector<std::string> said;
  for (const Complaint& complaint : got->skipped.shown())
    said.push_back(complaint.file + ':' + std::to_string(complaint.line));
  EXPECT_EQ(said, (std::vector<std::string>{"cooler.csv:2", "cooler_sockets.csv:2", "offers.csv:2",
                                            "provenance.csv:2"}));
  // Without skipping only the cause is told.
  const auto refused = load(folder);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().count(), 1U) << refused.error().report();
}

TEST(Load, SkipBadDoesNotHealAFileOrAFolder) {
  EXPECT_FALSE(load(with("cpu.csv", "id,name,sokcet\n"), true));
  EXPECT_FALSE(load(with("cpu.csv", ""), true));
  Folder folder = with("cpu.csv", "id,name\nquick-six,A\n");
  folder["psus.csv"] = "id,name\n";
  EXPECT_FALSE(load(folder, true));
}

}  // namespace
}  // namespace rigproof
