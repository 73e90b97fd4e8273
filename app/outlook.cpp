#include "app/outlook.hpp"

#include <algorithm>

#include "app/outlook_words.hpp"
#include "app/plan_brief.hpp"
#include "base/draws.hpp"

namespace rigproof::app {

std::uint64_t seed_of(std::string_view bytes) { return stream("outlook", bytes, "probes").seed; }

Result<OutlookAnswer> outlook_of(Planning& planning, const OutlookRequest& request) {
  auto found = planning.outlook({.seed = request.seed, .stop = request.job.stop});
  if (!found) return tl::unexpected(found.error());
  OutlookAnswer out;
  out.asked = asked_under(planning.brief());
  out.all = std::move(found->all);
  out.all_builds = found->all_builds;
  out.possible = found->possible;
  out.stopped = found->stopped;
  for (plan::WithoutOne& one : found->without) {
    OutlookLine line{.requirement = std::move(one.requirement),
                     .noun = {},
                     .count = one.count,
                     .says = count_words(one.count)};
    line.noun = noun_of(planning.catalog(), line.requirement.path);
    out.without.push_back(std::move(line));
  }
  std::ranges::stable_sort(out.without, std::ranges::greater{},
                           [](const OutlookLine& line) { return line.count.builds; });
  out.sentences = sentences_on(out);
  out.notes = notes_on(out);
  return out;
}

}  // namespace rigproof::app
