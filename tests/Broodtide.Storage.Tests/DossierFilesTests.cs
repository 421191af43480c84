using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Dossiers;
using Broodtide.Workbench.Dossiers;
using NodaTime;

namespace Broodtide.Storage.Tests;

public sealed class DossierFilesTests : IDisposable
{
    private static readonly Instant Now = Instant.FromUtc(2026, 3, 2, 12, 0);
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static IReadOnlyList<PackedFile> Package(string title = "A run")
    {
        var (animal, brood, run) = (
            new AnimalId(Guid.CreateVersion7()),
            new BroodId(Guid.CreateVersion7()),
            new RunId(Guid.CreateVersion7())
        );
        Fact[] facts = [new AnimalSeenBerried(animal, brood), new RunStarted(run, brood, "Run")];
        var entries = new List<Entry>();
        foreach (var fact in facts)
        {
            var at = Now - Duration.FromDays(2 - entries.Count);
            var draft = new Draft(
                new(Guid.CreateVersion7()),
                new Author("Ada"),
                at,
                "Europe/Berlin",
                Happened.At(at),
                fact
            );
            entries.Add(
                draft.Seal(
                    new(new Guid(7, 7, 7, 7, 7, 7, 7, 7, 7, 7, 7)),
                    entries.Count + 1,
                    entries.LastOrDefault()?.Digest,
                    new byte[EntryBytes.SaltLength]
                )
            );
        }

        return DossierPackage.Of(
            Dossier
                .Of(
                    new House(Account.Of(entries)),
                    [run],
                    new DossierChoice { Title = title },
                    Now,
                    DateTimeZone.Utc,
                    _ => null
                )
                .Value,
            "test 1"
        );
    }

    [Fact]
    public void A_package_is_read_back_alike_from_a_folder_and_from_a_zip()
    {
        var files = Package();
        DossierFiles.WriteFolder(_folder["d"], files);
        DossierFiles.WriteFile(_folder["d.zip"], PackageZip.Write(files));
        var (fromFolder, fromZip) = (
            DossierFiles.Read(_folder["d"], TestContext.Current.CancellationToken).Value,
            DossierFiles.Read(_folder["d.zip"], TestContext.Current.CancellationToken).Value
        );
        Assert.Equal(fromZip.Id, fromFolder.Id);
        Assert.Equal("A run", fromFolder.Title);
        Assert.Empty(Directory.GetFileSystemEntries(_folder["."], "*.partial"));
    }

    [Fact]
    public void A_write_that_fails_leaves_nothing_behind_and_what_was_there_as_it_was()
    {
        File.WriteAllText(_folder["d"], "mine");
        Assert.Throws<IOException>(() => DossierFiles.WriteFolder(_folder["d"], Package()));
        Assert.Equal("mine", File.ReadAllText(_folder["d"]));
        // The second file cannot be written: the first stands where its folder should be.
        PackedFile[] clash = [new("a", new byte[] { 1 }), new("a/b", new byte[] { 2 })];
        Assert.ThrowsAny<IOException>(() => DossierFiles.WriteFolder(_folder["e"], clash));
        Assert.False(Directory.Exists(_folder["e"]));
        Assert.False(Directory.Exists(_folder["e.partial"]));
        Directory.CreateDirectory(_folder["f.zip"]);
        Assert.ThrowsAny<Exception>(() => DossierFiles.WriteFile(_folder["f.zip"], [1]));
        Assert.False(File.Exists(_folder["f.zip.partial"]));
    }

    [Fact]
    public void A_link_in_a_folder_is_refused_and_not_followed()
    {
        DossierFiles.WriteFolder(_folder["d"], Package());
        File.WriteAllText(_folder["secret"], "secret");
        File.CreateSymbolicLink(Path.Combine(_folder["d"], "link.csv"), _folder["secret"]);
        Assert.Equal(
            "package-link",
            DossierFiles.Read(_folder["d"], TestContext.Current.CancellationToken).Reason!.Code
        );
        File.Delete(Path.Combine(_folder["d"], "link.csv"));
        Directory.CreateSymbolicLink(Path.Combine(_folder["d"], "folder"), _folder["."]);
        Assert.Equal(
            "package-link",
            DossierFiles.Read(_folder["d"], TestContext.Current.CancellationToken).Reason!.Code
        );
    }

    [Fact]
    public async Task A_shelf_keeps_each_content_once_lists_the_newest_first_and_removes_for_good()
    {
        var cancellation = TestContext.Current.CancellationToken;
        var shelf = DossierShelf.Beside(_folder["journal.broodtide"]);
        Assert.Empty(await shelf.ListAsync(cancellation));
        var one = ForeignPackage.Read(Package("One")).Value;
        var two = ForeignPackage.Read(Package("Two")).Value;
        Assert.True(await shelf.PutAsync(one, Now, cancellation));
        Assert.True(await shelf.PutAsync(two, Now + Duration.FromHours(1), cancellation));
        Assert.False(await shelf.PutAsync(one, Now + Duration.FromHours(2), cancellation));
        Assert.Equal(["Two", "One"], (await shelf.ListAsync(cancellation)).Select(kept => kept.Title));
        Assert.Equal(one.Entries.Count, (await shelf.ReadAsync(one.Id, cancellation))!.Entries.Count);
        Assert.Equal(2, (await ((IDossierShelf)shelf).RunsAsync(cancellation)).Count);
        Assert.True(await shelf.RemoveAsync(one.Id, cancellation));
        Assert.False(await shelf.RemoveAsync(one.Id, cancellation));
        Assert.Null(await shelf.ReadAsync(one.Id, cancellation));
        Assert.Equal(["Two"], (await shelf.ListAsync(cancellation)).Select(kept => kept.Title));
    }

    [Fact]
    public async Task A_file_of_the_shelf_that_was_damaged_is_not_given_out_and_can_be_put_again()
    {
        var cancellation = TestContext.Current.CancellationToken;
        var shelf = DossierShelf.Beside(_folder["journal.broodtide"]);
        var one = ForeignPackage.Read(Package()).Value;
        await shelf.PutAsync(one, Now, cancellation);
        var file = Directory.GetFiles(_folder["journal.dossiers"]).Single();
        var bytes = await File.ReadAllBytesAsync(file, cancellation);
        await File.WriteAllBytesAsync(file, bytes[..(bytes.Length / 2)], cancellation);
        Assert.Null(await shelf.ReadAsync(one.Id, cancellation));
        Assert.Empty(await shelf.ListAsync(cancellation));
        Assert.True(await shelf.PutAsync(one, Now, cancellation));
        Assert.NotNull(await shelf.ReadAsync(one.Id, cancellation));
    }
}
