-- What each import from a file wrote, so that it can be taken back as long as nothing stands on top of it.
CREATE TABLE imports (
    number INTEGER NOT NULL PRIMARY KEY,
    file TEXT NOT NULL CHECK (file <> ''),
    made_at TEXT NOT NULL CHECK (made_at <> ''),
    taken_back_at TEXT CHECK (taken_back_at <> '')
);

-- `revision` is that of the record as the import left it: with another one, something was written on top. `filled` names
-- what the file knew of a patient and the records did not.
CREATE TABLE import_writes (
    import INTEGER NOT NULL REFERENCES imports (number),
    position INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('new-patient', 'patient', 'visit', 'amendment', 'draft')),
    record TEXT NOT NULL CHECK (record <> ''),
    revision INTEGER NOT NULL CHECK (revision >= 1),
    filled TEXT NOT NULL CHECK (filled = '' OR kind = 'patient'),
    PRIMARY KEY (import, position)
);

CREATE INDEX import_writes_record ON import_writes (record);

-- What a draft held before of each finding that the import wrote into it: how many trials, 0 for a value without trials, and
-- nothing where the finding was not there.
CREATE TABLE import_findings (
    import INTEGER NOT NULL REFERENCES imports (number),
    visit TEXT NOT NULL CHECK (visit <> ''),
    measure TEXT NOT NULL CHECK (measure <> ''),
    side TEXT NOT NULL CHECK (side IN ('none', 'right', 'left')),
    trials INTEGER CHECK (trials >= 0),
    cap_reached INTEGER NOT NULL CHECK (cap_reached IN (0, 1)),
    PRIMARY KEY (import, visit, measure, side)
);

-- It only grows; an import is taken back once.
CREATE TRIGGER imports_update
BEFORE UPDATE ON imports
WHEN OLD.taken_back_at IS NOT NULL OR NEW.taken_back_at IS NULL
  OR NEW.number <> OLD.number OR NEW.file <> OLD.file OR NEW.made_at <> OLD.made_at
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER imports_delete
BEFORE DELETE ON imports
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER imports_replace
BEFORE INSERT ON imports
WHEN EXISTS (SELECT 1 FROM imports WHERE number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_writes_update
BEFORE UPDATE ON import_writes
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_writes_delete
BEFORE DELETE ON import_writes
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_writes_replace
BEFORE INSERT ON import_writes
WHEN EXISTS (SELECT 1 FROM import_writes WHERE import = NEW.import AND position = NEW.position)
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_findings_update
BEFORE UPDATE ON import_findings
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_findings_delete
BEFORE DELETE ON import_findings
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;

CREATE TRIGGER import_findings_replace
BEFORE INSERT ON import_findings
WHEN EXISTS (SELECT 1 FROM import_findings
             WHERE import = NEW.import AND visit = NEW.visit AND measure = NEW.measure AND side = NEW.side)
BEGIN
    SELECT RAISE(ABORT, 'What an import wrote stays on record.');
END;
