-- What stands typed in a form that is saved only when it is whole, as long as it is neither saved nor thrown away: who ends the
-- program some other way finds it again. It is no record, and nothing but its form reads it.
CREATE TABLE unsaved_entries (
    form TEXT NOT NULL PRIMARY KEY CHECK (form <> ''),
    typed TEXT NOT NULL CHECK (typed <> '')
);
