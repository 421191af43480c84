using System.Collections.Frozen;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What a text in the body of an entry may give away.</summary>
public enum TextSort
{
    /// <summary>A code, a unit, a name of science: it tells of nobody.</summary>
    Plain,

    /// <summary>What a keeper calls something or somebody: another name stands in its place.</summary>
    Name,

    /// <summary>A keeper's own words, or a place: left out.</summary>
    Note,
}

/// <summary>
/// Every text that a body may hold, by kind and member, with what it may give away. A test holds this list against the
/// facts themselves, so that a new text is sorted before it can be given to anybody.
/// </summary>
public static class TextsOfFacts
{
    private static readonly FrozenDictionary<string, TextSort> Sorts = new Dictionary<string, TextSort>(
        StringComparer.Ordinal
    )
    {
        ["animal acquired.name"] = TextSort.Name,
        ["animal acquired.species"] = TextSort.Plain,
        ["animal acquired.source"] = TextSort.Note,
        ["animal died.cause"] = TextSort.Note,
        ["animal seen berried.name"] = TextSort.Name,
        ["count made.pictures.setup"] = TextSort.Name,
        ["culture described.name"] = TextSort.Plain,
        ["culture harvested.note"] = TextSort.Note,
        ["instrument described.name"] = TextSort.Name,
        ["instrument described.scale"] = TextSort.Plain,
        ["juveniles given away.to"] = TextSort.Note,
        ["survival heard.card"] = TextSort.Plain,
        ["survival heard.note"] = TextSort.Note,
        ["stage sample taken.stages.stage"] = TextSort.Plain,
        ["vessel set up.name"] = TextSort.Name,
        ["vessel set up.species"] = TextSort.Plain,
        ["vessel disinfected.agent"] = TextSort.Plain,
        ["vessel fed.feed"] = TextSort.Plain,
        ["feed described.name"] = TextSort.Plain,
        ["feed described.note"] = TextSort.Note,
        ["air changed.note"] = TextSort.Note,
        ["filter changed.note"] = TextSort.Note,
        ["run started.name"] = TextSort.Name,
        ["run started.species"] = TextSort.Plain,
        ["run ended.note"] = TextSort.Note,
        ["power failed.note"] = TextSort.Note,
        ["power restored.note"] = TextSort.Note,
        ["keeper left.helper"] = TextSort.Note,
        ["action done.action"] = TextSort.Plain,
        ["action done.note"] = TextSort.Note,
        ["action skipped.action"] = TextSort.Plain,
        ["action skipped.reason"] = TextSort.Note,
        ["note written.text"] = TextSort.Note,
        ["photo added.sha256"] = TextSort.Plain,
        ["photo added.mediaType"] = TextSort.Plain,
        ["photo added.caption"] = TextSort.Note,
        ["photo added.thumbnail"] = TextSort.Plain,
        ["count made.pictures.pictures.sha256"] = TextSort.Plain,
        // The hash of a picture that was measured in.
        ["larvae measured.picture"] = TextSort.Plain,
        ["forecast issued.quantity"] = TextSort.Plain,
        ["forecast issued.day"] = TextSort.Plain,
        ["forecast issued.engine"] = TextSort.Plain,
        ["forecast issued.unit"] = TextSort.Plain,
        ["water foretold.day"] = TextSort.Plain,
        ["water foretold.engine"] = TextSort.Plain,
        ["water foretold.points.quantity"] = TextSort.Plain,
        ["water foretold.points.unit"] = TextSort.Plain,
        ["profile value chosen.species"] = TextSort.Plain,
        ["profile value chosen.quantity"] = TextSort.Plain,
        ["profile value chosen.unit"] = TextSort.Plain,
        ["profile value chosen.reason"] = TextSort.Note,
        ["trial laid out.name"] = TextSort.Name,
        // What was varied and compared is the trial itself.
        ["trial laid out.varied"] = TextSort.Plain,
        ["trial laid out.treatments.name"] = TextSort.Plain,
        ["trial laid out.compared"] = TextSort.Plain,
        ["entry taken back.reason"] = TextSort.Note,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Every text that was sorted: kind, full stop, members from the outside in.</summary>
    public static IReadOnlyCollection<string> All => Sorts.Keys;

    /// <summary>What a text may give away; plain what is no free text: an identity, an instant, a word of a closed list.</summary>
    /// <param name="kind">The kind of the entry.</param>
    /// <param name="members">Names of the members from the outside in, joined by full stops.</param>
    public static TextSort Of(string kind, string members) =>
        Sorts.GetValueOrDefault($"{kind}.{members}", TextSort.Plain);
}
