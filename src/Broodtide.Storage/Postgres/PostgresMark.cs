using Broodtide.Storage.Sqlite;

namespace Broodtide.Storage.Postgres;

/// <summary>How far a program has seen a database come, in a small file of its own.</summary>
internal static class PostgresMark
{
    // Which database it is of is told by the life; always as long, since the mark is written over itself.
    private const string OfDatabase = "postgresql";

    public static PostgresLife? Read(string place) =>
        LifeMark.Read(place) is { } mark ? new(mark.Life, "", mark.Last, 0) : null;

    /// <summary>The mark of a database that is open, to be moved on.</summary>
    public static HeldMark Held(string place) => new(place, () => OfDatabase);
}
