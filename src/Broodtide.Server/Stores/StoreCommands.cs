using System.CommandLine;
using Broodtide.Server.Backups;
using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Storage.Households;
using Broodtide.Storage.Moving;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Verifying;
using Broodtide.Units;
using NodaTime;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Stores;

/// <summary>
/// The command "store": prepares a database for a server, and carries a house between files and a database. The server
/// is stopped meanwhile.
/// </summary>
internal static class StoreCommands
{
    private const int Refused = 2;
    private const int Failed = 3;

    public static Command For(Option<DirectoryInfo> data, StoreChoice choice)
    {
        var role = new Option<string>("--for")
        {
            Description =
                "The role that the server will use, which may then read and write rows and nothing more.",
            HelpName = "role",
        };
        var prepare = new Command("prepare", "Makes the tables in the database, as whoever owns it.")
        {
            role,
        };
        prepare.SetAction(parsed =>
            With(
                choice.Read(parsed),
                database =>
                {
                    PostgresStore.Prepare(database, parsed.GetValue(role));
                    return [new Remark("store-prepared")];
                }
            )
        );
        var into = new Command(
            "into-database",
            "Copies the house from the files of the data folder into the database, which must be empty."
        );
        into.SetAction(parsed =>
            With(
                choice.Read(parsed),
                database =>
                {
                    using var store = PostgresStore.Open(database);
                    return [Told(HouseMove.IntoDatabase(parsed.GetRequiredValue(data).FullName, store))];
                }
            )
        );
        var back = new Command(
            "into-files",
            "Copies the house from the database into files of the data folder, which must be empty or not there."
        );
        back.SetAction(parsed =>
            With(
                choice.Read(parsed),
                database =>
                {
                    using var store = PostgresStore.Open(database);
                    return [Told(HouseMove.IntoFiles(store, parsed.GetRequiredValue(data).FullName))];
                }
            )
        );
        var verify = new Command(
            "verify",
            "Verifies the house in the database. One moment of it is copied into the data folder, compared, looked at whole and removed; servers may run meanwhile."
        );
        verify.SetAction(
            (parsed, stop) =>
                WithAsync(
                    choice.Read(parsed),
                    database => VerifyAsync(database, parsed.GetRequiredValue(data), stop)
                )
        );
        return new Command("store", "Where the house lies: files, or a PostgreSQL database.")
        {
            prepare,
            into,
            back,
            verify,
        };
    }

    // What is wrong, or what was looked at.
    private static async Task<Looked> VerifyAsync(string database, DirectoryInfo data, CancellationToken stop)
    {
        using var house = HouseToCopy.ToVerify(database, data);
        var path = Path.Combine(house.Folder, "journal.db");
        await using var journal = await SqliteJournal.OpenAsync(path, "verify", stop);
        var verified = await Verification.OfAsync(
            journal,
            path,
            SystemClock.Instance.GetCurrentInstant(),
            DateTimeZone.Utc,
            stop
        );
        var faults = verified
            .Faults.Concat(HouseFile.Verify(Path.Combine(house.Folder, "house.db")))
            .ToList();
        return faults.Count > 0
            ? new([.. faults, new Remark("store-wrong", new Argument("count", faults.Count))], false)
            : new(
                [
                    new Remark(
                        "store-verified",
                        new("entries", verified.EntryCount),
                        new("photos", verified.PhotoCount),
                        new("dossiers", verified.DossierCount),
                        new Argument("views", verified.Folds.Count)
                    ),
                    .. verified.Notes.Select(note =>
                        note.Code == "entries-not-here-yet" ? note : new Remark(note.Code)
                    ),
                ],
                true
            );
    }

    private static Remark Told(Moved moved) =>
        new(
            "store-moved",
            new("entries", moved.Entries),
            new("rows", moved.Rows),
            new Argument("photos", moved.Photos)
        );

    private static int With(string? database, Func<string, IReadOnlyList<Remark>> work) =>
        // Nothing is waited for here.
        WithAsync(database, known => Task.FromResult(new Looked(work(known), true)))
            .GetAwaiter()
            .GetResult();

    private static async Task<int> WithAsync(string? database, Func<string, Task<Looked>> work)
    {
        if (database is null)
        {
            Console.Error.WriteLine(
                Said.Sentence("store-not-named", new Argument("variable", StoreChoice.Variable))
            );
            return Refused;
        }

        try
        {
            var looked = await work(database);
            foreach (var told in looked.Told)
            {
                await (looked.IsWell ? Console.Out : Console.Error).WriteLineAsync(Said.Sentence(told));
            }

            return looked.IsWell ? 0 : Failed;
        }
        catch (StoreUnusableException unusable)
        {
            Console.Error.WriteLine(StoreChoice.Sentence(unusable));
            return unusable.Reason.Code is "store-not-empty" or "house-none" ? Refused : Failed;
        }
    }

    /// <summary>What a command says, and whether all is well.</summary>
    private readonly record struct Looked(IReadOnlyList<Remark> Told, bool IsWell);
}
