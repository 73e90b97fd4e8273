// What the planner asks of a forecast, as plain functions: it includes no engine that makes one.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "base/draws.hpp"
#include "catalog/build.hpp"

namespace rigproof::plan {

/// Worth of a build's frame rates: the weighted mean over the brief's titles of u(fps / target)
/// (DESIGN section 6), 1 when every target is met exactly. A title whose rate is unknown counts 0.
/// The rates depend on a build only through (cpu, memory class, card): the triple. A memory class
/// is an effective memory speed with its channels, as cpu and board take it; equal numbers, equal
/// rates.
struct FrameModel {
  std::function<int(Row cpu, Row board, const Chosen& memory)> memory_class;
  /// No board makes this memory faster on this cpu than so many MT/s.
  std::function<double(Row cpu, const Chosen& memory)> fastest_mt_s;
  /// Kits with equal numbers are equally fast on every cpu.
  std::function<int(const Chosen& memory)> memory_kind;
  /// What each title of the brief would be worth if the other stage took no time, weighted: for
  /// every memory of at most mt_s, not falling in mt_s. One number a title; 0 where it is unknown.
  std::function<std::vector<double>(Row cpu, double mt_s)> cpu_worths;
  std::function<std::vector<double>(Row gpu)> gpu_worths;
  /// Of a single draw at most, for every memory of at most mt_s. gpu == no_row: no card.
  std::function<double(Row cpu, double mt_s, Row gpu)> utility_most;
  /// Mean over the draws with memory of exactly mt_s; not falling in mt_s, so a bound for every
  /// memory of at most that.
  std::function<double(Row cpu, double mt_s, Row gpu)> utility_at;
  /// Mean over the draws.
  std::function<double(Row cpu, int memory_class, Row gpu)> utility;
  /// Draw by draw; their mean is `utility`.
  std::function<std::array<double, draw_count>(Row cpu, int memory_class, Row gpu)> utility_draws;
  /// Cards that stand for the same chip are one rival (best K): a number per chip.
  std::function<int(Row gpu)> chip;
  /// Parts of a kind (cpu, gpu, memory, board) with one number have the same rates in every build.
  std::function<int(Kind kind, Row row)> look;
  bool has_titles = false;  ///< without titles the first term of the score is 0
};

}  // namespace rigproof::plan
