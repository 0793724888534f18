-- Records of classes. The same text for SQLite and PostgreSQL, but for BLOB (there BYTEA). Times are milliseconds
-- since 1970, UTC; ids are text.

CREATE TABLE host (
    id BIGINT PRIMARY KEY CHECK (id = 1),
    owner TEXT NOT NULL
);

CREATE TABLE classes (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    code TEXT NOT NULL UNIQUE,
    passphrase TEXT NOT NULL,
    word TEXT NOT NULL,
    seats BIGINT NOT NULL DEFAULT 0,
    opened BIGINT NOT NULL
);

-- `plain` is the name as it is compared.
CREATE TABLE people (
    id TEXT PRIMARY KEY,
    class TEXT NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    plain TEXT NOT NULL,
    joined BIGINT NOT NULL,
    UNIQUE (class, plain)
);

-- `token` is the hash of what the browser holds.
CREATE TABLE sessions (
    token TEXT PRIMARY KEY,
    class TEXT NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    person TEXT REFERENCES people (id) ON DELETE CASCADE,
    role TEXT NOT NULL,
    ends BIGINT NOT NULL
);
CREATE INDEX sessions_of ON sessions (person);

-- `id` is the BLAKE3 of the bytes. A run belongs to whoever of the class delivered it first.
CREATE TABLE runs (
    class TEXT NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    person TEXT NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    arrived BIGINT NOT NULL,
    bytes BLOB NOT NULL,
    PRIMARY KEY (class, id)
);
CREATE INDEX runs_of ON runs (person);

-- What is known of a run; `record` is core's Attempt as JSON, once it was driven again.
CREATE TABLE attempts (
    class TEXT NOT NULL,
    run TEXT NOT NULL,
    course TEXT NOT NULL,
    truck TEXT NOT NULL,
    started TEXT NOT NULL,
    state TEXT NOT NULL,
    reason TEXT,
    total DOUBLE PRECISION,
    ending TEXT,
    findings BIGINT NOT NULL DEFAULT 0,
    critical BIGINT NOT NULL DEFAULT 0,
    sitting TEXT,
    part BIGINT,
    record TEXT,
    PRIMARY KEY (class, run),
    FOREIGN KEY (class, run) REFERENCES runs (class, id) ON DELETE CASCADE
);

-- The queue. One row for a run and a simulation, and none is marked twice.
CREATE TABLE judgements (
    class TEXT NOT NULL,
    run TEXT NOT NULL,
    simulation BIGINT NOT NULL,
    asked BIGINT NOT NULL,
    claimed BIGINT NOT NULL DEFAULT 0,
    judged BIGINT,
    marks BIGINT NOT NULL DEFAULT 0 CHECK (marks <= 1),
    PRIMARY KEY (class, run, simulation),
    FOREIGN KEY (class, run) REFERENCES runs (class, id) ON DELETE CASCADE
);
CREATE INDEX judgements_waiting ON judgements (asked) WHERE judged IS NULL;

-- What people drive now: the last note of each.
CREATE TABLE live (
    person TEXT PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    class TEXT NOT NULL,
    noted BIGINT NOT NULL,
    note TEXT NOT NULL
);

-- Pre-tests that were handed out.
CREATE TABLE sittings (
    id TEXT PRIMARY KEY,
    class TEXT NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    person TEXT NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    truck TEXT NOT NULL,
    word TEXT NOT NULL,
    seat BIGINT NOT NULL,
    made BIGINT NOT NULL,
    UNIQUE (class, word, seat)
);
CREATE INDEX sittings_of ON sittings (person);
