namespace Broodtide.Storage.Households;

/// <summary>
/// How the tables of the house came to be, oldest step first. A step that was ever given to people is never
/// changed; a new shape is a new step.
/// </summary>
internal static class HouseSchema
{
    // Who comes in, where they are signed in, and who was asked in.
    private const string People = """
        CREATE TABLE person(
          id BLOB NOT NULL PRIMARY KEY,
          name TEXT NOT NULL,
          name_key TEXT NOT NULL UNIQUE,
          role TEXT NOT NULL,
          passphrase TEXT,
          made INTEGER NOT NULL,
          removed INTEGER
        ) STRICT;
        CREATE TABLE session(
          id BLOB NOT NULL PRIMARY KEY,
          key_hash BLOB NOT NULL UNIQUE,
          person BLOB NOT NULL REFERENCES person(id),
          device TEXT NOT NULL,
          made INTEGER NOT NULL,
          seen INTEGER NOT NULL,
          revoked INTEGER,
          replica BLOB
        ) STRICT;
        CREATE INDEX session_of_person ON session(person);
        CREATE TABLE invitation(
          id BLOB NOT NULL PRIMARY KEY,
          code_hash BLOB NOT NULL UNIQUE,
          role TEXT NOT NULL,
          person BLOB REFERENCES person(id),
          made INTEGER NOT NULL,
          expires INTEGER NOT NULL,
          used INTEGER,
          withdrawn INTEGER
        ) STRICT;
        """;

    // Addresses at which a calendar asks what is due: one a person, of which only the hash is kept.
    private const string Calendars = """
        CREATE TABLE calendar(
          person BLOB NOT NULL PRIMARY KEY,
          secret_hash BLOB NOT NULL UNIQUE,
          made INTEGER NOT NULL,
          zone TEXT NOT NULL,
          manner TEXT NOT NULL
        ) STRICT;
        """;

    // Where phones find the house, now and before.
    private const string Address = """
        CREATE TABLE address(
          id INTEGER PRIMARY KEY,
          origin TEXT NOT NULL,
          since INTEGER NOT NULL,
          until INTEGER
        ) STRICT;
        CREATE UNIQUE INDEX address_now ON address((until IS NULL)) WHERE until IS NULL;
        """;

    // Whose each store is, what was held back, and what was refused.
    private const string Sharing = """
        CREATE TABLE store_of(replica BLOB NOT NULL PRIMARY KEY, person BLOB NOT NULL) STRICT, WITHOUT ROWID;
        CREATE TABLE own_store(replica BLOB NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
        CREATE TABLE revoked_store(replica BLOB NOT NULL PRIMARY KEY, at INTEGER NOT NULL) STRICT, WITHOUT ROWID;
        CREATE TABLE refill(one INTEGER PRIMARY KEY CHECK (one = 1), until INTEGER NOT NULL) STRICT;
        CREATE TABLE store_report(
          replica BLOB NOT NULL PRIMARY KEY,
          person BLOB NOT NULL,
          waiting INTEGER NOT NULL,
          at INTEGER NOT NULL,
          seconds_ahead INTEGER NOT NULL
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE held_back(
          number INTEGER PRIMARY KEY,
          digest BLOB NOT NULL UNIQUE,
          id BLOB NOT NULL,
          replica BLOB NOT NULL,
          seq INTEGER NOT NULL,
          person BLOB NOT NULL,
          at INTEGER NOT NULL,
          reason TEXT NOT NULL,
          envelope BLOB,
          salted_body BLOB,
          decision INTEGER NOT NULL
        ) STRICT;
        CREATE TABLE entry_mark(
          number INTEGER PRIMARY KEY,
          digest BLOB NOT NULL,
          sort INTEGER NOT NULL,
          replica BLOB NOT NULL,
          person BLOB NOT NULL,
          at INTEGER NOT NULL,
          seconds INTEGER NOT NULL,
          UNIQUE (digest, sort)
        ) STRICT;
        CREATE TABLE refusal(
          number INTEGER PRIMARY KEY AUTOINCREMENT,
          at INTEGER NOT NULL,
          person BLOB NOT NULL,
          name TEXT NOT NULL,
          code TEXT NOT NULL,
          details TEXT NOT NULL
        ) STRICT;
        """;

    // How each person likes to be shown things: short codes of the phone, none where nothing was chosen.
    private const string Ways = """
        CREATE TABLE ways(
          person BLOB NOT NULL PRIMARY KEY REFERENCES person(id),
          language TEXT,
          decimal_sign TEXT,
          units TEXT,
          clock TEXT
        ) STRICT;
        """;

    public static IReadOnlyList<string> Steps { get; } = [People, Calendars, Address, Sharing, Ways];
}
