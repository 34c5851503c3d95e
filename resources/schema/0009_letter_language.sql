-- The language a letter is written in, as BCP 47 names it. Letters from before there were several are in English.
ALTER TABLE letters ADD COLUMN language TEXT NOT NULL DEFAULT 'en';
