using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Vessels;

/// <summary>How water looks against white.</summary>
[JsonConverter(typeof(Words<WaterLook>))]
public enum WaterLook
{
    /// <summary>No colour.</summary>
    Clear,

    /// <summary>A trace of green or brown.</summary>
    Tinted,

    /// <summary>Green, and a hand is seen through it.</summary>
    Green,

    /// <summary>So green that a hand is not seen through it.</summary>
    DeepGreen,

    /// <summary>Brown or yellow.</summary>
    Brown,

    /// <summary>Milky: bacteria.</summary>
    Milky,
}

/// <summary>How much film is on walls and stones.</summary>
[JsonConverter(typeof(Words<FilmCover>))]
public enum FilmCover
{
    /// <summary>None is seen or felt.</summary>
    None,

    /// <summary>Thin.</summary>
    Thin,

    /// <summary>Thick.</summary>
    Thick,

    /// <summary>Coming off.</summary>
    Peeling,
}

/// <summary>A vessel was looked at. What was not looked for is left out.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Water">How its water looks.</param>
/// <param name="Film">How much film there is.</param>
public sealed record VesselLookedAt(VesselId Vessel, WaterLook? Water = null, FilmCover? Film = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        Water is null && Film is null
            ? new Remark("nothing-looked-at", new Argument("field", "water"))
            : null;
}
