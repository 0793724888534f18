-- What views of a whole class are made of (core's Brief, as JSON), and the version of it: without one, or of another,
-- it is made of the record.

ALTER TABLE attempts ADD COLUMN brief TEXT;
ALTER TABLE attempts ADD COLUMN brief_form BIGINT;

-- The newest runs of a class.
CREATE INDEX runs_newest ON runs (class, arrived, id);
