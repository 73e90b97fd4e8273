#include "app/import_table.hpp"

#include <fmt/format.h>

#include <array>

#include "app/files.hpp"
#include "app/overlay.hpp"

namespace rigproof::app {
Result<Imported> import_table(const Workshop& workshop, const ImportOptions& options) {
  const auto toml = options.mapping_text ? Result<std::string>(*options.mapping_text)
                                         : read_file(options.mapping);
  if (!toml) return tl::unexpected(toml.error());
  auto mapping = read_mapping(*toml, options.mapping, workshop.catalog);
  if (!mapping) return bad_input(mapping.error().report());
  const auto bytes =
      options.pasted_text ? Result<std::string>(*options.pasted_text) : read_input(options.pasted);
  if (!bytes) return tl::unexpected(bytes.error());

  Imported out{.options = options,
               .catalog = workshop.folder,
               .mapping = std::move(*mapping),
               .plan = {},
               .provenance = {},
               .bad = {},
               .new_columns = {},
               .files = {}};
  const std::string name = options.pasted == "-" ? "standard input" : options.pasted;
  out.plan = plan_import(workshop.catalog, out.mapping, {.name = name, .bytes = *bytes}, out.bad);
  const bool unreadable = out.plan.rows == 0 && !out.bad.empty();
  if (!out.bad.empty() && (unreadable || !options.skip_bad)) return bad_input(out.bad.report());
  out.provenance = provenance_of(workshop.catalog, out.mapping, out.plan);

  const std::array plans = {out.plan, out.provenance};
  if (out.plan.empty() && out.provenance.empty()) return out;
  auto now = overlay(workshop, plans);
  if (!now)
    return fail(now.error().code, fmt::format("nothing was written: {}", now.error().message));
  out.new_columns = std::move(now->new_columns);
  for (const FileToWrite& file : now->files) out.files.push_back(file.path.string());
  if (!options.write) return out;
  if (const auto done = write_together(now->files); !done) return tl::unexpected(done.error());
  out.written = true;
  return out;
}

}  // namespace rigproof::app
