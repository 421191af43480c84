using Broodtide.Storage.Sqlite;

namespace Broodtide.Storage.Postgres;

/// <summary>How far a program has seen a database come, in a small file of its own.</summary>
internal static class PostgresMark
{
    // Which database it is of is told by the life; always as long, since the mark is written over itself.
    private const string OfDatabase = "postgresql";

    public static PostgresLife? Read(string place) =>
        LifeMark.Read(place) is { } mark ? new(mark.Life, "", mark.Last, 0) : null;

    /// <summary>Need not be on the disk: it may lag behind the database, never lead it.</summary>
    public static void MoveOn(string place, PostgresLife life)
    {
        try
        {
            new LifeMark(life.Id, OfDatabase, life.Last).MoveOn(place);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The entries are on the disk; a mark that lags behind is no fault.
        }
    }
}
