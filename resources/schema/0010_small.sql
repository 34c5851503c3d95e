-- Small and read in order. A visit has an integer key beside its id, findings lie clustered by visit, measure and side,
-- with their trials and taps as JSON lists (null for a trial left out) and no id of their own. A set of conditions and a
-- form as made are stored once and referred to. The audit trail names people and records by number. WITHOUT ROWID is the
-- one token PostgreSQL does not know. The tables get their names in 0012.

CREATE TABLE condition_sets (
    key INTEGER NOT NULL PRIMARY KEY,
    digest BIGINT NOT NULL,
    conditions TEXT NOT NULL CHECK (conditions LIKE '{"%}')
);

CREATE INDEX condition_sets_digest ON condition_sets (digest);

CREATE TABLE forms_made (
    key INTEGER NOT NULL PRIMARY KEY,
    digest BIGINT NOT NULL,
    document TEXT NOT NULL CHECK (document LIKE '{"%}')
);

CREATE INDEX forms_made_digest ON forms_made (digest);

CREATE TABLE new_visits (
    key INTEGER NOT NULL PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    series INTEGER NOT NULL REFERENCES new_visits (key),
    version INTEGER NOT NULL CHECK (version >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    day TEXT NOT NULL CHECK (day LIKE '____-__-__'),
    state TEXT NOT NULL CHECK (state IN ('draft', 'signed', 'amended')),
    form TEXT NOT NULL,
    form_made INTEGER REFERENCES forms_made (key),
    conditions INTEGER REFERENCES condition_sets (key),
    conditions_confirmed INTEGER NOT NULL CHECK (conditions_confirmed IN (0, 1)),
    author_name TEXT NOT NULL,
    author_role TEXT NOT NULL,
    author_registration TEXT NOT NULL,
    signed_at TEXT,
    amendment_reason TEXT NOT NULL,
    UNIQUE (series, version),
    CHECK ((version = 1) = (series = key)),
    CHECK ((version = 1) = (amendment_reason = '')),
    CHECK (state = 'draft' OR (state = 'signed') = (version = 1)),
    CHECK ((state = 'draft') = (signed_at IS NULL)),
    CHECK ((state = 'draft') = (author_name = ''))
);

CREATE TABLE new_findings (
    visit INTEGER NOT NULL REFERENCES new_visits (key) ON DELETE CASCADE,
    measure TEXT NOT NULL CHECK (measure <> ''),
    side TEXT NOT NULL CHECK (side IN ('none', 'right', 'left')),
    position INTEGER NOT NULL,
    state TEXT NOT NULL
        CHECK (state IN ('done', 'unable', 'not-attempted', 'refused', 'not-applicable', 'not-asked')),
    number DOUBLE PRECISION,
    unit TEXT,
    grade INTEGER,
    choice TEXT CHECK (choice <> ''),
    trials TEXT CHECK (trials LIKE '[_%]'),
    reason TEXT NOT NULL CHECK (reason = '' OR state <> 'done'),
    cap_reached INTEGER NOT NULL CHECK (cap_reached IN (0, 1)),
    signs TEXT NOT NULL,
    note TEXT NOT NULL,
    taps TEXT CHECK (taps LIKE '[_%]'),
    exceptions INTEGER REFERENCES condition_sets (key),
    PRIMARY KEY (visit, measure, side),
    CHECK ((number IS NULL) = (unit IS NULL)),
    CHECK (CASE WHEN number IS NULL THEN 0 ELSE 1 END
         + CASE WHEN grade IS NULL THEN 0 ELSE 1 END
         + CASE WHEN choice IS NULL THEN 0 ELSE 1 END
         = CASE WHEN state = 'done' THEN 1 ELSE 0 END)
) WITHOUT ROWID;

CREATE TABLE new_visit_withdrawals (
    series INTEGER NOT NULL PRIMARY KEY REFERENCES new_visits (key),
    reason TEXT NOT NULL CHECK (reason <> ''),
    author_name TEXT NOT NULL CHECK (author_name <> ''),
    author_role TEXT NOT NULL,
    author_registration TEXT NOT NULL,
    withdrawn_at TEXT NOT NULL CHECK (withdrawn_at <> '')
);

CREATE TABLE audit_people (
    key INTEGER NOT NULL PRIMARY KEY,
    who TEXT NOT NULL UNIQUE
);

CREATE TABLE audit_records (
    key INTEGER NOT NULL PRIMARY KEY,
    record TEXT NOT NULL UNIQUE
);

CREATE TABLE new_audit_trail (
    number INTEGER NOT NULL PRIMARY KEY,
    made_at TEXT NOT NULL,
    who INTEGER NOT NULL REFERENCES audit_people (key),
    action TEXT NOT NULL
        CHECK (action IN ('created', 'changed', 'signed', 'amended', 'withdrawn', 'removed', 'imported')),
    kind TEXT NOT NULL
        CHECK (kind IN ('patient', 'visit', 'finding', 'conditions', 'letter', 'clinic')),
    record INTEGER NOT NULL REFERENCES audit_records (key)
);

CREATE TABLE new_letters (
    id TEXT NOT NULL PRIMARY KEY,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    patient TEXT NOT NULL REFERENCES patients (id),
    visit TEXT NOT NULL REFERENCES new_visits (id),
    reference TEXT REFERENCES new_visits (id),
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
    language TEXT NOT NULL,
    CHECK ((state = 'draft') = (signed_at IS NULL)),
    CHECK (state = 'draft' OR (author_name <> '' AND body <> ''))
);
