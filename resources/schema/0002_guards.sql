-- What the database itself refuses, whoever writes: signed visits and sent letters never change, and the audit trail
-- only grows. Triggers are the one thing SQLite and PostgreSQL say differently (PostgreSQL: a function and its
-- triggers), so they stand apart from the tables. A constraint cannot look at the row as it was.
-- INSERT OR REPLACE fires no DELETE trigger, so inserting over what is frozen is refused too.

CREATE TRIGGER visits_signed_update
BEFORE UPDATE ON visits
WHEN OLD.state <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER visits_signed_delete
BEFORE DELETE ON visits
WHEN OLD.state <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER visits_signed_replace
BEFORE INSERT ON visits
WHEN EXISTS (SELECT 1 FROM visits WHERE id = NEW.id AND state <> 'draft')
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

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

CREATE TRIGGER visit_conditions_signed_insert
BEFORE INSERT ON visit_conditions
WHEN (SELECT state FROM visits WHERE id = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER visit_conditions_signed_update
BEFORE UPDATE ON visit_conditions
WHEN (SELECT state FROM visits WHERE id = OLD.visit) <> 'draft'
  OR (SELECT state FROM visits WHERE id = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER visit_conditions_signed_delete
BEFORE DELETE ON visit_conditions
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

CREATE TRIGGER letters_sent_update
BEFORE UPDATE ON letters
WHEN OLD.state = 'sent'
BEGIN
    SELECT RAISE(ABORT, 'A sent letter never changes.');
END;

CREATE TRIGGER letters_sent_delete
BEFORE DELETE ON letters
WHEN OLD.state = 'sent'
BEGIN
    SELECT RAISE(ABORT, 'A sent letter never changes.');
END;

CREATE TRIGGER letters_sent_replace
BEFORE INSERT ON letters
WHEN EXISTS (SELECT 1 FROM letters WHERE id = NEW.id AND state = 'sent')
BEGIN
    SELECT RAISE(ABORT, 'A sent letter never changes.');
END;

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
