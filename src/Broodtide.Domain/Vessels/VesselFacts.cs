using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Vessels;

/// <summary>What a vessel is for.</summary>
[JsonConverter(typeof(Words<VesselRole>))]
public enum VesselRole
{
    /// <summary>Where the adults live.</summary>
    BroodTank,

    /// <summary>Where a berried female waits alone.</summary>
    HatchingBox,

    /// <summary>Where collected larvae cross from fresh to salt water.</summary>
    Cup,

    /// <summary>Where larvae live in sea water.</summary>
    LarvalVessel,

    /// <summary>Where green water or a film grows.</summary>
    AlgaeCulture,

    /// <summary>Where sea water or fresh water stands ready.</summary>
    Store,

    /// <summary>Where juveniles live in fresh water.</summary>
    Nursery,

    /// <summary>Where dropped eggs are kept moving.</summary>
    EggVessel,
}

/// <summary>A vessel was set up, or described better.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Name">What it is called here.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Capacity">What it holds to the working line.</param>
/// <param name="Species">Scientific name of what lives in it, for its limits.</param>
public sealed record VesselSetUp(
    VesselId Vessel,
    string Name,
    VesselRole Role,
    TypedNumber? Capacity = null,
    string? Species = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("capacity", Capacity, Dimension.Volume)];
}

/// <summary>A vessel was filled from empty: a new fill begins.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Fill">The fill.</param>
/// <param name="Volume">How much water.</param>
/// <param name="Salinity">Its salinity; fresh water if left out and no source is named.</param>
/// <param name="Temperature">Its temperature.</param>
/// <param name="From">The vessel the water came from.</param>
/// <param name="VolumeErrorShare">Standard deviation of the volume as a share of it, if the keeper knows better.</param>
public sealed record VesselFilled(
    VesselId Vessel,
    FillId Fill,
    TypedNumber Volume,
    TypedNumber? Salinity = null,
    TypedNumber? Temperature = null,
    VesselId? From = null,
    double? VolumeErrorShare = null
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
            ("salinity", Salinity, Dimension.Salinity),
            ("temperature", Temperature, Dimension.Temperature),
        ];
}

/// <summary>A vessel was emptied: its fill ends.</summary>
/// <param name="Vessel">The vessel.</param>
public sealed record VesselEmptied(VesselId Vessel) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];
}

/// <summary>A vessel was disinfected.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Agent">With what, in the keeper's words.</param>
/// <param name="Dose">Chlorine dose, if it was bleach.</param>
/// <param name="Residual">Chlorine left at the end, as tested.</param>
public sealed record VesselDisinfected(
    VesselId Vessel,
    string Agent,
    TypedNumber? Dose = null,
    TypedNumber? Residual = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("dose", Dose, Dimension.Chlorine), ("residual", Residual, Dimension.Chlorine)];
}

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
    public override IEnumerable<(string Name, int? Count)> Counts() => [("larvaeReturned", LarvaeReturned)];
}

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
public sealed record VesselFed(
    VesselId Vessel,
    FoodKind Food,
    TypedNumber? Volume = null,
    TypedNumber? Mass = null,
    TypedNumber? Density = null,
    VesselId? From = null,
    TypedNumber? Salinity = null
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

/// <summary>The light over a vessel was changed.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="On">Whether it is on from then on.</param>
/// <param name="HoursPerDay">Hours a day it burns, 0 to 24.</param>
/// <param name="Illuminance">How bright at the water.</param>
public sealed record LightChanged(
    VesselId Vessel,
    bool On,
    double? HoursPerDay = null,
    TypedNumber? Illuminance = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("illuminance", Illuminance, Dimension.Light)];
}

/// <summary>The air of a vessel was changed.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="On">Whether air runs from then on.</param>
/// <param name="Note">How, in the keeper's words.</param>
public sealed record AirChanged(VesselId Vessel, bool On, string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];
}

/// <summary>The heater of a vessel was changed.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="On">Whether it heats from then on.</param>
/// <param name="Setting">Temperature it is set to.</param>
public sealed record HeaterChanged(VesselId Vessel, bool On, TypedNumber? Setting = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("setting", Setting, Dimension.Temperature)];
}

/// <summary>The filter of a vessel was changed, cleaned, put in or taken out.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="On">Whether one runs from then on.</param>
/// <param name="Note">What was done, in the keeper's words.</param>
public sealed record FilterChanged(VesselId Vessel, bool On, string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];
}
