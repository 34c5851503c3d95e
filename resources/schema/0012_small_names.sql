-- The tables of 0010 in the place of those before them.

DROP TRIGGER letters_withdrawn_signed;

DROP TABLE trials;

DROP TABLE taps;

DROP TABLE finding_conditions;

DROP TABLE visit_conditions;

DROP TABLE findings;

DROP TABLE letters;

DROP TABLE visit_withdrawals;

DROP TABLE visits;

DROP TABLE audit_trail;

ALTER TABLE new_visits RENAME TO visits;

ALTER TABLE new_findings RENAME TO findings;

ALTER TABLE new_visit_withdrawals RENAME TO visit_withdrawals;

ALTER TABLE new_audit_trail RENAME TO audit_trail;

ALTER TABLE new_letters RENAME TO letters;

CREATE INDEX visits_patient ON visits (patient, day, version);

CREATE UNIQUE INDEX visits_one_draft ON visits (series) WHERE state = 'draft';

CREATE INDEX visits_amended ON visits (series, version) WHERE state = 'amended';

CREATE INDEX visits_conditions ON visits (conditions);

CREATE INDEX findings_exceptions ON findings (exceptions) WHERE exceptions IS NOT NULL;

CREATE INDEX audit_trail_record ON audit_trail (record, number);

CREATE INDEX letters_patient ON letters (patient);

CREATE INDEX letters_visit ON letters (visit);

CREATE INDEX letters_reference ON letters (reference);
