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

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [("volumeErrorShare", VolumeErrorShare, 0, 1)];
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
