// What a stranger reads first and last on a sheet: the job in one sentence, cautions, disclosures.
#pragma once

#include <string>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// What the brief asks for, in one sentence: titles, picture, limits, musts, budgets, the day.
[[nodiscard]] std::string job_words(const Brief& brief, const Catalog& catalog);
/// In place of it for a build that was given without a brief.
[[nodiscard]] std::string no_job_words();

/// The cautions that the parts of this build call for (DESIGN section 10).
[[nodiscard]] std::vector<sheet::Caution> cautions(const Catalog& catalog, const Brief& brief,
                                                   const Build& build);

/// Kept parts, links that earn money, what is invented, and what the catalog cannot say.
[[nodiscard]] std::vector<sheet::Disclosure> disclosures(const Catalog& catalog,
                                                         const sheet::Sheet& sheet);

}  // namespace rigproof::app
