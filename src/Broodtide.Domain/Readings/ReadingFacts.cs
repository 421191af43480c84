using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Domain.Readings;

/// <summary>What a measuring device is.</summary>
[JsonConverter(typeof(Words<InstrumentKind>))]
public enum InstrumentKind
{
    /// <summary>Reads the bending of light.</summary>
    Refractometer,

    /// <summary>Floats.</summary>
    Hydrometer,

    /// <summary>A hydrometer with a swinging arm: obeys no glass correction.</summary>
    SwingArmHydrometer,

    /// <summary>Measures conductivity.</summary>
    ConductivityMeter,

    /// <summary>Measures temperature.</summary>
    Thermometer,

    /// <summary>Measures acidity.</summary>
    PhMeter,

    /// <summary>Drops or strips.</summary>
    TestKit,

    /// <summary>Measures dissolved oxygen.</summary>
    OxygenMeter,

    /// <summary>Weighs.</summary>
    Scale,
}

/// <summary>
/// Scale of acidity: it follows from the buffers a meter is set with. In sea water the two stand about 0.1 apart.
/// </summary>
[JsonConverter(typeof(Words<AcidityScale>))]
public enum AcidityScale
{
    /// <summary>Ordinary buffers (4, 7, 10): NBS, also called NIST.</summary>
    Nbs,

    /// <summary>Buffers in artificial sea water (TRIS): the total scale.</summary>
    Total,
}

/// <summary>Something was measured. What was read is kept; what it means is worked out later, with its corrections.</summary>
/// <param name="Value">What the device showed, in its own unit or scale.</param>
/// <param name="Vessel">The vessel whose water it was.</param>
/// <param name="Instrument">The device.</param>
/// <param name="SampleTemperature">Temperature of the sample as it was read.</param>
/// <param name="Again">Whether it was taken to check the reading before it.</param>
public sealed record ReadingTaken(
    TypedNumber Value,
    VesselId? Vessel = null,
    InstrumentId? Instrument = null,
    TypedNumber? SampleTemperature = null,
    bool Again = false
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        if (Vessel is { } vessel)
        {
            yield return Subject.Of(vessel);
        }

        if (Instrument is { } instrument)
        {
            yield return Subject.Of(instrument);
        }

        if (Vessel is null && Instrument is null)
        {
            yield return Subject.House;
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            // A reading may be of anything that has a unit here.
            ("value", Value, Value.KnownUnit()?.Dimension ?? Dimension.Number),
            ("sampleTemperature", SampleTemperature, Dimension.Temperature),
        ];
}

/// <summary>A device was described, or described better.</summary>
/// <param name="Instrument">The device.</param>
/// <param name="Name">What it is called here.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Scale">Unit code that it reads in; salinity scales included.</param>
/// <param name="Compensated">Whether it corrects for temperature by itself; for a conductivity meter, whether it shows 25 degC values.</param>
/// <param name="Resolution">Its smallest step, in the unit of the scale.</param>
/// <param name="Error">Standard deviation of one reading, in the unit of the scale.</param>
/// <param name="GlassCelsius">For a hydrometer: temperature at which the glass has its marked volume, degC.</param>
/// <param name="ZeroedWithWater">Whether it is set to zero with pure water before use.</param>
/// <param name="PhScale">For a pH meter: the scale of the buffers it is set with; ordinary ones if left out. From version 2.</param>
public sealed record InstrumentDescribed(
    InstrumentId Instrument,
    string Name,
    InstrumentKind Kind,
    string? Scale = null,
    bool? Compensated = null,
    double? Resolution = null,
    double? Error = null,
    double? GlassCelsius = null,
    bool? ZeroedWithWater = null,
    AcidityScale? PhScale = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Instrument)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [
            ("resolution", Resolution, 0, 1e6),
            ("error", Error, 0, 1e6),
            ("glassCelsius", GlassCelsius, -273.15, 1000),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, string? Code)> Codes() => [("scale", Scale)];
}

/// <summary>
/// A device was held against a standard. From the date it is said to hold, older readings of the device are read
/// again.
/// </summary>
/// <param name="Instrument">The device.</param>
/// <param name="Shown">What it showed, in its own scale.</param>
/// <param name="Standard">What the standard is, in any unit of the same kind.</param>
/// <param name="Temperature">Temperature at which it was done.</param>
/// <param name="HoldsFrom">From when the finding holds; the time it happened if left out.</param>
/// <param name="Adjusted">Whether the device was then set right, so that later readings need no correction.</param>
/// <param name="SodiumChloride">Whether the standard was a sodium chloride solution made for a refractometer.</param>
public sealed record InstrumentCalibrated(
    InstrumentId Instrument,
    TypedNumber Shown,
    TypedNumber Standard,
    TypedNumber? Temperature = null,
    Instant? HoldsFrom = null,
    bool Adjusted = false,
    bool SodiumChloride = false
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Instrument)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            ("shown", Shown, Standard.KnownUnit()?.Dimension ?? Dimension.Number),
            ("standard", Standard, Standard.KnownUnit()?.Dimension ?? Dimension.Number),
            ("temperature", Temperature, Dimension.Temperature),
        ];
}
