-- By which rules a class's drives are judged: those that a trainer has set, else those of the site as it was served last.
-- Without either a drive goes by its own.

ALTER TABLE classes ADD COLUMN rules TEXT;
ALTER TABLE classes ADD COLUMN served TEXT;
