// The pages' own files, built from web/ and carried inside the program: no path from outside is
// ever opened.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "server/request.hpp"

namespace rigproof::server {

struct Asset {
  std::string_view path;  ///< `/assets/index-1a2b3c.js`
  std::string_view type;
  std::span<const unsigned char> gzip;  ///< compressed; the only form there is
  bool immutable = false;               ///< its name changes with its content
};

/// Made by web/tools/embed.mjs; empty where the program was built without the pages. Of the library
/// rp_pages, which stands apart so that nothing else needs npm.
[[nodiscard]] std::span<const Asset> assets();

/// The answer to a GET outside /api: an asset, or the start page for every address that a page
/// may have. As it is carried for who takes gzip, unpacked for others.
[[nodiscard]] Response page(std::span<const Asset> all, const Request& request);

}  // namespace rigproof::server
