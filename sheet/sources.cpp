#include "sheet/sources.hpp"

#include <algorithm>

#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

struct Tally {
  std::string source;
  int claims = 0;
  int cautions = 0;
};

Tally& tally_of(std::vector<Tally>& tallies, const std::string& source) {
  const auto known = std::ranges::find(tallies, source, &Tally::source);
  return known == tallies.end() ? tallies.emplace_back(Tally{source, 0, 0}) : *known;
}

}  // namespace

std::vector<SourceUse> sources_of(const Sheet& sheet) {
  std::vector<Tally> tallies;
  for (const Claim& claim : sheet.build.claims)
    if (!claim.source.empty()) ++tally_of(tallies, claim.source).claims;
  for (const Caution& caution : sheet.cautions)
    if (!caution.source.empty()) ++tally_of(tallies, caution.source).cautions;
  std::ranges::stable_sort(tallies, std::ranges::greater{},
                           [](const Tally& t) { return t.claims + t.cautions; });
  std::vector<SourceUse> out;
  for (const Tally& tally : tallies) {
    std::string uses = tally.claims > 0 ? counted(tally.claims, "claim") : std::string{};
    if (tally.cautions > 0)
      uses += (uses.empty() ? "" : " and ") + counted(tally.cautions, "caution");
    out.push_back({tally.source, uses});
  }
  return out;
}

}  // namespace rigproof::sheet
