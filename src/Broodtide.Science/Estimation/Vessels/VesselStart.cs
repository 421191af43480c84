using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>A belief about an amount: zero, or log-normal by its median.</summary>
public readonly record struct AmountBelief
{
    /// <summary>A belief.</summary>
    /// <param name="median">Median, 0 or more.</param>
    /// <param name="logSd">Standard deviation of the natural logarithm, 0 to 5.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public AmountBelief(double median, double logSd)
    {
        Median = Finite.NotNegative(median);
        LogSd = Finite.Within(logSd, 0, 5);
    }

    /// <summary>Median.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the natural logarithm.</summary>
    public double LogSd { get; }

    internal double At(double z) => Median * Math.Exp(LogSd * z);
}

/// <summary>What is believed to be in the water when the clock starts. Clean sea water by default.</summary>
public sealed record VesselStart
{
    /// <summary>Algae in the water, cells/mL.</summary>
    public AmountBelief CellsPerMillilitre { get; init; } = new(100, 1.5);

    /// <summary>Film as a share of the thickest.</summary>
    public AmountBelief FilmShare { get; init; } = new(0.005, 1.5);

    /// <summary>Nitrogen of food and dead matter in the water, mg/L.</summary>
    public AmountBelief Suspended { get; init; } = new(0.005, 1);

    /// <summary>The same on the bottom, mg/L of the vessel.</summary>
    public AmountBelief Settled { get; init; } = new(0.005, 1);

    /// <summary>Ammonia and ammonium as nitrogen, mg/L.</summary>
    public AmountBelief Tan { get; init; } = new(0.03, 0.8);

    /// <summary>Nitrite as nitrogen, mg/L.</summary>
    public AmountBelief Nitrite { get; init; } = new(0.005, 1);

    /// <summary>Nitrate as nitrogen, mg/L.</summary>
    public AmountBelief Nitrate { get; init; } = new(0.5, 1);

    /// <summary>Oxygen as a share of saturation.</summary>
    public AmountBelief OxygenShare { get; init; } = new(0.95, 0.05);

    /// <summary>
    /// Alkalinity, meq/L, at salinity 35; thinner water has it in proportion. Sea water 2.3, salt mixes up to 4 (from
    /// memory).
    /// </summary>
    public AmountBelief AlkalinityAt35 { get; init; } = new(2.6, 0.15);

    /// <summary>Carbon dioxide in the water as a multiple of what the room's air would leave.</summary>
    public AmountBelief CarbonDioxideShare { get; init; } = new(1.1, 0.3);
}
