// In place of the embedded files where the pages could not be built.
#include "server/pages.hpp"

namespace rigproof::server {

std::span<const Asset> assets() { return {}; }

}  // namespace rigproof::server
