#include "app/frame_model.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "analysis/forecast/frame_rules.hpp"
#include "analysis/forecast/frame_time.hpp"
#include "analysis/forecast/speeds.hpp"
#include "analysis/forecast/stage_rates.hpp"
#include "claims/rule.hpp"

namespace rigproof::app {
namespace {

using Samples = std::array<double, draw_count>;
constexpr ColumnId memory_speed = column("memory", "speed_mt_s");
constexpr ColumnId memory_modules = column("memory", "modules");
constexpr ColumnId cpu_memory_channels = column("cpu", "memory_channels");
constexpr ColumnId cpu_memory_limit = column("cpu", "memory_max_mt_s");

// What the forecast said, kept for the next time it is asked. Titles are numbered as in the brief.
class Model {
  using Rates = std::vector<forecast::StageRate>;  // of the titles, 0 when unknown

 public:
  Model(const Catalog& catalog, const Brief& brief, CellDraws& draws)
      : catalog_(catalog), brief_(brief), draws_(draws), facts_(facts()), stage_rates_(facts_) {
    Measure scratch;
    for (const TitleGoal& goal : brief.titles) {
      spreads_.push_back(forecast::title_spread(facts(), goal, scratch));
      steadiest_.push_back(steadiest_of(spreads_.back()));
      weight_sum_ += goal.weight;
    }
    number_chips();
  }

  int memory_class(Row cpu, Row board, const Chosen& memory) {
    Measure scratch;
    const Draws rate = forecast::effective_mt_s(
        facts(), {.cpu = cpu, .board = board, .kits = {&memory, 1}}, scratch);
    ClassKey key{rate.is_absent() ? -1.0 : rate.low(), 0, 0, 0, 0};
    if (!rate.is_absent() && !rate.is_certain())
      key = {rate.low(), cpu, board, memory.row, memory.count};
    return number_of(key, rate);
  }

  double fastest_mt_s(Row cpu, const Chosen& memory) const {
    const double modules = most(memory_modules, memory.row) * memory.count;
    const double channels = catalog_.absent(cpu_memory_channels, cpu)
                                ? forecast::usual_memory_channels
                                : most(cpu_memory_channels, cpu);
    return std::min(most(memory_speed, memory.row), most(cpu_memory_limit, cpu)) *
           std::min(modules, channels) / forecast::usual_memory_channels;
  }

  int memory_kind(const Chosen& memory) {
    return memory_kinds_
        .try_emplace(
            {most(memory_speed, memory.row), most(memory_modules, memory.row) * memory.count},
            static_cast<int>(memory_kinds_.size()))
        .first->second;
  }

  // (F7) of a stage alone.
  std::vector<double> worths(const Rates& rates) const {
    std::vector<double> out(rates.size(), 0.0);
    if (weight_sum_ <= 0.0) return out;
    for (std::size_t t = 0; t < rates.size(); ++t)
      if (rates[t].mean_fps > 0.0)
        out[t] = brief_.titles[t].weight *
                 forecast::utility(std::min(rates[t].mean_fps, spreads_[t].cap_fps.high()) /
                                   brief_.titles[t].target_fps) /
                 weight_sum_;
    return out;
  }
  std::vector<double> cpu_worths(Row cpu, double mt_s) { return worths(rates_of_cpu(cpu, mt_s)); }
  std::vector<double> gpu_worths(Row gpu) {
    if (gpu == no_row) return std::vector<double>(brief_.titles.size(), 0.0);
    return worths(rates_of_gpu(gpu));
  }

  double utility_at(Row cpu, double mt_s, Row gpu) {
    return utility(cpu, number_of({mt_s, 0, 0, 0, 0}, mt_s), gpu);
  }

  // (F7), (F11) in one draw: no stage is faster there, no frame steadier.
  double utility_most(Row cpu, double mt_s, Row gpu) {
    if (gpu == no_row || weight_sum_ <= 0.0) return 0.0;
    const Rates& of_cpu = rates_of_cpu(cpu, mt_s);
    const Rates& of_gpu = rates_of_gpu(gpu);
    double sum = 0.0;
    for (std::size_t t = 0; t < brief_.titles.size(); ++t) {
      if (of_cpu[t].most_fps <= 0.0 || of_gpu[t].most_fps <= 0.0) continue;  // unknown: counts 0
      const TitleGoal& goal = brief_.titles[t];
      sum += goal.weight * forecast::utility_bound({.mean_cpu_fps = of_cpu[t].most_fps,
                                                    .mean_gpu_fps = of_gpu[t].most_fps,
                                                    .steadiest = &steadiest_[t],
                                                    .cap_fps = spreads_[t].cap_fps.high(),
                                                    .target_fps = goal.target_fps});
    }
    return sum / weight_sum_;
  }

  Samples utility_draws(Row cpu, int memory, Row gpu) {
    Samples out{};
    if (gpu == no_row || weight_sum_ <= 0.0) return out;
    for (std::size_t t = 0; t < brief_.titles.size(); ++t) {
      const Draws cpu_ms = stage_of_cpu(t, cpu, memory);
      const Draws gpu_ms = stage_of_gpu(t, gpu);
      const Draws frame_ms = forecast::mean_frame_ms(cpu_ms, gpu_ms, spreads_[t]);
      if (frame_ms.is_absent()) continue;
      const TitleGoal& goal = brief_.titles[t];
      for (int i = 0; i < draw_count; ++i)
        out[static_cast<std::size_t>(i)] +=
            goal.weight * forecast::utility(1000.0 / frame_ms[i] / goal.target_fps);
    }
    for (double& value : out) value /= weight_sum_;
    return out;
  }

  double utility(Row cpu, int memory, Row gpu) {
    const auto [at, fresh] = utilities_.try_emplace({cpu, memory, gpu}, 0.0);
    if (fresh) {
      double sum = 0.0;
      for (const double value : utility_draws(cpu, memory, gpu)) sum += value;
      at->second = sum / draw_count;
    }
    return at->second;
  }

  int chip(Row gpu) const { return chips_[gpu]; }

  // By the cells that rates are made of; draws belong to their part, so an uncertain cell is like
  // no other.
  int look(Kind kind, Row row) {
    std::vector<double> key{static_cast<double>(kind)};
    for (const ColumnId id : frame_rate_cells()) {
      if (id.table != table_of(kind)) continue;
      const Draws& cell = draws_.of(id, row);
      const bool certain = cell.is_absent() || cell.is_certain();
      key.push_back(cell.is_absent() ? -1.0 : cell.low());
      key.push_back(certain ? -1.0 : static_cast<double>(row));
    }
    return looks_.try_emplace(std::move(key), static_cast<int>(looks_.size())).first->second;
  }

 private:
  using ClassKey = std::tuple<double, Row, Row, Row, int>;

  int number_of(const ClassKey& key, const Draws& rate) {
    const auto [at, fresh] = class_numbers_.try_emplace(key, static_cast<int>(classes_.size()));
    if (fresh) classes_.push_back(rate);
    return at->second;
  }

  double most(ColumnId id, Row row) const {
    const Draws& cell = draws_.of(id, row);
    return cell.is_absent() ? spec(id).max : cell.high();
  }

  Facts facts() const {
    return {.catalog = catalog_,
            .brief = brief_,
            .prices = nullptr,
            .build = nothing_,
            .draws = draws_,
            .setup = nullptr};
  }

  // For (F11): the spread itself where it is the same in every draw, else the least of any.
  static forecast::FrameTime steadiest_of(const forecast::TitleSpread& spread) {
    const auto& [sc, sg, r, cap] = spread;
    if (sc.is_absent() || sg.is_absent() || r.is_absent() || cap.is_absent())
      return forecast::FrameTime({.cpu_log_sd = 0.0, .gpu_log_sd = 0.0, .correlation = 0.0});
    if (sc.is_certain() && sg.is_certain() && r.is_certain() && cap.is_certain())
      return forecast::FrameTime({.cpu_log_sd = sc.low(),
                                  .gpu_log_sd = sg.low(),
                                  .correlation = r.low(),
                                  .cap_fps = cap.low()});
    double least = 2.0;
    for (int i = 0; i < draw_count; ++i) {
      const double square = sc[i] * sc[i] + sg[i] * sg[i] - 2.0 * r[i] * sc[i] * sg[i];
      least = std::min(least, std::sqrt(std::max(0.0, square)));
    }
    return forecast::FrameTime({.cpu_log_sd = least, .gpu_log_sd = 0.0, .correlation = 0.0});
  }

  // Cards without a stated chip each stand alone.
  void number_chips() {
    std::map<std::string, int> known;
    for (Row gpu = 0; gpu < catalog_.rows(table("gpu")); ++gpu) {
      std::string name(catalog_.word(column("gpu", "chip"), gpu));
      if (name.empty()) name = "\n" + std::string(catalog_.id({Kind::gpu, gpu}));
      chips_.push_back(
          known.try_emplace(std::move(name), static_cast<int>(known.size())).first->second);
    }
  }

  Draws stage_of_cpu(std::size_t title, Row cpu, int memory) {
    Measure scratch;
    return forecast::cpu_stage_ms(facts(), brief_.titles[title], cpu,
                                  classes_[static_cast<std::size_t>(memory)], scratch);
  }

  Draws stage_of_gpu(std::size_t title, Row gpu) {
    Measure scratch;
    const TitleGoal& goal = brief_.titles[title];
    if (!forecast::range_covers(facts(), goal, scratch)) return Draws::absent();
    return forecast::gpu_stage_ms(facts(), goal, gpu, scratch);
  }

  const Rates& rates_of_cpu(Row cpu, double mt_s) {
    const auto [at, fresh] = cpu_rates_.try_emplace({cpu, mt_s});
    if (fresh) at->second = stage_rates_.cpu(cpu, mt_s);
    return at->second;
  }

  const Rates& rates_of_gpu(Row gpu) {
    const auto [at, fresh] = gpu_rates_.try_emplace(gpu);
    if (fresh) at->second = stage_rates_.gpu(gpu);
    return at->second;
  }

  const Catalog& catalog_;
  const Brief& brief_;
  CellDraws& draws_;
  const Build nothing_{};
  const Facts facts_;
  forecast::StageRates stage_rates_;
  double weight_sum_ = 0.0;
  std::vector<forecast::TitleSpread> spreads_;
  std::vector<forecast::FrameTime> steadiest_;
  std::vector<int> chips_;
  std::map<std::pair<double, double>, int> memory_kinds_;  // by speed and modules
  std::map<std::vector<double>, int> looks_;
  std::map<ClassKey, int> class_numbers_;
  std::vector<Draws> classes_;
  std::map<std::pair<Row, double>, Rates> cpu_rates_;
  std::unordered_map<Row, Rates> gpu_rates_;
  std::map<std::tuple<Row, int, Row>, double> utilities_;
};

}  // namespace

plan::FrameModel make_frame_model(const Catalog& catalog, const Brief& brief, CellDraws& draws) {
  const auto model = std::make_shared<Model>(catalog, brief, draws);
  return {
      .memory_class = [model](
                          Row cpu, Row board,
                          const Chosen& memory) { return model->memory_class(cpu, board, memory); },
      .fastest_mt_s = [model](Row cpu,
                              const Chosen& memory) { return model->fastest_mt_s(cpu, memory); },
      .memory_kind = [model](const Chosen& memory) { return model->memory_kind(memory); },
      .cpu_worths = [model](Row cpu, double mt_s) { return model->cpu_worths(cpu, mt_s); },
      .gpu_worths = [model](Row gpu) { return model->gpu_worths(gpu); },
      .utility_most = [model](Row cpu, double mt_s,
                              Row gpu) { return model->utility_most(cpu, mt_s, gpu); },
      .utility_at = [model](Row cpu, double mt_s,
                            Row gpu) { return model->utility_at(cpu, mt_s, gpu); },
      .utility = [model](Row cpu, int memory, Row gpu) { return model->utility(cpu, memory, gpu); },
      .utility_draws = [model](Row cpu, int memory,
                               Row gpu) { return model->utility_draws(cpu, memory, gpu); },
      .chip = [model](Row gpu) { return model->chip(gpu); },
      .look = [model](Kind kind, Row row) { return model->look(kind, row); },
      .has_titles = !brief.titles.empty()};
}

}  // namespace rigproof::app
