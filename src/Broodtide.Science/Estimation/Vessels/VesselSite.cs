using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What of a vessel stays the same: its shape and its surfaces.</summary>
public sealed record VesselSite
{
    private double _depth = 0.15;
    private double _walls = 400;
    private double _filter;
    private double _filterAge;

    /// <summary>Depth of the water, m, above 0 to 5.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public double DepthMetres
    {
        get => _depth;
        init => _depth = Finite.Within(value, 0.005, 5);
    }

    /// <summary>Wetted wall and floor on which film grows, cm2 a litre; a 5 L jar has about 300, a 1 L jar 500.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative, or above 10,000.</exception>
    public double WallSquareCentimetresPerLitre
    {
        get => _walls;
        init => _walls = Finite.Within(value, 0, 10_000);
    }

    /// <summary>Surface of a sponge or other filter that nitrifiers use, cm2 in the vessel; 0 without one. Uncertain by ten times (practice).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double FilterSquareCentimetres
    {
        get => _filter;
        init => _filter = Finite.NotNegative(value);
    }

    /// <summary>Days that sponge and walls have stood in salt water with some ammonia when the clock starts, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double RipeDays
    {
        get => _filterAge;
        init => _filterAge = Finite.NotNegative(value);
    }
}
