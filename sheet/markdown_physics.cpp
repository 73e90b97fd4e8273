// Air and power in Markdown: what each picture of the HTML sheet says, in sentences.
#include <fmt/format.h>

#include "sheet/markdown.hpp"
#include "sheet/physics_words.hpp"

namespace rigproof::sheet {

std::string physics_markdown(const Sheet& sheet) {
  if (!sheet.physics) return {};
  const Physics& physics = *sheet.physics;
  std::string out;
  const auto put = [&](std::string_view name, const std::string& words) {
    out += fmt::format("- **{}.** {}\n", name, markdown_escape(words));
  };
  if (physics.heat_path) put("Where the heat goes", heat_path_words(*physics.heat_path));
  if (physics.warming) put("How it warms up", warming_words(*physics.warming));
  if (physics.speed_sweep) put("What the fans' speed buys", speed_words(*physics.speed_sweep));
  if (physics.supply_windows)
    put("Load against the supply's limits", windows_words(*physics.supply_windows));
  return out.empty() ? out : "\n## Air and power\n\n" + out;
}

}  // namespace rigproof::sheet
