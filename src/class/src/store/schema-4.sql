-- What has changed in a class, counted: views of a whole class are kept by the host and brought up to date from here.
-- `gone` is the count at which somebody was last deleted. A row of its own, always written last: nobody who holds it
-- waits for anything else.

CREATE TABLE changes (
    class TEXT PRIMARY KEY REFERENCES classes (id) ON DELETE CASCADE,
    number BIGINT NOT NULL,
    gone BIGINT NOT NULL
);

ALTER TABLE attempts ADD COLUMN changed BIGINT NOT NULL DEFAULT 0;
CREATE INDEX attempts_changed ON attempts (class, changed);
