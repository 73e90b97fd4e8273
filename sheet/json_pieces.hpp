// How the shared values of the answers are written as JSON: money, claims, parts, builds,
// conflicts. Used by the writers of whole documents (json.cpp, answers_json.cpp); see json.hpp for
// the shapes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/json_writer.hpp"
#include "sheet/model.hpp"

namespace rigproof::sheet {

void write(JsonWriter& out, const Money& money);
void write(JsonWriter& out, const Quantity& quantity);
void write(JsonWriter& out, const Limit& limit);
void write(JsonWriter& out, const Missing& missing);
void write(JsonWriter& out, const Measured& measured);
void write(JsonWriter& out, const Swap& swap);
void write(JsonWriter& out, const Adjustment& adjustment);
void write(JsonWriter& out, const WorkingCell& cell);
void write(JsonWriter& out, const Working& working);
void write(JsonWriter& out, const Claim& claim);
void write(JsonWriter& out, const TitleLine& title);
void write(JsonWriter& out, const PartLine& part);
void write(JsonWriter& out, const PlannedBuild& build);
void write(JsonWriter& out, const ConflictLine& line);
inline void write(JsonWriter& out, const std::string& text) { out.text(text); }

template <class T>
void member(JsonWriter& out, std::string_view name, const T& value) {
  out.key(name);
  write(out, value);
}
template <class T>
void member(JsonWriter& out, std::string_view name, const std::optional<T>& value) {
  if (value) member(out, name, *value);
}
inline void member(JsonWriter& out, std::string_view name, const std::optional<double>& value) {
  if (value) out.member(name, *value);
}
template <class T>
void member(JsonWriter& out, std::string_view name, const std::vector<T>& values) {
  out.key(name);
  out.begin_array();
  for (const T& value : values) write(out, value);
  out.end_array();
}

/// Ids by kind: what stands under the key "parts".
void write_parts(JsonWriter& out, const std::vector<PartLine>& parts);
/// Money by market: what stands under the key "prices". In: as many of one as of the other.
void write_prices(JsonWriter& out, const std::vector<std::string>& markets,
                  const std::vector<Money>& prices);
/// The object under the key "proof".
void write_proof(JsonWriter& out, const Proof& proof);
/// The keys "conflicts" and "through".
void write_conflicts(JsonWriter& out, const std::vector<Conflict>& conflicts);

}  // namespace rigproof::sheet
