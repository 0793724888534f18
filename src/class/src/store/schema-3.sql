-- Training records, and what was said of runs. `edition` counts what was written: whoever writes names the one that they
-- have seen, and is told when somebody else has written since.

CREATE TABLE trainings (
    person TEXT PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    class TEXT NOT NULL,
    edition BIGINT NOT NULL,
    record TEXT NOT NULL
);
CREATE INDEX trainings_of ON trainings (class);

CREATE TABLE remarks (
    class TEXT NOT NULL,
    run TEXT NOT NULL,
    edition BIGINT NOT NULL,
    said TEXT NOT NULL,
    PRIMARY KEY (class, run),
    FOREIGN KEY (class, run) REFERENCES runs (class, id) ON DELETE CASCADE
);
