-- How the clinic's letters look: their paper, who always gets a copy, a picture at their head.
ALTER TABLE clinic ADD COLUMN paper TEXT NOT NULL DEFAULT 'a4' CHECK (paper IN ('a4', 'letter'));

ALTER TABLE clinic ADD COLUMN copies_always TEXT NOT NULL DEFAULT '';

ALTER TABLE clinic ADD COLUMN logo BYTEA;

-- The kinds of letters that the clinic made itself, every version of each. It only grows.
CREATE TABLE letter_kinds (
    id TEXT NOT NULL CHECK (id <> ''),
    version INTEGER NOT NULL CHECK (version >= 1),
    title TEXT NOT NULL CHECK (title <> ''),
    page TEXT NOT NULL,
    is_retired INTEGER NOT NULL CHECK (is_retired IN (0, 1)),
    who TEXT NOT NULL,
    saved_at TEXT NOT NULL CHECK (saved_at <> ''),
    PRIMARY KEY (id, version)
);

CREATE TRIGGER letter_kinds_update
BEFORE UPDATE ON letter_kinds
BEGIN
    SELECT RAISE(ABORT, 'A version of a kind of letter is never changed.');
END;

CREATE TRIGGER letter_kinds_delete
BEFORE DELETE ON letter_kinds
BEGIN
    SELECT RAISE(ABORT, 'A version of a kind of letter is never changed.');
END;

CREATE TRIGGER letter_kinds_next
BEFORE INSERT ON letter_kinds
WHEN NEW.version <> (SELECT COALESCE(MAX(version), 0) + 1 FROM letter_kinds WHERE id = NEW.id)
BEGIN
    SELECT RAISE(ABORT, 'A version of a kind of letter is never changed.');
END;
