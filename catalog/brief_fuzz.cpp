// Fuzz target: any bytes give a brief or complaints with a place in the file; never both, never a
// crash.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "catalog/brief.hpp"
#include "catalog/price_book.hpp"
#include "catalog/small_catalog.hpp"

namespace {

using namespace rigproof;

void must(bool holds) {
  if (!holds) std::abort();
}

void check_complaints(const Complaints& complaints, std::string_view bytes) {
  must(complaints.count() > 0 && !complaints.shown().empty());
  const auto lines = 1 + std::ranges::count(bytes, '\n');
  for (const Complaint& complaint : complaints.shown())
    must(!complaint.what.empty() && complaint.line <= static_cast<std::size_t>(lines));
}

void check_brief(const Brief& brief, const Catalog& catalog) {
  must(!brief.markets.empty() && !brief.name.empty());
  for (const MarketGoal& goal : brief.markets) must(goal.budget.minor > 0);
  for (const TitleGoal& goal : brief.titles)
    must(goal.target_fps > 0 && goal.width_px > 0 && goal.height_px > 0 && goal.render_scale > 0 &&
         goal.weight >= 0);
  for (const auto& [name, limit] : brief.limits)
    must(std::isfinite(limit.at_most) && !limit.load.empty());
  must(brief.saved_frac >= 0 && brief.saved_frac <= 1);
  for (const ForcedPart& part : brief.keep) must(catalog.find_part(part.id).has_value());
  const auto book = PriceBook::make(catalog, brief);
  if (!book) return;
  for (int market = 0; market < book->markets(); ++market)
    if (const auto price = book->price({Kind::cpu, 0}, market)) must(price->minor >= 0);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Catalog catalog = small_catalog(
      "quick-eight,shop-a,IE,2026-09-30,new,199.99,EUR,yes,\n"
      "quick-eight,shop-b,US,2026-09-30,new,189.99,USD,no,3\n");
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto brief = read_brief(bytes, "any.toml", catalog);
  if (brief)
    check_brief(*brief, catalog);
  else
    check_complaints(brief.error(), bytes);
  return 0;
}
