// The demo's levels as measured: a card and a supply at rest, a cooler at half its speed.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

void add_noise_points(Demo& demo) {
  struct Measured {
    std::string_view part, load;
    int level_dba, distance_tenths_m, speed_percent;  // 0: full speed
  };
  static constexpr Measured all[] = {{"pollwright-beam-marl-40", "idle", 17, 5, 0},
                                     {"grenwick-kettle-750", "idle", 19, 5, 0},
                                     {"grenwick-kettle-750", "everything", 24, 10, 0},
                                     {"wexcombe-awning", "any", 15, 10, 50}};
  constexpr int noise_points = table("noise_points");
  for (const Measured& each : all) {
    Line line(noise_points);
    line.text(column("noise_points", "part"), each.part)
        .text(column("noise_points", "load"), each.load)
        .whole(column("noise_points", "level_dba"), each.level_dba)
        .decimal(column("noise_points", "distance_m"), tenths(each.distance_tenths_m));
    if (each.speed_percent > 0)
      line.whole(column("noise_points", "speed_percent"), each.speed_percent);
    demo.add(noise_points, line);
  }
}

}  // namespace rigproof::demo
