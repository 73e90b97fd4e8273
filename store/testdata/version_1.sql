-- A store of version 1 as it was written then, with a little of everything. Kept as it is: what
-- later versions make of it is tested (sqlite_migration_test.cpp).
BEGIN TRANSACTION;
CREATE TABLE document (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*'),
  kind TEXT NOT NULL CHECK (kind IN ('brief', 'build', 'mapping', 'table')),
  table_name TEXT UNIQUE,
  CHECK ((kind = 'table') = (table_name IS NOT NULL))
) STRICT;
INSERT INTO document VALUES('abcdefghij','brief',NULL);
INSERT INTO document VALUES('klmnopqrst','table','gpu.csv');
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
INSERT INTO document_revision VALUES('abcdefghij',1,'Quiet corner','2026-10-01T08:00:00Z',0,'45b124c1a5bb5167a3e82625f4155648eccb1f2cce2252c547f0e53f7d500fc4',X'5b62726965665d0a');
INSERT INTO document_revision VALUES('abcdefghij',2,'Quiet ''corner''','2026-10-02T08:00:00Z',0,'d1db92f7bbb9b6153eafc7d1bb53476230fcc54a67787876cdda196f44a1e5d9',X'5b62726965665d0a6e616d65203d202278220a00656e64');
INSERT INTO document_revision VALUES('abcdefghij',3,'Quiet ''corner''','2026-10-03T08:00:00Z',1,NULL,NULL);
INSERT INTO document_revision VALUES('klmnopqrst',1,'gpu.csv','2026-10-01T08:00:00Z',0,'0f22dc2dc26027add15f0187e818ddef8e565c2b09f5d5be1492e692acbb1487',X'69642c6e616d650d0a');
CREATE TABLE price_batch (
  number INTEGER PRIMARY KEY,
  origin TEXT NOT NULL CHECK (length(CAST(origin AS BLOB)) BETWEEN 1 AND 200),
  appended_at TEXT NOT NULL CHECK (appended_at IS
    strftime('%Y-%m-%dT%H:%M:%SZ', appended_at, '+0 days')),
  offers INTEGER NOT NULL CHECK (offers > 0)
) STRICT;
INSERT INTO price_batch VALUES(1,'september.csv','2026-09-30T18:00:00Z',2);
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
INSERT INTO price VALUES(1,1,'gpu','card-a','north-shop','IE','2026-09-29','new','EUR',41900,1,3,2,24,'plain');
INSERT INTO price VALUES(2,1,'gpu','card-a','south-shop','GB','2026-09-28','used','GBP',30000,0,NULL,NULL,NULL,NULL);
CREATE TABLE item (
  id TEXT PRIMARY KEY CHECK (length(id) = 10 AND id NOT GLOB '*[^a-z2-7]*')
) STRICT;
INSERT INTO item VALUES('uvwxyz2345');
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
INSERT INTO item_revision VALUES('uvwxyz2345',1,'2026-10-01T09:00:00Z','psu','supply-a','loaned','used','S1','the maker','2026-09-01','2026-12-01',NULL,NULL,'cleaned');
INSERT INTO item_revision VALUES('uvwxyz2345',2,'2026-10-05T09:00:00Z','psu','supply-a','loaned','faulty','S1','the maker','2026-09-01','2026-12-01',NULL,'2026-10-05','cleaned, fan stuck');
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
INSERT INTO run VALUES('aaaaabbbbb','bench left','harbour-lights','2026-10-04T20:15:00Z','abcdefghij',3,'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',X'64726976657220312e32',X'616263');
CREATE INDEX document_kind ON document (kind);
CREATE UNIQUE INDEX price_once ON price (part_kind, part, seen, seller, market, condition, currency,
  price_minor, tax_included, ifnull(stock, -1), ifnull(delivery_days, -1),
  ifnull(warranty_months, -1), ifnull(link_kind, ''));
CREATE INDEX price_of_batch ON price (batch);
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
COMMIT;
PRAGMA application_id = 1382502502;
PRAGMA user_version = 1;
