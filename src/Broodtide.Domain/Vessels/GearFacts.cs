using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Vessels;

/// <summary>The light over a vessel was changed.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="On">Whether it is on from then on.</param>
/// <param name="HoursPerDay">Hours a day it burns, 0 to 24.</param>
/// <param name="Illuminance">How bright at the water, in lux or, from version 2, in photons that algae can use.</param>
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

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [("hoursPerDay", HoursPerDay, 0, 24)];
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
