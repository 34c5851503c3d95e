-- The guards of 0003: what is signed never changes, and what grows only grows.

CREATE TRIGGER taps_signed_insert
BEFORE INSERT ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER taps_signed_update
BEFORE UPDATE ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
  OR (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = NEW.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER taps_signed_delete
BEFORE DELETE ON taps
WHEN (SELECT visits.state FROM findings JOIN visits ON visits.id = findings.visit
      WHERE findings.id = OLD.finding) <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'A signed visit never changes.');
END;

CREATE TRIGGER evidence_choices_update
BEFORE UPDATE ON evidence_choices
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;

CREATE TRIGGER evidence_choices_delete
BEFORE DELETE ON evidence_choices
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;

CREATE TRIGGER evidence_choices_replace
BEFORE INSERT ON evidence_choices
WHEN EXISTS (SELECT 1 FROM evidence_choices WHERE patient = NEW.patient AND number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'A choice of evidence is never changed.');
END;

CREATE TRIGGER clinic_catalogues_update
BEFORE UPDATE ON clinic_catalogues
BEGIN
    SELECT RAISE(ABORT, 'A version of the own catalogue is never changed.');
END;

CREATE TRIGGER clinic_catalogues_delete
BEFORE DELETE ON clinic_catalogues
BEGIN
    SELECT RAISE(ABORT, 'A version of the own catalogue is never changed.');
END;

CREATE TRIGGER clinic_catalogues_replace
BEFORE INSERT ON clinic_catalogues
WHEN EXISTS (SELECT 1 FROM clinic_catalogues WHERE version = NEW.version)
BEGIN
    SELECT RAISE(ABORT, 'A version of the own catalogue is never changed.');
END;
