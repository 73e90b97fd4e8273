// How far each requirement of a conflict would have to be eased, in a practitioner's words.
#pragma once

#include <string>
#include <vector>

#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// The smallest easing of each requirement of each conflict under which a build exists beside
/// everything else of the brief that is not in another conflict. `out` is beside `sets`. Nothing is
/// added where no easing can help (an empty set) or a set is not irreducible (stopped). `wish` is
/// the one the sets were found with.
void add_relaxations(Planning& planning, const std::vector<plan::ConflictSet>& sets,
                     const LongJob& job, std::vector<sheet::Conflict>& out, const Wish& wish = {});

/// The same, of one requirement, as it is told. `beside`: the brief that was asked with it.
[[nodiscard]] sheet::Relaxation told(const plan::Relaxation& relaxation, const Brief& beside,
                                     const std::string& path,
                                     const std::optional<plan::Scale>& scale);

}  // namespace rigproof::app
