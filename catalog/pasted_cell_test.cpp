// Pasted cells by hand: numbers, dates and words as tables of several countries write them.
#include "catalog/pasted_cell.hpp"

#include <gtest/gtest.h>

#include "catalog/schema.hpp"

namespace rigproof {
namespace {

TEST(PlainNumber, ReadsTheDeclaredSignsOnly) {
  struct Case {
    std::string_view text;
    char decimal, thousands;
    std::string_view expected;  // "": refused
  };
  for (const Case& c : {
           Case{"1234.5", '.', '\0', "1234.5"},
           Case{"-7", '.', '\0', "-7"},
           Case{"+7", '.', '\0', "7"},
           Case{"1,234", '.', '\0', ""},  // grouped or decimal? not said, so not guessed
           Case{"1,234", ',', '\0', "1.234"},
           Case{"1.234", ',', '.', "1234"},
           Case{"1.234,5", ',', '.', "1234.5"},
           Case{"12.34", ',', '.', ""},
           Case{"1234.567", ',', '.', ""},
           Case{"1.234.567,25", ',', '.', "1234567.25"},
           Case{"1,5.000", ',', '.', ""},
           Case{"1 234,5", ',', ' ', "1234.5"},
           Case{"1\xC2\xA0"
                "234",
                '.', ' ', "1234"},
           Case{"1'234.50", '.', '\'', "1234.50"},
           Case{"\xE2\x88\x92"
                "3",
                '.', '\0', "-3"},
           Case{"", '.', '\0', ""},
           Case{"-", '.', '\0', ""},
           Case{"5.", '.', '\0', ""},
           Case{".5", '.', '\0', ""},
           Case{"1e3", '.', '\0', ""},
           Case{"12 mm", '.', '\0', ""},
           Case{".123", ',', '.', ""},
       }) {
    const auto read = plain_number(c.text, c.decimal, c.thousands);
    EXPECT_EQ(read.value_or(""), c.expected) << c.text << " with " << c.decimal << c.thousands;
    EXPECT_EQ(read.has_value(), !c.expected.empty()) << c.text;
  }
}

TEST(PlainDate, ReadsTheDeclaredOrderOnly) {
  EXPECT_EQ(plain_date("2026-10-01", "ymd").value_or(""), "2026-10-01");
  EXPECT_EQ(plain_date("1.10.2026", "dmy").value_or(""), "2026-10-01");
  EXPECT_EQ(plain_date("10/01/2026", "mdy").value_or(""), "2026-10-01");
  EXPECT_EQ(plain_date("29.02.2028", "dmy").value_or(""), "2028-02-29");
  for (const std::string_view wrong :
       {"29.02.2027", "31.04.2026", "01.10.26", "1.10", "1.10.2026.", "", "a.b.c", "+1.10.2026",
        "13.13.2026", "99999999999.1.2026"})
    EXPECT_FALSE(plain_date(wrong, "dmy")) << wrong;
  EXPECT_FALSE(plain_date("2026-10-01", "dmy"));
}

TEST(MadeSlug, KeepsLettersAndDigits) {
  EXPECT_EQ(made_slug("Fjellum Pillar 4 (rev. B)"), "fjellum-pillar-4-rev-b");
  EXPECT_EQ(made_slug("  --"), "");
  EXPECT_EQ(made_slug(std::string(200, 'x')).size(), 64U);
}

// What a column of the catalog would say for a pasted cell; "!" and the fault when it is refused.
std::string as(std::string_view table, std::string_view name, std::string_view pasted,
               ColumnMapping how = {}, Mapping mapping = {},
               std::optional<Currency> currency = {}) {
  mapping.table = *find_table(table);
  const auto columns = spec(mapping.table).columns;
  while (columns[how.column].name != name) ++how.column;
  if (!how.unit.empty()) how.convert = *conversion(how.unit, unit_of(name));
  const auto text = catalog_text(mapping, how, pasted, currency);
  return text ? *text : "! " + text.error().what + "; " + text.error().expected;
}

TEST(CatalogText, ConvertsTheDeclaredUnit) {
  EXPECT_EQ(as("gpu", "length_mm", "35.6", {.unit = "cm"}), "356");
  EXPECT_EQ(as("gpu", "length_mm", "35.6 cm", {.unit = "cm"}), "356");
  EXPECT_EQ(as("gpu", "length_mm", "14", {.unit = "in"}), "355.6");
  EXPECT_EQ(as("gpu", "length_mm", "310 mm"), "310");
  EXPECT_EQ(as("psu", "rated_power_w", "0,75", {.unit = "kW"}, {.decimal = ','}), "750");
  EXPECT_EQ(as("storage", "capacity_gb", "2", {.unit = "TB"}), "2000");
  EXPECT_EQ(as("gpu", "video_memory_gib", "16384", {.unit = "MiB"}), "16");
  // 50 cubic feet a minute: 50 x 0.0283168466 m3 x 60 = 84.95054 m3/h.
  EXPECT_EQ(as("fan", "flow_m3_h", "50", {.unit = "CFM"}).substr(0, 8), "84.95053");
  EXPECT_EQ(as("fan", "pressure_pa", "2", {.unit = "mmH2O"}), "19.6133");
}

TEST(CatalogText, RefusesWhatTheColumnCannotBe) {
  const std::string far = as("gpu", "length_mm", "356", {.unit = "cm"});
  EXPECT_NE(far.find("too large (read as 3560 mm)"), std::string::npos) << far;
  EXPECT_NE(as("gpu", "length_mm", "35.6 cm").find("not a number"), std::string::npos);
  EXPECT_NE(as("gpu", "slots", "2.5").find("not whole"), std::string::npos);
  EXPECT_NE(as("gpu", "plug_side", "below").find("no such choice"), std::string::npos);
  EXPECT_NE(as("board", "wifi", "true").find("yes or no"), std::string::npos);
}

TEST(CatalogText, WordsStandForTheCatalogsOwn) {
  const ColumnMapping how{.words = {{"Ja", "yes"}, {"Nein", "no"}, {"?", ""}}};
  EXPECT_EQ(as("board", "wifi", "Ja", how), "yes");
  EXPECT_EQ(as("board", "wifi", " Nein ", how), "no");
  EXPECT_EQ(as("board", "wifi", "?", how), "");
  EXPECT_EQ(as("board", "wifi", "yes", how), "yes");
  EXPECT_EQ(as("board", "wifi", "n/a", {}, {.unknown = {"n/a"}}), "");
  // A word's meaning is the catalog's own text: no unit is converted again.
  EXPECT_EQ(as("gpu", "length_mm", "huge", {.unit = "cm", .words = {{"huge", "350"}}}), "350");
}

TEST(CatalogText, SeveralWordsBecomeTheCatalogsList) {
  const ColumnMapping how{.between = ",", .words = {{"mATX", "microATX"}}};
  EXPECT_EQ(as("case", "form_factors", "ATX, mATX", how), "ATX|microATX");
  EXPECT_NE(as("case", "form_factors", "ATX, ATX", how).find("twice"), std::string::npos);
}

TEST(CatalogText, MoneyIsExactInTheRowsCurrency) {
  const auto eur = parse_currency("EUR");
  const Mapping german{.decimal = ',', .thousands = '.'};
  EXPECT_EQ(as("offers", "price", "1.299,00 EUR", {.remove = "EUR"}, german, eur), "1299.00");
  EXPECT_EQ(as("offers", "price", "0,1", {}, german, eur), "0.10");
  EXPECT_NE(as("offers", "price", "1,999", {}, german, eur).find("!"), std::string::npos)
      << "three decimals are no cents";
  EXPECT_EQ(as("offers", "price", "12,800", {}, {.thousands = ','}, parse_currency("JPY")),
            "12800");
  EXPECT_NE(as("offers", "price", "5", {}, {}, {}).find("no currency"), std::string::npos);
  EXPECT_NE(as("offers", "price", "-5", {}, {}, eur).find("negative"), std::string::npos);
}

}  // namespace
}  // namespace rigproof
