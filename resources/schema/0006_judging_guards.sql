-- The guards of 0005: what grows only grows.

CREATE TRIGGER declared_equal_update
BEFORE UPDATE ON declared_equal
BEGIN
    SELECT RAISE(ABORT, 'A declaration is never changed.');
END;

CREATE TRIGGER declared_equal_delete
BEFORE DELETE ON declared_equal
BEGIN
    SELECT RAISE(ABORT, 'A declaration is never changed.');
END;

CREATE TRIGGER declared_equal_replace
BEFORE INSERT ON declared_equal
WHEN EXISTS (SELECT 1 FROM declared_equal WHERE patient = NEW.patient AND number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'A declaration is never changed.');
END;
