-- The guards of 0010: what is signed never changes, what grows only grows, and what is referred to stays as it is.

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
WHEN EXISTS (SELECT 1 FROM visits WHERE (key = NEW.key OR id = NEW.id) AND state <> 'draft')
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER visits_withdrawn_insert
BEFORE INSERT ON visits
WHEN EXISTS (SELECT 1 FROM visit_withdrawals WHERE series = NEW.series)
BEGIN
    SELECT RAISE(ABORT, 'A visit entered in error is not amended.');
END;

CREATE TRIGGER findings_signed_insert
BEFORE INSERT ON findings
WHEN (SELECT state FROM visits WHERE key = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER findings_signed_update
BEFORE UPDATE ON findings
WHEN (SELECT state FROM visits WHERE key = OLD.visit) <> 'draft'
  OR (SELECT state FROM visits WHERE key = NEW.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER findings_signed_delete
BEFORE DELETE ON findings
WHEN (SELECT state FROM visits WHERE key = OLD.visit) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER condition_sets_update
BEFORE UPDATE ON condition_sets
BEGIN
    SELECT RAISE(ABORT, 'A set of conditions is never changed.');
END;

CREATE TRIGGER condition_sets_delete
BEFORE DELETE ON condition_sets
WHEN EXISTS (SELECT 1 FROM visits WHERE conditions = OLD.key)
  OR EXISTS (SELECT 1 FROM findings WHERE exceptions = OLD.key)
BEGIN
    SELECT RAISE(ABORT, 'A set of conditions is never changed.');
END;

CREATE TRIGGER condition_sets_replace
BEFORE INSERT ON condition_sets
WHEN EXISTS (SELECT 1 FROM condition_sets WHERE key = NEW.key)
BEGIN
    SELECT RAISE(ABORT, 'A set of conditions is never changed.');
END;

CREATE TRIGGER forms_made_update
BEFORE UPDATE ON forms_made
BEGIN
    SELECT RAISE(ABORT, 'A form as made is never changed.');
END;

CREATE TRIGGER forms_made_delete
BEFORE DELETE ON forms_made
BEGIN
    SELECT RAISE(ABORT, 'A form as made is never changed.');
END;

CREATE TRIGGER forms_made_replace
BEFORE INSERT ON forms_made
WHEN EXISTS (SELECT 1 FROM forms_made WHERE key = NEW.key)
BEGIN
    SELECT RAISE(ABORT, 'A form as made is never changed.');
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

CREATE TRIGGER letters_withdrawn_signed
BEFORE UPDATE ON letters
WHEN NEW.state <> 'draft' AND EXISTS (
    SELECT 1 FROM visits JOIN visit_withdrawals ON visit_withdrawals.series = visits.series
    WHERE visits.id = NEW.visit)
BEGIN
    SELECT RAISE(ABORT, 'This visit was entered in error, so no letter about it is signed.');
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

CREATE TRIGGER audit_people_update
BEFORE UPDATE ON audit_people
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_people_delete
BEFORE DELETE ON audit_people
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_people_replace
BEFORE INSERT ON audit_people
WHEN EXISTS (SELECT 1 FROM audit_people WHERE key = NEW.key OR who = NEW.who)
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_records_update
BEFORE UPDATE ON audit_records
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_records_delete
BEFORE DELETE ON audit_records
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
END;

CREATE TRIGGER audit_records_replace
BEFORE INSERT ON audit_records
WHEN EXISTS (SELECT 1 FROM audit_records WHERE key = NEW.key OR record = NEW.record)
BEGIN
    SELECT RAISE(ABORT, 'The audit trail only grows.');
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
