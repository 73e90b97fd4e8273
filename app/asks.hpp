// The questions, each with what it asks for: name, what it is for, whether it searches (may take
// minutes, and has a limit of time), inputs with their bounds. The command line and the HTTP API
// are both made from these.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/inputs.hpp"

namespace rigproof::app {

struct PlanAsk {
  static constexpr std::string_view name = "plan";
  static constexpr std::string_view about =
      "Find the best builds of a brief, with their claims and the proof; or the requirements that "
      "stand against each other.";
  static constexpr bool searches = true;
  Given brief;
  int best = 3;
  std::optional<double> time_limit_s;
};

struct OutlookAsk {
  static constexpr std::string_view name = "outlook";
  static constexpr std::string_view about =
      "How many builds a brief leaves possible, of all that the catalog can form, and which of its "
      "requirements forbids most of the rest.";
  static constexpr bool searches = false;
  Given brief;
};

struct InsistAsk {
  static constexpr std::string_view name = "insist";
  static constexpr std::string_view about =
      "The best build with given parts in it, or without some, beside the best one: what the wish "
      "costs, difference by difference; or what stands against it.";
  static constexpr bool searches = true;
  Given brief;
  std::vector<std::string> parts, without;
  std::optional<double> time_limit_s;
};

struct FrontierAsk {
  static constexpr std::string_view name = "frontier";
  static constexpr std::string_view about =
      "What more money buys: the best score for every budget between two, as the exact staircase, "
      "with the parts that change at each step.";
  static constexpr bool searches = true;
  Given brief;
  std::string from, to;
  std::optional<double> time_limit_s;
};

struct RepairAsk {
  static constexpr std::string_view name = "repair";
  static constexpr std::string_view about =
      "The fewest swaps that bring a build back under its brief after prices, stock or the brief "
      "moved, and what one more would gain.";
  static constexpr bool searches = true;
  Given brief, build;
  std::optional<int> most_swaps;
  std::optional<double> time_limit_s;
};

struct ClaimsAsk {
  static constexpr std::string_view name = "claims";
  static constexpr std::string_view about =
      "Every claim of a given build: what it rests on, how far from failing, and what to do.";
  static constexpr bool searches = false;
  Given build, brief;
  MeasuredInput measured;
};

struct FitAsk {
  static constexpr std::string_view name = "fit";
  static constexpr std::string_view about =
      "Where everything of a build sits: mounts, clearances, what to measure on the table, "
      "standoffs and screws.";
  static constexpr bool searches = false;
  Given build, brief;
  MeasuredInput measured;
};

struct PowerAsk {
  static constexpr std::string_view name = "power";
  static constexpr std::string_view about =
      "What a build draws: each part under each load, the supply, the wall, each plug, a year of "
      "it.";
  static constexpr bool searches = false;
  Given build, brief, beside;
  bool show_work = false;
  MeasuredInput measured;
};

struct AirAsk {
  static constexpr std::string_view name = "air";
  static constexpr std::string_view about =
      "How much air goes through a build, how hot it gets, what power it keeps up, how loud it is.";
  static constexpr bool searches = false;
  Given build, brief;
  double speed_percent = 0.0;  ///< 0: not given
  double cooler_speed_percent = 0.0;
  double distance_m = 1.0;
  bool show_work = false;
  MeasuredInput measured;
};

struct SheetAsk {
  static constexpr std::string_view name = "sheet";
  static constexpr std::string_view about =
      "Write what is published of a build: one HTML file, Markdown, CSV and a drawing.";
  static constexpr bool searches = true;
  Given build, brief;
};

struct CheckAsk {
  static constexpr std::string_view name = "check";
  static constexpr std::string_view about =
      "Validate a catalog folder: every bad row, what is unknown and what that costs in verdicts, "
      "what to look up first, values worth a second look, where cells come from.";
  static constexpr bool searches = false;
  Given brief;
  int top = 10;
};

void declare(Inputs& in, PlanAsk& ask);
void declare(Inputs& in, OutlookAsk& ask);
void declare(Inputs& in, InsistAsk& ask);
void declare(Inputs& in, FrontierAsk& ask);
void declare(Inputs& in, RepairAsk& ask);
void declare(Inputs& in, ClaimsAsk& ask);
void declare(Inputs& in, FitAsk& ask);
void declare(Inputs& in, PowerAsk& ask);
void declare(Inputs& in, AirAsk& ask);
void declare(Inputs& in, SheetAsk& ask);
void declare(Inputs& in, CheckAsk& ask);

}  // namespace rigproof::app
