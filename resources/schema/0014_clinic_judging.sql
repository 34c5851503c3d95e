-- How many stable people a plan of visits may flag: 2, 5 or 10 %.
ALTER TABLE clinic ADD COLUMN strictness TEXT NOT NULL DEFAULT 'balanced'
    CHECK (strictness IN ('strict', 'balanced', 'sensitive'));

-- Which row the clinic chose for everybody of one population instead of the rule's. It only grows: the newest of a population
-- and measure counts, and an empty threshold goes back to the rule.
CREATE TABLE clinic_choices (
    number INTEGER NOT NULL PRIMARY KEY CHECK (number >= 1),
    population TEXT NOT NULL CHECK (population <> ''),
    measure TEXT NOT NULL CHECK (measure <> ''),
    threshold TEXT NOT NULL,
    reason TEXT NOT NULL CHECK (reason <> ''),
    who TEXT NOT NULL,
    chosen_at TEXT NOT NULL
);
