using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Staging;

/// <summary>How long larvae need until metamorphosis: a gamma distribution, in days.</summary>
public sealed record LarvalPeriod
{
    private readonly double _shape;
    private readonly double _scaleDays;

    /// <summary>By mean and coefficient of variation.</summary>
    /// <param name="meanDays">Mean, days, above zero.</param>
    /// <param name="variation">Coefficient of variation, above zero, at most 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public LarvalPeriod(double meanDays, double variation)
    {
        MeanDays = Finite.Positive(meanDays);
        Variation = Finite.Within(variation, 1e-4, 2);
        _shape = 1 / (variation * variation);
        _scaleDays = meanDays / _shape;
    }

    /// <summary>Mean, days.</summary>
    public double MeanDays { get; }

    /// <summary>Coefficient of variation.</summary>
    public double Variation { get; }

    /// <summary>Share that has metamorphosed at an age, if none dies; 0 to 1.</summary>
    /// <param name="ageDays">Age, days; nothing has at an age below zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public double Done(double ageDays) =>
        Finite.Required(ageDays) <= 0 ? 0 : Gamma.CDF(_shape, 1 / _scaleDays, ageDays);

    /// <summary>Age by which a share has metamorphosed, days.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share of 0 or 1.</exception>
    public double AgeDaysWhen(Probability share) => MetamorphosisDays.When([new(0, 1)], this, share);

    /// <summary>Share of larvae that live to metamorphosis at a constant hazard: (1 + hazard scale)^-shape.</summary>
    /// <param name="hazardPerDay">Hazard, per day, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double ShareReaching(double hazardPerDay) =>
        Math.Pow(1 + (Finite.NotNegative(hazardPerDay) * _scaleDays), -_shape);

    /// <summary>
    /// The periods of those that lived to metamorphosis: shorter, since the slow died more. The shape stays, the
    /// scale is divided by 1 + hazard scale.
    /// </summary>
    /// <param name="hazardPerDay">Hazard, per day, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public LarvalPeriod AmongSurvivors(double hazardPerDay) =>
        new(MeanDays / (1 + (Finite.NotNegative(hazardPerDay) * _scaleDays)), Variation);
}
