-- How the clinic wants courses judged: over how many visits a sustained trend keeps its false-flag rate, and after how
-- many weeks the composite worsening of multiple sclerosis counts as confirmed (NULL: it is not told).
ALTER TABLE clinic ADD COLUMN planned_visits INTEGER NOT NULL DEFAULT 8 CHECK (planned_visits BETWEEN 3 AND 100);

ALTER TABLE clinic ADD COLUMN composite_weeks INTEGER CHECK (composite_weeks IN (12, 24));

-- A clinician's word that what was not recorded of a measure's conditions was the same at two visits. Both are named by
-- their series, which may be a draft that is discarded later. It only grows: the newest of a measure and two visits
-- counts.
CREATE TABLE declared_equal (
    patient TEXT NOT NULL REFERENCES patients (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    measure TEXT NOT NULL CHECK (measure <> ''),
    earlier TEXT NOT NULL CHECK (earlier <> ''),
    later TEXT NOT NULL CHECK (later <> ''),
    taken_back INTEGER NOT NULL CHECK (taken_back IN (0, 1)),
    reason TEXT NOT NULL CHECK (reason <> ''),
    who TEXT NOT NULL,
    declared_at TEXT NOT NULL,
    PRIMARY KEY (patient, number),
    CHECK (earlier <> later)
);
