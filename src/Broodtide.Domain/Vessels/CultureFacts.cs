using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Domain.Vessels;

/// <summary>What grows in a culture.</summary>
[JsonConverter(typeof(Words<CultureKind>))]
public enum CultureKind
{
    /// <summary>Tetraselmis, species not known.</summary>
    Tetraselmis,

    /// <summary>Tetraselmis chui.</summary>
    TetraselmisChui,

    /// <summary>Tetraselmis suecica.</summary>
    TetraselmisSuecica,

    /// <summary>Nannochloropsis.</summary>
    Nannochloropsis,

    /// <summary>Isochrysis or Tisochrysis.</summary>
    Isochrysis,

    /// <summary>Chlorella or what is sold as it.</summary>
    Chlorella,

    /// <summary>Chaetoceros, small cells (calcitrans, muelleri).</summary>
    Chaetoceros,

    /// <summary>Thalassiosira weissflogii.</summary>
    ThalassiosiraWeissflogii,

    /// <summary>Small Thalassiosira (pseudonana).</summary>
    ThalassiosiraPseudonana,

    /// <summary>Phaeodactylum tricornutum.</summary>
    Phaeodactylum,

    /// <summary>Diatoms that grow as a film: Navicula, Nitzschia, Amphora.</summary>
    FilmDiatoms,

    /// <summary>Whatever came by itself.</summary>
    MixedGreenWater,

    /// <summary>Rotifers.</summary>
    Rotifers,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>What a culture is fed with.</summary>
[JsonConverter(typeof(Words<MediumKind>))]
public enum MediumKind
{
    /// <summary>Water alone.</summary>
    Nothing,

    /// <summary>f/2.</summary>
    F2,

    /// <summary>Walne's, also called Conwy.</summary>
    Walne,

    /// <summary>A fertiliser for plants.</summary>
    Fertiliser,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>What grows in a vessel was described, or described better: the vessel is a culture.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Alga">What grows in it.</param>
/// <param name="Name">Strain or name, in the keeper's words.</param>
/// <param name="Medium">What it is fed with.</param>
/// <param name="MediumStrength">Times the usual strength of the medium; 1 if left out.</param>
/// <param name="Started">When it was started; when the entry happened if left out.</param>
/// <param name="Inoculum">How much starter went in.</param>
/// <param name="InoculumDensity">Cells per volume of the starter.</param>
/// <param name="From">The culture the starter came from.</param>
public sealed record CultureDescribed(
    VesselId Vessel,
    CultureKind Alga,
    string? Name = null,
    MediumKind? Medium = null,
    double? MediumStrength = null,
    Instant? Started = null,
    TypedNumber? Inoculum = null,
    TypedNumber? InoculumDensity = null,
    VesselId? From = null
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
            ("inoculum", Inoculum, Dimension.Volume),
            ("inoculumDensity", InoculumDensity, Dimension.CellDensity),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [("mediumStrength", MediumStrength, 0, 100)];
}

/// <summary>
/// Some of a culture was taken out, to be kept, given away or poured away. What went straight into another vessel as
/// food is told by <see cref="VesselFed"/> instead; what replaced it by <see cref="WaterMoved"/>.
/// </summary>
/// <param name="Vessel">The culture.</param>
/// <param name="Volume">How much water went.</param>
/// <param name="Density">Cells per volume of it.</param>
/// <param name="Note">What became of it, in the keeper's words.</param>
public sealed record CultureHarvested(
    VesselId Vessel,
    TypedNumber? Volume = null,
    TypedNumber? Density = null,
    string? Note = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("volume", Volume, Dimension.Volume), ("density", Density, Dimension.CellDensity)];
}
