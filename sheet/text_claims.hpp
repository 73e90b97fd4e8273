// The claims as terminal lines; used by the plan's and the claims command's output.
#pragma once

#include <vector>

#include "claims/claim.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::sheet {

/// All claims under one heading line with the shared scale; those with plenty of room on one line
/// each. Not `whole`: three and more of them in a row of one id are told by the first and a count.
void put_claims(TextPage& page, const std::vector<Claim>& claims, bool whole);
/// One claim at length: verdict and statement, bar and numbers, where it comes from, remedy, holes.
void put_claim(TextPage& page, const Claim& claim);

/// The musts that fail or are doubtful, in plain words; nothing when there are none.
void put_wrong(TextPage& page, const std::vector<Claim>& claims);
/// Every absent cell once, with what hangs on it; nothing when there are none.
void put_look_up(TextPage& page, const std::vector<Claim>& claims);

}  // namespace rigproof::sheet
