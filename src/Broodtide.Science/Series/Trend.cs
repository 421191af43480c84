using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Series;

/// <summary>
/// A lasting rise or fall that single odd readings do not bend: the median of the slopes of all pairs (Theil 1950; Sen
/// 1968, J. Am. Stat. Assoc. 63:1379) and whether there is one at all (Mann 1945, Econometrica 13:245; Kendall 1975).
/// Readings must be independent: of a logger take daily medians, and part the series where the water was changed.
/// </summary>
public sealed record Trend
{
    // Pairs grow with the square; two thousand readings make two million.
    private const int MostReadings = 2000;

    private readonly double[] _slopes;

    private Trend(double[] slopes, int score, double variance)
    {
        _slopes = slopes;
        Score = score;
        ScoreVariance = variance;
        Slope = Middle(slopes);
    }

    /// <summary>Rise of y for one of x.</summary>
    public double Slope { get; }

    /// <summary>Pairs that rise less pairs that fall.</summary>
    public int Score { get; }

    /// <summary>Variance of <see cref="Score"/> where there is no trend, less for equal readings.</summary>
    public double ScoreVariance { get; }

    /// <summary>The score in standard deviations, moved by one towards zero; 0 where all readings are equal.</summary>
    public double Z => ScoreVariance > 0 ? (Score - Math.Sign(Score)) / Math.Sqrt(ScoreVariance) : 0;

    /// <summary>How often a series without a trend gives a score as far from zero, either way.</summary>
    public Probability ChanceOfNone =>
        Probability.FromFraction(Math.Min(1, 2 * Normal.CDF(0, 1, -Math.Abs(Z))));

    /// <summary>The trend of readings.</summary>
    /// <param name="x">Times, or whatever the readings go along with, in any order and any unit.</param>
    /// <param name="y">The readings, as many; 3 to 2000.</param>
    /// <exception cref="ArgumentException">Other numbers of them, or all x are equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Trend Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        if (x.Length != y.Length || x.Length is < 3 or > MostReadings)
        {
            throw new ArgumentException($"3 to {MostReadings} readings with as many times.", nameof(y));
        }

        var slopes = new List<double>(x.Length * (x.Length - 1) / 2);
        var score = 0;
        for (var i = 0; i < x.Length; i++)
        {
            Finite.Required(x[i], nameof(x));
            Finite.Required(y[i], nameof(y));
            for (var j = 0; j < i; j++)
            {
                if (!x[i].Equals(x[j]))
                {
                    slopes.Add((y[i] - y[j]) / (x[i] - x[j]));
                    score += Math.Sign(y[i] - y[j]) * Math.Sign(x[i] - x[j]);
                }
            }
        }

        if (slopes.Count == 0)
        {
            throw new ArgumentException("All readings are of one time: no slope follows.", nameof(x));
        }

        slopes.Sort();
        return new([.. slopes], score, VarianceOf(y));
    }

    /// <summary>Where the slope lies, by the ranks of the slopes (Sen 1968), each rank rounded to the nearest.</summary>
    /// <param name="level">Probability that the interval shall hold the slope, above 0 and below 1.</param>
    /// <returns>The lower and the upper limit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 and below 1.</exception>
    public (double Lower, double Upper) Limits(double level)
    {
        Finite.Within(level, double.Epsilon, 1 - 1e-12);
        var reach = Normal.InvCDF(0, 1, (1 + level) / 2) * Math.Sqrt(ScoreVariance);
        return (At((_slopes.Length - reach) / 2), At(((_slopes.Length + reach) / 2) + 1));
    }

    // Ranks count from one; a reach beyond all slopes stops at the last.
    private double At(double rank) =>
        _slopes[Math.Clamp((int)Math.Round(rank, MidpointRounding.ToEven), 1, _slopes.Length) - 1];

    private static double Middle(double[] sorted) =>
        sorted.Length % 2 == 1
            ? sorted[sorted.Length / 2]
            : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;

    private static double VarianceOf(ReadOnlySpan<double> y)
    {
        double Term(double count) => count * (count - 1) * ((2 * count) + 5);
        var ties = y.ToArray().GroupBy(value => value).Sum(group => Term(group.Count()));
        return (Term(y.Length) - ties) / 18;
    }
}
