#include "app/export_store.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "app/files.hpp"
#include "sheet/csv.hpp"

namespace rigproof::app {
namespace {

// Letters and digits; anything else becomes one hyphen.
std::string file_stem(std::string_view name) {
  std::string out;
  for (const char c : name) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool plain = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain)
      out += upper ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
    if (out.size() >= 80) break;
  }
  while (out.ends_with('-')) out.pop_back();
  return out.empty() ? "unnamed" : out;
}

Result<void> add_documents(store::Store& store, store::DocumentKind kind, const std::string& folder,
                           std::vector<ExportedFile>& out) {
  const auto all = store.documents(kind);
  if (!all) return tl::unexpected(all.error());
  std::set<std::string> taken;
  for (const store::DocumentInfo& info : *all) {
    const auto document = store.document(info.id);
    if (!document) return tl::unexpected(document.error());
    std::string stem = file_stem(info.name);
    if (!taken.insert(stem).second) stem += "-" + info.id.text;
    out.push_back({fmt::format("{}/{}.toml", folder, stem), document->text});
  }
  return {};
}

std::string row(const std::vector<std::string>& cells) {
  std::string out;
  for (const std::string& cell : cells) {
    if (&cell != &cells.front()) out += ',';
    out += sheet::csv_cell(cell);
  }
  return out + "\r\n";
}

template <class Value>
std::string or_empty(const std::optional<Value>& value) {
  if (!value) return {};
  if constexpr (std::is_same_v<Value, Date>)
    return to_string(*value);
  else if constexpr (std::is_same_v<Value, store::LinkKind>)
    return std::string(store::word(*value));
  else
    return fmt::format("{}", *value);
}

Result<std::string> prices_csv(store::Store& store, const std::vector<store::PartName>& parts) {
  std::string out =
      row({"kind", "part", "seller", "market", "seen", "condition", "price", "currency",
           "tax_included", "stock", "delivery_days", "warranty_months", "link_kind", "origin"});
  for (const store::PartName& part : parts) {
    const auto series = store.price_series(part);
    if (!series) return tl::unexpected(series.error());
    for (const store::PricePoint& point : *series) {
      const store::SeenOffer& offer = point.offer;
      out += row({std::string(name_of(part.kind)), part.id, offer.seller, offer.market,
                  to_string(offer.seen), std::string(store::word(offer.condition)),
                  to_plain(offer.price), std::string(offer.price.currency.view()),
                  offer.tax_included ? "yes" : "no", or_empty(offer.stock),
                  or_empty(offer.delivery_days), or_empty(offer.warranty_months),
                  or_empty(offer.link_kind), point.origin});
    }
  }
  return out;
}

Result<std::string> items_csv(store::Store& store) {
  const auto items = store.items();
  if (!items) return tl::unexpected(items.error());
  std::string out = row({"id", "kind", "part", "came", "condition", "serial", "from_whom",
                         "came_on", "due_back", "warranty_until", "left_on", "done"});
  for (const store::Item& item : *items) {
    const store::ItemFields& of = item.fields;
    out += row({item.id.text, std::string(name_of(of.part.kind)), of.part.id,
                std::string(store::word(of.came)), std::string(store::word(of.condition)),
                of.serial, of.from_whom, or_empty(of.came_on), or_empty(of.due_back),
                or_empty(of.warranty_until), or_empty(of.left_on), of.done});
  }
  return out;
}

}  // namespace

Result<void> store_is_there(const std::string& url) {
  constexpr std::string_view prefix = "sqlite:";
  std::error_code error;
  if (url.starts_with(prefix) && !std::filesystem::exists(url.substr(prefix.size()), error))
    return fail(ErrorCode::not_found, fmt::format("{}: there is no such store", url));
  return {};
}

Result<std::vector<ExportedFile>> exported(store::Store& store,
                                           const std::vector<store::PartName>& parts) {
  std::vector<ExportedFile> out;
  using enum store::DocumentKind;
  for (const auto& [kind, folder] :
       {std::pair{brief, "briefs"}, std::pair{build, "builds"}, std::pair{mapping, "mappings"}})
    if (const auto added = add_documents(store, kind, folder, out); !added)
      return tl::unexpected(added.error());
  auto prices = prices_csv(store, parts);
  if (!prices) return tl::unexpected(prices.error());
  out.push_back({"prices.csv", std::move(*prices)});
  auto items = items_csv(store);
  if (!items) return tl::unexpected(items.error());
  out.push_back({"items.csv", std::move(*items)});
  return out;
}

Result<std::vector<std::filesystem::path>> write_export(const std::vector<ExportedFile>& files,
                                                        const std::filesystem::path& folder) {
  std::vector<FileToWrite> all;
  std::vector<std::filesystem::path> written;
  for (const ExportedFile& file : files) {
    written.push_back(folder / file.name);
    all.push_back({written.back(), file.bytes});
  }
  if (const auto done = write_together(all); !done) return tl::unexpected(done.error());
  return written;
}

std::vector<store::PartName> part_names(const Catalog& catalog) {
  std::vector<store::PartName> out;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    for (Row part = 0; part < catalog.rows(k); ++part)
      out.push_back({.kind = kind, .id = std::string(catalog.id({kind, part}))});
  }
  return out;
}

}  // namespace rigproof::app
