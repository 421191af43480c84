using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Broods;

/// <summary>How the eggs look.</summary>
[JsonConverter(typeof(Words<EggColour>))]
public enum EggColour
{
    /// <summary>Dark green to black: early, or just eyed.</summary>
    Dark,

    /// <summary>Between dark and pale.</summary>
    Lighter,

    /// <summary>Pale grey or yellowish: hatching is near.</summary>
    Pale,
}

/// <summary>A female was looked at and carried no eggs.</summary>
/// <param name="Animal">The female.</param>
public sealed record AnimalSeenEmpty(AnimalId Animal) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal)];
}

/// <summary>A female was seen to carry a clutch: the brood begins to be known.</summary>
/// <param name="Animal">The female.</param>
/// <param name="Brood">The clutch.</param>
/// <param name="Name">What the brood is called here.</param>
/// <param name="AgeUnknown">She already carried when she was first looked at, so nothing bounds the spawning.</param>
public sealed record AnimalSeenBerried(
    AnimalId Animal,
    BroodId Brood,
    string? Name = null,
    bool AgeUnknown = false
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal), Subject.Of(Brood)];
}

/// <summary>A clutch was looked at. What was not looked for is left out; "no" means looked for and not seen.</summary>
/// <param name="Brood">The clutch.</param>
/// <param name="Carried">Whether the female still carries it.</param>
/// <param name="Eyed">Whether eyes are seen as dots in the eggs.</param>
/// <param name="Colour">How the eggs look.</param>
/// <param name="Saddle">Whether a new ovary shows behind the head while the eggs are still carried.</param>
public sealed record EggsObserved(
    BroodId Brood,
    bool? Carried = null,
    bool? Eyed = null,
    EggColour? Colour = null,
    bool? Saddle = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Brood)];
}

/// <summary>A female dropped eggs.</summary>
/// <param name="Brood">The clutch.</param>
/// <param name="Vessel">Where the eggs lie now.</param>
/// <param name="Number">How many, if counted.</param>
/// <param name="All">Whether she carries none any more.</param>
public sealed record EggsDropped(BroodId Brood, VesselId? Vessel = null, int? Number = null, bool All = true)
    : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Brood);
        if (Vessel is { } vessel)
        {
            yield return Subject.Of(vessel);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}

/// <summary>A berried female was put into a hatching box of her own.</summary>
/// <param name="Animal">The female.</param>
/// <param name="To">The hatching box.</param>
/// <param name="Brood">The clutch she carries.</param>
public sealed record AnimalIsolated(AnimalId Animal, VesselId To, BroodId? Brood = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Animal);
        yield return Subject.Of(To);
        if (Brood is { } brood)
        {
            yield return Subject.Of(brood);
        }
    }
}

/// <summary>A female went back to the others.</summary>
/// <param name="Animal">The female.</param>
/// <param name="To">Where she is from then on.</param>
public sealed record AnimalReturned(AnimalId Animal, VesselId To) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal), Subject.Of(To)];
}
