#include "store/sqlite_schema.hpp"

#include <fmt/format.h>

#include <array>

namespace rigproof::store {
namespace {

// A date or moment holds when SQLite writes it back the same; `+0 days` makes it look at the
// calendar (else 30 February holds). Large columns come last, so that lists do not read over them.
// Tables that only grow say so by triggers; a second row with the key of one that is there is
// refused before REPLACE could remove the first.
constexpr const char* documents_prices_items_runs = R"sql(
CREATE TABLE document (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*'),
  kind TEXT NOT NULL CHECK (kind IN ('brief', 'build', 'mapping', 'table')),
  table_name TEXT UNIQUE,
  CHECK ((kind = 'table') = (table_name IS NOT NULL))
) STRICT;
CREATE INDEX document_kind ON document (kind);

CREATE TABLE document_revision (
  document TEXT NOT NULL REFERENCES document (id),
  revision INTEGER NOT NULL,
  name TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 200),
  saved_at TEXT NOT NULL CHECK (saved_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', saved_at, '+0 days')),
  deleted INTEGER NOT NULL CHECK (deleted IN (0, 1)),
  sha256 TEXT CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  text BLOB CHECK (length(text) <= 67108864),
  PRIMARY KEY (document, revision),
  CHECK ((deleted = 1) = (text IS NULL)),
  CHECK ((text IS NULL) = (sha256 IS NULL))
) STRICT;

CREATE TABLE price_batch (
  number INTEGER PRIMARY KEY,
  origin TEXT NOT NULL CHECK (length(CAST(origin AS BLOB)) BETWEEN 1 AND 200),
  appended_at TEXT NOT NULL CHECK (appended_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', appended_at, '+0 days')),
  offers INTEGER NOT NULL CHECK (offers > 0)
) STRICT;

CREATE TABLE price (
  number INTEGER PRIMARY KEY,
  batch INTEGER NOT NULL REFERENCES price_batch (number),
  part_kind TEXT NOT NULL CHECK (length(part_kind) BETWEEN 1 AND 32),
  part TEXT NOT NULL CHECK (length(part) BETWEEN 1 AND 64 AND part NOT GLOB '*[^a-z0-9-]*'),
  seller TEXT NOT NULL CHECK (length(seller) BETWEEN 1 AND 64 AND seller NOT GLOB '*[^a-z0-9-]*'),
  market TEXT NOT NULL CHECK (market GLOB '[A-Z][A-Z]'),
  seen TEXT NOT NULL CHECK (seen IS date(seen, '+0 days')),
  condition TEXT NOT NULL CHECK (condition IN ('new', 'refurbished', 'used')),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  price_minor INTEGER NOT NULL CHECK (price_minor BETWEEN 0 AND 1000000000000000),
  tax_included INTEGER NOT NULL CHECK (tax_included IN (0, 1)),
  stock INTEGER CHECK (stock BETWEEN 0 AND 1000000),
  delivery_days INTEGER CHECK (delivery_days BETWEEN 0 AND 365),
  warranty_months INTEGER CHECK (warranty_months BETWEEN 0 AND 240),
  link_kind TEXT CHECK (link_kind IN ('plain', 'commission'))
) STRICT;
CREATE UNIQUE INDEX price_once ON price (part_kind, part, seen, seller, market, condition, currency,
  price_minor, tax_included, ifnull(stock, -1), ifnull(delivery_days, -1),
  ifnull(warranty_months, -1), ifnull(link_kind, ''));
CREATE INDEX price_of_batch ON price (batch);

CREATE TABLE item (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*')
) STRICT;

CREATE TABLE item_revision (
  item TEXT NOT NULL REFERENCES item (id),
  revision INTEGER NOT NULL,
  saved_at TEXT NOT NULL CHECK (saved_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', saved_at, '+0 days')),
  part_kind TEXT NOT NULL CHECK (length(part_kind) BETWEEN 1 AND 32),
  part TEXT NOT NULL CHECK (length(part) BETWEEN 1 AND 64 AND part NOT GLOB '*[^a-z0-9-]*'),
  came TEXT NOT NULL CHECK (came IN ('bought', 'loaned', 'gifted', 'sponsored', 'owned')),
  condition TEXT NOT NULL CHECK (condition IN ('new', 'refurbished', 'used', 'faulty')),
  serial TEXT NOT NULL CHECK (length(CAST(serial AS BLOB)) <= 200),
  from_whom TEXT NOT NULL CHECK (length(CAST(from_whom AS BLOB)) <= 200),
  came_on TEXT CHECK (came_on IS date(came_on, '+0 days')),
  due_back TEXT CHECK (due_back IS date(due_back, '+0 days')),
  warranty_until TEXT CHECK (warranty_until IS date(warranty_until, '+0 days')),
  left_on TEXT CHECK (left_on IS date(left_on, '+0 days')),
  done TEXT NOT NULL CHECK (length(CAST(done AS BLOB)) <= 65536),
  PRIMARY KEY (item, revision),
  CHECK (due_back IS NULL OR came = 'loaned'),
  CHECK (due_back IS NULL OR came_on IS NULL OR due_back >= came_on),
  CHECK (left_on IS NULL OR came_on IS NULL OR left_on >= came_on)
) STRICT;

CREATE TABLE run (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*'),
  machine TEXT NOT NULL CHECK (length(CAST(machine AS BLOB)) BETWEEN 1 AND 200),
  title TEXT NOT NULL CHECK (length(CAST(title AS BLOB)) BETWEEN 1 AND 200),
  taken_at TEXT NOT NULL CHECK (taken_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', taken_at, '+0 days')),
  build TEXT REFERENCES document (id),
  size_bytes INTEGER NOT NULL,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  context BLOB NOT NULL CHECK (length(context) <= 67108864),
  capture BLOB NOT NULL CHECK (length(capture) <= 268435456),
  CHECK (size_bytes = length(capture))
) STRICT;
CREATE INDEX run_of_build ON run (build);

CREATE TRIGGER document_keeps BEFORE UPDATE ON document
  BEGIN SELECT RAISE(ABORT, 'documents are never overwritten'); END;
CREATE TRIGGER document_stays BEFORE DELETE ON document
  BEGIN SELECT RAISE(ABORT, 'documents are never taken out'); END;
CREATE TRIGGER document_once BEFORE INSERT ON document
  WHEN EXISTS (SELECT 1 FROM document WHERE id = NEW.id OR table_name = NEW.table_name)
  BEGIN SELECT RAISE(ABORT, 'this document is there already'); END;
CREATE TRIGGER document_revision_keeps BEFORE UPDATE ON document_revision
  BEGIN SELECT RAISE(ABORT, 'revisions are never overwritten'); END;
CREATE TRIGGER document_revision_stays BEFORE DELETE ON document_revision
  BEGIN SELECT RAISE(ABORT, 'revisions are never taken out'); END;
CREATE TRIGGER document_revision_follows BEFORE INSERT ON document_revision
  WHEN NEW.revision IS NOT
    (SELECT ifnull(max(revision), 0) + 1 FROM document_revision WHERE document = NEW.document)
  BEGIN SELECT RAISE(ABORT, 'a revision follows the newest one'); END;
CREATE TRIGGER price_batch_keeps BEFORE UPDATE ON price_batch
  BEGIN SELECT RAISE(ABORT, 'prices seen are never overwritten'); END;
CREATE TRIGGER price_batch_stays BEFORE DELETE ON price_batch
  BEGIN SELECT RAISE(ABORT, 'prices seen are never taken out'); END;
CREATE TRIGGER price_batch_once BEFORE INSERT ON price_batch
  WHEN EXISTS (SELECT 1 FROM price_batch WHERE number = NEW.number)
  BEGIN SELECT RAISE(ABORT, 'this batch is there already'); END;
CREATE TRIGGER price_keeps BEFORE UPDATE ON price
  BEGIN SELECT RAISE(ABORT, 'prices seen are never overwritten'); END;
CREATE TRIGGER price_stays BEFORE DELETE ON price
  BEGIN SELECT RAISE(ABORT, 'prices seen are never taken out'); END;
CREATE TRIGGER price_once BEFORE INSERT ON price
  WHEN EXISTS (SELECT 1 FROM price WHERE number = NEW.number)
  BEGIN SELECT RAISE(ABORT, 'this price is there already'); END;
CREATE TRIGGER item_keeps BEFORE UPDATE ON item
  BEGIN SELECT RAISE(ABORT, 'items are never overwritten'); END;
CREATE TRIGGER item_stays BEFORE DELETE ON item
  BEGIN SELECT RAISE(ABORT, 'items are never taken out'); END;
CREATE TRIGGER item_once BEFORE INSERT ON item
  WHEN EXISTS (SELECT 1 FROM item WHERE id = NEW.id)
  BEGIN SELECT RAISE(ABORT, 'this item is there already'); END;
CREATE TRIGGER item_revision_keeps BEFORE UPDATE ON item_revision
  BEGIN SELECT RAISE(ABORT, 'revisions are never overwritten'); END;
CREATE TRIGGER item_revision_stays BEFORE DELETE ON item_revision
  BEGIN SELECT RAISE(ABORT, 'revisions are never taken out'); END;
CREATE TRIGGER item_revision_follows BEFORE INSERT ON item_revision
  WHEN NEW.revision IS NOT
    (SELECT ifnull(max(revision), 0) + 1 FROM item_revision WHERE item = NEW.item)
  BEGIN SELECT RAISE(ABORT, 'a revision follows the newest one'); END;
CREATE TRIGGER run_keeps BEFORE UPDATE ON run
  BEGIN SELECT RAISE(ABORT, 'runs are never overwritten'); END;
CREATE TRIGGER run_stays BEFORE DELETE ON run
  BEGIN SELECT RAISE(ABORT, 'runs are never taken out'); END;
CREATE TRIGGER run_once BEFORE INSERT ON run
  WHEN EXISTS (SELECT 1 FROM run WHERE id = NEW.id)
  BEGIN SELECT RAISE(ABORT, 'this run is there already'); END;
)sql";

constexpr const char* records = R"sql(
CREATE TABLE record (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*'),
  name TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 200),
  frozen_at TEXT NOT NULL CHECK (frozen_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', frozen_at, '+0 days')),
  build TEXT,
  build_revision INTEGER,
  succeeds TEXT REFERENCES record (id),
  size_bytes INTEGER NOT NULL,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  body BLOB NOT NULL CHECK (length(body) <= 67108864),
  FOREIGN KEY (build, build_revision) REFERENCES document_revision (document, revision),
  CHECK ((build IS NULL) = (build_revision IS NULL)),
  CHECK (succeeds <> id),
  CHECK (size_bytes = length(body))
) STRICT;
CREATE INDEX record_successors ON record (succeeds);

CREATE TABLE erratum (
  record TEXT NOT NULL REFERENCES record (id),
  number INTEGER NOT NULL,
  noted_at TEXT NOT NULL CHECK (noted_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', noted_at, '+0 days')),
  text TEXT NOT NULL CHECK (length(CAST(text AS BLOB)) BETWEEN 1 AND 65536),
  PRIMARY KEY (record, number)
) STRICT;

CREATE TRIGGER record_keeps BEFORE UPDATE ON record
  BEGIN SELECT RAISE(ABORT, 'a record never changes: add an erratum or a successor'); END;
CREATE TRIGGER record_stays BEFORE DELETE ON record
  BEGIN SELECT RAISE(ABORT, 'a record is never taken out'); END;
CREATE TRIGGER record_once BEFORE INSERT ON record
  WHEN EXISTS (SELECT 1 FROM record WHERE id = NEW.id)
  BEGIN SELECT RAISE(ABORT, 'a record never changes: add an erratum or a successor'); END;
CREATE TRIGGER erratum_keeps BEFORE UPDATE ON erratum
  BEGIN SELECT RAISE(ABORT, 'an erratum never changes'); END;
CREATE TRIGGER erratum_stays BEFORE DELETE ON erratum
  BEGIN SELECT RAISE(ABORT, 'an erratum is never taken out'); END;
CREATE TRIGGER erratum_follows BEFORE INSERT ON erratum
  WHEN NEW.number IS NOT
    (SELECT ifnull(max(number), 0) + 1 FROM erratum WHERE record = NEW.record)
  BEGIN SELECT RAISE(ABORT, 'an erratum follows the newest one'); END;
)sql";

constexpr std::array<const char*, 2> all{documents_prices_items_runs, records};

}  // namespace

std::span<const char* const> migrations() { return all; }

FileState state_of(Database& database, std::size_t newest) {
  const Transaction one_moment(database, Access::read);  // another process may be making the file
  const auto application = database.integer("PRAGMA application_id");
  const auto version = database.integer("PRAGMA user_version");
  if (application == application_id)
    return version <= static_cast<std::int64_t>(newest) ? FileState::ours : FileState::newer;
  const bool blank = application == 0 && version == 0 &&
                     database.integer("SELECT count(*) FROM sqlite_schema") == 0;
  return blank ? FileState::empty : FileState::foreign;
}

void migrate(Database& database, std::span<const char* const> steps) {
  const auto version = [&database] {
    return static_cast<std::size_t>(database.integer("PRAGMA user_version").value_or(0));
  };
  while (version() < steps.size()) {
    Transaction transaction(database, Access::write);
    const std::size_t from = version();  // another process may have been faster
    if (from >= steps.size()) return;
    database.execute(steps[from]);
    database.execute(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}",
                                 application_id, from + 1)
                         .c_str());
    transaction.commit();
  }
}

}  // namespace rigproof::store
