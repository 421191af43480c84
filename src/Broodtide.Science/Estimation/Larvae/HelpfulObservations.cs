using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>An observation a keeper could make next.</summary>
public enum HelpfulKind
{
    /// <summary>Every larva counted.</summary>
    FullCount,

    /// <summary>Four aliquots, each counted by itself.</summary>
    FourAliquots,

    /// <summary>Ten larvae staged.</summary>
    TenStaged,

    /// <summary>Forty larvae of known number looked at in the usual way.</summary>
    DetectionCheck,
}

/// <summary>How much narrower one observation would leave the answer, on average over what it may show.</summary>
/// <param name="Kind">Which observation.</param>
/// <param name="AliveNarrowedShare">Share by which the 90 % interval of those alive narrows, 0 to 1.</param>
/// <param name="SettlementNarrowedShare">The same of the day by which half have settled.</param>
/// <param name="Worth">
/// What it is ranked by: the narrowing of those alive as a share of their median, and of the day in weeks.
/// </param>
public sealed record HelpfulObservation(
    HelpfulKind Kind,
    double AliveNarrowedShare,
    double SettlementNarrowedShare,
    double Worth
);

/// <summary>
/// Which single observation would narrow the answer most: for each, what it may show is drawn from what is believed
/// now, the belief is weighed anew, and the widths that are left are averaged (preposterior analysis, Raiffa and
/// Schlaifer 1961).
/// </summary>
public static class HelpfulObservations
{
    private const int NodesPerDraw = 3;
    private const int Outcomes = 24;
    private const int Known = 40;
    private const int StagedLarvae = 10;
    private const double UsualShare = 0.04;

    // More than this are not counted one by one in a kitchen: common practice, no source.
    private const double MostCounted = 600;
    private const double DaysInWeek = 7;

    // Steps of the golden ratio fill 0 to 1 evenly, in any number.
    private const double Golden = 0.6180339887498949;

    /// <summary>The observations that make sense, the most worth first.</summary>
    /// <param name="run">The run.</param>
    /// <param name="estimate">Its estimate.</param>
    public static ImmutableArray<HelpfulObservation> Of(LarvalRun run, LarvalEstimate estimate) =>
        Ranked(Each(run, estimate));

    /// <summary>Puts them in order, the most worth first.</summary>
    public static ImmutableArray<HelpfulObservation> Ranked(IEnumerable<HelpfulObservation> observations) =>
        [.. observations.OrderByDescending(help => help.Worth).ThenBy(help => help.Kind)];

    /// <summary>The same one by one, each worked out when asked for, in no order of worth.</summary>
    /// <param name="run">The run.</param>
    /// <param name="estimate">Its estimate.</param>
    public static IEnumerable<HelpfulObservation> Each(LarvalRun run, LarvalEstimate estimate)
    {
        var belief = new Belief(estimate.Draws);
        if (belief.Alive.High < 1)
        {
            yield break;
        }

        var share = ShareOf(run);
        yield return belief.After(
            HelpfulKind.FourAliquots,
            (node, u) => Scattered(share * node.Number, 4 * node.Draw.Point.Clumping, u),
            (node, seen) => LogScattered(seen, share * node.Number, 4 * node.Draw.Point.Clumping)
        );
        yield return Staged(run, belief);
        if (belief.Alive.High <= MostCounted)
        {
            yield return belief.After(
                HelpfulKind.FullCount,
                (node, u) => Math.Max(0, node.Number + (FullSd(node.Number) * Normal(u))),
                (node, seen) => LogNormal(seen, node.Number, FullSd(node.Number))
            );
        }

        if (MostUsed(run) is { } look)
        {
            yield return belief.After(
                HelpfulKind.DetectionCheck,
                (node, u) => Binomial(node.Draw.Point.Detection[look], u),
                (node, seen) => LogBinomial(seen, node.Draw.Point.Detection[look])
            );
        }
    }

    private static HelpfulObservation Staged(LarvalRun run, Belief belief)
    {
        var samples = new Dictionary<int, int[]>();
        return belief.After(
            HelpfulKind.TenStaged,
            (node, u) =>
            {
                samples[samples.Count] = Sample(node.Draw.Shares, u);
                return samples.Count - 1;
            },
            (node, sample) =>
                DirichletMultinomial.Log(
                    samples[(int)sample],
                    node.Draw.Shares,
                    run.Priors.StagingMistakes,
                    run.Priors.StagePrecision
                )
        );
    }

    // Ten larvae at even steps through the stages, beginning anywhere.
    private static int[] Sample(double[] shares, double u)
    {
        var tallies = new int[shares.Length];
        for (var i = 0; i < StagedLarvae; i++)
        {
            var level = ((i * Golden) + u) % 1;
            var stage = 0;
            var sum = shares[0];
            while (sum < level && stage < shares.Length - 1)
            {
                sum += shares[++stage];
            }

            tallies[stage]++;
        }

        return tallies;
    }

    // The share of water this keeper takes in four aliquots, where it is known.
    private static double ShareOf(LarvalRun run)
    {
        var shares = run
            .Events.OfType<Counted>()
            .Select(counted =>
                counted.Evidence switch
                {
                    AliquotEvidence several => 4 * several.Samples.Average(sample => sample.Share),
                    AliquotSumEvidence sum => 4 * sum.Share / Math.Max(1, sum.Aliquots),
                    _ => 0,
                }
            )
            .Where(share => share > 0)
            .ToList();
        return Math.Min(0.8, shares.Count > 0 ? shares[^1] : UsualShare);
    }

    private static int? MostUsed(LarvalRun run) =>
        run
            .Events.OfType<Counted>()
            .Select(counted => counted.Evidence)
            .OfType<LookEvidence>()
            .GroupBy(look => look.Class)
            .OrderByDescending(looks => looks.Count())
            .ThenBy(looks => looks.Key)
            .Select(looks => (int?)looks.Key)
            .FirstOrDefault();

    private static double FullSd(double number) =>
        Math.Sqrt(0.25 + Math.Pow((0.03 + (0.0001 * number)) * number, 2));

    private static double Normal(double u) =>
        -MathNet.Numerics.Constants.Sqrt2 * MathNet.Numerics.SpecialFunctions.ErfcInv(2 * u);

    // A negative binomial number by a gamma law of its mean and variance.
    private static double Scattered(double mean, double size, double u)
    {
        mean = Math.Max(mean, 1e-3);
        var variance = mean + (mean * mean / size);
        var ninth = variance / (9 * mean * mean);
        var root = 1 - ninth + (Math.Sqrt(ninth) * Normal(u));
        return Math.Round(mean * Math.Pow(Math.Max(0, root), 3));
    }

    private static double LogScattered(double seen, double mean, double size)
    {
        mean = Math.Max(mean, 1e-3);
        return MathNet.Numerics.SpecialFunctions.GammaLn(seen + size)
            - MathNet.Numerics.SpecialFunctions.GammaLn(size)
            + (seen * Math.Log(mean / (mean + size)))
            + (size * Math.Log(size / (mean + size)));
    }

    private static double LogNormal(double seen, double mean, double sd) =>
        (-0.5 * (seen - mean) * (seen - mean) / (sd * sd)) - Math.Log(sd);

    private static double Binomial(double chance, double u) =>
        Math.Clamp(
            Math.Round((Known * chance) + (Math.Sqrt(Known * chance * (1 - chance)) * Normal(u))),
            0,
            Known
        );

    private static double LogBinomial(double seen, double chance) =>
        (seen * Math.Log(chance)) + ((Known - seen) * Math.Log(1 - chance));

    private readonly record struct Node(LarvalDraw Draw, double Number)
    {
        internal double Weight => Draw.Weight / NodesPerDraw;
    }

    private sealed class Belief
    {
        private readonly Node[] _nodes;
        private readonly int[] _byNumber;
        private readonly int[] _byDay;
        private readonly double[] _weights;

        internal Belief(IReadOnlyList<LarvalDraw> draws)
        {
            _nodes =
            [
                .. draws.SelectMany(draw =>
                    Enumerable
                        .Range(0, NodesPerDraw)
                        .Select(level => new Node(
                            draw,
                            Math.Max(
                                0,
                                draw.Mean
                                    + ((level - 1) * LarvalTelling.ThreePoints * Math.Sqrt(draw.Variance))
                            )
                        ))
                ),
            ];
            _byNumber = [.. Enumerable.Range(0, _nodes.Length).OrderBy(i => _nodes[i].Number)];
            _byDay = [.. Enumerable.Range(0, _nodes.Length).OrderBy(i => _nodes[i].Draw.HalfDay)];
            _weights = new double[_nodes.Length];
            Believe();
            Alive = Points(_byNumber, node => node.Number);
            HalfDay = Points(_byDay, node => node.Draw.HalfDay);
        }

        internal Interval Alive { get; }

        internal Interval HalfDay { get; }

        internal HelpfulObservation After(
            HelpfulKind kind,
            Func<Node, double, double> show,
            Func<Node, double, double> logLikelihood
        )
        {
            double alive = 0;
            double days = 0;
            for (var outcome = 0; outcome < Outcomes; outcome++)
            {
                Believe();
                var from = At((outcome + 0.5) / Outcomes);
                var u = ((outcome + 1) * Golden % 1 * 0.98) + 0.01;
                var seen = show(from, u);
                var highest = double.NegativeInfinity;
                for (var i = 0; i < _nodes.Length; i++)
                {
                    _weights[i] = logLikelihood(_nodes[i], seen);
                    highest = Math.Max(highest, _weights[i]);
                }

                double sum = 0;
                for (var i = 0; i < _nodes.Length; i++)
                {
                    _weights[i] = _nodes[i].Weight * Math.Exp(_weights[i] - highest);
                    sum += _weights[i];
                }

                for (var i = 0; i < _nodes.Length; i++)
                {
                    _weights[i] /= sum;
                }

                alive += Points(_byNumber, node => node.Number).Width / Outcomes;
                days += Points(_byDay, node => node.Draw.HalfDay).Width / Outcomes;
            }

            var fewer = Math.Max(0, Alive.Width - alive);
            var sooner = Math.Max(0, HalfDay.Width - days);
            return new(
                kind,
                Alive.Width > 0 ? fewer / Alive.Width : 0,
                HalfDay.Width > 0 ? sooner / HalfDay.Width : 0,
                (fewer / Math.Max(1, Alive.Middle)) + (sooner / DaysInWeek)
            );
        }

        // As before the observation.
        private void Believe()
        {
            for (var i = 0; i < _nodes.Length; i++)
            {
                _weights[i] = _nodes[i].Weight;
            }
        }

        // The node by which so much of the belief has gathered, from few larvae to many.
        private Node At(double level)
        {
            double sum = 0;
            foreach (var i in _byNumber)
            {
                sum += _weights[i];
                if (sum >= level)
                {
                    return _nodes[i];
                }
            }

            return _nodes[_byNumber[^1]];
        }

        private Interval Points(int[] order, Func<Node, double> value)
        {
            Span<double> points = stackalloc double[3];
            ReadOnlySpan<double> levels = [0.05, 0.5, 0.95];
            var level = 0;
            double sum = 0;
            foreach (var i in order)
            {
                sum += _weights[i];
                while (level < 3 && sum >= levels[level])
                {
                    points[level++] = value(_nodes[i]);
                }
            }

            for (; level < 3; level++)
            {
                points[level] = value(_nodes[order[^1]]);
            }

            return Interval.FromPoints(points[0], points[1], points[2]);
        }
    }
}
