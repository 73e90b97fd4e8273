#include "coupled/air/air_case.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/air/noise.hpp"
#include "analysis/fit/mounting.hpp"
#include "analysis/power/loss_curve.hpp"

namespace rigproof::coupled {
namespace {

// Ours: of the area beside the card that board, cables and cooler leave open.
constexpr double open_beside_card_frac = 0.5;
constexpr double least_between_m2 = 0.005;

// a / b, draw by draw; both above 0.
Draws quotient(const Draws& a, const Draws& b) {
  if (a.is_certain() && b.is_certain()) return {a.low() / b.low()};
  std::array<double, draw_count> samples{};
  for (int d = 0; d < draw_count; ++d) samples[static_cast<std::size_t>(d)] = a[d] / b[d];
  return Draws::of(samples, a.spans() || b.spans());
}

// Of two cells of a row: asked for again and again, so remembered.
Draws ratio(const Facts& facts, ColumnId over, ColumnId under, Row row, Measure& m) {
  const Draws& a = m.read(facts, over, row);
  const Draws& b = m.read(facts, under, row);
  if (a.is_absent() || b.is_absent()) return Draws::absent();
  const auto word = [](ColumnId id) { return std::uint64_t{id.table} << 8U | id.column; };
  const CellDraws::Key key = {0xA1'4000'0000'0004U, word(over), word(under), row, 0, 0};
  if (const Draws* known = facts.draws.kept(key); known != nullptr) return *known;
  Draws made = quotient(a, b);
  facts.draws.keep(key, made);
  return made;
}

// (B10) The row of a part that was measured under this load, or under any; no_row: none.
Row noise_point(const Facts& facts, power::Load load, PartRef part) {
  const std::string_view name = power::name_of(facts.brief, load);
  Row any = no_row;
  for (const Row row : facts.catalog.rows_of(table("noise_points"), part)) {
    const std::string_view of = facts.catalog.word(column("noise_points", "load"), row);
    if (of == name) return row;
    if (of == "any") any = row;
  }
  return any;
}

// Its cell, or where it was measured that point, moved to 1 m (A62) and to full speed (A64).
Sound sound_of(const Facts& facts, power::Load load, PartRef part, Sound sound) {
  const Row point = noise_point(facts, load, part);
  if (point == no_row) return sound;
  const double speed_percent = facts.catalog.number(column("noise_points", "speed_percent"), point);
  sound.level = column("noise_points", "level_dba");
  sound.row = point;
  constexpr double full_percent = 100.0;
  sound.change_db = air::level_at_distance_dba(
                        0.0, facts.catalog.number(column("noise_points", "distance_m"), point), 1.0)
                        .value();
  if (sound.fans && speed_percent > 0.0)
    sound.change_db = air::level_at_speed_dba(sound.change_db, speed_percent, full_percent).value();
  return sound;
}

class Gatherer {
 public:
  Gatherer(const Facts& facts, power::Load load, Measure& m)
      : facts_(facts), catalog_(facts.catalog), load_(load), m_(m) {}

  AirCase gather() {
    mounting_ = fit::choose_mounting(facts_);
    out_.outside_c = facts_.brief.room_c;
    out_.has_card = facts_.build.has(Kind::gpu);
    out_.leak_cm2 = m_.read(facts_, column("case", "leak_cm2"), part_of(facts_, Kind::chassis).row);
    add_between();
    out_.sounds = steady_sounds(facts_, load_);
    add_mounts();
    add_cooler();
    add_card();
    add_powers();
    add_supply();
    add_followers();
    out_.unknown = m_.unknown;
    return std::move(out_);
  }

 private:
  // (B1) Below the card is what its length leaves of the case's depth, less what stands in it.
  void add_between() {
    if (!out_.has_card) return;
    const double width_mm =
        middle_of(m_.read(facts_, column("case", "width_mm"), part_of(facts_, Kind::chassis).row));
    const double depth_mm =
        middle_of(m_.read(facts_, column("case", "depth_mm"), part_of(facts_, Kind::chassis).row));
    const double card_mm =
        middle_of(m_.read(facts_, column("gpu", "length_mm"), facts_.build.one(Kind::gpu)));
    if (m_.unknown) return;
    const double beside_mm = std::max(0.0, depth_mm - card_mm);
    out_.between_m2 =
        std::max(least_between_m2, open_beside_card_frac * beside_mm * width_mm * 1e-6);
  }

  // (B2) Air comes in at front, bottom and side, and goes out at top and rear.
  static bool blows_in(std::string_view face) { return face != "top" && face != "rear"; }

  Room room_at(std::string_view face) const {
    const bool low = face == "bottom" || face == "side";
    return low && out_.has_card ? Room::lower : Room::upper;
  }

  // Of two and more fans in front the lower half blows below the card.
  void add_row(FanRow row, std::string_view face) {
    if (row.count <= 0 || out_.fans.full()) return;
    row.blows_in = blows_in(face);
    row.inside = room_at(face);
    const int low = face == "front" && out_.has_card ? row.count / 2 : 0;
    if (low > 0 && row.count - low > 0) {
      FanRow below = row;
      below.inside = Room::lower;
      below.count = low;
      out_.fans.add(below);
      row.count -= low;
      if (out_.fans.full()) return;
    }
    out_.fans.add(row);
  }

  void add_sound(PartRef part, ColumnId level, Row row, int count, FanGroup fans) {
    if (count > 0 && !out_.sounds.full())
      out_.sounds.add(sound_of(
          facts_, load_, part,
          {.level = level, .row = row, .what = catalog_.id(part), .count = count, .fans = fans}));
  }

  void add_mounts() {
    for (const Row mount : fit::mounts_of(facts_)) {
      const std::string_view face = catalog_.word(column("case_mounts", "face"), mount);
      double used_m = 0.0;
      if (mount == mounting_.radiator)
        used_m = add_radiator(mount, face);
      else
        used_m = add_own_fans(mount, face);
      for (const fit::FanGroup& group : mounting_.groups())
        if (group.mount == mount) used_m += add_added_fans(group, face);
      add_rest(mount, face, used_m);
    }
  }

  double add_own_fans(Row mount, std::string_view face) {
    double used_m = 0.0;
    for (const Row row : catalog_.rows_of(table("case_fans"), part_of(facts_, Kind::chassis))) {
      if (catalog_.word(column("case_fans", "mount"), row) != fit::mount_name(catalog_, mount))
        continue;
      const int count = static_cast<int>(catalog_.number(column("case_fans", "count"), row));
      if (count <= 0) continue;
      const double size_m = catalog_.number(column("case_fans", "size_mm"), row) / 1000.0;
      add_row({.mount = mount,
               .what = catalog_.id(part_of(facts_, Kind::chassis)),
               .count = count,
               .size_m = size_m,
               .flow_m3_h = m_.read(facts_, column("case_fans", "flow_m3_h"), row),
               .pressure_pa = m_.read(facts_, column("case_fans", "pressure_pa"), row),
               .open_frac = m_.read(facts_, column("case_mounts", "open_frac"), mount),
               .filter_pa = m_.read(facts_, column("case_mounts", "filter_pa"), mount)},
              face);
      add_sound(part_of(facts_, Kind::chassis), column("case_fans", "noise_dba"), row, count,
                FanGroup::chassis);
      used_m += count * size_m;
    }
    return used_m;
  }

  double add_added_fans(const fit::FanGroup& group, std::string_view face) {
    const Row fan = facts_.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row;
    const double size_m = middle_of(m_.read(facts_, column("fan", "size_mm"), fan)) / 1000.0;
    add_row({.mount = group.mount,
             .what = catalog_.id({Kind::fan, fan}),
             .count = group.count,
             .size_m = size_m,
             .flow_m3_h = m_.read(facts_, column("fan", "flow_m3_h"), fan),
             .pressure_pa = m_.read(facts_, column("fan", "pressure_pa"), fan),
             .open_frac = m_.read(facts_, column("case_mounts", "open_frac"), group.mount),
             .filter_pa = m_.read(facts_, column("case_mounts", "filter_pa"), group.mount),
             .measured = measured_curve(fan)},
            face);
    add_sound({Kind::fan, fan}, column("fan", "noise_dba"), fan, group.count, FanGroup::chassis);
    return group.count * size_m;
  }

  // (B4) Null where the fan has no points. Points that make no curve leave all unknown.
  std::shared_ptr<const air::FanCurve> measured_curve(Row fan) {
    const auto rows = catalog_.rows_of(table("fan_points"), {Kind::fan, fan});
    if (rows.empty()) return nullptr;
    std::vector<air::FanPoint> points;
    for (const Row row : rows)
      points.push_back(
          {.flow_m3_s = catalog_.number(column("fan_points", "flow_m3_h"), row) / 3600.0,
           .pressure_pa = catalog_.number(column("fan_points", "pressure_pa"), row)});
    auto curve = air::FanCurve::from_points(points);
    if (curve) return std::make_shared<const air::FanCurve>(std::move(*curve));
    m_.note_missing({column("fan_points", "pressure_pa"), rows.front(), {}}, false);
    m_.unknown = true;
    return nullptr;
  }

  double add_radiator(Row mount, std::string_view face) {
    const Row cooler = facts_.build.one(Kind::cooler);
    const int count =
        static_cast<int>(middle_of(m_.read(facts_, column("cooler", "fans"), cooler)));
    const double size_m = middle_of(m_.read(facts_, column("cooler", "fan_mm"), cooler)) / 1000.0;
    const Draws thickness = m_.read(facts_, column("cooler", "radiator_thickness_mm"), cooler);
    if (m_.unknown) return 0.0;
    add_row({.mount = mount,
             .what = catalog_.id({Kind::cooler, cooler}),
             .count = count,
             .size_m = size_m,
             .flow_m3_h = m_.read(facts_, column("cooler", "flow_m3_h"), cooler),
             .pressure_pa = m_.read(facts_, column("cooler", "pressure_pa"), cooler),
             .open_frac = m_.read(facts_, column("case_mounts", "open_frac"), mount),
             .filter_pa = m_.read(facts_, column("case_mounts", "filter_pa"), mount),
             .radiator_m = middle_of(thickness) / 1000.0},
            face);
    return count * size_m;
  }

  // What of the row no fan covers lets air through all the same.
  void add_rest(Row mount, std::string_view face, double used_m) {
    const double row_m = fit::row_length_mm(catalog_, mount) / 1000.0;
    const double left_m = row_m - used_m;
    constexpr double wide_m = 0.12;
    if (left_m < 0.02 || out_.openings.full()) return;
    out_.openings.add({.mount = mount,
                       .inside = room_at(face),
                       .area_m2 = left_m * wide_m,
                       .open_frac = m_.read(facts_, column("case_mounts", "open_frac"), mount),
                       .filter_pa = m_.read(facts_, column("case_mounts", "filter_pa"), mount)});
  }

  // (B5)
  void add_cooler() {
    const Row cooler = facts_.build.one(Kind::cooler);
    if (cooler == no_row) return;
    out_.liquid = m_.read_word(facts_, column("cooler", "type"), cooler) == "liquid";
    out_.cpu_w_k = cooler_w_k(facts_, m_);
    out_.cooler_has_fans = out_.liquid || catalog_.number(column("cooler", "fans"), cooler) != 0.0;
    if (out_.liquid)
      out_.cooler_flow_m3_h = m_.read(facts_, column("cooler", "flow_m3_h"), cooler) *
                              middle_of(m_.read(facts_, column("cooler", "fans"), cooler));
    add_sound({Kind::cooler, cooler}, column("cooler", "noise_dba"), cooler, 1, FanGroup::cooler);
  }

  void add_card() {
    const Row card = facts_.build.one(Kind::gpu);
    if (card == no_row) return;
    out_.gpu_w_k = card_w_k(facts_, m_);
    out_.gpu_limit_c = m_.read(facts_, column("gpu", "limit_c"), card);
  }

  // (B7) The processor and the card have bodies of their own; all else warms the room it is in.
  void add_powers() {
    out_.upper_w = out_.lower_w = out_.cpu_w = out_.gpu_w = Draws(0.0);
    const power::PowerTerms terms = power::power_terms(facts_, load_);
    for (std::size_t i = 0; i < terms.count; ++i) {
      const Draws watts = power::power_w(facts_, terms.all[i], load_, m_);
      if (watts.is_absent()) continue;
      const Kind kind = terms.all[i].kind;
      Draws& to = kind == Kind::cpu                        ? out_.cpu_w
                  : kind == Kind::gpu                      ? out_.gpu_w
                  : kind == Kind::storage && out_.has_card ? out_.lower_w
                                                           : out_.upper_w;
      to += watts;
    }
    if (const Row cpu = facts_.build.one(Kind::cpu); cpu != no_row)
      out_.cpu_limit_c = m_.read(facts_, column("cpu", "limit_c"), cpu);
  }

  // (B8) A supply in a chamber of its own keeps its heat to itself; else its loss, the most that
  // its level allows, warms the lowest room.
  void add_supply() {
    const Row psu = facts_.build.one(Kind::psu);
    if (psu == no_row) return;
    if (m_.read_flag(facts_, column("case", "supply_chamber"), part_of(facts_, Kind::chassis).row))
      return;
    const std::string_view level = m_.read_word(facts_, column("psu", "efficiency"), psu);
    const double rated_w = m_.read(facts_, column("psu", "rated_power_w"), psu).low();
    if (level.empty() || !(rated_w > 0.0)) return;
    const auto curve = power::LossCurve::make(level, power::Mains::v115, rated_w);
    if (!curve) {
      m_.unknown = true;
      return;
    }
    Draws load = out_.cpu_w + out_.gpu_w + out_.upper_w + out_.lower_w;
    Draws& to = out_.has_card ? out_.lower_w : out_.upper_w;
    to += Draws::increasing(load, [&](double given_w) { return curve->most_loss_w(given_w); });
  }

  // What only follows: a cell that is absent is for the rule that asks for it to tell.
  void add_followers() {
    Measure own;
    own.deciding = true;
    out_.stage_k_w = stage_k_w(facts_, own);
    out_.drive_rise_k = drive_rise_k(facts_, load_, own);
    out_.plate_k_w = plate_k_w(facts_, own);
  }

  const Facts& facts_;
  const Catalog& catalog_;
  power::Load load_;
  Measure& m_;
  fit::Mounting mounting_;
  AirCase out_;
};

}  // namespace

Draws cooler_w_k(const Facts& facts, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  return ratio(facts, column("cooler", "rated_heat_w"), column("cooler", "rise_at_rating_k"),
               cooler, m);
}

Draws card_w_k(const Facts& facts, Measure& m) {
  const Row card = facts.build.one(Kind::gpu);
  return ratio(facts, column("gpu", "sustained_power_w"), column("gpu", "rise_k"), card, m);
}

Draws stage_k_w(const Facts& facts, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  if (board == no_row) return Draws::absent();
  return ratio(facts, column("board", "stage_rise_k"), column("board", "cpu_sustained_w"), board,
               m);
}

Draws drive_rise_k(const Facts& facts, power::Load load, Measure& m) {
  Draws hottest = Draws::absent();
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    const Draws& rise_k = m.read(facts, column("storage", "rise_k"), drive.row);
    if (rise_k.is_absent()) return Draws::absent();
    hottest = hottest.is_absent() ? rise_k : Draws::larger(hottest, rise_k);
  }
  if (hottest.is_absent() || load != power::Load::idle) return hottest;
  return power::at_rest(hottest, Kind::storage);
}

Draws plate_k_w(const Facts& facts, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  if (cooler == no_row || facts.catalog.word(column("cooler", "type"), cooler) != "liquid")
    return Draws::absent();
  return base_k_w(facts, m);
}

Draws base_k_w(const Facts& facts, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  return ratio(facts, column("cooler", "plate_rise_k"), column("cooler", "rated_heat_w"), cooler,
               m);
}

Sounds steady_sounds(const Facts& facts, power::Load load) {
  Sounds out;
  const auto add = [&](Kind kind, ColumnId level, int count) {
    const PartRef part = part_of(facts, kind);
    out.add(sound_of(facts, load, part,
                     {.level = level,
                      .row = part.row,
                      .what = facts.catalog.id(part),
                      .count = count,
                      .fans = {}}));
  };
  // What is stated of a card is its level at work; at rest it is heard where that was measured.
  const Row card = facts.build.one(Kind::gpu);
  if (card != no_row && (power::works_card(facts.brief, load) ||
                         noise_point(facts, load, {Kind::gpu, card}) != no_row))
    add(Kind::gpu, column("gpu", "noise_dba"), facts.build.of(Kind::gpu).front().count);
  if (facts.build.has(Kind::psu)) add(Kind::psu, column("psu", "noise_dba"), 1);
  return out;
}

bool case_spans(const AirCase& of) {
  bool out = of.leak_cm2.spans() || of.cpu_w.spans() || of.gpu_w.spans() || of.upper_w.spans() ||
             of.lower_w.spans() || of.cpu_w_k.spans() || of.gpu_w_k.spans() ||
             of.cpu_limit_c.spans() || of.gpu_limit_c.spans();
  for (const FanRow& row : of.fans)
    out = out || row.flow_m3_h.spans() || row.pressure_pa.spans() || row.open_frac.spans() ||
          row.filter_pa.spans();
  for (const Opening& opening : of.openings)
    out = out || opening.open_frac.spans() || opening.filter_pa.spans();
  return out;
}

AirCase air_case(const Facts& facts, power::Load load, Measure& m) {
  if (!facts.build.has(Kind::chassis)) {
    m.note_missing({column("case", "leak_cm2"), no_row, {}}, false);
    return {};
  }
  return Gatherer(facts, load, m).gather();
}

}  // namespace rigproof::coupled
