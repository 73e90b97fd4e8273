// The demo's supplies, with the plugs each offers.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("psu", name); }
consteval ColumnId cable(std::string_view name) { return column("psu_cables", name); }

struct Supply {
  std::string_view maker, model, form;
  int length_mm, rated_w;
  std::string_view edition, efficiency;
  int eps8, pcie8, wide, sata, peripheral;
  int euro;
};
// The model's number is the rating. Each has a lead that ends in one 6-pin card plug beside the
// 8-pin ones; from 600 W on each has a 4-pin processor lead beside the 8-pin ones.
constexpr Supply supplies[] = {
    {"Tollard", "Ration 400", "ATX", 140, 400, "ATX-2.53", "standard", 1, 1, 0, 4, 2, 45},
    {"Tollard", "Ration 450", "ATX", 140, 450, "ATX-2.53", "bronze", 1, 1, 0, 5, 2, 49},
    {"Tollard", "Ration 500", "ATX", 140, 500, "ATX-2.53", "bronze", 1, 2, 0, 5, 2, 53},
    {"Grenwick", "Kettle 550", "ATX", 140, 550, "ATX-3.0", "bronze", 1, 2, 0, 6, 2, 58},
    {"Grenwick", "Kettle 600", "ATX", 140, 600, "ATX-3.0", "bronze", 1, 2, 0, 6, 2, 63},
    {"Tollard", "Ration 650", "ATX", 140, 650, "ATX-2.53", "bronze", 1, 2, 0, 6, 3, 65},
    {"Grenwick", "Kettle 650", "ATX", 150, 650, "ATX-3.1", "gold", 1, 2, 1, 6, 2, 81},
    {"Ambelton", "Hearth 650", "ATX", 150, 650, "ATX-3.1", "gold", 2, 3, 1, 8, 2, 95},
    {"Tollard", "Ration 750", "ATX", 150, 750, "ATX-3.0", "bronze", 2, 4, 0, 7, 3, 78},
    {"Grenwick", "Kettle 750", "ATX", 150, 750, "ATX-3.1", "gold", 2, 3, 1, 8, 3, 97},
    {"Ambelton", "Hearth 750", "ATX", 160, 750, "ATX-3.1", "gold", 2, 3, 1, 8, 3, 112},
    {"Grenwick", "Kettle 850", "ATX", 150, 850, "ATX-3.1", "gold", 2, 4, 1, 8, 3, 118},
    {"Ambelton", "Hearth 850", "ATX", 160, 850, "ATX-3.1", "gold", 2, 4, 1, 10, 4, 134},
    {"Ambelton", "Hearth 850 Still", "ATX", 170, 850, "ATX-3.1", "platinum", 2, 4, 1, 10, 4, 176},
    {"Grenwick", "Kettle 1000", "ATX", 160, 1000, "ATX-3.1", "gold", 2, 5, 1, 10, 4, 152},
    {"Ambelton", "Hearth 1000 Still", "ATX", 170, 1000, "ATX-3.1", "platinum", 2, 5, 1, 12, 4, 204},
    {"Ambelton", "Hearth 1200 Still", "ATX", 180, 1200, "ATX-3.1", "platinum", 3, 6, 2, 12, 4, 249},
    {"Ambelton", "Hearth 1300 Bright", "ATX", 190, 1300, "ATX-3.1", "titanium", 3, 6, 2, 14, 4,
     299},
    {"Tollard", "Ration 450 S", "SFX", 100, 450, "SFX-3.42", "bronze", 1, 1, 0, 4, 1, 69},
    {"Grenwick", "Kettle 550 S", "SFX", 100, 550, "SFX-3.42", "gold", 1, 2, 0, 4, 1, 92},
    {"Grenwick", "Kettle 650 S", "SFX", 100, 650, "ATX-3.1", "gold", 1, 2, 1, 4, 1, 108},
    {"Ambelton", "Hearth 750 S", "SFX", 100, 750, "ATX-3.1", "gold", 2, 3, 1, 6, 2, 142},
    {"Ambelton", "Hearth 850 S", "SFX", 100, 850, "ATX-3.1", "platinum", 2, 3, 1, 6, 2, 179},
    {"Grenwick", "Kettle 700 L", "SFX-L", 130, 700, "ATX-3.0", "gold", 1, 3, 0, 6, 2, 121},
    // Strong and cheap, with one card plug fewer than others: builds/trap-one-cable-short.toml.
    {"Tollard", "Ration 670", "ATX", 140, 670, "ATX-2.53", "bronze", 1, 1, 0, 6, 3, 46},
    // Cheap, with the cables of a small case: builds/trap-short-cable.toml.
    {"Tollard", "Ration 660 Short", "ATX", 140, 660, "ATX-2.53", "bronze", 1, 2, 0, 6, 3, 47},
    {"Tollard", "Ration 850", "ATX", 150, 850, "ATX-3.0", "bronze", 2, 4, 0, 7, 3, 96},
    {"Tollard", "Ration 550", "ATX", 140, 550, "ATX-2.53", "bronze", 1, 2, 0, 5, 2, 56},
    {"Tollard", "Ration 600", "ATX", 140, 600, "ATX-3.0", "bronze", 1, 2, 0, 6, 2, 61},
    {"Tollard", "Ration 700", "ATX", 150, 700, "ATX-3.0", "bronze", 2, 3, 0, 7, 3, 72},
    {"Grenwick", "Kettle 850 Bright", "ATX", 160, 850, "ATX-3.1", "platinum", 2, 4, 1, 9, 3, 159},
    {"Grenwick", "Kettle 1200", "ATX", 180, 1200, "ATX-3.1", "gold", 2, 6, 2, 12, 4, 209},
    {"Ambelton", "Hearth 550", "ATX", 150, 550, "ATX-3.1", "gold", 1, 2, 0, 6, 2, 84},
    {"Ambelton", "Hearth 750 Still", "ATX", 160, 750, "ATX-3.1", "platinum", 2, 4, 1, 8, 3, 156},
    {"Ambelton", "Hearth 650 Bright", "ATX", 160, 650, "ATX-3.1", "titanium", 2, 3, 1, 8, 3, 189},
    {"Ostwyck", "Ember 550", "ATX", 140, 550, "ATX-3.1", "gold", 1, 2, 0, 6, 2, 74},
    {"Ostwyck", "Ember 650", "ATX", 140, 650, "ATX-3.1", "gold", 2, 3, 1, 7, 2, 86},
    {"Ostwyck", "Ember 750", "ATX", 140, 750, "ATX-3.1", "gold", 2, 4, 1, 8, 3, 99},
    {"Ostwyck", "Ember 850", "ATX", 150, 850, "ATX-3.1", "gold", 2, 4, 1, 8, 3, 114},
    {"Ostwyck", "Ember 1000", "ATX", 160, 1000, "ATX-3.1", "gold", 2, 5, 1, 10, 4, 148},
    {"Ostwyck", "Ember 650 S", "SFX", 100, 650, "ATX-3.1", "gold", 1, 2, 1, 4, 1, 112},
    {"Ostwyck", "Ember 750 S", "SFX", 100, 750, "ATX-3.1", "gold", 2, 4, 1, 5, 1, 134},
    {"Ostwyck", "Ember 500 S", "SFX", 100, 500, "SFX-3.42", "bronze", 1, 1, 0, 4, 1, 76},
    {"Grenwick", "Kettle 450 S", "SFX", 100, 450, "SFX-3.42", "gold", 1, 1, 0, 4, 1, 81},
    {"Grenwick", "Kettle 850 L", "SFX-L", 130, 850, "ATX-3.1", "gold", 2, 4, 1, 6, 2, 158},
    {"Ambelton", "Hearth 650 S", "SFX", 100, 650, "ATX-3.1", "platinum", 2, 3, 1, 6, 2, 138},
    {"Ambelton", "Hearth 1000 L", "SFX-L", 130, 1000, "ATX-3.1", "platinum", 2, 4, 1, 8, 2, 235},
};

// At half its rating, at 1 m.
int noise_dba(const Supply& supply) {
  if (supply.model.find("Still") != std::string_view::npos) return 13;
  const int small = supply.form == "ATX" ? 0 : 3;
  return (supply.maker == "Tollard" ? 25 : 19) + small;
}

// Small supplies bring short cables, cheap ones shorter than others.
int cable_mm(const Supply& supply, std::string_view connector) {
  const bool small = supply.form != "ATX";
  const bool cut_short = small || supply.model.ends_with("Short");
  const int more = supply.maker == "Tollard" ? -40 : supply.maker == "Ambelton" ? 40 : 0;
  if (connector == "atx24") return (cut_short ? 320 : 600) + more;
  if (connector.starts_with("eps")) return (cut_short ? 430 : 680) + more;
  if (connector == "sata" || connector == "peripheral4") return (small ? 300 : 500) + more;
  return (small ? 420 : 650) + more;
}

// Cheap ones are rated in cooler air.
int hot_c(const Supply& supply) {
  return supply.efficiency == "standard" || supply.efficiency == "bronze" ? 40 : 50;
}

}  // namespace

void add_supplies(Demo& demo) {
  for (const Supply& supply : supplies) {
    Line line = demo.part(Kind::psu, supply.maker, supply.model, supply.euro);
    const bool fixed_cables = supply.efficiency == "standard" || supply.maker == "Tollard";
    line.text(in("form"), supply.form)
        .whole(in("length_mm"), supply.length_mm)
        .whole(in("cable_bend_mm"), fixed_cables ? 35 : 45)
        .whole(in("rated_power_w"), supply.rated_w)
        .whole(in("full_power_c"), hot_c(supply))
        .whole(in("derating_w_k"), supply.rated_w / 60)
        .text(in("edition"), supply.edition)
        .text(in("efficiency"), supply.efficiency)
        .whole(in("noise_dba"), noise_dba(supply))
        .text(in("cable_family"), fixed_cables                 ? "fixed"
                                  : supply.maker == "Ambelton" ? "hearth-b"
                                  : supply.maker == "Ostwyck"  ? "ember"
                                                               : "kettle-2");
    demo.add(table("psu"), line);
    const std::string id = slug(std::string(supply.maker) + " " + std::string(supply.model));
    const std::pair<std::string_view, int> plugs[] = {{"atx24", 1},
                                                      {"eps8", supply.eps8},
                                                      {"eps4", supply.rated_w >= 600 ? 1 : 0},
                                                      {"pcie6", 1},
                                                      {"pcie8", supply.pcie8},
                                                      {"12v-2x6", supply.wide},
                                                      {"sata", supply.sata},
                                                      {"peripheral4", supply.peripheral}};
    for (const auto& [connector, count] : plugs) {
      Line plug(table("psu_cables"));
      plug.text(cable("psu"), id).text(cable("connector"), connector).whole(cable("count"), count);
      if (count > 0)
        plug.whole(cable("length_mm"), cable_mm(supply, connector))
            .whole(cable("gauge_awg"),
                   connector == "12v-2x6" || supply.maker == "Ambelton" ? 16 : 18);
      demo.add(table("psu_cables"), plug);
    }
  }
}

}  // namespace rigproof::demo
