// Records: frozen publications. They never change; they gain errata and successors.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "store/documents.hpp"
#include "store/id.hpp"
#include "store/instant.hpp"

namespace rigproof::store {

/// One revision of one document.
struct RevisionName {
  DocumentId document;
  std::int64_t revision = 1;
  friend bool operator==(const RevisionName&, const RevisionName&) = default;
};

struct NewRecord {
  std::string name;  ///< one line
  std::string body;  ///< what was published: any bytes, up to `max_text_bytes`
  Instant frozen_at;
  std::optional<RevisionName> build{};  ///< what it was made from
  std::optional<RecordId> succeeds{};   ///< the record whose place it takes
};

struct RecordInfo {
  RecordId id;
  std::string name;
  Instant frozen_at;
  std::optional<RevisionName> build{};
  std::optional<RecordId> succeeds{};
  std::int64_t size_bytes = 0;  ///< of the body
  std::string sha256;           ///< of the body, 64 hexadecimal digits
  friend bool operator==(const RecordInfo&, const RecordInfo&) = default;
};

/// A correction that stands beside the record.
struct Erratum {
  std::int64_t number = 1;  ///< within its record, from 1 without gaps
  Instant noted_at;
  std::string text;  ///< prose, up to `max_prose_bytes`
  friend bool operator==(const Erratum&, const Erratum&) = default;
};

struct Record {
  RecordInfo info;
  std::string body;
  std::vector<Erratum> errata{};       ///< in the order of their numbers
  std::vector<RecordId> successors{};  ///< records that take its place, the oldest first
  friend bool operator==(const Record&, const Record&) = default;
};

}  // namespace rigproof::store
