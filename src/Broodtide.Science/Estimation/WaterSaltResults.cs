using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <summary>A quantity as the filter believes it: mean and standard deviation of a normal distribution.</summary>
/// <param name="Mean">Mean, in the unit of the asking method.</param>
/// <param name="Sd">Standard deviation, in the same unit.</param>
public readonly record struct Expectation(double Mean, double Sd)
{
    /// <summary>The 5, 50 and 95 % points of an amount, which is never negative; not for what a sensor is off by.</summary>
    public Interval Interval => Units.Interval.FromNormal(Mean, Sd).AtLeast(0);
}

/// <summary>What was really poured, by the mean.</summary>
/// <param name="Litres">Litres.</param>
/// <param name="SaltGrams">Grams of salt that went with it.</param>
/// <param name="CutShort">Whether the vessel held less than was asked.</param>
public readonly record struct PouredWater(double Litres, double SaltGrams, bool CutShort);

/// <summary>What a reading said against what was expected, and what it moved.</summary>
/// <param name="Expected">What the ledger expected.</param>
/// <param name="ExpectedSd">How sure it was: standard deviation.</param>
/// <param name="Seen">What the reading said.</param>
/// <param name="SeenSd">The reading's own standard deviation.</param>
/// <param name="SaltMovedGrams">Salt that the reading added to this vessel, grams; negative if it took some.</param>
/// <param name="SaltMovedInAllGrams">Salt that it added to all vessels of the filter, grams.</param>
/// <param name="WaterMovedKg">Water that it added to this vessel, kg.</param>
public readonly record struct Innovation(
    double Expected,
    double ExpectedSd,
    double Seen,
    double SeenSd,
    double SaltMovedGrams,
    double SaltMovedInAllGrams,
    double WaterMovedKg
)
{
    /// <summary>The surprise in standard deviations of ledger and reading together.</summary>
    public double Surprise => (Seen - Expected) / Math.Sqrt((ExpectedSd * ExpectedSd) + (SeenSd * SeenSd));
}
