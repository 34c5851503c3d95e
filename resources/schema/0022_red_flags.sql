-- What was answered at a visit to the questions about red flags. What is not there was not asked. A yes says what was done about
-- it and when, by the clock of the place, before the visit is signed.
CREATE TABLE red_flags (
    visit INTEGER NOT NULL REFERENCES visits (key) ON DELETE CASCADE,
    flag TEXT NOT NULL CHECK (flag <> ''),
    answer TEXT NOT NULL CHECK (answer IN ('yes', 'no')),
    action TEXT NOT NULL CHECK (action = '' OR answer = 'yes'),
    acted_on TEXT CHECK (acted_on LIKE '____-__-__'),
    acted_at TEXT CHECK (acted_at LIKE '__:__'),
    PRIMARY KEY (visit, flag),
    CHECK ((action = '') = (acted_on IS NULL)),
    CHECK ((action = '') = (acted_at IS NULL))
) WITHOUT ROWID;

CREATE TRIGGER red_flags_signed_insert
BEFORE INSERT ON red_flags
WHEN (SELECT state FROM visits WHERE key = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER red_flags_signed_update
BEFORE UPDATE ON red_flags
WHEN (SELECT state FROM visits WHERE key = OLD.visit) <> 'draft'
  OR (SELECT state FROM visits WHERE key = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER red_flags_signed_delete
BEFORE DELETE ON red_flags
WHEN (SELECT state FROM visits WHERE key = OLD.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER red_flags_acknowledged
BEFORE UPDATE ON visits
WHEN NEW.state <> 'draft'
  AND EXISTS (SELECT 1 FROM red_flags WHERE visit = NEW.key AND answer = 'yes' AND action = '')
BEGIN
    SELECT RAISE(ABORT, 'A red flag answered yes says what was done and when before the visit is signed.');
END;
