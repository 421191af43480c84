using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Photos;
using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Workbench.Dossiers;

/// <summary>A photo of a dossier.</summary>
/// <param name="Sha256">Its name: SHA-256 of its bytes.</param>
/// <param name="Format">What kind of file it is.</param>
/// <param name="Bytes">The file.</param>
/// <param name="Happened">When it was taken.</param>
/// <param name="Caption">What it shows, in the keeper's words; none where notes are left out.</param>
public sealed record DossierPhoto(
    string Sha256,
    PhotoFormat Format,
    ReadOnlyMemory<byte> Bytes,
    Instant Happened,
    string? Caption
);

/// <summary>
/// One run, or several that belong together, written out so that another person can read, recompute and cite it. Every
/// number in it is computed from the entries that it carries, not from the keeper's journal: who has the dossier has all
/// that its numbers rest on.
/// </summary>
public sealed class Dossier
{
    private Dossier(
        DossierChoice choice,
        IReadOnlyList<RunId> runs,
        IReadOnlyList<Entry> entries,
        IReadOnlyList<DossierPhoto> photos,
        IReadOnlyList<Remark> remarks,
        Outlook outlook
    )
    {
        (Choice, Runs, Entries, Photos, Remarks, Outlook) = (choice, runs, entries, photos, remarks, outlook);
        Title = choice.Title ?? Called();
    }

    /// <summary>What the keeper chose.</summary>
    public DossierChoice Choice { get; }

    /// <summary>What it is called.</summary>
    public string Title { get; }

    /// <summary>The runs it tells.</summary>
    public IReadOnlyList<RunId> Runs { get; }

    /// <summary>The entries, as they are given away.</summary>
    public IReadOnlyList<Entry> Entries { get; }

    /// <summary>The photos that go with it.</summary>
    public IReadOnlyList<DossierPhoto> Photos { get; }

    /// <summary>What a keeper should know of what is in it and what is not.</summary>
    public IReadOnlyList<Remark> Remarks { get; }

    /// <summary>All that is computed from its entries, at the instant and in the zone it is told for.</summary>
    public Outlook Outlook { get; }

    /// <summary>The scientific names of its species, each once.</summary>
    public IReadOnlyList<string> Species =>
        [.. Broods.Select(brood => Outlook.Profiles.Of(brood).ScientificName).Distinct()];

    /// <summary>Whether any of it was invented, to show how the program works.</summary>
    public bool IsInvented => Entries.Any(entry => InventedHouse.Is(entry.Envelope.Author.Name));

    /// <summary>The broods of its runs.</summary>
    public IEnumerable<BroodId> Broods => Runs.Select(run => Outlook.House.Run(run).Brood).OfType<BroodId>();

    /// <summary>Puts a dossier together. Estimates are worked out when first asked for, or by <see cref="Steps"/>.</summary>
    /// <param name="house">Everything that is known.</param>
    /// <param name="runs">The runs.</param>
    /// <param name="choice">What was chosen, checked.</param>
    /// <param name="told">The instant it is told for.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <param name="photoOf">The bytes of a photo by its hash; none where it is not here.</param>
    /// <returns>The dossier; or why there can be none.</returns>
    public static Parsed<Dossier> Of(
        House house,
        IReadOnlyList<RunId> runs,
        DossierChoice choice,
        Instant told,
        DateTimeZone zone,
        Func<string, ReadOnlyMemory<byte>?> photoOf
    )
    {
        ArgumentNullException.ThrowIfNull(house);
        ArgumentNullException.ThrowIfNull(runs);
        ArgumentNullException.ThrowIfNull(choice);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(photoOf);
        foreach (var run in runs)
        {
            if (house.Run(run).Brood is null)
            {
                return Parsed<Dossier>.No("run-without-brood", new Argument("run", run));
            }
        }

        var own = RunEntries.Of(house, runs);
        var remarks = new List<Remark>();
        var (photos, names) = choice.Photos ? PhotosOf(own, choice, photoOf, remarks) : ([], []);
        var entries = LeavingOut.Of(own, choice, names);
        if (choice.Notes)
        {
            remarks.Add(new Remark("dossier-notes-may-name"));
        }

        if (choice.Licence is null)
        {
            remarks.Add(new Remark("dossier-no-licence"));
        }

        var itsZone = choice.Place ? zone : WithoutPlace(zone, house, runs, told);
        return Parsed<Dossier>.Of(
            new(choice, runs, entries, photos, remarks, Outlook.Of(Account.Of(entries), told, itsZone))
        );
    }

    /// <summary>A dossier told again from the entries that it carries: for who computes its numbers anew.</summary>
    /// <param name="entries">Its entries.</param>
    /// <param name="runs">Its runs.</param>
    /// <param name="told">The instant it was told for.</param>
    /// <param name="zone">The zone it was told in.</param>
    public static Dossier Carried(
        IReadOnlyList<Entry> entries,
        IReadOnlyList<RunId> runs,
        Instant told,
        DateTimeZone zone
    ) => new(new DossierChoice(), runs, entries, [], [], Outlook.Of(Account.Of(entries), told, zone));

    /// <summary>The pieces in which its estimates are worked out, for who may not be held up.</summary>
    public IEnumerable<Action> Steps()
    {
        foreach (var brood in Broods)
        {
            if (Outlook.PopulationOf(brood) is { } population)
            {
                foreach (var step in Outlook.StepsOf(population))
                {
                    yield return step;
                }
            }
        }
    }

    /// <summary>The tide line of one of its runs, with how many are alive.</summary>
    public TideLineRecord TideLineOf(RunId run)
    {
        if (Outlook.House.Run(run).Brood is { } brood && Outlook.PopulationOf(brood) is { } population)
        {
            _ = Outlook.EstimateOf(population);
        }

        return TideLine.TideLineOf.Run(Outlook, run)!;
    }

    private string Called()
    {
        var began = Broods
            .Select(brood => Outlook.House.Brood(brood))
            .Select(brood => (brood.FirstSeenBerried ?? brood.FirstLarvae)?.Earliest)
            .OfType<Instant>()
            .DefaultIfEmpty(Outlook.Now)
            .Min();
        var year = began.InZone(Outlook.Zone).Year;
        var species = string.Join(" and ", Species);
        return Runs.Count == 1
            ? FormattableString.Invariant($"A run of {species}, {year}")
            : FormattableString.Invariant($"{Runs.Count} runs of {species}, {year}");
    }

    private static DateTimeZone WithoutPlace(
        DateTimeZone zone,
        House house,
        IReadOnlyList<RunId> runs,
        Instant told
    )
    {
        var began = runs.Select(run => house.Run(run).Started?.Earliest)
            .OfType<Instant>()
            .DefaultIfEmpty(told)
            .Min();
        return DateTimeZoneProviders.Tzdb[LeavingOut.ZoneWithoutPlace(zone.Id, began)];
    }

    private static (List<DossierPhoto> Photos, Dictionary<string, string> Names) PhotosOf(
        IReadOnlyList<Entry> entries,
        DossierChoice choice,
        Func<string, ReadOnlyMemory<byte>?> photoOf,
        List<Remark> remarks
    )
    {
        var photos = new List<DossierPhoto>();
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        var missing = 0;
        foreach (var entry in entries)
        {
            if (entry.Fact is not PhotoAdded added || names.ContainsKey(added.Sha256))
            {
                continue;
            }

            // A photo that was kept as it came may tell where it was taken; that goes now, unless it was asked for.
            if (
                photoOf(added.Sha256) is { } bytes
                && PhotoIntake.Take(bytes.Span, choice.Place) is { Succeeded: true } taken
                && PhotoFormats.Find(taken.Value.Bytes) is { } format
            )
            {
                names[added.Sha256] = taken.Value.Sha256;
                photos.Add(
                    new(
                        taken.Value.Sha256,
                        format,
                        taken.Value.Bytes,
                        entry.Envelope.Happened.Middle,
                        choice.Notes ? added.Caption : null
                    )
                );
            }
            else
            {
                missing++;
            }
        }

        if (missing > 0)
        {
            remarks.Add(new Remark("dossier-photos-missing", new Argument("photos", missing)));
        }

        return ([.. photos.DistinctBy(photo => photo.Sha256)], names);
    }
}
