// Power plugs of a build, name by name: what the supply brings, what cable sets of its own family
// add, and what adapters turn into something else. Not for other engines.
#pragma once

#include <array>
#include <string_view>

#include "claims/rule.hpp"

namespace rigproof::match {

inline constexpr std::array<std::string_view, 8> plug_names = {
    "atx24", "eps8", "eps4", "pcie6", "pcie8", "12v-2x6", "sata", "peripheral4"};

/// How many plugs of each name the parts of one rule need; `judged` are the names that rule speaks
/// of.
struct PlugNeeds {
  std::array<double, plug_names.size()> needed{};
  std::array<bool, plug_names.size()> judged{};
};
/// Place of a name in `plug_names`; names come from columns with just these choices.
[[nodiscard]] std::size_t plug_index(std::string_view name);

/// Columns that set_plugs() reads beside the needing parts' own, for Rule::reads.
inline constexpr std::array plug_columns = {
    column("psu_cables", "connector"),       column("psu_cables", "count"),
    column("psu", "cable_family"),           column("other", "what"),
    column("other", "cable_family"),         column("other_cables", "connector"),
    column("other_cables", "count"),         column("other_adapters", "takes"),
    column("other_adapters", "takes_count"), column("other_adapters", "gives"),
    column("other_adapters", "gives_count")};

/// Plugs of one name: what is needed of them, and what there is.
struct PlugSum {
  Draws taken = 0.0;                ///< by adapters
  Draws offered = Draws::absent();  ///< by supply, cable sets and adapters
};

/// Equation (6) of README.md. Adapters that give what the rule judges are used so that as little as
/// possible is lacking over all its names (then as few of them as possible); adapters that give
/// something else are used in full. An adapter takes plugs of the supply and of cable sets, never
/// those of another adapter. In: `name`, an index of plug_names. A supply without listed cables is
/// noted as absent. At most eight different conversions are tried out; further ones give nothing.
[[nodiscard]] PlugSum plugs(const Facts& facts, const PlugNeeds& needs, std::size_t name,
                            Measure& m);

/// What is not known of sets and adapters and might still give plugs of this name: to be noted when
/// they are short.
void note_unknown_plugs(const Facts& facts, Measure& m);

/// Are there adapters or cable sets in the build?
[[nodiscard]] bool has_plug_parts(const Facts& facts);

}  // namespace rigproof::match
