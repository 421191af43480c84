namespace Broodtide.Storage.Blocks;

/// <summary>
/// How the tables of the readings came to be, oldest step first. A step that was ever given to people is never changed.
/// Times are milliseconds since 1970 UTC, days count from then.
/// </summary>
internal static class ReadingsSchema
{
    private const string Sensors = """
        CREATE TABLE sensor(
          number INTEGER PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          unit TEXT NOT NULL,
          label TEXT,
          resolution REAL,
          every_seconds REAL,
          heard INTEGER NOT NULL,
          limited INTEGER NOT NULL DEFAULT 0,
          low REAL,
          high REAL,
          hysteresis REAL,
          hold_seconds REAL,
          silent_seconds REAL,
          life INTEGER,
          last_at INTEGER,
          last_value REAL
        ) STRICT;
        CREATE TABLE placement(
          sensor INTEGER NOT NULL REFERENCES sensor(number),
          since INTEGER NOT NULL,
          vessel BLOB,
          PRIMARY KEY (sensor, since)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE reading(
          sensor INTEGER NOT NULL,
          at INTEGER NOT NULL,
          value REAL NOT NULL,
          PRIMARY KEY (sensor, at)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE block(
          sha256 TEXT NOT NULL PRIMARY KEY,
          sensor INTEGER NOT NULL,
          day INTEGER NOT NULL,
          readings INTEGER NOT NULL,
          came_as INTEGER NOT NULL,
          bytes BLOB NOT NULL,
          UNIQUE (sensor, day)
        ) STRICT;
        CREATE TABLE hour(
          sensor INTEGER NOT NULL,
          at INTEGER NOT NULL,
          lowest REAL NOT NULL,
          mean REAL NOT NULL,
          highest REAL NOT NULL,
          readings INTEGER NOT NULL,
          PRIMARY KEY (sensor, at)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE alarm(
          id BLOB NOT NULL PRIMARY KEY,
          sensor TEXT NOT NULL,
          vessel BLOB,
          kind TEXT NOT NULL,
          crossed REAL NOT NULL,
          worst REAL,
          since INTEGER NOT NULL,
          raised INTEGER NOT NULL,
          until INTEGER,
          life INTEGER NOT NULL,
          seen_at INTEGER,
          seen_by BLOB
        ) STRICT;
        CREATE INDEX alarm_by_until ON alarm(until);
        CREATE TABLE delivery(
          number INTEGER PRIMARY KEY,
          alarm BLOB NOT NULL,
          at INTEGER NOT NULL,
          way TEXT NOT NULL,
          told TEXT NOT NULL,
          step INTEGER NOT NULL,
          failure TEXT
        ) STRICT;
        CREATE INDEX delivery_by_time ON delivery(at);
        """;

    // Who does what only one program may do at a time.
    private const string Claims = """
        CREATE TABLE claim(
          work TEXT NOT NULL PRIMARY KEY,
          holder BLOB NOT NULL,
          until INTEGER NOT NULL
        ) STRICT;
        """;

    public static IReadOnlyList<string> Steps { get; } = [Sensors, Claims];
}
