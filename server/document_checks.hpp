// What is wrong with a kept text, as the command line would say it of a file.
#pragma once

#include <string>
#include <string_view>

#include "catalog/complaints.hpp"
#include "server/library.hpp"
#include "store/documents.hpp"

namespace rigproof::server {

/// Nothing for a kind that nothing reads yet.
[[nodiscard]] Complaints problems_of(store::DocumentKind kind, const std::string& name,
                                     std::string_view text, const Edition& edition);

}  // namespace rigproof::server
