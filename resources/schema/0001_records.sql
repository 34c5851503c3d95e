-- One statement ends at a semicolon before an empty line. Every statement works alike on SQLite and PostgreSQL.
-- Days are calendar dates (2024-03-01), instants are UTC (2024-03-01T09:30:00.000Z), both as text.

CREATE TABLE schema_versions (
    version INTEGER NOT NULL PRIMARY KEY,
    migrated_at TEXT NOT NULL
);

CREATE TABLE clinic (
    id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
    revision INTEGER NOT NULL,
    name TEXT NOT NULL,
    address TEXT NOT NULL,
    telephone TEXT NOT NULL,
    is_demo INTEGER NOT NULL CHECK (is_demo IN (0, 1))
);

INSERT INTO clinic (id, revision, name, address, telephone, is_demo) VALUES (1, 1, '', '', '', 0);

CREATE TABLE patients (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    record_number TEXT NOT NULL,
    family TEXT NOT NULL,
    given TEXT NOT NULL,
    born TEXT CHECK (born LIKE '____-__-__'),
    sex TEXT NOT NULL CHECK (sex IN ('unknown', 'female', 'male', 'other')),
    dominant_hand TEXT NOT NULL CHECK (dominant_hand IN ('unknown', 'right', 'left', 'both')),
    height_cm DOUBLE PRECISION,
    weight_kg DOUBLE PRECISION,
    diagnosis TEXT NOT NULL,
    population TEXT NOT NULL,
    onset TEXT CHECK (onset LIKE '____-__-__'),
    referrer TEXT NOT NULL,
    general_practitioner TEXT NOT NULL,
    allergies TEXT NOT NULL,
    notes TEXT NOT NULL
);

CREATE UNIQUE INDEX patients_record_number ON patients (record_number) WHERE record_number <> '';

-- A row is one version of one visit. `series` is the id of its first version.
CREATE TABLE visits (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    series TEXT NOT NULL REFERENCES visits (id),
    version INTEGER NOT NULL CHECK (version >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    day TEXT NOT NULL CHECK (day LIKE '____-__-__'),
    state TEXT NOT NULL CHECK (state IN ('draft', 'signed', 'amended')),
    form TEXT NOT NULL,
    conditions_confirmed INTEGER NOT NULL CHECK (conditions_confirmed IN (0, 1)),
    author_name TEXT NOT NULL,
    author_role TEXT NOT NULL,
    author_registration TEXT NOT NULL,
    signed_at TEXT,
    amendment_reason TEXT NOT NULL,
    UNIQUE (series, version),
    CHECK ((version = 1) = (series = id)),
    CHECK ((version = 1) = (amendment_reason = '')),
    CHECK (state = 'draft' OR (state = 'signed') = (version = 1)),
    CHECK ((state = 'draft') = (signed_at IS NULL)),
    CHECK ((state = 'draft') = (author_name = ''))
);

CREATE INDEX visits_patient ON visits (patient, day, version);

CREATE UNIQUE INDEX visits_one_draft ON visits (series) WHERE state = 'draft';

CREATE INDEX visits_amended ON visits (series, version) WHERE state = 'amended';

-- `position` keeps the order in which findings were first entered.
CREATE TABLE findings (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    visit TEXT NOT NULL REFERENCES visits (id) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    measure TEXT NOT NULL CHECK (measure <> ''),
    side TEXT NOT NULL CHECK (side IN ('none', 'right', 'left')),
    state TEXT NOT NULL
        CHECK (state IN ('done', 'unable', 'not-attempted', 'declined', 'not-applicable', 'not-asked')),
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

-- Trials, exceptions and conditions are parts of a finding or visit, saved with it and under its revision.
CREATE TABLE trials (
    finding TEXT NOT NULL REFERENCES findings (id) ON DELETE CASCADE,
    number INTEGER NOT NULL CHECK (number >= 1),
    value DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding, number)
);

CREATE TABLE finding_conditions (
    finding TEXT NOT NULL REFERENCES findings (id) ON DELETE CASCADE,
    name TEXT NOT NULL CHECK (name <> ''),
    value TEXT NOT NULL,
    PRIMARY KEY (finding, name)
);

CREATE TABLE visit_conditions (
    visit TEXT NOT NULL REFERENCES visits (id) ON DELETE CASCADE,
    name TEXT NOT NULL CHECK (name <> ''),
    value TEXT NOT NULL,
    PRIMARY KEY (visit, name)
);

-- BYTEA: SQLite takes any name for a type and keeps bytes as they are.
CREATE TABLE letters (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    visit TEXT NOT NULL REFERENCES visits (id),
    reference TEXT REFERENCES visits (id),
    state TEXT NOT NULL CHECK (state IN ('draft', 'sent')),
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

CREATE INDEX letters_patient ON letters (patient);

CREATE INDEX letters_visit ON letters (visit);

CREATE INDEX letters_reference ON letters (reference);

-- Who did what to which record, and when. `number` counts without a gap, so that a missing entry shows.
CREATE TABLE audit_trail (
    number INTEGER NOT NULL PRIMARY KEY,
    made_at TEXT NOT NULL,
    who TEXT NOT NULL,
    action TEXT NOT NULL
        CHECK (action IN ('created', 'changed', 'signed', 'amended', 'removed', 'imported')),
    kind TEXT NOT NULL
        CHECK (kind IN ('patient', 'visit', 'finding', 'conditions', 'letter', 'clinic')),
    record TEXT NOT NULL
);

CREATE INDEX audit_trail_record ON audit_trail (record, number);
