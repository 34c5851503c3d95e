-- A visit of the wrong person is withdrawn as entered in error, with every version of it; what was signed stays as it is.
-- It only grows: a visit is withdrawn once, for good. `series` is the id of the visit's first version.
CREATE TABLE visit_withdrawals (
    series TEXT NOT NULL PRIMARY KEY REFERENCES visits (id),
    reason TEXT NOT NULL CHECK (reason <> ''),
    author_name TEXT NOT NULL CHECK (author_name <> ''),
    author_role TEXT NOT NULL,
    author_registration TEXT NOT NULL,
    withdrawn_at TEXT NOT NULL CHECK (withdrawn_at <> '')
);

-- The audit trail learns the word for it. A constraint cannot be changed in place, so the table is made anew.
CREATE TABLE audit_trail_anew (
    number INTEGER NOT NULL PRIMARY KEY,
    made_at TEXT NOT NULL,
    who TEXT NOT NULL,
    action TEXT NOT NULL
        CHECK (action IN ('created', 'changed', 'signed', 'amended', 'withdrawn', 'removed', 'imported')),
    kind TEXT NOT NULL
        CHECK (kind IN ('patient', 'visit', 'finding', 'conditions', 'letter', 'clinic')),
    record TEXT NOT NULL
);

INSERT INTO audit_trail_anew (number, made_at, who, action, kind, record)
SELECT number, made_at, who, action, kind, record FROM audit_trail ORDER BY number;

DROP TABLE audit_trail;

ALTER TABLE audit_trail_anew RENAME TO audit_trail;

CREATE INDEX audit_trail_record ON audit_trail (record, number);

CREATE TRIGGER audit_trail_update
BEFORE UPDATE ON audit_trail
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_trail_delete
BEFORE DELETE ON audit_trail
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_trail_next
BEFORE INSERT ON audit_trail
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM audit_trail)
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER visit_withdrawals_update
BEFORE UPDATE ON visit_withdrawals
BEGIN
    SELECT RAISE(ABORT, 'What was entered in error stays so.');
END;

CREATE TRIGGER visit_withdrawals_delete
BEFORE DELETE ON visit_withdrawals
BEGIN
    SELECT RAISE(ABORT, 'What was entered in error stays so.');
END;

CREATE TRIGGER visit_withdrawals_replace
BEFORE INSERT ON visit_withdrawals
WHEN EXISTS (SELECT 1 FROM visit_withdrawals WHERE series = NEW.series)
BEGIN
    SELECT RAISE(ABORT, 'What was entered in error stays so.');
END;

CREATE TRIGGER visit_withdrawals_draft
BEFORE INSERT ON visit_withdrawals
WHEN EXISTS (SELECT 1 FROM visits WHERE series = NEW.series AND state = 'draft')
BEGIN
    SELECT RAISE(ABORT, 'A draft is not withdrawn; discard it.');
END;

CREATE TRIGGER visits_withdrawn_insert
BEFORE INSERT ON visits
WHEN EXISTS (SELECT 1 FROM visit_withdrawals WHERE series = NEW.series)
BEGIN
    SELECT RAISE(ABORT, 'A visit entered in error is not amended.');
END;

CREATE TRIGGER letters_withdrawn_signed
BEFORE UPDATE ON letters
WHEN NEW.state <> 'draft' AND EXISTS (
    SELECT 1 FROM visits JOIN visit_withdrawals ON visit_withdrawals.series = visits.series
    WHERE visits.id = NEW.visit)
BEGIN
    SELECT RAISE(ABORT, 'This visit was entered in error, so no letter about it is signed.');
END;
