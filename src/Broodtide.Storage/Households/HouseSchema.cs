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

    public static IReadOnlyList<string> Steps { get; } = [People, Calendars, Address];
}
