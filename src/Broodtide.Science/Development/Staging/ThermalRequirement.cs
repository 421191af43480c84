using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Staging;

/// <summary>Some days at one temperature.</summary>
/// <param name="Temperature">The temperature.</param>
/// <param name="Days">How many days, not negative.</param>
public readonly record struct TemperatureStretch(Temperature Temperature, double Days);

/// <summary>
/// Degree-days that single larvae need: lognormal around a median, summed above a base temperature. The median
/// larva is done when the sum reaches the median.
/// </summary>
public sealed record ThermalRequirement
{
    /// <summary>By its parameters.</summary>
    /// <param name="medianDegreeDays">Median, degree-days above the base, above zero.</param>
    /// <param name="variation">Coefficient of variation between larvae, above 0, at most 2.</param>
    /// <param name="threshold">Temperature below which nothing develops.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public ThermalRequirement(double medianDegreeDays, double variation, Temperature threshold)
    {
        MedianDegreeDays = Finite.Positive(medianDegreeDays);
        Variation = Finite.Within(variation, 1e-6, 2);
        Threshold = threshold;
    }

    /// <summary>Median, degree-days.</summary>
    public double MedianDegreeDays { get; }

    /// <summary>Coefficient of variation between larvae.</summary>
    public double Variation { get; }

    /// <summary>Temperature below which nothing develops.</summary>
    public Temperature Threshold { get; }

    /// <summary>Degree-days by which a share of the larvae is done.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share of 0 or 1.</exception>
    public double DegreeDaysWhen(Probability share) =>
        MedianDegreeDays
        * Math.Exp(
            Math.Sqrt(Math.Log(1 + (Variation * Variation)))
                * Normal.InvCDF(0, 1, Finite.Within(share.Value, double.Epsilon, Math.BitDecrement(1)))
        );

    /// <summary>Day by which a share is done along a course of temperature; even inside a stretch.</summary>
    /// <param name="course">Stretches that follow each other from day zero.</param>
    /// <param name="repeats">Whether the course begins again after its end.</param>
    /// <param name="share">Above 0 and below 1.</param>
    /// <returns>The day, or none where the course never brings that many degree-days.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A share of 0 or 1, or days not finite or negative.</exception>
    public double? DayWhen(IReadOnlyList<TemperatureStretch> course, bool repeats, Probability share)
    {
        var wanted = DegreeDaysWhen(share);
        var round = course.Sum(Gain);
        var days = course.Sum(stretch => stretch.Days);
        if (round <= 0 || (!repeats && wanted > round))
        {
            return null;
        }

        var rounds = Math.Floor(wanted / round);
        var (sum, day) = (rounds * round, rounds * days);
        if (!repeats && rounds > 0)
        {
            // Reached exactly at the end of the course.
            (sum, day) = (0, 0);
        }

        foreach (var stretch in course)
        {
            var gain = Gain(stretch);
            if (gain > 0 && sum + gain >= wanted)
            {
                return day + (stretch.Days * (wanted - sum) / gain);
            }

            sum += gain;
            day += stretch.Days;
        }

        return day;
    }

    private double Gain(TemperatureStretch stretch) =>
        Finite.NotNegative(stretch.Days) * Math.Max(0, stretch.Temperature.Celsius - Threshold.Celsius);
}
