using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Dossiers;

/// <summary>A run that somebody else wrote down, with a house of its own: it never mixes with the keeper's.</summary>
/// <param name="Dossier">The dossier it came in.</param>
/// <param name="Run">The run.</param>
/// <param name="Brood">Its brood.</param>
/// <param name="House">Everything that its dossier tells, by name.</param>
/// <param name="ToldFor">The instant its numbers were told for.</param>
/// <param name="Zone">The zone they were told in.</param>
public sealed record ForeignRun(
    ForeignDossier Dossier,
    RunId Run,
    BroodId Brood,
    House House,
    Instant ToldFor,
    DateTimeZone Zone
)
{
    /// <summary>The entries of its dossier.</summary>
    public IReadOnlyList<Entry> Entries => Dossier.Entries;

    /// <summary>All that is computed of it, as its keeper would see it at that instant.</summary>
    public Outlook Look() => Outlook.Of(House.Account, ToldFor, Zone);

    /// <summary>
    /// Its vessels in which larvae lived, in the order of crossing: those that held one brood alone, unless mixed ones are
    /// asked for.
    /// </summary>
    public IReadOnlyList<VesselId> Vessels(bool withMixed = false) =>
        [
            .. House
                .VesselsOf(Brood)
                .Select(vessel => vessel.Id)
                .Where(vessel => withMixed || !House.IsMixed(vessel)),
        ];
}

/// <summary>A dossier that somebody else made, verified whole.</summary>
public sealed class ForeignDossier
{
    private IReadOnlyList<ForeignRun>? _runs;

    /// <summary>Its name: SHA-256 of its descriptor, which holds the hashes of all its files.</summary>
    public required string Id { get; init; }

    /// <summary>What its maker calls it.</summary>
    public required string Title { get; init; }

    /// <summary>Who made it; none where nobody is named.</summary>
    public string? By { get; init; }

    /// <summary>The licence it is given under, as its maker names it; none where none was chosen.</summary>
    public string? Licence { get; init; }

    /// <summary>Name and version of the software that made it.</summary>
    public required string Engine { get; init; }

    /// <summary>The instant its numbers were told for.</summary>
    public required Instant ToldFor { get; init; }

    /// <summary>The zone they were told in.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The identities of its runs.</summary>
    public required IReadOnlyList<RunId> RunIds { get; init; }

    /// <summary>Its entries.</summary>
    public required IReadOnlyList<Entry> Entries { get; init; }

    /// <summary>Its files, the descriptor first.</summary>
    public required IReadOnlyList<PackedFile> Files { get; init; }

    /// <summary>Whether any of it was invented.</summary>
    public bool IsInvented => Entries.Any(entry => Demo.InventedHouse.Is(entry.Envelope.Author.Name));

    /// <summary>Its runs; worked out when first asked for.</summary>
    public IReadOnlyList<ForeignRun> Runs
    {
        get
        {
            if (_runs is null)
            {
                var house = new House(Account.Of(Entries));
                _runs =
                [
                    .. RunIds.Select(run => new ForeignRun(
                        this,
                        run,
                        house.Run(run).Brood!.Value,
                        house,
                        ToldFor,
                        Zone
                    )),
                ];
            }

            return _runs;
        }
    }
}
