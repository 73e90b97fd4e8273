// Runs: measured passes with their captures, kept as they were taken.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "store/documents.hpp"
#include "store/id.hpp"
#include "store/instant.hpp"

namespace rigproof::store {

struct NewRun {
  std::string machine;  ///< what the machine is called, one line
  std::string title;    ///< id in titles.csv, one line
  Instant taken_at;
  std::string context;                ///< driver, patch, system, room...: any bytes as a document
  std::string capture;                ///< any bytes, up to `max_capture_bytes`
  std::optional<DocumentId> build{};  ///< the document that describes the machine
};

struct RunInfo {
  RunId id;
  std::string machine;
  std::string title;
  Instant taken_at;
  std::optional<DocumentId> build{};
  std::int64_t size_bytes = 0;  ///< of the capture
  std::string sha256;           ///< of the capture, 64 hexadecimal digits
  friend bool operator==(const RunInfo&, const RunInfo&) = default;
};

struct Run {
  RunInfo info;
  std::string context;
  std::string capture;
  friend bool operator==(const Run&, const Run&) = default;
};

}  // namespace rigproof::store
