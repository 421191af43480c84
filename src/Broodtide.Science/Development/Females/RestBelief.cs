using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Females;

/// <summary>A time without eggs that was seen, from hatching to the next laying: it lies between two numbers of days.</summary>
/// <param name="LeastDays">At least, 0 or more.</param>
/// <param name="MostDays">At most; not below the least.</param>
public readonly record struct SeenRest(double LeastDays, double MostDays);

/// <summary>
/// How long a female goes without eggs, from hatching to the next laying. Log-normal with an unknown middle and an unknown
/// spread, both learned on a grid from rests that were seen; each of those is known only to lie between two looks, so its
/// likelihood is the probability of that interval (Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., section 8.7).
/// </summary>
public sealed class RestBelief
{
    private const int Middles = 33;
    private const int Spreads = 9;
    private const double ReachSd = 4;

    // The spread between rests may be so much smaller or larger than supposed.
    private const double LeastSpreadShare = 0.4;
    private const double MostSpreadShare = 1.6;

    // Looks closer together than this say no more than this, days.
    private const double LeastWidthDays = 0.25;
    private const double MostDays = 3650;

    // The distribution is kept at points evenly spaced in the logarithm of days, straight between them.
    private const int Points = 96;
    private const double FirstDays = 0.01;
    private static readonly double LogFirst = Math.Log(FirstDays);
    private static readonly double LogStep = (Math.Log(MostDays) - LogFirst) / (Points - 1);

    private readonly double[] _weights = new double[Middles * Spreads];
    private readonly double[] _middles = new double[Middles];
    private readonly double[] _spreads = new double[Spreads];
    private readonly double[] _below = new double[Points];

    private RestBelief(Interval supposed)
    {
        var logSd = Math.Log(supposed.High / supposed.Low) / (2 * Interval.StandardNormal95);
        // Half of the doubt about the next rest is about the middle, half is how rests differ (in variance).
        var part = logSd / Math.Sqrt(2);
        for (var i = 0; i < Middles; i++)
        {
            var away = -ReachSd + (2 * ReachSd * i / (Middles - 1));
            _middles[i] = Math.Log(supposed.Middle) + (away * part);
            for (var j = 0; j < Spreads; j++)
            {
                _spreads[j] =
                    part
                    * LeastSpreadShare
                    * Math.Pow(MostSpreadShare / LeastSpreadShare, j / (double)(Spreads - 1));
                _weights[(i * Spreads) + j] = Math.Exp(-0.5 * away * away);
            }
        }
    }

    /// <summary>How many rests it was learned from.</summary>
    public int LearnedFrom { get; private set; }

    /// <summary>The belief.</summary>
    /// <param name="supposed">5, 50 and 95 % points of the next rest, days, before any was seen; all above 0.</param>
    /// <param name="seen">Rests that were seen; one that cannot be (ending below zero) is passed over.</param>
    /// <exception cref="ArgumentOutOfRangeException">A point is not above zero, or all three are one.</exception>
    public static RestBelief From(Interval supposed, IReadOnlyList<SeenRest> seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        Finite.Positive(supposed.Low, nameof(supposed));
        Finite.Positive(supposed.Width, nameof(supposed));
        var belief = new RestBelief(supposed);
        foreach (var rest in seen)
        {
            belief.Learn(rest);
        }

        belief.Tabulate();
        return belief;
    }

    /// <summary>Chance that she lays within so many days of hatching.</summary>
    /// <param name="days">Days, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public Probability By(double days) => Probability.FromFraction(Cumulative(Finite.NotNegative(days)));

    /// <summary>5, 50 and 95 % points of the days from hatching to the next laying.</summary>
    /// <param name="barrenUntilDays">She was seen without eggs so many days after, 0 or more; 0 if she never was.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public Interval Next(double barrenUntilDays = 0)
    {
        var passed = Cumulative(Finite.NotNegative(barrenUntilDays));
        return Interval.FromPoints(
            Point(passed + (0.05 * (1 - passed)), barrenUntilDays),
            Point(passed + (0.5 * (1 - passed)), barrenUntilDays),
            Point(passed + (0.95 * (1 - passed)), barrenUntilDays)
        );
    }

    private void Learn(SeenRest rest)
    {
        var low = Math.Max(0, Finite.Required(rest.LeastDays));
        var high = Math.Min(MostDays, Finite.Required(rest.MostDays));
        if (high <= 0 || low >= MostDays || high < low)
        {
            return;
        }

        high = Math.Max(high, low + LeastWidthDays);
        var sum = 0.0;
        var weights = new double[_weights.Length];
        for (var i = 0; i < Middles; i++)
        {
            for (var j = 0; j < Spreads; j++)
            {
                var cell = (i * Spreads) + j;
                weights[cell] = _weights[cell] * (At(high, i, j) - At(low, i, j));
                sum += weights[cell];
            }
        }

        // A rest that the whole grid holds for impossible teaches nothing.
        if (sum > 1e-300)
        {
            weights.CopyTo(_weights, 0);
            LearnedFrom++;
        }
    }

    private void Tabulate()
    {
        var all = _weights.Sum();
        for (var point = 0; point < Points; point++)
        {
            var days = Math.Exp(LogFirst + (point * LogStep));
            var below = 0.0;
            for (var i = 0; i < Middles; i++)
            {
                for (var j = 0; j < Spreads; j++)
                {
                    below += _weights[(i * Spreads) + j] * At(days, i, j);
                }
            }

            _below[point] = Math.Clamp(below / all, 0, 1);
        }
    }

    private double Cumulative(double days)
    {
        if (days <= FirstDays)
        {
            return _below[0] * Math.Max(0, days) / FirstDays;
        }

        var place = (Math.Log(days) - LogFirst) / LogStep;
        var point = (int)Math.Min(place, Points - 1);
        return point >= Points - 1
            ? _below[^1]
            : _below[point] + ((place - point) * (_below[point + 1] - _below[point]));
    }

    private double At(double days, int middle, int spread) =>
        days <= 0 ? 0 : Normal.CDF(_middles[middle], _spreads[spread], Math.Log(days));

    // Halves the days until two of them cannot be told apart.
    private double Point(double wanted, double least)
    {
        var (low, high) = (least, MostDays);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Cumulative(middle) < wanted ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
