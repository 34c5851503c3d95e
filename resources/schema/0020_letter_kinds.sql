-- What kind of letter it is, whether its annex goes with it, and what more its clinician writes. Those from before held
-- everything, and asked something of someone. `left_out` names the results that its author keeps off the first page.
ALTER TABLE letters ADD COLUMN kind TEXT NOT NULL DEFAULT 'referral';

ALTER TABLE letters ADD COLUMN has_annex INTEGER NOT NULL DEFAULT 1 CHECK (has_annex IN (0, 1));

ALTER TABLE letters ADD COLUMN medicines TEXT NOT NULL DEFAULT '';

ALTER TABLE letters ADD COLUMN plan TEXT NOT NULL DEFAULT '';

ALTER TABLE letters ADD COLUMN safety_net TEXT NOT NULL DEFAULT '';

ALTER TABLE letters ADD COLUMN left_out TEXT NOT NULL DEFAULT '';

ALTER TABLE letters ADD COLUMN replaces TEXT REFERENCES letters (id);

CREATE INDEX letters_replaces ON letters (replaces);

-- That a letter was given on, how and to whom, as its clinician noted it: printing and saving do not say so. It only grows.
CREATE TABLE letter_handovers (
    letter TEXT NOT NULL REFERENCES letters (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    day TEXT NOT NULL CHECK (day <> ''),
    way TEXT NOT NULL CHECK (way <> ''),
    recipient TEXT NOT NULL,
    who TEXT NOT NULL,
    noted_at TEXT NOT NULL CHECK (noted_at <> ''),
    PRIMARY KEY (letter, number)
);

CREATE TRIGGER letter_handovers_of_signed
BEFORE INSERT ON letter_handovers
WHEN NOT EXISTS (SELECT 1 FROM letters WHERE id = NEW.letter AND state = 'signed')
BEGIN
    SELECT RAISE(ABORT, 'Only a signed letter is handed over.');
END;

CREATE TRIGGER letter_handovers_replace
BEFORE INSERT ON letter_handovers
WHEN EXISTS (SELECT 1 FROM letter_handovers WHERE letter = NEW.letter AND number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'That a letter was handed over stays on record.');
END;

CREATE TRIGGER letter_handovers_update
BEFORE UPDATE ON letter_handovers
BEGIN
    SELECT RAISE(ABORT, 'That a letter was handed over stays on record.');
END;

CREATE TRIGGER letter_handovers_delete
BEFORE DELETE ON letter_handovers
BEGIN
    SELECT RAISE(ABORT, 'That a letter was handed over stays on record.');
END;

CREATE TRIGGER letters_replacing
BEFORE INSERT ON letters
WHEN NEW.replaces IS NOT NULL
 AND NOT EXISTS (SELECT 1 FROM letters WHERE id = NEW.replaces AND state = 'signed' AND patient = NEW.patient)
BEGIN
    SELECT RAISE(ABORT, 'A letter replaces a signed one about the same patient.');
END;

CREATE TRIGGER letters_replacing_update
BEFORE UPDATE OF replaces, patient ON letters
WHEN NEW.replaces IS NOT NULL
 AND NOT EXISTS (SELECT 1 FROM letters WHERE id = NEW.replaces AND state = 'signed' AND patient = NEW.patient)
BEGIN
    SELECT RAISE(ABORT, 'A letter replaces a signed one about the same patient.');
END;
