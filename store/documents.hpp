// Documents: texts that people edit, every revision kept.
#pragma once

#include <cstdint>
#include <string>

#include "store/id.hpp"
#include "store/instant.hpp"
#include "store/spelled.hpp"

namespace rigproof::store {

enum class DocumentKind : std::uint8_t {
  brief,
  build,
  mapping,
  table,  ///< a table of the catalog as edited; its name is that of the file, `gpu.csv`
};
template <>
inline constexpr std::array<std::string_view, 4> spelled<DocumentKind>{"brief", "build", "mapping",
                                                                       "table"};

/// The text may be any bytes, 0 to `max_text_bytes`, and comes back to the byte: whether it is a
/// good brief is for others to say. The name is one line (accept.hpp).
struct NewDocument {
  DocumentKind kind = DocumentKind::brief;
  std::string name;
  std::string text;
  Instant saved_at;
};

/// What a save puts in the place of name and text.
struct DocumentChange {
  std::string name;
  std::string text;
  Instant saved_at;
};

/// One revision without its text.
struct DocumentInfo {
  DocumentId id;
  DocumentKind kind = DocumentKind::brief;
  std::string name;
  std::int64_t revision = 1;       ///< this one; they count from 1 without gaps
  std::int64_t head_revision = 1;  ///< the newest one there is
  Instant saved_at;
  bool deleted = false;  ///< this revision says that the document is no more
  friend bool operator==(const DocumentInfo&, const DocumentInfo&) = default;
};

struct Document {
  DocumentInfo info;
  std::string text;  ///< of a revision that deletes: what it deleted
  friend bool operator==(const Document&, const Document&) = default;
};

/// Which documents a list shows.
enum class Listed : std::uint8_t {
  present,
  deleted_too,
};

}  // namespace rigproof::store
