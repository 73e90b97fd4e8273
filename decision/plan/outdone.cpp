#include "decision/plan/outdone.hpp"

#include <algorithm>
#include <limits>
#include <map>

namespace rigproof::plan {
namespace {

constexpr std::int64_t not_to_be_had = std::numeric_limits<std::int64_t>::max();

// A part's prices a piece: by number of pieces, then by market.
struct Offered {
  Row row = no_row;
  std::vector<std::int64_t> minor;
};

bool outdoes(const Catalog& catalog, Kind kind, const Offered& a, const Offered& b) {
  for (std::size_t i = 0; i < a.minor.size(); ++i)
    if (a.minor[i] > b.minor[i]) return false;
  if (a.minor.front() != b.minor.front()) return true;
  return catalog.id({kind, a.row}) < catalog.id({kind, b.row});
}

}  // namespace

std::vector<Row> not_outdone(const Outdoing& how, Kind kind, const std::vector<Row>& rows) {
  std::vector<Row> out;
  std::map<std::uint32_t, std::vector<Offered>> by_look;
  for (const Row row : rows) {
    if (how.prices.kept({kind, row}) || std::ranges::find(how.spared, row) != how.spared.end()) {
      out.push_back(row);
      continue;
    }
    Offered offered{.row = row, .minor = {}};
    for (int pieces = 1; pieces <= how.most_pieces; ++pieces)
      for (int market = 0; market < how.prices.markets(); ++market) {
        const auto price = how.prices.price({kind, row}, market, pieces);
        offered.minor.push_back(price ? price->minor : not_to_be_had);
      }
    by_look[how.look(kind, row)].push_back(std::move(offered));
  }
  for (auto& [look, alike] : by_look) {
    // Whoever outdoes a part stands before it in this order, and so does whoever outdoes that one.
    std::ranges::sort(alike, [&](const Offered& a, const Offered& b) {
      if (a.minor != b.minor) return a.minor < b.minor;
      return how.catalog.id({kind, a.row}) < how.catalog.id({kind, b.row});
    });
    std::vector<const Offered*> left;
    for (const Offered& each : alike) {
      int by = 0;
      for (std::size_t i = 0; i < left.size() && by < how.others; ++i)
        by += outdoes(how.catalog, kind, *left[i], each) ? 1 : 0;
      if (by < how.others) left.push_back(&each);
    }
    for (const Offered* each : left) out.push_back(each->row);
  }
  std::ranges::sort(out);
  return out;
}

}  // namespace rigproof::plan
