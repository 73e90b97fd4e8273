// drawing_sample DIR: writes the drawings of the invented scenes, to be looked at.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "sheet/drawing.hpp"
#include "sheet/sample_scene.hpp"

namespace {

using namespace rigproof;

bool write(const std::filesystem::path& file, const std::string& content) {
  std::ofstream out(file, std::ios::binary);
  out << content;
  out.close();
  return static_cast<bool>(out);
}

bool write_scene(const std::filesystem::path& folder, const std::string& name,
                 const fit::Scene& scene) {
  bool done = write(folder / (name + "-sheet.svg"), sheet::drawing_sheet_svg(scene));
  for (const bool narrow : {false, true}) {
    sheet::DrawingForm form = narrow ? sheet::narrow_form() : sheet::page_form();
    form.standalone = true;
    const std::string form_name = narrow ? "narrow" : "page";
    const auto file = [&](const char* view) {
      return folder / fmt::format("{}-{}-{}.svg", name, view, form_name);
    };
    done = done && write(file("side"), sheet::side_section_svg(scene, form)) &&
           write(file("top"), sheet::top_view_svg(scene, form)) &&
           write(file("front"), sheet::front_view_svg(scene, form));
  }
  return done;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    fmt::print(stderr, "drawing_sample DIR\n");
    return 2;
  }
  const std::filesystem::path folder = words[1];
  std::filesystem::create_directories(folder);
  const bool done = write_scene(folder, "tower", sheet::tower_scene()) &&
                    write_scene(folder, "small", sheet::small_scene()) &&
                    write_scene(folder, "crowded", sheet::crowded_scene(60));
  return done ? 0 : 1;
}
