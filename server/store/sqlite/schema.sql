-- The store of one shop. FORMAT.md explains every column; sqlite_store.cc is the only writer.
-- Times are whole seconds since 1970-01-01T00:00:00Z; spans are half-open.

CREATE TABLE meta (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  store BLOB NOT NULL CHECK (length(store) = 16),
  made_by TEXT NOT NULL,
  archived_before INTEGER NOT NULL
) STRICT;

CREATE TABLE journal (
  revision INTEGER PRIMARY KEY CHECK (revision > 0),
  at INTEGER NOT NULL,
  command BLOB CHECK (length(command) = 16),
  device BLOB NOT NULL CHECK (length(device) = 16),
  events BLOB NOT NULL,
  hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

CREATE TABLE stock (
  kind INTEGER PRIMARY KEY CHECK (kind > 0),
  count INTEGER NOT NULL CHECK (count >= 0),
  since INTEGER NOT NULL
) STRICT;

CREATE TABLE claims (
  holder_kind INTEGER NOT NULL CHECK (holder_kind IN (0, 1)),
  holder INTEGER NOT NULL CHECK (holder > 0),
  kind INTEGER NOT NULL REFERENCES stock (kind),
  count INTEGER NOT NULL CHECK (count > 0),
  begin INTEGER NOT NULL,
  end INTEGER NOT NULL CHECK (end > begin AND end - begin <= 31622400),
  PRIMARY KEY (holder_kind, holder, kind)
) STRICT, WITHOUT ROWID;

-- Covers every column: what the table says is said twice, so that integrity_check sees a flipped bit.
CREATE INDEX claims_by_time ON claims (kind, end, begin, count, holder_kind, holder);

-- The most pieces of a kind that are claimed at one instant of a span is the highest running sum over its begins and
-- ends; an end comes before a begin at the same instant, because spans are half-open. Mostly the plain sum of all that
-- overlap fits already, and the running sum is not needed.
CREATE TRIGGER claims_guard BEFORE INSERT ON claims
WHEN NEW.count + coalesce((
  SELECT sum(count) FROM claims WHERE kind = NEW.kind AND end > NEW.begin AND begin < NEW.end
), 0) > (SELECT count FROM stock WHERE kind = NEW.kind)
BEGIN
  SELECT RAISE(ABORT, 'claims would exceed the stock')
  FROM stock
  WHERE stock.kind = NEW.kind AND NEW.end > stock.since AND NEW.count + coalesce((
    SELECT max(level) FROM (
      SELECT sum(step) OVER (ORDER BY t, step ROWS UNBOUNDED PRECEDING) AS level FROM (
        SELECT max(begin, NEW.begin, stock.since) AS t, count AS step FROM claims
        WHERE kind = NEW.kind AND end > max(NEW.begin, stock.since) AND begin < NEW.end
        UNION ALL
        SELECT end, -count FROM claims
        WHERE kind = NEW.kind AND end > max(NEW.begin, stock.since) AND begin < NEW.end
      )
    )
  ), 0) > stock.count;
END;

CREATE TRIGGER claims_are_replaced BEFORE UPDATE ON claims
BEGIN
  SELECT RAISE(ABORT, 'claims are deleted and inserted, never changed');
END;

CREATE TRIGGER stock_guard BEFORE UPDATE ON stock
BEGIN
  SELECT RAISE(ABORT, 'stock would fall below the claims')
  WHERE coalesce((
    SELECT max(level) FROM (
      SELECT sum(step) OVER (ORDER BY t, step ROWS UNBOUNDED PRECEDING) AS level FROM (
        SELECT max(begin, NEW.since) AS t, count AS step FROM claims
        WHERE kind = NEW.kind AND end > NEW.since
        UNION ALL
        SELECT end, -count FROM claims
        WHERE kind = NEW.kind AND end > NEW.since
      )
    )
  ), 0) > NEW.count;
END;

-- The first answer of each command, refusals included. bytes is empty once the answer is too old to be given again.
CREATE TABLE answers (
  command BLOB PRIMARY KEY CHECK (length(command) = 16),
  at INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT, WITHOUT ROWID;

CREATE TABLE snapshots (
  revision INTEGER PRIMARY KEY CHECK (revision > 0),
  at INTEGER NOT NULL,
  hash BLOB NOT NULL CHECK (length(hash) = 32),
  bytes BLOB NOT NULL,
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;
