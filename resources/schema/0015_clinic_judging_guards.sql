-- The guards of 0014.

CREATE TRIGGER clinic_choices_update
BEFORE UPDATE ON clinic_choices
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;

CREATE TRIGGER clinic_choices_delete
BEFORE DELETE ON clinic_choices
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;

CREATE TRIGGER clinic_choices_replace
BEFORE INSERT ON clinic_choices
WHEN EXISTS (SELECT 1 FROM clinic_choices WHERE number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;
