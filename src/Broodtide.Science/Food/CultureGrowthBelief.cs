using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>How a count stands to what was believed before it.</summary>
/// <param name="Day">Days since the start.</param>
/// <param name="Density">As counted, in the unit of the prior.</param>
/// <param name="LogSd">Its standard deviation on the natural logarithm.</param>
/// <param name="Expected">Density that was as likely exceeded as not.</param>
/// <param name="Off">How far off on the logarithmic scale, in standard deviations: below zero is thinner than expected.</param>
public sealed record CultureCountFit(double Day, double Density, double LogSd, double Expected, double Off);

/// <summary>One possible culture.</summary>
/// <param name="RatePerDay">Growth while thin, 1/d.</param>
/// <param name="Capacity">Density that is approached, in the unit of the prior.</param>
/// <param name="Density">Density, in the unit of the prior.</param>
public readonly record struct CulturePoint(double RatePerDay, double Capacity, double Density);

/// <summary>What is believed of a culture's growth on a day.</summary>
public sealed class CultureGrowthBelief
{
    // Points of the standard normal distribution.
    private static readonly (double Point, double Weight)[] Spread =
    [
        .. GaussHermite.Rule(5).Select(rule => (Math.Sqrt(2) * rule.Point, rule.Weight / Math.Sqrt(Math.PI))),
    ];
    private readonly CultureNode[] _nodes;

    internal CultureGrowthBelief(
        double day,
        CultureNode[] nodes,
        IReadOnlyList<CultureCountFit> counts,
        IReadOnlyList<CultureTrackPoint> track
    )
    {
        Day = day;
        _nodes = nodes;
        Counts = counts;
        Track = track;
    }

    /// <summary>Days since the start.</summary>
    public double Day { get; }

    /// <summary>Every count with how it stood to what was believed before it, oldest first.</summary>
    public IReadOnlyList<CultureCountFit> Counts { get; }

    /// <summary>Density along the way as it was believed then, if it was asked for: two points where something happened.</summary>
    public IReadOnlyList<CultureTrackPoint> Track { get; }

    /// <summary>Growth while thin, 1/d.</summary>
    public Interval RatePerDay => Of(point => point.RatePerDay);

    /// <summary>Density that is approached, in the unit of the prior.</summary>
    public Interval Capacity => Of(point => point.Capacity);

    /// <summary>Density on this day, in the unit of the prior.</summary>
    public Interval Density
    {
        get
        {
            var (mean, variance) = CultureNode.Moments(_nodes);
            // The belief is near normal once a count is in; before, its moments are those of the start.
            var reach = Interval.StandardNormal95 * Math.Sqrt(variance);
            return Interval.FromPoints(Math.Exp(mean - reach), Math.Exp(mean), Math.Exp(mean + reach));
        }
    }

    /// <summary>The belief so many days on, if nothing is poured.</summary>
    /// <param name="days">0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public CultureGrowthBelief Ahead(double days)
    {
        var nodes = _nodes.ToArray();
        CultureGrowth.Carry(nodes, Finite.NotNegative(days));
        return new(Day + days, nodes, Counts, Track);
    }

    /// <summary>The belief after medium was poured in.</summary>
    /// <param name="kept">Volume before as a share of the volume after, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public CultureGrowthBelief Thinned(double kept)
    {
        var moved = Math.Log(Finite.Within(kept, 1e-9, 1));
        var nodes = _nodes.ToArray();
        foreach (ref var node in nodes.AsSpan())
        {
            node.LogDensity += moved;
        }

        return new(Day, nodes, Counts, Track);
    }

    /// <summary>Chance that the density is at least this, in the unit of the prior.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public Probability AtLeast(double density)
    {
        var wanted = Math.Log(Finite.Positive(density));
        var chance = 0.0;
        foreach (ref readonly var node in _nodes.AsSpan())
        {
            chance +=
                node.Weight
                * MathNet.Numerics.Distributions.Normal.CDF(
                    0,
                    1,
                    (node.LogDensity - wanted) / Math.Sqrt(Math.Max(node.LogVariance, 1e-12))
                );
        }

        return Probability.FromFraction(Math.Clamp(chance, 0, 1));
    }

    /// <summary>
    /// Days until the density is reached, as the points at which the chance of having reached it is 5, 50 and 95 %.
    /// </summary>
    /// <param name="density">Wanted, above zero, in the unit of the prior.</param>
    /// <param name="most">Days looked ahead, above zero.</param>
    /// <returns>Days from now; a point beyond the look-ahead is none.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public DaysAhead DaysToReach(double density, double most = 60)
    {
        Finite.Positive(density);
        Finite.Positive(most);
        Span<double?> found = [null, null, null];
        ReadOnlySpan<double> levels = [0.05, 0.5, 0.95];
        CultureNode[] nodes = [.. _nodes.Where(node => node.Weight >= Negligible)];
        var belief = new CultureGrowthBelief(Day, nodes, Counts, Track);
        var (next, before) = (0, 0.0);
        for (var days = 0.0; days <= most && next < levels.Length; days += Step)
        {
            var chance = belief.AtLeast(density).Value;
            while (next < levels.Length && chance >= levels[next])
            {
                // Between two looks the chance is taken to rise evenly.
                found[next] =
                    days == 0
                        ? 0
                        : days - (Step * (chance - levels[next]) / Math.Max(chance - before, 1e-12));
                next++;
            }

            before = chance;
            CultureGrowth.Carry(nodes, Step);
        }

        return new(found[0], found[1], found[2]);
    }

    /// <summary>
    /// Share that can be taken again and again so that the density comes back by the next time: the density of now, or half
    /// of the capacity where it is denser, since a culture yields most there (<see cref="AlgalGrowth.BestYieldPerMillilitreDay"/>).
    /// </summary>
    /// <param name="daysBetween">Days between harvests, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public Interval LastingShare(double daysBetween) =>
        Of(point =>
            AlgalGrowth
                .LastingShare(
                    CellDensity.FromPerMillilitre(Math.Min(point.Density, point.Capacity / 2)),
                    CellDensity.FromPerMillilitre(point.Capacity),
                    point.RatePerDay,
                    daysBetween
                )
                .Value
        );

    /// <summary>The interval of anything that follows from rate, capacity and density.</summary>
    /// <param name="what">A finite number of each possible culture.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public Interval Of(Func<CulturePoint, double> what)
    {
        ArgumentNullException.ThrowIfNull(what);
        var found = new List<(double Value, double Weight)>(_nodes.Length);
        var sum = 0.0;
        foreach (ref readonly var node in _nodes.AsSpan())
        {
            if (node.Weight < Negligible)
            {
                continue;
            }

            foreach (var (point, weight) in Spread)
            {
                var density = Math.Exp(node.LogDensity + (point * Math.Sqrt(node.LogVariance)));
                var value = Finite.Required(what(new(node.Rate, node.Capacity, density)));
                found.Add((value, node.Weight * weight));
                sum += node.Weight * weight;
            }
        }

        found.Sort((left, right) => left.Value.CompareTo(right.Value));
        return Interval.FromPoints(
            Quantile(found, 0.05 * sum),
            Quantile(found, 0.5 * sum),
            Quantile(found, 0.95 * sum)
        );
    }

    private const double Step = 0.5;
    private const double Negligible = 1e-6;

    // Equal values are one step of the staircase; between the middles of two steps the value rises evenly.
    private static double Quantile(List<(double Value, double Weight)> ascending, double below)
    {
        var (sum, middleBefore, valueBefore) = (0.0, 0.0, ascending[0].Value);
        for (var i = 0; i < ascending.Count; )
        {
            var (value, weight) = (ascending[i].Value, 0.0);
            for (; i < ascending.Count && ascending[i].Value == value; i++)
            {
                weight += ascending[i].Weight;
            }

            var middle = sum + (weight / 2);
            if (middle >= below)
            {
                var share =
                    middle > middleBefore
                        ? Math.Clamp((below - middleBefore) / (middle - middleBefore), 0, 1)
                        : 1;
                return valueBefore + (share * (value - valueBefore));
            }

            (sum, middleBefore, valueBefore) = (sum + weight, middle, value);
        }

        return ascending[^1].Value;
    }
}

/// <summary>Days until something is likely, each none where it is further than was looked ahead.</summary>
/// <param name="Earliest">One chance in twenty that it is so far.</param>
/// <param name="Middle">As likely so far as not.</param>
/// <param name="Latest">Nineteen chances in twenty that it is so far.</param>
public readonly record struct DaysAhead(double? Earliest, double? Middle, double? Latest);
