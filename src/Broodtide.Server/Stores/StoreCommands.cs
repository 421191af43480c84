using System.CommandLine;
using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Storage.Moving;
using Broodtide.Storage.Postgres;
using Broodtide.Units;
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
        return new Command("store", "Where the house lies: files, or a PostgreSQL database.")
        {
            prepare,
            into,
            back,
        };
    }

    private static Remark Told(Moved moved) =>
        new(
            "store-moved",
            new("entries", moved.Entries),
            new("rows", moved.Rows),
            new Argument("photos", moved.Photos)
        );

    private static int With(string? database, Func<string, IReadOnlyList<Remark>> work)
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
            foreach (var told in work(database))
            {
                Console.Out.WriteLine(Said.Sentence(told));
            }

            return 0;
        }
        catch (StoreUnusableException unusable)
        {
            Console.Error.WriteLine(StoreChoice.Sentence(unusable));
            return unusable.Reason.Code is "store-not-empty" or "house-none" ? Refused : Failed;
        }
    }
}
