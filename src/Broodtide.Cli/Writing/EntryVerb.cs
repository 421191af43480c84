using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Cli.Writing;

/// <summary>One kind of entry a keeper writes, in the trade's words: also the way it is corrected.</summary>
internal sealed record EntryVerb(
    string Name,
    string Help,
    IReadOnlyList<string> Examples,
    IReadOnlyList<Slot> Slots,
    Func<Told, IEnumerable<Fact>> Tell
)
{
    /// <summary>Every one, with places of its own: made anew for each command it stands under.</summary>
    public static IReadOnlyList<EntryVerb> All() =>
        [
            .. AdultVerbs.All(),
            .. BroodVerbs.All(),
            .. LarvaVerbs.All(),
            .. JuvenileVerbs.All(),
            .. VesselVerbs.All(),
            .. WaterVerbs.All(),
            .. GearVerbs.All(),
            .. CultureVerbs.All(),
            .. ReadingVerbs.All(),
            .. InstrumentVerbs.All(),
            .. KeepingVerbs.All(),
        ];
}

/// <summary>What was said about one entry, and the one it corrects, if it corrects one.</summary>
internal sealed class Told(Said said, Fact? corrected)
{
    public Said Said => said;

    /// <summary>An identity of the entry that is corrected, or a new one.</summary>
    public TId Same<TFact, TId>(Func<TFact, TId> of)
        where TFact : Fact
        where TId : struct, IIdentity<TId> =>
        corrected is TFact fact ? of(fact) : said.Sitting.Keeper.New<TId>();

    /// <summary>
    /// The fact that is corrected, for what has no word on the command line (pours made at the bench, errors): it
    /// stays as it was.
    /// </summary>
    public TFact? Before<TFact>()
        where TFact : Fact => corrected as TFact;

    /// <summary>Whether it corrects an entry: then nothing is written beside it.</summary>
    public bool Corrects => corrected is not null;
}
