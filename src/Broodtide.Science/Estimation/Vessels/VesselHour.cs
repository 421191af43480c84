using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>Air led through the water.</summary>
public enum AirFlow
{
    /// <summary>None: oxygen comes through the surface alone.</summary>
    None,

    /// <summary>Single coarse bubbles, the surface moves.</summary>
    Gentle,

    /// <summary>A stream of bubbles.</summary>
    Strong,
}

/// <summary>
/// What is around a vessel for an hour, given from outside: the ledger's water, salt and temperature, the lamp, the air,
/// and the larvae as they were estimated before. Held the same for the whole hour.
/// </summary>
public readonly record struct VesselHour
{
    /// <summary>
    /// Water at the end of the hour. What it changes beyond the events of the hour is pure water: evaporation, or a
    /// top-up with fresh water.
    /// </summary>
    public required Volume Water { get; init; }

    /// <summary>Salinity; the twin reads it and never changes it.</summary>
    public required Salinity Salinity { get; init; }

    /// <summary>Temperature of the water.</summary>
    public required Temperature Temperature { get; init; }

    /// <summary>Light at the surface, umol/(m2 s) of photosynthetically active photons; 0 at night. Sunlight is 2000 to 2500 at most.</summary>
    public double LightMicromoles { get; init; }

    /// <summary>Air led through.</summary>
    public AirFlow Air { get; init; }

    /// <summary>Larvae alive in the vessel, with their interval; none by default.</summary>
    public Interval Larvae { get; init; }

    /// <summary>Dry mass of one larva, micrograms, 0 or more.</summary>
    public double LarvaDryMicrograms { get; init; }
}
