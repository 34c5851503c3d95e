-- What happened to a patient between visits, a row for each version of it. The newest counts, unless it says why the event was
-- taken back, which is the last word on it.
CREATE TABLE happenings (
    id TEXT NOT NULL CHECK (id <> ''),
    version INTEGER NOT NULL CHECK (version >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    kind TEXT NOT NULL
        CHECK (kind IN ('relapse', 'fall', 'surgery', 'medication-begun', 'medication-stopped', 'medication-changed',
                        'botulinum-toxin', 'aid-changed', 'therapy-block', 'infection', 'other')),
    first_day TEXT NOT NULL CHECK (first_day LIKE '____-__-__'),
    last_day TEXT CHECK (last_day LIKE '____-__-__' AND last_day >= first_day),
    injury TEXT NOT NULL CHECK (injury IN ('', 'yes', 'no') AND (injury = '' OR kind = 'fall')),
    words TEXT NOT NULL,
    taken_back_for TEXT NOT NULL,
    who TEXT NOT NULL,
    entered_at TEXT NOT NULL,
    PRIMARY KEY (id, version)
);

CREATE INDEX happenings_patient ON happenings (patient);

-- What a patient wants to reach, in the order it was agreed. The newest of a measure and side counts, unless it says why it is
-- no longer looked at.
CREATE TABLE targets (
    patient TEXT NOT NULL REFERENCES patients (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    measure TEXT NOT NULL CHECK (measure <> ''),
    side TEXT NOT NULL CHECK (side IN ('none', 'right', 'left')),
    value DOUBLE PRECISION NOT NULL,
    by_day TEXT CHECK (by_day LIKE '____-__-__' AND by_day >= agreed_on),
    words TEXT NOT NULL,
    agreed_on TEXT NOT NULL CHECK (agreed_on LIKE '____-__-__'),
    dropped_for TEXT NOT NULL,
    who TEXT NOT NULL,
    entered_at TEXT NOT NULL,
    PRIMARY KEY (patient, number)
);

-- What was asked once at a visit, whichever of its versions was open then.
CREATE TABLE visit_questions (
    visit INTEGER NOT NULL REFERENCES visits (key) ON DELETE CASCADE,
    question TEXT NOT NULL CHECK (question = 'events-since-last-visit'),
    who TEXT NOT NULL,
    answered_at TEXT NOT NULL,
    PRIMARY KEY (visit, question)
);
