// Files put into the workshop's memory when the pages are opened: the demo's briefs and builds, or
// a maker's own.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "store/store.hpp"

namespace rigproof::app {

/// Adds each file as a document under the name it gives itself, unless one of that kind and name is
/// there, removed or not. A file with a `[brief]` is a brief, any other a build; what is wrong with
/// it the pages will say. The first given is the one saved last, so that
/// lists begin with it. Gives how many were added. Errors: io, naming the file; those of the
/// store.
[[nodiscard]] Result<std::size_t> add_first_documents(store::Store& store,
                                                      const std::vector<std::string>& files,
                                                      store::Instant now);

}  // namespace rigproof::app
