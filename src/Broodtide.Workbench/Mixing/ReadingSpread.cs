using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>A practical salinity with the verdict on its range; below zero is below fresh water.</summary>
internal readonly record struct Raw(double Practical, bool IsPublished);

/// <summary>Turns a formula from reading and temperature into an interval of salinity.</summary>
internal static class ReadingSpread
{
    /// <summary>Standard deviation of a thermometer of the trade, degC. Practice, no source.</summary>
    public const double ThermometerSd = 0.5;

    private const double SmallStep = 1e-3;

    /// <summary>
    /// The meaning of a reading. Its published range is taken with the doubt of the reading: a middle beyond the
    /// edge is told as long as the 5 % (or 95 %) point of the reading lies inside.
    /// </summary>
    /// <param name="formula">
    /// Practical salinity from the number shown and the temperature, null where no water shows it.
    /// </param>
    /// <param name="shown">The number shown and its standard deviation, calibration included.</param>
    /// <param name="temperature">Temperature of the sample, degC, and its standard deviation.</param>
    /// <param name="otherSd">Doubt that comes from elsewhere, practical salinity.</param>
    /// <param name="corrections">The corrections in the formula.</param>
    /// <param name="doubts">What widened the interval.</param>
    public static ReadingMeaning Meaning(
        Func<double, double, Raw?> formula,
        (double Shown, double Sd) shown,
        (double Celsius, double Sd) temperature,
        double otherSd,
        IEnumerable<ReadingCorrection> corrections,
        IEnumerable<ReadingDoubt> doubts
    )
    {
        if (formula(shown.Shown, temperature.Celsius) is not { } middle)
        {
            return ReadingMeaning.No(ReadingObstacle.NotPossible);
        }

        var slope = Slope(formula, shown.Shown, temperature.Celsius, middle, ofTemperature: false);
        var warmth = Slope(formula, shown.Shown, temperature.Celsius, middle, ofTemperature: true);
        var sd = Root.OfSquares(slope * shown.Sd, warmth * temperature.Sd, otherSd);
        var reach = Interval.StandardNormal95 * shown.Sd * (slope < 0 ? -1 : 1);
        if (middle.Practical < 0)
        {
            if (middle.Practical + (Interval.StandardNormal95 * sd) < 0)
            {
                return ReadingMeaning.No(ReadingObstacle.BelowFreshWater);
            }
        }
        else if (!middle.IsPublished && !IsPublishedNearby(formula, shown.Shown, temperature.Celsius, reach))
        {
            return ReadingMeaning.No(ReadingObstacle.OutsidePublishedRange);
        }

        return new ReadingMeaning.Known(
            Interval.FromNormal(middle.Practical, sd).AtLeast(0),
            sd,
            [.. corrections.Where(c => Math.Abs(c.Amount) > 1e-9)],
            [.. doubts]
        );
    }

    private static bool IsPublishedNearby(
        Func<double, double, Raw?> formula,
        double shown,
        double celsius,
        double reach
    ) =>
        formula(shown - reach, celsius) is { IsPublished: true, Practical: >= 0 }
        || formula(shown + reach, celsius) is { IsPublished: true, Practical: >= 0 };

    private static double Slope(
        Func<double, double, Raw?> formula,
        double shown,
        double celsius,
        Raw middle,
        bool ofTemperature
    )
    {
        var step = ofTemperature ? SmallStep : SmallStep * Math.Max(0.01, Math.Abs(shown) / 100);
        foreach (var signed in (ReadOnlySpan<double>)[step, -step])
        {
            var moved = ofTemperature ? formula(shown, celsius + signed) : formula(shown + signed, celsius);
            if (moved is { } there)
            {
                return (there.Practical - middle.Practical) / signed;
            }
        }

        return 0;
    }
}
