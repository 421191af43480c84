using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Vessels;

/// <summary>What kind of food.</summary>
[JsonConverter(typeof(Words<FoodKind>))]
public enum FoodKind
{
    /// <summary>Living microalgae in their water.</summary>
    GreenWater,

    /// <summary>A plate or stone with a film of diatoms.</summary>
    Film,

    /// <summary>Yeast in water.</summary>
    Yeast,

    /// <summary>Dry powder.</summary>
    Powder,

    /// <summary>Rotifers.</summary>
    Rotifers,

    /// <summary>Newly hatched brine shrimps.</summary>
    Artemia,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>A vessel was fed.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Food">What kind of food.</param>
/// <param name="Volume">Volume of a liquid food.</param>
/// <param name="Mass">Mass of a dry food.</param>
/// <param name="Density">Cells per volume of the food.</param>
/// <param name="From">The culture it came from.</param>
/// <param name="Salinity">Salinity of a liquid food, when no culture is named.</param>
/// <param name="Feed">Name of the described feed. From version 2.</param>
public sealed record VesselFed(
    VesselId Vessel,
    FoodKind Food,
    TypedNumber? Volume = null,
    TypedNumber? Mass = null,
    TypedNumber? Density = null,
    VesselId? From = null,
    TypedNumber? Salinity = null,
    string? Feed = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Vessel);
        if (From is { } from && from != Vessel)
        {
            yield return Subject.Of(from);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            ("volume", Volume, Dimension.Volume),
            ("mass", Mass, Dimension.Mass),
            ("density", Density, Dimension.CellDensity),
            ("salinity", Salinity, Dimension.Salinity),
        ];
}

/// <summary>A feed was described, or described better: what is in the product as it is sold. The newest one counts.</summary>
/// <param name="Name">What it is called here; feedings name it.</param>
/// <param name="Food">What kind of food.</param>
/// <param name="Protein">Crude protein, share of the product as sold.</param>
/// <param name="Moisture">Water, share of the product as sold.</param>
/// <param name="Ash">Ash, share of the product as sold.</param>
/// <param name="Note">Anything worth saying, in the keeper's words.</param>
public sealed record FeedDescribed(
    string Name,
    FoodKind Food,
    TypedNumber? Protein = null,
    TypedNumber? Moisture = null,
    TypedNumber? Ash = null,
    string? Note = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            ("protein", Protein, Dimension.Share),
            ("moisture", Moisture, Dimension.Share),
            ("ash", Ash, Dimension.Share),
        ];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        (Protein?.Value ?? 0) + (Moisture?.Value ?? 0) + (Ash?.Value ?? 0) is > 100 and var whole
            ? new Remark("feed-more-than-whole", new Argument("percent", whole))
            : null;
}
