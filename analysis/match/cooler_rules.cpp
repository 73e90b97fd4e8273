// The cooler on the processor: a mounting set for its socket, and the heat it is rated for.
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array cpu_cooler = {Kind::cpu, Kind::cooler};
constexpr std::array cpu_cooler_other = {Kind::cpu, Kind::cooler, Kind::other};

constexpr ColumnId cpu_socket = column("cpu", "socket");
constexpr ColumnId box_socket = column("cooler_sockets", "socket");
constexpr ColumnId what = column("other", "what");
constexpr ColumnId set_part = column("other_mounts", "other");
constexpr ColumnId set_cooler = column("other_mounts", "cooler");
constexpr ColumnId set_socket = column("other_mounts", "socket");
constexpr std::array cooler_socket_reads = {
    cpu_socket, column("cooler_sockets", "cooler"), box_socket, what, set_part, set_cooler,
    set_socket};

// A set of the build that is for this cooler; its row for the socket, no_row when it has none.
Row row_of_set(const Facts& facts, PartRef set, std::string_view socket) {
  for (const Row row : facts.catalog.rows_of(table("other_mounts"), set))
    if (facts.catalog.reference(set_cooler, row) == facts.build.one(Kind::cooler) &&
        facts.catalog.word(set_socket, row) == socket)
      return row;
  return no_row;
}

bool is_in_the_box(const Facts& facts, std::string_view socket, Measure* m) {
  bool fits = false;
  for (const Row row : facts.catalog.rows_of(table("cooler_sockets"), only(facts, Kind::cooler))) {
    if (m != nullptr) m->note_seen(box_socket, row);
    fits = fits || facts.catalog.word(box_socket, row) == socket;
  }
  return fits;
}

// (15) In the box, or in the build. What is not known matters only while neither is found.
void measure_cooler_socket(const Facts& facts, int, Measure& m) {
  const auto has = m.read_word(facts, cpu_socket, facts.build.one(Kind::cpu));
  bool fits = is_in_the_box(facts, has, &m);
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const Row row = row_of_set(facts, {Kind::other, other.row}, has);
    if (row == no_row) continue;
    m.note_seen(set_socket, row);
    fits = true;
  }
  if (!fits) {
    m.read_rows(facts, table("cooler_sockets"), only(facts, Kind::cooler));
    for (const Chosen& other : facts.build.of(Kind::other))
      if (m.read_word(facts, what, other.row) == "socket-mount")
        m.read_rows(facts, table("other_mounts"), {Kind::other, other.row});
  }
  m.compare_text(has, {}, fits);
}

// The part of the catalog that mounts this cooler on that socket; row no_row when there is none.
PartRef set_of_catalog(const Facts& facts, std::string_view socket) {
  for (Row row = 0; row < facts.catalog.rows(table("other_mounts")); ++row)
    if (facts.catalog.reference(set_cooler, row) == facts.build.one(Kind::cooler) &&
        facts.catalog.word(set_socket, row) == socket)
      return {Kind::other, facts.catalog.reference(set_part, row)};
  return {Kind::other, no_row};
}

std::vector<std::string> sockets_it_fits(const Facts& facts, PartRef cooler) {
  std::vector<std::string> sockets;
  for (const Row row : facts.catalog.rows_of(table("cooler_sockets"), cooler))
    sockets.push_back(cell(facts, box_socket, row));
  for (const Chosen& other : facts.build.of(Kind::other))
    for (const Row row : facts.catalog.rows_of(table("other_mounts"), {Kind::other, other.row}))
      if (facts.catalog.reference(set_cooler, row) == cooler.row)
        sockets.push_back(cell(facts, set_socket, row));
  std::ranges::sort(sockets);  // the order of the rows says nothing
  sockets.erase(std::ranges::unique(sockets).begin(), sockets.end());
  return sockets;
}

void tell_cooler_socket(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef cooler = only(facts, Kind::cooler);
  const auto has = facts.catalog.word(cpu_socket, cpu.row);
  t.subjects = {cpu, cooler};
  for (const std::string& socket : sockets_it_fits(facts, cooler))
    t.limit_text += (t.limit_text.empty() ? "" : ", ") + socket;
  t.statement =
      fmt::format("The mounting set of the {} (for {}) fits the socket of the {} ({}).",
                  name(facts, cooler), t.limit_text.empty() ? "sockets not known" : t.limit_text,
                  name(facts, cpu), cell(facts, cpu_socket, cpu.row));
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef set{Kind::other, other.row};
    if (row_of_set(facts, set, has) == no_row) continue;
    t.subjects.push_back(set);
    if (!is_in_the_box(facts, has, nullptr))
      t.statement = fmt::format("With the {}, the {} mounts on the socket of the {} ({}).",
                                name(facts, set), name(facts, cooler), name(facts, cpu), has);
  }
  if (has.empty()) return;
  t.remedy = fmt::format("choose a cooler with a mounting set for socket {}", has);
  if (const PartRef set = set_of_catalog(facts, has); set.row != no_row)
    t.remedy = fmt::format("add the {}, which mounts this cooler on socket {}, or {}",
                           name(facts, set), has, t.remedy);
}

constexpr std::array cooler_heat_reads = {column("cpu", "sustained_power_w"),
                                          column("cooler", "rated_heat_w")};

void measure_cooler_heat(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, cooler_heat_reads[0], facts.build.one(Kind::cpu));
  m.limit = m.read(facts, cooler_heat_reads[1], facts.build.one(Kind::cooler));
}

void tell_cooler_heat(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef cooler = only(facts, Kind::cooler);
  const auto heat = cell(facts, cooler_heat_reads[0], cpu.row);
  t.load = "all-core";
  t.statement = fmt::format(
      "The {} W that the {} keeps up are within the {} W its maker rates the {} for; a rating, not "
      "a temperature.",
      heat, name(facts, cpu), cell(facts, cooler_heat_reads[1], cooler.row), name(facts, cooler));
  t.remedy = fmt::format(
      "choose a cooler rated above {} W, or hold the processor to the cooler's rating", heat);
  t.subjects = {cpu, cooler};
}

}  // namespace

constexpr Rule cooler_socket = {
    .id = "match.cooler-socket",
    .about = "a mounting set in the cooler's box or in the build fits the processor's socket",
    .consequence =
        "The cooler could not be fastened on this board, and a processor without a cooler shuts "
        "down.",
    .kinds = cpu_cooler_other,
    .reads = cooler_socket_reads,
    .relation = Relation::one_of,
    .equation = "processor's socket is one of those of the mounting sets at hand, (15)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::cooler>,
    .measure = measure_cooler_socket,
    .tell = tell_cooler_socket};

constexpr Rule cooler_heat = {
    .id = "match.cooler-heat",
    .about = "sustained processor power against the heat the cooler is rated for",
    .consequence =
        "The cooler could not carry the processor's heat; the processor would slow itself down, "
        "hot and loud.",
    .kinds = cpu_cooler,
    .reads = cooler_heat_reads,
    .unit = "W",
    .equation = "sustained processor power <= heat the cooler is rated for, (11)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::cooler>,
    .measure = measure_cooler_heat,
    .tell = tell_cooler_heat};

}  // namespace rigproof::match
