-- The form a visit was made with, as JSON; empty for visits from before this version.
ALTER TABLE visits ADD COLUMN form_made TEXT NOT NULL DEFAULT '';

-- The instants of counted taps, seconds from the start of the run. A part of a finding.
CREATE TABLE taps (
    finding TEXT NOT NULL REFERENCES findings (id) ON DELETE CASCADE,
    number INTEGER NOT NULL CHECK (number >= 1),
    at_s DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding, number)
);

-- Which published row a clinician chose for a patient instead of the rule's. It only grows: the newest counts, and an
-- empty threshold goes back to the rule.
CREATE TABLE evidence_choices (
    patient TEXT NOT NULL REFERENCES patients (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    measure TEXT NOT NULL CHECK (measure <> ''),
    threshold TEXT NOT NULL,
    reason TEXT NOT NULL CHECK (reason <> ''),
    who TEXT NOT NULL,
    chosen_at TEXT NOT NULL,
    PRIMARY KEY (patient, number)
);

-- The clinic's own forms, measures and thresholds, whole, one row a version. It only grows: the newest that can be read
-- counts.
CREATE TABLE clinic_catalogues (
    version INTEGER NOT NULL PRIMARY KEY CHECK (version >= 1),
    document TEXT NOT NULL,
    who TEXT NOT NULL,
    saved_at TEXT NOT NULL
);
