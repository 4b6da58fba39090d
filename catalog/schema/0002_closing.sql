-- Closings of cycles: one that was begun, one that was completed, one that was taken back.
CREATE TABLE closing (
  event    INTEGER PRIMARY KEY,      -- that began it
  cycle    TEXT    NOT NULL REFERENCES cycle (id),
  day      TEXT    NOT NULL CHECK (length(day) = 10), -- for which its figures hold, YYYY-MM-DD
  state    TEXT    NOT NULL CHECK (state IN ('begun', 'closed', 'taken back')),
  why      TEXT    NOT NULL,         -- why it was taken back
  archive  TEXT    NOT NULL UNIQUE,  -- its folder within cycles/
  digest   TEXT    NOT NULL,         -- SHA-256 of the archive's tagmanifest-sha256.txt, lower-case hex; '' until it is closed
  next     TEXT    NOT NULL,         -- UUID of the cycle that follows; '' if none does
  unit     TEXT    NOT NULL,         -- what one credit is called; '' until it is closed, as all that follows
  counted  TEXT    NOT NULL,         -- amount, exact
  target   TEXT    NOT NULL,         -- amount, exact; '' if the scheme sets none
  meets    INTEGER NOT NULL CHECK (meets IN (0, 1)), -- 1: target and every minimum are met
  carried  TEXT    NOT NULL,         -- amount that passed into the next cycle, exact
  kept     TEXT    NOT NULL,         -- last day on which its proofs must be kept, YYYY-MM-DD; '' if the scheme does not say
  claims   INTEGER NOT NULL CHECK (claims >= 0), -- in the archive
  closed   TEXT    NOT NULL,         -- UTC
  gone     INTEGER NOT NULL          -- event by which the archive was deleted; 0: it is there
) STRICT;
CREATE INDEX closing_cycle ON closing (cycle);

-- Credit that passed into a cycle from the one before.
CREATE TABLE carried (
  event    INTEGER PRIMARY KEY,
  cycle    TEXT NOT NULL REFERENCES cycle (id), -- into which it came
  origin   TEXT NOT NULL REFERENCES cycle (id), -- from which it came
  claim    TEXT REFERENCES claim (id),          -- that earned it; null if no single one did
  amount   TEXT NOT NULL,                       -- exact
  category TEXT NOT NULL,                       -- that it became; '' if the scheme names none
  tags     TEXT NOT NULL,                       -- JSON array
  earned   TEXT NOT NULL                        -- day, YYYY-MM-DD; '' if not known
) STRICT;
CREATE INDEX carried_cycle ON carried (cycle);
CREATE INDEX carried_origin ON carried (origin);
CREATE INDEX carried_claim ON carried (claim);

-- Notes to closed cycles, the only way to correct them.
CREATE TABLE cycle_note (
  event INTEGER PRIMARY KEY,
  cycle TEXT NOT NULL REFERENCES cycle (id),
  text  TEXT NOT NULL CHECK (text <> ''),
  made  TEXT NOT NULL -- UTC
) STRICT;
CREATE INDEX cycle_note_cycle ON cycle_note (cycle);

-- Evidence whose file was deleted after its time of keeping.
CREATE TABLE deleted (
  sha256 TEXT    PRIMARY KEY REFERENCES evidence (sha256),
  why    TEXT    NOT NULL,
  event  INTEGER NOT NULL,
  made   TEXT    NOT NULL -- UTC
) STRICT, WITHOUT ROWID;

-- Evidence that a person wants kept whatever the rules say.
CREATE TABLE held (
  sha256 TEXT    PRIMARY KEY REFERENCES evidence (sha256),
  why    TEXT    NOT NULL,
  event  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
