using Broodtide.Storage.Backups;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>A house in a folder, to be backed up.</summary>
internal static class BackupKit
{
    public const string Secret = "tide comes in at ten";

    public static readonly Instant Now = Instant.FromUtc(2026, 11, 26, 15, 4, 5);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    // Few rounds from passphrase to key: how many there are is none of these tests' business.
    public static BackupMade Make(string data, bool withKeys, string place, string? passphrase) =>
        BackupMaking.OfHouse(data, withKeys, place, passphrase, Now, rounds: 1000, Cancellation);

    public static async Task<string> SmallAsync(Folder folder, string? passphrase)
    {
        var data = await HouseAsync(folder);
        return Make(data, withKeys: false, folder["a.backup"], passphrase).Path;
    }

    public static async Task<string> HouseAsync(Folder folder, int photos = 1)
    {
        var data = folder["data"];
        Directory.CreateDirectory(data);
        var path = Path.Combine(data, "journal.db");
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli"))
        {
            var written = await journal.AppendAsync(
                [Samples.Note("a note that is secret"), Samples.Note("gone")],
                Cancellation
            );
            await journal.AppendAsync([Samples.Erasure(written[1].Id)]);
            await journal.AppendAsync([
                .. Enumerable.Range(0, 20).Select(i => Samples.Note(new string('x', 50 * i), i)),
            ]);
        }

        var random = new Random(5);
        for (var i = 0; i < photos; i++)
        {
            var bytes = new byte[random.Next(1_000, 150_000)];
            random.NextBytes(bytes);
            PhotoFolder.Beside(path).Put(bytes);
        }

        using var house = HouseFile.Open(Path.Combine(data, "house.db"));
        new HousePeople(house).AddFirstOwner(
            new(new PersonId(Guid.CreateVersion7()), "Ada", Role.Owner, "hash", Now, null)
        );
        return data;
    }

    public static async Task<IReadOnlyList<string>> ShapeAsync(string path)
    {
        await using var journal = await SqliteJournal.OpenAsync(path, "cli");
        Assert.Empty(await journal.VerifyAsync());
        return Samples.Shape(await journal.ReadAllAsync());
    }
}
