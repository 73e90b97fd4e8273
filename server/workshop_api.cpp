// What the pages begin with: the library as it is, the schema, the rules.
#include "app/rules_shown.hpp"
#include "server/forms.hpp"
#include "server/route.hpp"
#include "server/schemas.hpp"

namespace rigproof::server {
namespace {

Json parts_json(const Catalog& catalog) {
  Json out = Json::array();
  for (int t = 0; t < schema::table_count; ++t)
    out.push_back({{"name", spec(t).name},
                   {"meaning", spec(t).meaning},
                   {"kind", t < kind_count},
                   {"rows", catalog.rows(t)}});
  return out;
}

Response workshop(Desk& desk, const Request& /*request*/, const PathParts& /*path*/) {
  const auto edition = desk.library.edition();
  const Catalog& catalog = edition->workshop.catalog;
  Json asked = Json::array();
  for (const Question& question : questions())
    asked.push_back({{"name", question.name}, {"about", question.about}});
  Json parts = Json::object();
  std::size_t count = 0;
  for (int k = 0; k < kind_count; ++k) count += catalog.rows(k);
  return json_response({{"schema", "rigproof.workshop/1"},
                        {"version", RP_VERSION},
                        {"folder", edition->workshop.folder},
                        {"revision", edition->revision},
                        {"trouble", desk.library.trouble()},
                        {"skipped", problems_json(edition->workshop.skipped)},
                        {"parts", count},
                        {"tables", parts_json(catalog)},
                        {"questions", asked}});
}

// Ids and names of one kind: what a form offers.
Response part_names(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto edition = desk.library.edition();
  const Catalog& catalog = edition->workshop.catalog;
  const auto table = find_table(path.at("kind"));
  if (!table || (*table >= kind_count && spec(*table).name != "titles"))
    return error_response(
        {.code = ErrorCode::not_found, .message = "expected a kind of part, or titles"});
  Json parts = Json::array();
  for (Row row = 0; row < catalog.rows(*table); ++row) {
    Json part = {{"id", catalog.row_key(*table, row)}};
    const auto& columns = spec(*table).columns;
    for (std::size_t c = 0; c < columns.size(); ++c)
      if (columns[c].name == "name")
        part["name"] =
            catalog.text({static_cast<std::uint8_t>(*table), static_cast<std::uint8_t>(c)}, row);
    parts.push_back(std::move(part));
  }
  return json_response({{"parts", parts}});
}

}  // namespace

std::vector<Route> workshop_routes() {
  const Json text = {{"type", "string"}};
  const Json object = {{"type", "object"}};
  return {
      {.method = "GET",
       .pattern = "/api/workshop",
       .about = "The library as it is: folder, revision, tables, questions that can be asked.",
       .answer = object_schema({{"schema", text},
                                {"version", text},
                                {"folder", text},
                                {"revision", text},
                                {"trouble", text},
                                {"skipped", list_schema(schema_ref("Problem"))},
                                {"parts", {{"type", "integer"}}},
                                {"tables", list_schema(object)},
                                {"questions", list_schema(object)}}),
       .handle = workshop},
      {.method = "GET",
       .pattern = "/api/forms",
       .about = "Every column of the catalog and every key of briefs, builds and mappings, with "
                "unit, bounds and meaning.",
       .answer = object,
       .handle =
           [](Desk&, const Request&, const PathParts&) {
             static const std::string forms = forms_json();
             return text_response(forms);
           }},
      {.method = "GET",
       .pattern = "/api/rules",
       .about = "What each claim compares, reads and rests on.",
       .answer = object,
       .handle = [](Desk&, const Request&,
                    const PathParts&) { return text_response(app::rules_json(app::rulebook())); }},
      {.method = "GET",
       .pattern = "/api/parts/{kind}",
       .about = "Ids and names of the parts of a kind, or of the titles.",
       .answer = object_schema({{"parts", list_schema(object)}}),
       .handle = part_names},
  };
}

}  // namespace rigproof::server
