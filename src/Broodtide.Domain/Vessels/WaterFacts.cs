using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Vessels;

/// <summary>
/// Water or salt went into or out of a vessel, or from one to another. From nothing is from outside the house's
/// vessels (tap, canister); to nothing is down the drain or into the air.
/// </summary>
/// <param name="From">Out of this vessel.</param>
/// <param name="To">Into this vessel.</param>
/// <param name="Volume">How much water.</param>
/// <param name="Salinity">Salinity of water from outside; fresh if left out. Ignored when a vessel is the source.</param>
/// <param name="Temperature">Temperature of the water.</param>
/// <param name="Mix">Dry salt mix dissolved.</param>
/// <param name="Evaporated">Whether the water went into the air, leaving its salt behind.</param>
/// <param name="ToLine">Whether it was topped up to the working line, whatever that took.</param>
/// <param name="VolumeErrorShare">Standard deviation of the volume as a share of it, if the keeper knows better.</param>
public sealed record WaterMoved(
    VesselId? From = null,
    VesselId? To = null,
    TypedNumber? Volume = null,
    TypedNumber? Salinity = null,
    TypedNumber? Temperature = null,
    TypedNumber? Mix = null,
    bool Evaporated = false,
    bool ToLine = false,
    double? VolumeErrorShare = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        if (From is { } from)
        {
            yield return Subject.Of(from);
        }

        if (To is { } to && to != From)
        {
            yield return Subject.Of(to);
        }

        if (From is null && To is null)
        {
            yield return Subject.House;
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            ("volume", Volume, Dimension.Volume),
            ("salinity", Salinity, Dimension.Salinity),
            ("temperature", Temperature, Dimension.Temperature),
            ("mix", Mix, Dimension.Mass),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [("volumeErrorShare", VolumeErrorShare, 0, 1)];
}

/// <summary>Waste was siphoned off, with the water it took.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Volume">How much water went.</param>
/// <param name="LarvaeReturned">How many larvae were found in it and put back.</param>
public sealed record VesselSiphoned(VesselId Vessel, TypedNumber? Volume = null, int? LarvaeReturned = null)
    : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("volume", Volume, Dimension.Volume)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("larvaeReturned", LarvaeReturned)];
}
