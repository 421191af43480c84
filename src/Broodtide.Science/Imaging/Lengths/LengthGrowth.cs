using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>Larvae that were measured at one look.</summary>
/// <param name="AgeDays">Days since they crossed.</param>
/// <param name="Micrometres">Length of each, um.</param>
public sealed record LengthLook(double AgeDays, IReadOnlyList<double> Micrometres);

/// <summary>How fast larvae grew while they were measured.</summary>
/// <param name="MicrometresPerDay">Growth of the mean length, um a day: 5, 50 and 95 %.</param>
/// <param name="FromDays">The youngest age that was measured, days.</param>
/// <param name="ToDays">The oldest. Nothing is said beyond.</param>
/// <param name="Remarks">What else there is to know, as codes.</param>
public sealed record GrowthFound(
    Interval MicrometresPerDay,
    double FromDays,
    double ToDays,
    IReadOnlyList<Remark> Remarks
);

/// <summary>Mean growth from looks at different ages.</summary>
public static class LengthGrowth
{
    /// <summary>The fewest looks at different ages: with two a straight line always fits, and nobody can say how well.</summary>
    public const int FewestLooks = 3;

    // Looks nearer together are of one age.
    private const double ApartDays = 0.5;

    /// <summary>
    /// A straight line through the mean lengths of the looks; each look weighs the same, because larvae of one look share
    /// its light, its scale and who came to be caught. The interval is Student's of the slope.
    /// </summary>
    /// <param name="looks">The looks; those without a larva are passed over.</param>
    /// <returns>The growth; or none, with the code growth-needs-looks (looks, least).</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or a length not above zero.</exception>
    public static Parsed<GrowthFound> Of(IReadOnlyList<LengthLook> looks)
    {
        var points = looks
            .Where(look => look.Micrometres.Count > 0)
            .Select(look => new LinePoint(
                Finite.Required(look.AgeDays, nameof(looks)),
                look.Micrometres.Average(length => Finite.Positive(length, nameof(looks)))
            ))
            .OrderBy(point => point.X)
            .ToList();
        var ages = 0;
        var last = double.NegativeInfinity;
        foreach (var point in points)
        {
            if (point.X - last >= ApartDays)
            {
                (ages, last) = (ages + 1, point.X);
            }
        }

        if (ages < FewestLooks)
        {
            return Parsed<GrowthFound>.No(
                "growth-needs-looks",
                new Argument("looks", ages),
                new Argument("least", FewestLooks)
            );
        }

        var line = LineFit.Of(points);
        var reach = StudentT.InvCDF(0, 1, line.DegreesOfFreedom, 0.95) * line.SlopeError;
        var growth = Interval.FromPoints(line.Slope - reach, line.Slope, line.Slope + reach);
        var remarks = new List<Remark> { new("growth-of-those-that-lived") };
        if (growth.Contains(0))
        {
            remarks.Insert(0, new("growth-not-told-from-none"));
        }

        return Parsed<GrowthFound>.Of(new(growth, points[0].X, points[^1].X, remarks));
    }

    /// <summary>The mean length behind those measured at one look, um: Student's interval; none below two larvae.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A length is not finite and above zero.</exception>
    public static Interval? Mean(IReadOnlyList<double> micrometres)
    {
        var (n, mean) = (
            micrometres.Count,
            micrometres.Select(it => Finite.Positive(it)).DefaultIfEmpty(0).Average()
        );
        if (n < 2)
        {
            return null;
        }

        var deviation = Math.Sqrt(micrometres.Sum(length => Math.Pow(length - mean, 2)) / (n - 1));
        var reach = StudentT.InvCDF(0, 1, n - 1, 0.95) * deviation / Math.Sqrt(n);
        return Interval.FromPoints(Math.Max(0, mean - reach), mean, mean + reach);
    }
}
