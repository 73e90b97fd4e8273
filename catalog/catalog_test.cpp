// The catalog's readers: relations, uncertain cells, contracts, and that a written table reads
// back.
#include "catalog/catalog.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "catalog/load.hpp"

namespace rigproof {
namespace {

std::vector<TableFile> base_files() {
  return {
      {"cpu.csv", "id,name,cores,sustained_power_w\nquick-six,Quick Six,6,100\nslow-two,Slow,2,\n"},
      {"board.csv", "id,name,power_w\nplain-board,Plain,\n"},
      {"memory.csv", "id,name\npair-32,Pair 32\n"},
      {"storage.csv", "id,name\ndrive-one,Drive One\n"},
      {"cooler.csv",
       "id,name,height_mm,rated_heat_w\ntall,Tall,160,200\nflat,Flat,40,\nodd,Odd,50,90\n"},
      {"case.csv", "id,name\nwhite-case,White Case\n"},
      {"psu.csv", "id,name\nowned-psu,Owned Supply\n"},
      {"sellers.csv", "id,name,market\nshop-a,Shop A,IE\n"},
      {"offers.csv",
       "part,seller,market,seen,condition,price,currency,tax_included\n"
       "tall,shop-a,IE,2026-09-20,new,3,EUR,yes\nquick-six,shop-a,IE,2026-09-20,new,1.05,EUR,yes\n"
       "tall,shop-a,IE,2026-09-21,new,2,EUR,no\nodd,shop-a,IE,2026-09-20,used,4,EUR,yes\n"},
      {"cooler_sockets.csv", "cooler,socket\nodd,S1\ntall,S1\nodd,S3\ntall,\"a, \"\"b\"\"\"\n"}};
}

Catalog make(const std::string& provenance = {}) {
  auto files = base_files();
  const std::string text = "table,row,column,source,seen,method,plus_minus\n" + provenance;
  files.push_back({"provenance.csv", text});
  auto got = load_catalog(files);
  if (!got) throw std::runtime_error(got.error().report());
  return std::move(got->catalog);
}

constexpr ColumnId height = column("cooler", "height_mm");
constexpr ColumnId heat = column("cooler", "rated_heat_w");
constexpr ColumnId power = column("cpu", "sustained_power_w");

TEST(Catalog, RowsOfAPartComeInFileOrder) {
  const Catalog c = make();
  const auto rows = [&](int relation, std::string_view id) {
    const auto span = c.rows_of(relation, c.find_part(id).value());
    return std::vector<Row>(span.begin(), span.end());
  };
  EXPECT_EQ(rows(table("offers"), "tall"), (std::vector<Row>{0, 2}));
  EXPECT_EQ(rows(table("offers"), "quick-six"), (std::vector<Row>{1}));
  EXPECT_EQ(rows(table("offers"), "odd"), (std::vector<Row>{3}));
  EXPECT_EQ(rows(table("offers"), "flat"), std::vector<Row>{});
  EXPECT_EQ(rows(table("cooler_sockets"), "odd"), (std::vector<Row>{0, 2}));
  EXPECT_EQ(rows(table("cooler_sockets"), "tall"), (std::vector<Row>{1, 3}));
  EXPECT_EQ(rows(table("cooler_sockets"), "flat"), std::vector<Row>{});
  EXPECT_EQ(rows(table("cooler_sockets"), "quick-six"), std::vector<Row>{});  // not a cooler
  EXPECT_EQ(rows(table("case_mounts"), "white-case"), std::vector<Row>{});    // no such file
}

TEST(Catalog, AnyCellHasItsText) {
  const Catalog c = make();
  EXPECT_EQ(c.text(column("cooler", "height_mm"), 0), "160");
  EXPECT_EQ(c.text(column("cooler", "rated_heat_w"), 1), "");
  EXPECT_EQ(c.text(column("offers", "part"), 1), "quick-six");
  EXPECT_EQ(c.text(column("offers", "seller"), 1), "shop-a");
  EXPECT_EQ(c.text(column("offers", "price"), 1), "1.05");
  EXPECT_EQ(c.text(column("offers", "price"), 0), "3.00");
  EXPECT_EQ(c.text(column("offers", "seen"), 2), "2026-09-21");
  EXPECT_EQ(c.text(column("offers", "tax_included"), 2), "no");
  EXPECT_EQ(c.text(column("cooler_sockets", "socket"), 3), "a, \"b\"");
}

TEST(Catalog, KeysJoinTheKeyColumns) {
  const Catalog c = make();
  EXPECT_EQ(c.row_key(table("cooler"), 1), "flat");
  EXPECT_EQ(c.row_key(table("cooler_sockets"), 2), "odd/S3");
}

// Precedence of the header: row and column, then row, then column, then neither; rows without a
// plus_minus give a source but no width. The column's own tolerances: height 1 mm, power 3 %
// ([schema]).
TEST(Catalog, TheMostParticularProvenanceCounts) {
  const Catalog plain = make();
  EXPECT_EQ(plain.half_width(height, 0), 1.0);
  EXPECT_DOUBLE_EQ(plain.half_width(power, 0), 3.0);  // 3 % of 100 W
  EXPECT_EQ(plain.half_width(heat, 0), 0.0);
  EXPECT_FALSE(plain.provenance(height, 0));

  const Catalog c = make(
      "cooler,*,*,all,,,9\n"                  // 0
      "cooler,*,height_mm,column,,,5\n"       // 1
      "cooler,tall,*,row,,,3\n"               // 2
      "cooler,tall,height_mm,cell,,,2\n"      // 3
      "cooler,odd,height_mm,no width,,,\n");  // 4
  EXPECT_EQ(c.half_width(height, 0), 2.0);
  EXPECT_EQ(c.half_width(heat, 0), 3.0);
  EXPECT_EQ(c.half_width(height, 1), 5.0);
  EXPECT_EQ(c.half_width(heat, 2), 9.0);
  EXPECT_EQ(c.half_width(height, 2), 5.0);  // its own row has no width: the next in line gives it
  EXPECT_EQ(c.provenance(height, 2), Row{4});
  EXPECT_EQ(c.provenance(height, 0), Row{3});
  EXPECT_EQ(c.provenance(heat, 0), Row{2});
  EXPECT_EQ(c.provenance(heat, 1), Row{0});
  EXPECT_FALSE(c.provenance(power, 0));
  EXPECT_EQ(make("cooler,tall,height_mm,exact,,,0\n").half_width(height, 0),
            0.0);  // stated as certain
}

TEST(Catalog, ARowOfARelationHasProvenanceByItsKey) {
  const Catalog c = make("cooler_sockets,odd/S3,*,maker's page,,stated,\n");
  EXPECT_EQ(c.provenance(column("cooler_sockets", "socket"), 2), Row{0});
  EXPECT_FALSE(c.provenance(column("cooler_sockets", "socket"), 0));
}

TEST(Catalog, CellsAreDrawsOfTheirOwn) {
  const Catalog c = make();
  // Certain: neither tolerance nor plus-minus.
  const Draws certain = c.cell(heat, 0);
  EXPECT_TRUE(certain.is_certain());
  EXPECT_EQ(certain[17], 200.0);
  // Tolerance: uniform on 159 to 161, so the 256 quantiles have mean 160 and variance (2^2 -
  // (2/256)^2) / 12.
  const Draws tall = c.cell(height, 0);
  EXPECT_EQ(tall.low(), 159.0);
  EXPECT_EQ(tall.high(), 161.0);
  EXPECT_FALSE(tall.spans());
  EXPECT_NEAR(tall.mean(), 160.0, 1e-9);
  double squares = 0.0;
  for (int i = 0; i < draw_count; ++i) squares += (tall[i] - 160.0) * (tall[i] - 160.0);
  EXPECT_NEAR(squares / draw_count, (4.0 - 4.0 / 65536.0) / 12.0, 1e-9);
  // The stream is hash(seed, table, row key, column): the same draws as made by hand, others for
  // other cells.
  const Draws by_hand = Draws::uniform(159.0, 161.0, stream("cooler", "tall", "height_mm", 7));
  const Draws seeded = c.cell(height, 0, 7);
  bool same_as_flat = true;
  for (int i = 0; i < draw_count; ++i) {
    EXPECT_EQ(seeded[i], by_hand[i]);
    same_as_flat = same_as_flat && seeded[i] - 160.0 == c.cell(height, 1, 7)[i] - 40.0;
  }
  EXPECT_FALSE(same_as_flat);
  // Class range: an absent board power spans 20 to 50 W; an absent heat rating has no class range.
  const Draws span = c.cell(column("board", "power_w"), 0);
  EXPECT_TRUE(span.spans());
  EXPECT_EQ(span.low(), 20.0);
  EXPECT_EQ(span.high(), 50.0);
  EXPECT_TRUE(c.cell(heat, 1).is_absent());
  EXPECT_TRUE(c.cell(power, 1).is_absent());
  // Plus-minus beats the tolerance.
  const Catalog measured = make("cooler,tall,height_mm,bench,2026-09-01,measured,0.25\n");
  EXPECT_EQ(measured.cell(height, 0).high(), 160.25);
  EXPECT_EQ(measured.cell(height, 1).high(), 41.0);
}

TEST(Catalog, AskingForTheWrongThingIsABug) {
  const Catalog c = make();
  EXPECT_THROW((void)c.number(column("cpu", "name"), 0), ContractViolation);
  EXPECT_THROW((void)c.word(column("cpu", "cores"), 0), ContractViolation);
  EXPECT_THROW((void)c.word(column("offers", "part"), 0), ContractViolation);
  EXPECT_THROW((void)c.flag(column("cpu", "cores"), 0), ContractViolation);
  EXPECT_THROW((void)c.date(column("cpu", "cores"), 0), ContractViolation);
  EXPECT_THROW((void)c.minor(column("cpu", "cores"), 0), ContractViolation);
  EXPECT_THROW((void)c.part(column("offers", "seller"), 0), ContractViolation);
  EXPECT_THROW((void)c.reference(column("offers", "part"), 0), ContractViolation);
  EXPECT_THROW((void)c.has_token(column("cpu", "socket"), 0, "S1"), ContractViolation);
  EXPECT_THROW((void)c.number(column("cpu", "cores"), 2), ContractViolation);
  EXPECT_THROW((void)c.number(column("gpu", "length_mm"), 0), ContractViolation);  // no such file
  EXPECT_THROW((void)c.cell(column("cpu", "picture"), 0), ContractViolation);
  EXPECT_THROW((void)c.half_width(heat, 1), ContractViolation);  // absent
  EXPECT_THROW((void)c.rows(99), ContractViolation);
  EXPECT_THROW((void)c.rows_of(table("titles"), {Kind::cpu, 0}), ContractViolation);
  EXPECT_THROW((void)c.rows_of(table("offers"), {Kind::cpu, 9}), ContractViolation);
  EXPECT_THROW((void)c.find_row(table("offers"), "quick-six"), ContractViolation);
}

// Every table written, loaded again and compared cell by cell.
TEST(WriteTable, ReadsBackToTheSameValues) {
  const Catalog c =
      make("cooler,tall,height_mm,\"a source,\nin two lines\",2026-09-01,measured,0.1\n");
  std::vector<std::string> names;
  std::vector<std::string> texts;
  for (int t = 0; t < schema::table_count; ++t) {
    if (!c.present(t)) continue;
    names.push_back(std::string(spec(t).name) + ".csv");
    texts.push_back(write_table(c, t));
  }
  std::vector<TableFile> files;
  for (std::size_t i = 0; i < names.size(); ++i) files.push_back({names[i], texts[i]});
  const auto again = load_catalog(files);
  ASSERT_TRUE(again) << again.error().report();
  const Catalog& d = again->catalog;
  for (int t = 0; t < schema::table_count; ++t) {
    ASSERT_EQ(c.rows(t), d.rows(t)) << spec(t).name;
    for (Row row = 0; row < c.rows(t); ++row) {
      EXPECT_EQ(c.row_key(t, row), d.row_key(t, row));
      for (std::size_t i = 0; i < spec(t).columns.size(); ++i) {
        const ColumnId id{static_cast<std::uint8_t>(t), static_cast<std::uint8_t>(i)};
        ASSERT_EQ(c.absent(id, row), d.absent(id, row)) << spec(t).name << '.' << spec(id).name;
        if (c.absent(id, row)) continue;
        switch (spec(id).type) {
          case Type::number:
          case Type::count:
            EXPECT_EQ(c.number(id, row), d.number(id, row));
            break;
          case Type::flag:
            EXPECT_EQ(c.flag(id, row), d.flag(id, row));
            break;
          case Type::date:
            EXPECT_EQ(c.date(id, row), d.date(id, row));
            break;
          case Type::money:
            EXPECT_EQ(c.minor(id, row), d.minor(id, row));
            break;
          case Type::reference:
            if (spec(id).refers == "part")
              EXPECT_EQ(c.part(id, row), d.part(id, row));
            else
              EXPECT_EQ(c.reference(id, row), d.reference(id, row));
            break;
          default:
            EXPECT_EQ(c.word(id, row), d.word(id, row));
        }
      }
    }
  }
  // By hand: the shape of one table.
  EXPECT_EQ(write_table(c, table("cooler_sockets")),
            "cooler,socket\nodd,S1\ntall,S1\nodd,S3\ntall,\"a, \"\"b\"\"\"\n");
}

}  // namespace
}  // namespace rigproof
