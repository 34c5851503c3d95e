-- The guards of 0016: what grows only grows, version by version, of one patient, up to what took it back.

CREATE TRIGGER happenings_update
BEFORE UPDATE ON happenings
BEGIN
    SELECT RAISE(ABORT, 'A version of an event is never changed.');
END;

CREATE TRIGGER happenings_delete
BEFORE DELETE ON happenings
BEGIN
    SELECT RAISE(ABORT, 'A version of an event is never changed.');
END;

CREATE TRIGGER happenings_next
BEFORE INSERT ON happenings
WHEN NEW.version <> (SELECT COALESCE(MAX(version), 0) + 1 FROM happenings WHERE id = NEW.id)
BEGIN
    SELECT RAISE(ABORT, 'A version of an event is never changed.');
END;

CREATE TRIGGER happenings_of_one_patient
BEFORE INSERT ON happenings
WHEN EXISTS (SELECT 1 FROM happenings WHERE id = NEW.id AND patient <> NEW.patient)
BEGIN
    SELECT RAISE(ABORT, 'An event stays with its patient.');
END;

CREATE TRIGGER happenings_taken_back
BEFORE INSERT ON happenings
WHEN EXISTS (SELECT 1 FROM happenings WHERE id = NEW.id AND taken_back_for <> '')
BEGIN
    SELECT RAISE(ABORT, 'An event that was taken back stays so.');
END;

CREATE TRIGGER targets_update
BEFORE UPDATE ON targets
BEGIN
    SELECT RAISE(ABORT, 'A target is never changed.');
END;

CREATE TRIGGER targets_delete
BEFORE DELETE ON targets
BEGIN
    SELECT RAISE(ABORT, 'A target is never changed.');
END;

CREATE TRIGGER targets_replace
BEFORE INSERT ON targets
WHEN EXISTS (SELECT 1 FROM targets WHERE patient = NEW.patient AND number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'A target is never changed.');
END;

CREATE TRIGGER visit_questions_series
BEFORE INSERT ON visit_questions
WHEN NOT EXISTS (SELECT 1 FROM visits WHERE key = NEW.visit AND version = 1)
BEGIN
    SELECT RAISE(ABORT, 'What was asked belongs to a visit, not to a version of it.');
END;

CREATE TRIGGER visit_questions_update
BEFORE UPDATE ON visit_questions
BEGIN
    SELECT RAISE(ABORT, 'That something was asked is never changed.');
END;

CREATE TRIGGER visit_questions_delete
BEFORE DELETE ON visit_questions
WHEN EXISTS (SELECT 1 FROM visits WHERE key = OLD.visit)
BEGIN
    SELECT RAISE(ABORT, 'That something was asked is never changed.');
END;

CREATE TRIGGER visit_questions_replace
BEFORE INSERT ON visit_questions
WHEN EXISTS (SELECT 1 FROM visit_questions WHERE visit = NEW.visit AND question = NEW.question)
BEGIN
    SELECT RAISE(ABORT, 'That something was asked is never changed.');
END;
