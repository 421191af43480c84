using Broodtide.Science.Development;
using Broodtide.Units;

namespace Broodtide.Scoring;

/// <summary>
/// The dumb reference: the middle of the spawning interval plus 637.5 degree-days at the mean of the readings (base
/// 0 degC; Cao et al. 2020), plus and minus 1.645 standard deviations. The deviation joins 12 % of the 25 days with
/// the width of the interval; where the age is unknown every age is as likely. It looks at no eggs.
/// </summary>
public static class PlainForecast
{
    private const double DegreeDays = 637.5;
    private const double ReferenceCelsius = 25.5;
    private const double RelativeSd = 0.12;

    public static (double Low, double High) From(BroodEvidence evidence)
    {
        var celsius =
            evidence.Temperatures.Count > 0
                ? evidence.Temperatures.Average(reading => reading.Temperature.Celsius)
                : ReferenceCelsius;
        var duration = DegreeDays / Math.Max(celsius, 10);
        var berried = evidence.Facts.Where(f => f is not BroodFact.SeenEmpty).Min(f => f.Day);
        var empty = evidence
            .Facts.Where(f => f is BroodFact.SeenEmpty && f.Day <= berried)
            .Select(f => (double?)f.Day)
            .Max();
        var width = berried - (empty ?? (berried - duration));
        var mean = berried - (width / 2) + duration;
        var sd = Math.Sqrt(Math.Pow(RelativeSd * duration, 2) + (width * width / 12));
        var window = Interval.FromNormal(mean, sd);
        return (window.Low, window.High);
    }
}
