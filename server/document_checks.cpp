#include "server/document_checks.hpp"

#include "app/workshop.hpp"
#include "catalog/mapping.hpp"

namespace rigproof::server {

Complaints problems_of(store::DocumentKind kind, const std::string& name, std::string_view text,
                       const Edition& edition) {
  const Catalog& catalog = edition.workshop.catalog;
  const auto of = [](auto read) { return read ? Complaints() : std::move(read.error()); };
  switch (kind) {
    case store::DocumentKind::brief:
      return of(app::read_given_brief(text, name, catalog));
    case store::DocumentKind::build:
      return of(app::read_given_build(text, name, catalog));
    case store::DocumentKind::mapping:
      return of(read_mapping(text, name, catalog));
    case store::DocumentKind::table:
      return {};
  }
  return {};
}

}  // namespace rigproof::server
