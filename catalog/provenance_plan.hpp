// Rows of provenance.csv to be added or changed, so that each place of a table is spoken of once.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>

#include "catalog/import.hpp"

namespace rigproof {

/// What provenance.csv is to say of one place. Texts as its cells hold them.
struct ProvenanceNote {
  std::string row;     ///< row key, or *
  std::string column;  ///< its name, or *
  std::string source, seen, method, plus_minus;
};

class ProvenancePlan {
 public:
  /// The catalog must outlive it.
  explicit ProvenancePlan(const Catalog& catalog);
  /// A row that speaks of the same place already is changed, whole: what it said else goes.
  void add(int table, const ProvenanceNote& note);
  [[nodiscard]] ImportPlan take() { return std::move(plan_); }

 private:
  const Catalog& catalog_;
  std::unordered_map<std::string, Row> rows_;  // by table, row and column
  ImportPlan plan_;
};

}  // namespace rigproof
