-- Words of our own. A finding the patient did not wish has the state `refused`; its old word also meant a change for the
-- worse. A letter is `signed`, since sending it is not recorded. Signs of a movement have the words the catalogue shows.
-- The length of the course of a walk for minutes is a condition of its own. No database here can change a CHECK, so the
-- tables are made again, what hangs on them first; numbers are copied as they are, signed or not. How urgent a letter is
-- stands in the clinic's own words, a level a line; a draft that nobody gave an urgency says none.

ALTER TABLE clinic ADD COLUMN urgency_levels TEXT NOT NULL DEFAULT '';

CREATE TABLE new_findings (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    visit TEXT NOT NULL REFERENCES visits (id) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    measure TEXT NOT NULL CHECK (measure <> ''),
    side TEXT NOT NULL CHECK (side IN ('none', 'right', 'left')),
    state TEXT NOT NULL
        CHECK (state IN ('done', 'unable', 'not-attempted', 'refused', 'not-applicable', 'not-asked')),
    number DOUBLE PRECISION,
    unit TEXT,
    grade INTEGER,
    choice TEXT CHECK (choice <> ''),
    reason TEXT NOT NULL CHECK (reason = '' OR state <> 'done'),
    cap_reached INTEGER NOT NULL CHECK (cap_reached IN (0, 1)),
    signs TEXT NOT NULL,
    note TEXT NOT NULL,
    UNIQUE (visit, measure, side),
    CHECK ((number IS NULL) = (unit IS NULL)),
    CHECK (CASE WHEN number IS NULL THEN 0 ELSE 1 END
         + CASE WHEN grade IS NULL THEN 0 ELSE 1 END
         + CASE WHEN choice IS NULL THEN 0 ELSE 1 END
         = CASE WHEN state = 'done' THEN 1 ELSE 0 END)
);

INSERT INTO new_findings (id, revision, visit, position, measure, side, state, number, unit, grade, choice, reason,
                          cap_reached, signs, note)
SELECT id, revision, visit, position, measure, side,
       CASE WHEN state = 'declined' THEN 'refused' ELSE state END,
       number, unit, grade, choice, reason, cap_reached, signs, note
FROM findings;

-- Signs stand one a line. A line break around the whole makes every sign a line between two breaks.
UPDATE new_findings
SET signs = REPLACE(REPLACE(REPLACE(REPLACE('
' || signs || '
', '
rate
', '
speed
'), '
amplitude
', '
size
'), '
rhythm
', '
evenness
'), '
accuracy
', '
aim
')
WHERE signs <> '' AND measure IN ('finger-tapping', 'alternating-hand-movement', 'toe-tapping', 'heel-tapping');

UPDATE new_findings
SET signs = SUBSTR(signs, 2, LENGTH(signs) - 2)
WHERE signs <> '' AND measure IN ('finger-tapping', 'alternating-hand-movement', 'toe-tapping', 'heel-tapping');

CREATE TABLE new_trials (
    finding TEXT NOT NULL REFERENCES new_findings (id) ON DELETE CASCADE,
    number INTEGER NOT NULL CHECK (number >= 1),
    value DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding, number)
);

INSERT INTO new_trials (finding, number, value) SELECT finding, number, value FROM trials;

CREATE TABLE new_taps (
    finding TEXT NOT NULL REFERENCES new_findings (id) ON DELETE CASCADE,
    number INTEGER NOT NULL CHECK (number >= 1),
    at_s DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding, number)
);

INSERT INTO new_taps (finding, number, at_s) SELECT finding, number, at_s FROM taps;

CREATE TABLE new_finding_conditions (
    finding TEXT NOT NULL REFERENCES new_findings (id) ON DELETE CASCADE,
    name TEXT NOT NULL CHECK (name <> ''),
    value TEXT NOT NULL,
    PRIMARY KEY (finding, name)
);

INSERT INTO new_finding_conditions (finding, name, value)
SELECT finding_conditions.finding,
       CASE WHEN finding_conditions.name = 'distance_m'
             AND new_findings.measure IN ('six-minute-walk', 'two-minute-walk')
            THEN 'course_m' ELSE finding_conditions.name END,
       finding_conditions.value
FROM finding_conditions JOIN new_findings ON new_findings.id = finding_conditions.finding;

DROP TABLE trials;

DROP TABLE taps;

DROP TABLE finding_conditions;

DROP TABLE findings;

ALTER TABLE new_findings RENAME TO findings;

ALTER TABLE new_trials RENAME TO trials;

ALTER TABLE new_taps RENAME TO taps;

ALTER TABLE new_finding_conditions RENAME TO finding_conditions;

-- A distance recorded for the whole visit was the course of its walk for minutes where no walk over a timed distance
-- used it.
INSERT INTO finding_conditions (finding, name, value)
SELECT findings.id, 'course_m', visit_conditions.value
FROM findings JOIN visit_conditions
  ON visit_conditions.visit = findings.visit AND visit_conditions.name = 'distance_m' AND visit_conditions.value <> ''
WHERE findings.measure IN ('six-minute-walk', 'two-minute-walk')
  AND NOT EXISTS (SELECT 1 FROM finding_conditions
                  WHERE finding_conditions.finding = findings.id AND finding_conditions.name = 'course_m')
  AND NOT EXISTS (SELECT 1 FROM findings AS others
                  WHERE others.visit = findings.visit
                    AND (others.measure IN ('gait-speed-comfortable', 'gait-speed-fast', 'four-metre-gait-speed',
                                            'ten-metre-walk-time-comfortable', 'ten-metre-walk-time-fast',
                                            'four-metre-walk-time', 'ten-metre-walk-steps', 'cadence', 'step-length',
                                            'dual-task-walk-time', 'dual-task-cost')
                         OR others.measure LIKE 'own-%')
                    AND NOT EXISTS (SELECT 1 FROM finding_conditions
                                    WHERE finding_conditions.finding = others.id
                                      AND finding_conditions.name = 'distance_m'));

CREATE TABLE new_letters (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    visit TEXT NOT NULL REFERENCES visits (id),
    reference TEXT REFERENCES visits (id),
    state TEXT NOT NULL CHECK (state IN ('draft', 'signed')),
    recipient TEXT NOT NULL,
    copies_to TEXT NOT NULL,
    urgency TEXT NOT NULL,
    question TEXT NOT NULL,
    actions TEXT NOT NULL,
    history TEXT NOT NULL,
    interpretation TEXT NOT NULL,
    charts TEXT NOT NULL,
    author_name TEXT NOT NULL,
    author_role TEXT NOT NULL,
    author_registration TEXT NOT NULL,
    saved_at TEXT NOT NULL,
    signed_at TEXT,
    body TEXT NOT NULL,
    pdf BYTEA,
    odt BYTEA,
    CHECK ((state = 'draft') = (signed_at IS NULL)),
    CHECK (state = 'draft' OR (author_name <> '' AND body <> ''))
);

INSERT INTO new_letters (id, revision, patient, visit, reference, state, recipient, copies_to, urgency, question, actions,
                         history, interpretation, charts, author_name, author_role, author_registration, saved_at,
                         signed_at, body, pdf, odt)
SELECT id, revision, patient, visit, reference, CASE WHEN state = 'sent' THEN 'signed' ELSE state END, recipient,
       copies_to,
       CASE WHEN urgency = 'urgent' THEN 'Urgent: within two weeks'
            WHEN urgency = 'immediate' THEN 'Immediate: within hours'
            WHEN urgency = 'routine' AND state = 'draft' THEN ''
            WHEN urgency = 'routine' THEN 'Routine'
            ELSE urgency END,
       question, actions, history, interpretation, charts, author_name, author_role, author_registration, saved_at,
       signed_at, body, pdf, odt
FROM letters;

DROP TABLE letters;

ALTER TABLE new_letters RENAME TO letters;

CREATE INDEX letters_patient ON letters (patient);

CREATE INDEX letters_visit ON letters (visit);

CREATE INDEX letters_reference ON letters (reference);

-- The guards of the tables made again, as in 0002 and 0004.

CREATE TRIGGER findings_signed_insert
BEFORE INSERT ON findings
WHEN (SELECT state FROM visits WHERE id = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER findings_signed_update
BEFORE UPDATE ON findings
WHEN (SELECT state FROM visits WHERE id = OLD.visit) <> 'draft'
  OR (SELECT state FROM visits WHERE id = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER findings_signed_delete
BEFORE DELETE ON findings
WHEN (SELECT state FROM visits WHERE id = OLD.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER trials_signed_insert
BEFORE INSERT ON trials
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER trials_signed_update
BEFORE UPDATE ON trials
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
  OR (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER trials_signed_delete
BEFORE DELETE ON trials
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER finding_conditions_signed_insert
BEFORE INSERT ON finding_conditions
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER finding_conditions_signed_update
BEFORE UPDATE ON finding_conditions
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
  OR (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER finding_conditions_signed_delete
BEFORE DELETE ON finding_conditions
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER letters_signed_update
BEFORE UPDATE ON letters
WHEN OLD.state = 'signed'
BEGIN
    SELECT RAISE(ABORT, 'A signed letter never changes.');
END;

CREATE TRIGGER letters_signed_delete
BEFORE DELETE ON letters
WHEN OLD.state = 'signed'
BEGIN
    SELECT RAISE(ABORT, 'A signed letter never changes.');
END;

CREATE TRIGGER letters_signed_replace
BEFORE INSERT ON letters
WHEN EXISTS (SELECT 1 FROM letters WHERE id = NEW.id AND state = 'signed')
BEGIN
    SELECT RAISE(ABORT, 'A signed letter never changes.');
END;

CREATE TRIGGER taps_signed_insert
BEFORE INSERT ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER taps_signed_update
BEFORE UPDATE ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
  OR (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER taps_signed_delete
BEFORE DELETE ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;
