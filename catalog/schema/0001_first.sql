-- The log. Everything else but tree can be made again from it.
CREATE TABLE event (
  number INTEGER PRIMARY KEY CHECK (number > 0), -- gapless, from 1; record number-1 of the tree
  act    INTEGER NOT NULL CHECK (act > 0 AND act <= number), -- number of the first event of the same transaction
  at     TEXT    NOT NULL,                       -- UTC, as 2006-01-02T15:04:05.000Z
  kind   TEXT    NOT NULL,
  body   TEXT                                    -- canonical JSON (RFC 8785); null once blanked
) STRICT;
CREATE INDEX event_kind ON event (kind, number);

-- The Merkle tree over the log (RFC 6962), numbered as golang.org/x/mod/sumdb/tlog does.
CREATE TABLE tree (
  id   INTEGER PRIMARY KEY CHECK (id >= 0),
  hash BLOB    NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- Which events are about which thing.
CREATE TABLE about (
  id    TEXT    NOT NULL, -- UUID, or SHA-256 of an evidence
  event INTEGER NOT NULL,
  PRIMARY KEY (id, event)
) STRICT, WITHOUT ROWID;

-- Acts that were taken back.
CREATE TABLE undone (
  act   INTEGER PRIMARY KEY, -- number of the act
  event INTEGER NOT NULL     -- that took it back
) STRICT;

-- The highest short number used for each letter.
CREATE TABLE number (
  letter TEXT    PRIMARY KEY CHECK (letter IN ('P', 'A', 'C', 'R')),
  last   INTEGER NOT NULL CHECK (last > 0)
) STRICT, WITHOUT ROWID;

-- The vault, and the key that signs its head.
CREATE TABLE vault (
  id     TEXT PRIMARY KEY, -- UUID
  public TEXT NOT NULL,    -- the public key now in force, as golang.org/x/mod/sumdb/note prints it
  made   TEXT NOT NULL     -- UTC
) STRICT, WITHOUT ROWID;

-- The names of the person the vault belongs to.
CREATE TABLE holder (
  event  INTEGER PRIMARY KEY,
  name   TEXT    NOT NULL CHECK (name <> ''),
  former INTEGER NOT NULL CHECK (former IN (0, 1)) -- 1: a name borne before
) STRICT;

-- Schemes whose bytes lie in schemes/.
CREATE TABLE scheme (
  sha256  TEXT    PRIMARY KEY CHECK (length(sha256) = 64), -- lower-case hex
  id      TEXT    NOT NULL,
  version TEXT    NOT NULL, -- '' if it has none
  file    TEXT    NOT NULL, -- the name it came under
  event   INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE certification (
  id     TEXT    PRIMARY KEY,   -- UUID
  name   TEXT    NOT NULL UNIQUE CHECK (name <> ''), -- the short id that people type
  title  TEXT    NOT NULL,
  scheme TEXT    NOT NULL,      -- id of its scheme
  number TEXT    NOT NULL,      -- that the body gave; '' if none
  event  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE cycle (
  id            TEXT    PRIMARY KEY, -- UUID
  certification TEXT    NOT NULL REFERENCES certification (id),
  first         TEXT    NOT NULL CHECK (length(first) = 10), -- first day, YYYY-MM-DD
  last          TEXT    NOT NULL CHECK (length(last) = 10 AND last >= first), -- last day
  scheme        TEXT    NOT NULL REFERENCES scheme (sha256), -- the version it runs under
  closed        INTEGER NOT NULL CHECK (closed IN (0, 1)),
  event         INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX cycle_certification ON cycle (certification);
CREATE INDEX cycle_scheme ON cycle (scheme);

-- What rules ask about the holder.
CREATE TABLE fact (
  name  TEXT    NOT NULL CHECK (name <> ''),
  since TEXT    NOT NULL, -- first day on which it holds, YYYY-MM-DD; '' for ever
  value TEXT    NOT NULL,
  event INTEGER NOT NULL,
  PRIMARY KEY (name, since)
) STRICT, WITHOUT ROWID;

-- Watched folders.
CREATE TABLE drop_folder (
  dir   TEXT    PRIMARY KEY, -- relative to the vault's folder where it lies within, with slashes
  empty INTEGER NOT NULL CHECK (empty IN (0, 1)), -- 1: files are removed once taken in
  event INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Files as they came; the bytes lie in evidence/.
CREATE TABLE evidence (
  sha256 TEXT    PRIMARY KEY CHECK (length(sha256) = 64), -- lower-case hex
  size   INTEGER NOT NULL CHECK (size >= 0),              -- bytes
  type   TEXT    NOT NULL,                                -- media type by content
  ext    TEXT    NOT NULL,                                -- of its file in the store, with the point
  event  INTEGER NOT NULL UNIQUE,
  taken  TEXT    NOT NULL                                 -- UTC
) STRICT, WITHOUT ROWID;

-- Every name that an evidence came under.
CREATE TABLE evidence_name (
  event    INTEGER PRIMARY KEY,
  sha256   TEXT NOT NULL REFERENCES evidence (sha256),
  name     BLOB NOT NULL, -- byte for byte
  readable TEXT NOT NULL, -- as it may be shown
  parent   TEXT REFERENCES evidence (sha256), -- the evidence that it is a part of; null for a dropped file
  part     BLOB           -- name of that part, byte for byte
) STRICT;
CREATE INDEX evidence_name_sha256 ON evidence_name (sha256);
CREATE INDEX evidence_name_parent ON evidence_name (parent) WHERE parent IS NOT NULL;

-- What a person decides about: one document within an evidence.
CREATE TABLE paper (
  id      TEXT    PRIMARY KEY, -- UUID
  number  INTEGER NOT NULL UNIQUE CHECK (number > 0), -- 12 is shown as P12
  sha256  TEXT    NOT NULL REFERENCES evidence (sha256),
  first   INTEGER NOT NULL CHECK (first >= 0),     -- first page within the evidence, from 1; 0: not known yet
  last    INTEGER NOT NULL CHECK (last >= first),  -- last page
  part    TEXT    NOT NULL,                        -- attachment or archive member that was read; '' for all
  state   TEXT    NOT NULL CHECK (state IN ('unread', 'waiting', 'confirmed', 'set aside', 'retired')),
  why     TEXT    NOT NULL,                        -- why it is unread, or was set aside
  reading INTEGER NOT NULL,                        -- event of the newest reading; 0 without one
  event   INTEGER NOT NULL,
  made    TEXT    NOT NULL                         -- UTC
) STRICT, WITHOUT ROWID;
CREATE INDEX paper_sha256 ON paper (sha256);
CREATE INDEX paper_state ON paper (state, number);

-- What retired papers were cut or joined into.
CREATE TABLE paper_into (
  paper TEXT NOT NULL REFERENCES paper (id),
  fresh TEXT NOT NULL REFERENCES paper (id),
  PRIMARY KEY (paper, fresh)
) STRICT, WITHOUT ROWID;
CREATE INDEX paper_into_fresh ON paper_into (fresh);

-- Rows of transcripts that were decided.
CREATE TABLE paper_row (
  paper TEXT    NOT NULL REFERENCES paper (id),
  row   INTEGER NOT NULL CHECK (row > 0), -- from 1
  state TEXT    NOT NULL CHECK (state IN ('confirmed', 'left out')),
  PRIMARY KEY (paper, row)
) STRICT, WITHOUT ROWID;

-- What the program found in a paper, each time it read it.
CREATE TABLE reading (
  event   INTEGER PRIMARY KEY,
  paper   TEXT NOT NULL REFERENCES paper (id),
  outcome TEXT NOT NULL,
  kind    TEXT NOT NULL, -- '' if none was read
  made    TEXT NOT NULL, -- UTC
  body    TEXT NOT NULL  -- all of it, canonical JSON; a box is four integers in hundredths of a point
) STRICT;
CREATE INDEX reading_paper ON reading (paper);

-- What the person did, once.
CREATE TABLE activity (
  id        TEXT    PRIMARY KEY, -- UUID
  number    INTEGER NOT NULL UNIQUE CHECK (number > 0), -- 7 is shown as A7
  paper     TEXT    REFERENCES paper (id), -- it was confirmed from; null without a document
  row       INTEGER NOT NULL CHECK (row >= 0), -- of a transcript, from 1; 0 for a whole paper
  event     INTEGER NOT NULL,
  made      TEXT    NOT NULL, -- UTC
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  why       TEXT    NOT NULL  -- why it was withdrawn
) STRICT, WITHOUT ROWID;
CREATE INDEX activity_paper ON activity (paper);

CREATE TABLE activity_field (
  activity TEXT NOT NULL REFERENCES activity (id),
  field    TEXT NOT NULL,
  value    TEXT NOT NULL CHECK (value <> ''), -- canonical: days YYYY-MM-DD, minutes whole, amounts exact
  by       TEXT NOT NULL CHECK (by IN ('program', 'person')),
  PRIMARY KEY (activity, field)
) STRICT, WITHOUT ROWID;

-- A proof links one field of an activity to the place in an evidence that shows it.
CREATE TABLE proof (
  event    INTEGER PRIMARY KEY,
  activity TEXT    NOT NULL REFERENCES activity (id),
  field    TEXT    NOT NULL,
  evidence TEXT    NOT NULL REFERENCES evidence (sha256),
  paper    TEXT    NOT NULL REFERENCES paper (id),
  reading  INTEGER REFERENCES reading (event), -- null without one
  row      INTEGER NOT NULL CHECK (row >= 0),  -- of a transcript, from 1
  value    TEXT    NOT NULL,                   -- canonical
  by       TEXT    NOT NULL CHECK (by IN ('program', 'person')),
  page     INTEGER NOT NULL CHECK (page > 0),  -- from 1
  box      TEXT,                               -- [x0,y0,x1,y1], hundredths of a point; null without a place
  quote    TEXT                                -- the words read there; null if a person set the value
) STRICT;
CREATE INDEX proof_activity ON proof (activity);
CREATE INDEX proof_evidence ON proof (evidence);
CREATE INDEX proof_paper ON proof (paper);
CREATE INDEX proof_reading ON proof (reading);

-- An activity put forward for one certification's cycle in one category.
CREATE TABLE claim (
  id            TEXT    PRIMARY KEY, -- UUID
  number        INTEGER NOT NULL UNIQUE CHECK (number > 0), -- 9 is shown as C9
  activity      TEXT    NOT NULL REFERENCES activity (id),
  certification TEXT    NOT NULL REFERENCES certification (id),
  cycle         TEXT    NOT NULL REFERENCES cycle (id),
  category      TEXT    NOT NULL,
  event         INTEGER NOT NULL,
  made          TEXT    NOT NULL, -- UTC
  withdrawn     INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  why           TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX claim_activity ON claim (activity);
CREATE INDEX claim_certification ON claim (certification);
CREATE INDEX claim_cycle ON claim (cycle);

-- Money paid or paid back.
CREATE TABLE receipt (
  id        TEXT    PRIMARY KEY, -- UUID
  number    INTEGER NOT NULL UNIQUE CHECK (number > 0), -- 3 is shown as R3
  paper     TEXT    NOT NULL REFERENCES paper (id),
  activity  TEXT    REFERENCES activity (id), -- of which it is a cost; null: paid, no certificate yet
  event     INTEGER NOT NULL,
  made      TEXT    NOT NULL, -- UTC
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  why       TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX receipt_paper ON receipt (paper);
CREATE INDEX receipt_activity ON receipt (activity);

CREATE TABLE receipt_field (
  receipt TEXT NOT NULL REFERENCES receipt (id),
  field   TEXT NOT NULL,
  value   TEXT NOT NULL CHECK (value <> ''), -- canonical; a total is "518.40 GBP"
  PRIMARY KEY (receipt, field)
) STRICT, WITHOUT ROWID;
