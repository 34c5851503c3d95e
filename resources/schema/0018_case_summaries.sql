-- After how many weeks a patient is seen again: who was seen with a form, or who is of a population.
CREATE TABLE review_intervals (
    of TEXT NOT NULL CHECK (of IN ('form', 'population')),
    id TEXT NOT NULL CHECK (id <> ''),
    weeks INTEGER NOT NULL CHECK (weeks BETWEEN 1 AND 520),
    PRIMARY KEY (of, id)
);

-- What was worked out of each patient for the list of all: nothing that is not in the records, so that it may be forgotten at
-- any time. Whatever changes in the records of a patient, by whatever program, counts up and empties the stamp, and what was
-- worked out from before is neither shown nor kept any more.
CREATE TABLE case_summaries (
    patient TEXT NOT NULL PRIMARY KEY REFERENCES patients (id) ON DELETE CASCADE,
    changes INTEGER NOT NULL DEFAULT 1,
    stamp TEXT NOT NULL DEFAULT '',
    worked_out_at TEXT,
    visit_day TEXT,
    measure TEXT NOT NULL DEFAULT '',
    side TEXT NOT NULL DEFAULT '',
    kind TEXT NOT NULL DEFAULT '',
    says TEXT NOT NULL DEFAULT '',
    strength TEXT NOT NULL DEFAULT '',
    is_sure INTEGER NOT NULL DEFAULT 0,
    since TEXT,
    flags INTEGER NOT NULL DEFAULT 0,
    expected_false DOUBLE PRECISION NOT NULL DEFAULT 0,
    chance_worse DOUBLE PRECISION NOT NULL DEFAULT 1,
    chance_better DOUBLE PRECISION NOT NULL DEFAULT 1,
    is_worse INTEGER NOT NULL DEFAULT 0,
    is_better INTEGER NOT NULL DEFAULT 0,
    has_reversed INTEGER NOT NULL DEFAULT 0,
    is_unable INTEGER NOT NULL DEFAULT 0,
    has_worse_word INTEGER NOT NULL DEFAULT 0,
    has_injury INTEGER NOT NULL DEFAULT 0
);

INSERT INTO case_summaries (patient) SELECT id FROM patients;

CREATE TRIGGER case_summaries_patient_insert
AFTER INSERT ON patients
BEGIN
    INSERT INTO case_summaries (patient) VALUES (NEW.id) ON CONFLICT (patient) DO NOTHING;
END;

CREATE TRIGGER case_summaries_patients_update
AFTER UPDATE ON patients
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.id;
END;

CREATE TRIGGER case_summaries_visits_insert
AFTER INSERT ON visits
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_visits_update
AFTER UPDATE ON visits
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_visits_delete
AFTER DELETE ON visits
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = OLD.patient;
END;

CREATE TRIGGER case_summaries_evidence_choices_insert
AFTER INSERT ON evidence_choices
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_evidence_choices_update
AFTER UPDATE ON evidence_choices
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_evidence_choices_delete
AFTER DELETE ON evidence_choices
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = OLD.patient;
END;

CREATE TRIGGER case_summaries_declared_equal_insert
AFTER INSERT ON declared_equal
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_declared_equal_update
AFTER UPDATE ON declared_equal
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_declared_equal_delete
AFTER DELETE ON declared_equal
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = OLD.patient;
END;

CREATE TRIGGER case_summaries_happenings_insert
AFTER INSERT ON happenings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_happenings_update
AFTER UPDATE ON happenings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = NEW.patient;
END;

CREATE TRIGGER case_summaries_happenings_delete
AFTER DELETE ON happenings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = OLD.patient;
END;

CREATE TRIGGER case_summaries_findings_insert
AFTER INSERT ON findings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = NEW.visit);
END;

CREATE TRIGGER case_summaries_findings_update
AFTER UPDATE ON findings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = NEW.visit);
END;

CREATE TRIGGER case_summaries_findings_delete
AFTER DELETE ON findings
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = OLD.visit);
END;

CREATE TRIGGER case_summaries_visit_withdrawals_insert
AFTER INSERT ON visit_withdrawals
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = NEW.series);
END;

CREATE TRIGGER case_summaries_visit_withdrawals_update
AFTER UPDATE ON visit_withdrawals
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = NEW.series);
END;

CREATE TRIGGER case_summaries_visit_withdrawals_delete
AFTER DELETE ON visit_withdrawals
BEGIN
    UPDATE case_summaries SET changes = changes + 1, stamp = '' WHERE patient = (SELECT patient FROM visits WHERE key = OLD.series);
END;
