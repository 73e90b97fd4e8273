// sheet_sample DIR [small]: writes the invented sheet in every published form, to be looked at;
// with `small` the golden files are made again.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <string_view>

#include "sheet/csv.hpp"
#include "sheet/html.hpp"
#include "sheet/json.hpp"
#include "sheet/markdown.hpp"
#include "sheet/physics_json.hpp"
#include "sheet/sample.hpp"
#include "sheet/text.hpp"

namespace {

using namespace rigproof::sheet;

bool write(const std::filesystem::path& file, const std::string& content) {
  std::ofstream out(file, std::ios::binary);
  out << content;
  out.close();
  return static_cast<bool>(out);
}

// Without style and type, which are files of their own.
std::string body_of(const std::string& html) { return html.substr(html.find("<body>")); }

bool write_golden(const std::filesystem::path& folder, const Sheet& sheet) {
  return write(folder / "body.html", body_of(sheet_html(sheet))) &&
         write(folder / "sheet.md", sheet_markdown(sheet)) &&
         write(folder / "claims.csv", claims_csv(sheet)) &&
         write(folder / "parts.csv", parts_csv(sheet)) &&
         write(folder / "prices.csv", prices_csv(sheet));
}

bool write_all(const std::filesystem::path& folder, const Sheet& sheet) {
  return write(folder / "sheet.html", sheet_html(sheet)) &&
         write(folder / "sheet.md", sheet_markdown(sheet)) &&
         write(folder / "claims.csv", claims_csv(sheet)) &&
         write(folder / "parts.csv", parts_csv(sheet)) &&
         write(folder / "prices.csv", prices_csv(sheet));
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    fmt::print(stderr, "sheet_sample DIR [small]\n");
    return 2;
  }
  const std::filesystem::path folder = words[1];
  std::filesystem::create_directories(folder);
  if (count > 2 && std::string_view(words[2]) == "small")
    return write_golden(folder, small_sheet()) ? 0 : 1;
  const TextStyle style{.color = true, .width = 100};
  const Sheet sheet = sample_sheet();
  const bool done =
      write_all(folder, sheet) && write(folder / "physics.json", physics_json(sample_physics())) &&
      write(folder / "plan.json", plan_json(sample_plan())) &&
      write(folder / "claims.json", claims_json("loft-cinema", sheet.build.claims)) &&
      write(folder / "plan.txt", plan_text(sample_plan(), style)) &&
      write(folder / "claims.txt", claims_text("loft-cinema", sheet.build.claims, {.width = 80})) &&
      write(folder / "conflict.txt", plan_text(sample_conflict(), style));
  return done ? 0 : 1;
}
