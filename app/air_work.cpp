#include "app/air_work.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/text.hpp"

namespace rigproof::app {
namespace {

using coupled::AirModel;
using coupled::middle_of;
using coupled::Room;

constexpr double m3_h_per_m3_s = 3600.0;
constexpr double rho_cp = 1.184 * 1007.0;

std::string number(double value) { return readable(value, 4); }

class Working {
 public:
  Working(const Facts& facts, const coupled::AirCase& of, power::Load load,
          const coupled::AirAnswer& answer, const sheet::AirLoad& line)
      : facts_(facts),
        of_(of),
        load_(load),
        answer_(answer),
        state_(answer.middle),
        speeds_(answer.speeds),
        line_(line) {}

  std::vector<std::string> take() {
    AirModel model(of_);
    add_speed();
    add_flows(model.flows_at(AirModel::middle, speeds_));
    add_heat();
    add_bodies(model);
    add_followers();
    add_noise();
    return std::move(out_);
  }

 private:
  void add(std::string_view equation, std::string_view text) {
    out_.push_back(fmt::format("({}) {}: {}", equation, power::name_of(facts_.brief, load_), text));
  }

  void add_speed() {
    std::string why;
    if (!line_.speed_found)
      why = ", as no speed keeps every limit in every draw" +
            (line_.held_by.empty() ? std::string() : "; worst: the " + line_.held_by);
    else if (!line_.held_by.empty())
      why = ", the least that keeps every limit; nearest to its own: the " + line_.held_by;
    const bool set = answer_.from == coupled::SpeedsFrom::settings;
    add(set ? "B20" : "B9",
        fmt::format("case fans at {} of full speed, the cooler's at {}{}",
                    number(speeds_.chassis_frac), number(speeds_.cooler_frac),
                    set ? ", as they are set for the temperatures below" : why));
  }

  // One line a row of fans, then the balance of the whole case.
  void add_flows(const std::vector<AirModel::WayFlow>& flows) {
    using What = AirModel::WayFlow::What;
    std::array<double, 3> in{};  // by fans, openings, gaps
    std::array<double, 3> out{};
    for (const AirModel::WayFlow& way : flows) {
      if (way.what == What::between) {
        add("A2", fmt::format("{} m3/h from {} to {}, by {} cm2", number(hourly(way)),
                              words(way.from), words(way.to), number(1e4 * of_.between_m2)));
        continue;
      }
      const auto part = static_cast<std::size_t>(way.what);
      if (way.from == Room::outside) in[part] += hourly(way);
      if (way.to == Room::outside) out[part] += hourly(way);
      if (way.what == What::fans) add_fans(way);
    }
    add("A14", fmt::format("in by fans {} + openings {} + gaps {} = {} m3/h; out by fans {} + "
                           "openings {} + gaps {} = {} m3/h",
                           number(in[0]), number(in[1]), number(in[2]),
                           number(in[0] + in[1] + in[2]), number(out[0]), number(out[1]),
                           number(out[2]), number(out[0] + out[1] + out[2])));
  }

  void add_fans(const AirModel::WayFlow& way) {
    const coupled::FanRow& row = of_.fans[way.index];
    const auto part = facts_.catalog.find_part(row.what);
    add("B4", fmt::format("{} x {}, {} {}: {} m3/h at {} Pa that they give", row.count,
                          part ? facts_.catalog.name(*part) : row.what,
                          row.blows_in ? "into the air" : "out of the air", words(row.inside),
                          number(hourly(way)), number(way.fan_pressure_pa)));
  }

  void add_heat() {
    const double upper_w = middle_of(of_.upper_w);
    const double lower_w = middle_of(of_.lower_w);
    add("B7", fmt::format("{} (processor) + {} (card) + {} (around the processor) + {} (below the "
                          "card) = {} W",
                          number(state_.cpu.power_w), number(state_.gpu.power_w), number(upper_w),
                          number(lower_w),
                          number(state_.cpu.power_w + state_.gpu.power_w + upper_w + lower_w)));
    const double walls_w =
        (state_.upper_c - of_.outside_c) + (of_.has_card ? state_.lower_c - of_.outside_c : 0.0);
    add("B7",
        fmt::format("by the air 1.184 x 1007 x {} m3/s x ({} - {}) = {} W, through the "
                    "walls {} W",
                    number(state_.through_m3_s), number(state_.exhaust_c), number(of_.outside_c),
                    number(rho_cp * state_.through_m3_s * (state_.exhaust_c - of_.outside_c)),
                    number(walls_w)));
  }

  void add_bodies(AirModel& model) {
    if (!of_.liquid) {
      constexpr double fin_exponent = 0.6;
      const double slowed = of_.cooler_has_fans ? std::pow(speeds_.cooler_frac, fin_exponent) : 1.0;
      const double kept_w_k = middle_of(of_.cpu_w_k) * slowed;
      add("B5",
          fmt::format("processor {} + {} / {} = {} degC", number(state_.upper_c),
                      number(state_.cpu.power_w), number(kept_w_k), number(state_.cpu.temp_c)));
    } else if (const auto network = model.network_at(AirModel::middle, speeds_)) {
      for (const air::Stream& stream : network->streams) {
        const double inlet_c = stream.from == index(Room::outside) ? of_.outside_c
                               : stream.from == index(Room::lower) ? state_.lower_c
                                                                   : state_.upper_c;
        const double watts =
            stream.effectiveness * rho_cp * stream.flow_m3_s * (state_.cpu.temp_c - inlet_c);
        add("B6", fmt::format("radiator {} x 1.184 x 1007 x {} m3/s x ({} - {}) = {} W",
                              number(stream.effectiveness), number(stream.flow_m3_s),
                              number(state_.cpu.temp_c), number(inlet_c), number(watts)));
      }
    }
    if (of_.has_card)
      add("B5", fmt::format("card {} + {} / {} = {} degC", number(state_.lower_c),
                            number(state_.gpu.power_w), number(middle_of(of_.gpu_w_k)),
                            number(state_.gpu.temp_c)));
  }

  void add_followers() {
    if (!of_.stage_k_w.is_absent())
      add("B11", fmt::format("power stage {} + {} x {} = {} degC", number(state_.upper_c),
                             number(middle_of(of_.stage_k_w)), number(state_.cpu.power_w),
                             number(state_.stage_c)));
    if (!of_.drive_rise_k.is_absent())
      add("B11", fmt::format("hottest drive {} + {} = {} degC", number(state_.lower_c),
                             number(state_.drive_c - state_.lower_c), number(state_.drive_c)));
    if (!of_.plate_k_w.is_absent())
      add("B11", fmt::format("liquid {} - {} x {} = {} degC", number(state_.cpu.temp_c),
                             number(middle_of(of_.plate_k_w)), number(state_.cpu.power_w),
                             number(state_.coolant_c)));
  }

  void add_noise() {
    std::string sum;
    for (const sheet::AirSource& source : line_.sources) {
      if (!source.level_dba) return;
      sum +=
          fmt::format("{}10^({} / 10)", sum.empty() ? "" : " + ", number(source.level_dba->value));
    }
    if (line_.noise_dba)
      add("B10", fmt::format("10 lg ({}) = {} dB(A)", sum, number(line_.noise_dba->value)));
  }

  static std::size_t index(Room room) { return static_cast<std::size_t>(room); }
  static double hourly(const AirModel::WayFlow& way) { return way.flow_m3_s * m3_h_per_m3_s; }
  std::string_view words(Room room) const {
    if (room == Room::outside) return "outside";
    if (!of_.has_card) return "inside the case";
    return room == Room::upper ? "around the processor" : "below the card";
  }

  const Facts& facts_;
  const coupled::AirCase& of_;
  power::Load load_;
  const coupled::AirAnswer& answer_;
  const coupled::AirState& state_;
  const coupled::FanSpeeds& speeds_;
  const sheet::AirLoad& line_;
  std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> air_work(const Facts& facts, const coupled::AirCase& of, power::Load load,
                                  const coupled::AirAnswer& answer, const sheet::AirLoad& line) {
  return Working(facts, of, load, answer, line).take();
}

}  // namespace rigproof::app
