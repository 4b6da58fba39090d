-- Letters by which a body asks for the proof of claims.
CREATE TABLE letter (
  id            TEXT    PRIMARY KEY, -- UUID
  number        INTEGER NOT NULL UNIQUE CHECK (number > 0), -- 2 is shown as L2
  certification TEXT    NOT NULL REFERENCES certification (id),
  cycle         TEXT    NOT NULL, -- UUID of the cycle asked about; a closing taken back may remove it
  dated         TEXT    NOT NULL CHECK (length(dated) = 10), -- the letter's own day, YYYY-MM-DD
  due           TEXT    NOT NULL CHECK (length(due) = 10 AND due >= dated), -- last day to answer
  days          INTEGER NOT NULL CHECK (days >= 0), -- to answer, by the scheme; 0: the letter itself names the day
  whole         INTEGER NOT NULL CHECK (whole IN (0, 1)), -- 1: it asks for every claim of the cycle
  seed          TEXT    NOT NULL, -- with which the claims were drawn; '' if the letter names them
  answered      TEXT    NOT NULL CHECK (length(answered) IN (0, 10)), -- day; '' while it is open
  note          TEXT    NOT NULL, -- how it was answered
  event         INTEGER NOT NULL,
  made          TEXT    NOT NULL, -- UTC
  withdrawn     INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  why           TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX letter_certification ON letter (certification);

-- The papers that are the letter.
CREATE TABLE letter_paper (
  letter TEXT NOT NULL REFERENCES letter (id),
  paper  TEXT NOT NULL REFERENCES paper (id),
  PRIMARY KEY (letter, paper)
) STRICT, WITHOUT ROWID;
CREATE INDEX letter_paper_paper ON letter_paper (paper);

-- The claims that it asks for.
CREATE TABLE letter_claim (
  letter TEXT NOT NULL REFERENCES letter (id),
  claim  TEXT NOT NULL REFERENCES claim (id),
  PRIMARY KEY (letter, claim)
) STRICT, WITHOUT ROWID;
CREATE INDEX letter_claim_claim ON letter_claim (claim);

-- Short numbers have a further letter.
CREATE TABLE number_with_letters (
  letter TEXT    PRIMARY KEY CHECK (letter IN ('P', 'A', 'C', 'R', 'L')),
  last   INTEGER NOT NULL CHECK (last > 0)
) STRICT, WITHOUT ROWID;
INSERT INTO number_with_letters SELECT letter, last FROM number;
DROP TABLE number;
ALTER TABLE number_with_letters RENAME TO number;
