#include "app/plain_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/wording.hpp"

namespace rigproof::app {
namespace {

constexpr double heavy_volume_l =
    30.0;  // ours: from here on a finished tower is lifted by two hands
constexpr double long_card_mm = 250.0;  // ours: from here on a card sags by its own weight

// A supply or a cable set of this build was there before: other cables may lie beside it.
bool keeps_supply_or_cables(const Catalog& catalog, const Brief& brief, const Build& build) {
  return std::ranges::any_of(brief.keep, [&](const ForcedPart& part) {
    const auto found = catalog.find_part(part.id);
    if (!found || std::ranges::find(build.of(found->kind), found->row, &Chosen::row) ==
                      build.of(found->kind).end())
      return false;
    return found->kind == Kind::psu ||
           (found->kind == Kind::other &&
            catalog.word(column("other", "what"), found->row) == "cable-set");
  });
}

class Cautions {
 public:
  Cautions(const Catalog& catalog, const Brief& brief, const Build& build)
      : catalog_(catalog), brief_(brief), build_(build) {}

  std::vector<sheet::Caution> take() {
    for_the_room();
    for_the_supply();
    for_what_is_wet_or_heavy();
    return std::move(out_);
  }

 private:
  void add(std::string subject, std::string text, std::string source) {
    out_.push_back({std::move(subject), std::move(text), std::move(source)});
  }

  void for_the_room() {
    add("Mains",
        "Switch off and unplug before opening the case. The supply itself is not for users to "
        "open: parts inside stay charged to hundreds of volts after unplugging. It needs an "
        "earthed socket. Local codes and licensed people decide about circuits.",
        "IEC 62368-1, from memory");
    add("Static",
        "Touch bare metal of the case, or wear a wrist strap of about 1 megohm, before touching "
        "parts: they are damaged far below what a person feels.",
        "ANSI/ESD S20.20 and IEC 61340-5-1, from memory");
    if (build_.has(Kind::board))
      add("Standoffs",
          "Only where the board has a hole: a stray standoff can cut or short a trace.",
          "microATX 1.2 section 2.2, looked up");
    add("Edges and fans", "Unfinished sheet edges cut. Stop fans before reaching in.",
        "common practice, no source");
  }

  void for_the_supply() {
    if (!build_.has(Kind::psu)) return;
    const PartRef psu{Kind::psu, build_.one(Kind::psu)};
    const std::string_view family = catalog_.word(column("psu", "cable_family"), psu.row);
    std::string text = fmt::format(
        "Use only the cables that came with {}. A cable of another supply can fit its sockets and "
        "still put the wrong voltage on a part and destroy it.",
        catalog_.name(psu));
    if (keeps_supply_or_cables(catalog_, brief_, build_))
      text +=
          " A supply or a cable set was there before: make sure that it is the right set, whole, "
          "and keep other sets apart.";
    if (!family.empty()) text += fmt::format(" Its cables' pinout family is {}.", family);
    add("Cables of another supply", std::move(text), "common practice, no source");
  }

  void for_what_is_wet_or_heavy() {
    if (const Row cooler = build_.one(Kind::cooler);
        cooler != no_row && catalog_.word(column("cooler", "type"), cooler) == "liquid")
      add("Liquid",
          "Coolant beside mains: look for leaks with the machine unpowered first; coolants can be "
          "harmful if swallowed.",
          "common practice, no source");
    // An absent length or volume does not make a thing light: the caution then stands.
    if (const Row gpu = build_.one(Kind::gpu);
        gpu != no_row && !(catalog_.number(column("gpu", "length_mm"), gpu) < long_card_mm))
      add("Long card",
          "Support a heavy card while the machine is carried; take it out for transport.",
          "common practice, no source");
    if (!build_.has(Kind::chassis)) return;
    add("Glass",
        "If the case has a panel of tempered glass: it breaks all at once. Lay it on something "
        "soft, away from hard floors.",
        "EN 12150-1, from memory");
    const double volume_l = catalog_.number(column("case", "volume_l"), build_.one(Kind::chassis));
    if (!(volume_l < heavy_volume_l))
      add("Lifting", "Lift the finished machine with both hands, close to the body, back straight.",
          "NIOSH 1994, from memory");
  }

  const Catalog& catalog_;
  const Brief& brief_;
  const Build& build_;
  std::vector<sheet::Caution> out_;
};

// What the catalog's own provenance says of the whole of it.
bool is_invented(const Catalog& catalog) {
  constexpr int provenance = table("provenance");
  for (Row row = 0; row < catalog.rows(provenance); ++row)
    if (catalog.word(column("provenance", "method"), row) == "invented") return true;
  return false;
}

std::string kept_words(const sheet::Sheet& sheet) {
  std::string names;
  for (const sheet::PartLine& part : sheet.build.parts)
    if (part.origin == sheet::Origin::kept)
      names += fmt::format("{}{}", names.empty() ? "" : ", ", part.name);
  return names.empty() ? "No part counts as already there: every part is bought."
                       : fmt::format("Already there, and counted at no cost: {}.", names);
}

std::string commission_words(const sheet::Sheet& sheet) {
  long long earning = 0;
  long long lines = 0;
  std::vector<std::string> sellers;
  for (const sheet::MarketPrices& market : sheet.markets)
    for (const sheet::PriceLine& line : market.lines) {
      lines += line.seller.empty() ? 0 : 1;
      if (!line.commission) continue;
      ++earning;
      if (std::ranges::find(sellers, line.seller) == sellers.end()) sellers.push_back(line.seller);
    }
  if (lines == 0) return "No offers are shown.";
  if (earning == 0) return "No link on this sheet earns the publisher money.";
  std::string names;
  for (const std::string& seller : sellers)
    names += fmt::format("{}{}", names.empty() ? "" : ", ", seller);
  return fmt::format(
      "The publisher earns money when somebody buys through {} of the {} offers shown ({}); each "
      "is marked \"commission\". The choice of parts takes no account of it.",
      earning, lines, names);
}

}  // namespace

std::vector<sheet::Caution> cautions(const Catalog& catalog, const Brief& brief,
                                     const Build& build) {
  return Cautions(catalog, brief, build).take();
}

std::vector<sheet::Disclosure> disclosures(const Catalog& catalog, const sheet::Sheet& sheet) {
  std::vector<sheet::Disclosure> out;
  if (is_invented(catalog))
    out.push_back({"Invented",
                   "Parts, prices, sellers and titles of this catalog are marked as invented. "
                   "Nothing on this sheet was measured, and nothing can be bought."});
  out.push_back({"Kept parts", kept_words(sheet)});
  out.push_back({"Loaned or given",
                 "The catalog does not record whether a part was lent, given or paid for by "
                 "somebody. If one was, the publisher has to say so here."});
  out.push_back({"Links that earn money", commission_words(sheet)});
  return out;
}

}  // namespace rigproof::app
