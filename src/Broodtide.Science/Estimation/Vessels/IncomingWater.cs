using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What is in water that is put into a vessel. Clean sea water at rest with room air by default.</summary>
public sealed record IncomingWater
{
    private double? _ph;
    private double? _alkalinity;
    private double _cells;

    /// <summary>Ammonia and ammonium, as nitrogen.</summary>
    public Concentration Tan { get; init; }

    /// <summary>Nitrite, as nitrogen.</summary>
    public Concentration Nitrite { get; init; }

    /// <summary>Nitrate, as nitrogen; spent f/2 medium brings up to 12 mg/L.</summary>
    public Concentration Nitrate { get; init; }

    /// <summary>Oxygen; none told: saturated.</summary>
    public Concentration? Oxygen { get; init; }

    /// <summary>Algae, cells/mL of the kind the vessel is counted in, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double CellsPerMillilitre
    {
        get => _cells;
        init => _cells = Finite.NotNegative(value);
    }

    /// <summary>pH by an electrode set in NBS buffers, 5 to 11; none told: at rest with room air.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 5 to 11.</exception>
    public double? PHNbs
    {
        get => _ph;
        init => _ph = value is { } told ? Finite.Within(told, 5, 11) : null;
    }

    /// <summary>Alkalinity, meq/L, above 0 to 20; none told: as the vessel's own start supposes for its salinity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 20.</exception>
    public double? AlkalinityMilliequivalentsPerLitre
    {
        get => _alkalinity;
        init => _alkalinity = value is { } told ? Finite.Within(told, 0.01, 20) : null;
    }

    /// <summary>Clean water.</summary>
    public static IncomingWater Clean { get; } = new();
}
