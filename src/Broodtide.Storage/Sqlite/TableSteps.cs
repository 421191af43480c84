using Broodtide.Units;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// A file whose tables came to be in steps, and how it is known: asked before anything is written into it, and brought to
/// today's shape in one transaction.
/// </summary>
/// <param name="Application">The number in the header that says whose file it is.</param>
/// <param name="Holds">What such a file holds, for whoever brings another.</param>
/// <param name="Steps">The steps, oldest first.</param>
internal sealed record TableSteps(long Application, string Holds, IReadOnlyList<string> Steps)
{
    /// <summary>Asked before any setting is made, because a setting would write into the file.</summary>
    /// <exception cref="StoreUnusableException">The file is another's, or newer; it is as it was.</exception>
    public void RequireOurs(SqliteConnection connection, string path)
    {
        var application = connection.Ask<long>("PRAGMA application_id");
        var isEmpty = connection.Ask<long>("SELECT count(*) FROM sqlite_schema") == 0;
        if (application != Application && !(application == 0 && isEmpty))
        {
            throw Refusal("store-foreign", path, new Argument("allowed", Holds));
        }

        var version = connection.Ask<long>("PRAGMA user_version");
        if (version > Steps.Count)
        {
            throw Refusal(
                "store-newer",
                path,
                new Argument("version", version),
                new Argument("allowed", Steps.Count)
            );
        }
    }

    /// <summary>Does the steps that are missing, all or none.</summary>
    /// <exception cref="StoreUnusableException">The file is another's, or newer; it is as it was.</exception>
    public void Prepare(SqliteConnection connection, string path) =>
        connection.Within(() =>
        {
            RequireOurs(connection, path);
            connection.Run($"PRAGMA application_id={Application}");
            for (var done = (int)connection.Ask<long>("PRAGMA user_version"); done < Steps.Count; done++)
            {
                connection.Run(Steps[done]);
                connection.Run($"PRAGMA user_version={done + 1}");
            }

            return true;
        });

    private static StoreUnusableException Refusal(
        string code,
        string path,
        params IReadOnlyList<Argument> more
    ) => new(new Remark(code, [new Argument("file", path), .. more]));
}
