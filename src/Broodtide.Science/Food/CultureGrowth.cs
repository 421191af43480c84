using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// What a culture's own counts say of its growth: a grid over the rate and the capacity of the logistic law, and for each
/// pair of them the logarithm of the density as a normal belief that is carried along (extended Kalman filter: Jazwinski
/// 1970, Stochastic Processes and Filtering Theory, chapter 8). Growth wanders around the law. A logistic has neither lag
/// nor crash: a count that falls far below is told by <see cref="CultureGrowthBelief.Counts"/>, not explained.
/// </summary>
public static class CultureGrowth
{
    /// <summary>
    /// How far growth wanders around the law, standard deviation of ln density over a day: light and warmth change.
    /// Practice, no source.
    /// </summary>
    public const double WanderPerRootDay = 0.08;

    // What is left out of the belief has less weight than this.
    private const double Negligible = 1e-7;

    private const int Rates = 41;
    private const int Capacities = 11;

    // Points of the grid stand so far either side, in standard deviations.
    private const double Reach = 3.5;

    /// <summary>The belief after all that happened.</summary>
    /// <param name="prior">What was believed before.</param>
    /// <param name="happenings">Counts and thinnings in the order of their days, from 0.</param>
    /// <param name="day">Days since the start to which it is carried, not before the last of them.</param>
    /// <param name="trackEveryDays">Also keep the density along the way at least so often, above zero; none to keep nothing.</param>
    /// <exception cref="ArgumentException">Days do not ascend.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its limits.</exception>
    public static CultureGrowthBelief After(
        CulturePrior prior,
        IReadOnlyList<CultureHappening> happenings,
        double day,
        double? trackEveryDays = null
    )
    {
        Check(happenings, Finite.NotNegative(day));
        var nodes = Start(prior);
        var counts = new List<CultureCountFit>();
        var track = new CultureTracking(trackEveryDays);
        var at = 0.0;
        track.See(at, nodes);
        foreach (var happening in happenings)
        {
            track.Carry(nodes, at, happening.Day);
            at = happening.Day;
            if (happening is CultureThinned thinned)
            {
                Thin(nodes, thinned);
            }
            else if (happening is CultureCounted counted)
            {
                counts.Add(Take(nodes, counted));
            }

            track.See(at, nodes);
        }

        track.Carry(nodes, at, day);
        return new(day, [.. nodes.Where(node => node.Weight >= Negligible)], counts, track.Points);
    }

    internal static void Carry(CultureNode[] nodes, double days)
    {
        if (days <= 0)
        {
            return;
        }

        foreach (ref var node in nodes.AsSpan())
        {
            var before = Math.Exp(node.LogDensity);
            var fallen = Math.Exp(-node.Rate * days);
            var below = before + ((node.Capacity - before) * fallen);
            var slope = node.Capacity * fallen / below;
            node.LogDensity += Math.Log(node.Capacity / below);
            node.LogVariance =
                (slope * slope * node.LogVariance) + (WanderPerRootDay * WanderPerRootDay * days);
        }
    }

    private static CultureNode[] Start(CulturePrior prior)
    {
        var nodes = new CultureNode[Rates * Capacities];
        var (start, startSd) = Log(prior.Start);
        var (rate, rateSd) = Log(prior.Rate);
        var (capacity, capacitySd) = Log(prior.Capacity);
        var sum = 0.0;
        for (var i = 0; i < nodes.Length; i++)
        {
            var r = Point(i / Capacities, Rates);
            var k = Point(i % Capacities, Capacities);
            nodes[i] = new()
            {
                Rate = Math.Exp(rate + (rateSd * r)),
                Capacity = Math.Exp(capacity + (capacitySd * k)),
                Weight = Math.Exp(-((r * r) + (k * k)) / 2),
                LogDensity = start,
                LogVariance = startSd * startSd,
            };
            sum += nodes[i].Weight;
        }

        foreach (ref var node in nodes.AsSpan())
        {
            node.Weight /= sum;
        }

        return nodes;
    }

    private static double Point(int index, int count) => Reach * ((2.0 * index / (count - 1)) - 1);

    private static (double Mean, double Sd) Log(Interval points) =>
        (Math.Log(points.Middle), Math.Log(points.High / points.Low) / (2 * Interval.StandardNormal95));

    private static void Thin(CultureNode[] nodes, CultureThinned thinned)
    {
        var moved = Math.Log(thinned.Kept);
        foreach (ref var node in nodes.AsSpan())
        {
            node.LogDensity += moved;
            node.LogVariance += thinned.LogSd * thinned.LogSd;
        }
    }

    private static CultureCountFit Take(CultureNode[] nodes, CultureCounted counted)
    {
        var (mean, variance) = CultureNode.Moments(nodes);
        var noise = counted.LogSd * counted.LogSd;
        var fit = new CultureCountFit(
            counted.Day,
            Math.Exp(counted.LogDensity),
            counted.LogSd,
            Math.Exp(mean),
            (counted.LogDensity - mean) / Math.Sqrt(variance + noise)
        );
        var best = double.NegativeInfinity;
        var logs = new double[nodes.Length];
        for (var i = 0; i < nodes.Length; i++)
        {
            ref var node = ref nodes[i];
            var spread = node.LogVariance + noise;
            var off = counted.LogDensity - node.LogDensity;
            logs[i] = Math.Log(node.Weight) - ((Math.Log(spread) + (off * off / spread)) / 2);
            best = Math.Max(best, logs[i]);
            node.LogDensity += node.LogVariance / spread * off;
            node.LogVariance *= noise / spread;
        }

        var sum = 0.0;
        for (var i = 0; i < nodes.Length; i++)
        {
            // Nothing is ruled out for good: the next count may speak for it.
            nodes[i].Weight = Math.Max(Math.Exp(logs[i] - best), 1e-12);
            sum += nodes[i].Weight;
        }

        foreach (ref var node in nodes.AsSpan())
        {
            node.Weight /= sum;
        }

        return fit;
    }

    private static void Check(IReadOnlyList<CultureHappening> happenings, double day)
    {
        var before = 0.0;
        foreach (var happening in happenings)
        {
            if (Finite.NotNegative(happening.Day) < before || happening.Day > day)
            {
                throw new ArgumentException("Days must ascend up to the last.", nameof(happenings));
            }

            before = happening.Day;
            switch (happening)
            {
                case CultureThinned thinned:
                    Finite.Within(thinned.Kept, 1e-9, 1);
                    Finite.Within(thinned.LogSd, 0, 10);
                    break;
                case CultureCounted counted:
                    Finite.Within(counted.LogDensity, -60, 60);
                    Finite.Within(counted.LogSd, 1e-6, 10);
                    break;
                default:
                    throw new ArgumentException("Neither a count nor a thinning.", nameof(happenings));
            }
        }
    }
}

/// <summary>One pair of rate and capacity, its weight, and the density under it.</summary>
internal record struct CultureNode
{
    public double Rate;
    public double Capacity;
    public double Weight;
    public double LogDensity;
    public double LogVariance;

    public static (double Mean, double Variance) Moments(ReadOnlySpan<CultureNode> nodes)
    {
        var mean = 0.0;
        foreach (ref readonly var node in nodes)
        {
            mean += node.Weight * node.LogDensity;
        }

        var variance = 0.0;
        foreach (ref readonly var node in nodes)
        {
            var off = node.LogDensity - mean;
            variance += node.Weight * (node.LogVariance + (off * off));
        }

        return (mean, variance);
    }
}
