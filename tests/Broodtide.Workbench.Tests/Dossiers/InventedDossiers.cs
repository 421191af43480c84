using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Dossiers;
using Broodtide.Workbench.Photos;
using Broodtide.Workbench.Recording;
using NodaTime;
using NodaTime.Testing;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Dossiers;

/// <summary>Dossiers of the invented house, with a photo and a note of its second brood.</summary>
internal static class InventedDossiers
{
    public const string Engine = "broodtide test";

    /// <summary>The smallest PNG: one white pixel.</summary>
    public static readonly byte[] Pixel = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsTj2FAAAAABJRU5ErkJggg=="
    );

    public static readonly Instant Now = Instant.FromUtc(2026, 7, 20, 16, 0);

    public static async Task<House> HouseAsync()
    {
        await using var journal = new MemoryJournal(new ReplicaId(Fixed(99)));
        var drafts = InventedHouse.Drafts(Now, Zone).ToList();
        var run = drafts
            .Select(draft => draft.Fact)
            .OfType<RunStarted>()
            .Single(started => started.Name == "Brood 2")
            .Run;
        var number = 5000;
        var keeper = new Keeper(
            new Author(InventedHouse.Keeper),
            new FakeClock(Now),
            Zone,
            () => Fixed(number++)
        );
        drafts.Add(keeper.Write(new NoteWritten("Aunt Hedwig in Basel looked in", Run: run)));
        drafts.Add(
            keeper.Write(
                new PhotoAdded(
                    PhotoIntake.HashOf(Pixel),
                    "image/png",
                    Pixel.Length,
                    Run: run,
                    Caption: "Hedwig's hand"
                )
            )
        );
        return new House(Account.Of(await journal.AppendAsync(drafts)));
    }

    public static async Task<Dossier> OfAsync(DossierChoice? choice = null) =>
        Of(await HouseAsync(), choice ?? new DossierChoice());

    public static Dossier Of(House house, DossierChoice choice) =>
        Dossier
            .Of(
                house,
                [house.Runs.Single(run => run.Name == "Brood 2").Id],
                choice,
                Now,
                Zone,
                sha256 => sha256 == PhotoIntake.HashOf(Pixel) ? Pixel : null
            )
            .Value;
}
