using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Collecting;

/// <summary>Larvae gathered at one time.</summary>
/// <param name="FromHours">Since when nothing had been gathered, hours after the noon before the night.</param>
/// <param name="AtHours">When they were gathered, later.</param>
/// <param name="Larvae">How many, not negative.</param>
public readonly record struct GatheredLarvae(double FromHours, double AtHours, double Larvae);

/// <summary>
/// The hours of hatching as weighed possibilities: drawn from a belief on fixed points (Halton 1960), weighed by what
/// earlier gatherings brought. How many hatched in a night is unknown, so only the shares of a night's gatherings
/// speak: Dirichlet-multinomial, since larvae leave in bursts. The same gatherings give the same answer, in any order.
/// </summary>
public sealed class HatchingRhythm
{
    /// <summary>Draws of a belief.</summary>
    public const int Draws = 512;

    /// <summary>Draws worked out at a time.</summary>
    internal const int DrawsOfPiece = 32;

    // How alike the larvae of one gathering are: the shares of a night vary as if only so many had hatched one by
    // one. An assumption: no counts of single nights were found.
    private const double Bursts = 12;

    // Fewer draws that still carry weight than this make the answer rough.
    private const double FewestDraws = 50;

    private static readonly double Reach = Interval.StandardNormal95;

    private HatchingRhythm(IReadOnlyList<RhythmDraw> draws) => Possibilities = draws;

    /// <summary>The possibilities; their weights sum to 1.</summary>
    public IReadOnlyList<RhythmDraw> Possibilities { get; }

    /// <summary>The hour at which most hatch, hours after noon, 5, 50 and 95 %.</summary>
    public Interval PeakHoursAfterNoon => Told(draw => draw.PeakHoursAfterNoon);

    /// <summary>Hazard in fresh water, per hour, 5, 50 and 95 %.</summary>
    public Interval LossPerHour => Told(draw => draw.LossPerHour);

    /// <summary>How many draws carry the weight: (sum w)^2 / sum w^2.</summary>
    public double EffectiveDraws => 1 / Possibilities.Sum(draw => draw.Weight * draw.Weight);

    /// <summary>Whether the gatherings left too few draws to trust the ends of an interval.</summary>
    public bool IsRough => EffectiveDraws < FewestDraws;

    /// <summary>What is believed, and what earlier nights say to it.</summary>
    /// <param name="belief">Before anything was gathered.</param>
    /// <param name="nights">
    /// The gatherings of each night, at any gaps, not overlapping. A night with fewer than two says nothing.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, negative, or hours run backwards.</exception>
    public static HatchingRhythm Of(
        RhythmBelief belief,
        IReadOnlyList<IReadOnlyList<GatheredLarvae>> nights
    ) => InPieces(belief, nights).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<HatchingRhythm?> InPieces(
        RhythmBelief belief,
        IReadOnlyList<IReadOnlyList<GatheredLarvae>> nights
    )
    {
        foreach (var gathered in nights.SelectMany(night => night))
        {
            Finite.Within(gathered.AtHours, Finite.Required(gathered.FromHours), double.MaxValue);
            Finite.NotNegative(gathered.Larvae);
        }

        return Drawing(belief, nights);
    }

    private static IEnumerable<HatchingRhythm?> Drawing(
        RhythmBelief belief,
        IReadOnlyList<IReadOnlyList<GatheredLarvae>> nights
    )
    {
        // In one order, so that sums do not depend on the order of writing.
        var ordered = nights
            .Select(night => night.OrderBy(gathered => gathered.AtHours).ToArray())
            .Where(night => night.Length >= 2 && night.Sum(gathered => gathered.Larvae) > 0)
            .OrderBy(night => night[0].AtHours)
            .ThenBy(night => night[0].Larvae)
            .ThenBy(night => night.Length)
            .ToArray();
        var draws = new RhythmDraw[Draws];
        var logs = new double[Draws];
        for (var i = 0; i < Draws; i++)
        {
            if (i % DrawsOfPiece == DrawsOfPiece - 1)
            {
                yield return null;
            }

            draws[i] = Drawn(belief, i + 1);
            logs[i] = ordered.Sum(night => LogLikelihood(draws[i], night));
        }

        var top = logs.Max();
        var sum = logs.Sum(log => Math.Exp(log - top));
        yield return new([.. draws.Select((draw, i) => draw.Weighing(Math.Exp(logs[i] - top) / sum))]);
    }

    private Interval Told(Func<RhythmDraw, double> what) =>
        WeightedPoints.Of([.. Possibilities.Select(draw => (what(draw), draw.Weight))]);

    private static RhythmDraw Drawn(RhythmBelief belief, int index)
    {
        double Point(int prime) => Normal.InvCDF(0, 1, WeightedPoints.Halton(index, prime));
        var peak = Between(belief.PeakHoursAfterNoon, Point(2), hours => hours, hours => hours);
        return new(
            peak - (24 * Math.Floor(peak / 24)),
            Math.Clamp(Between(belief.SpreadHours, Point(3), Math.Log, Math.Exp), 0.1, 12),
            Between(
                belief.SteadyShare,
                Point(5),
                share => Math.Log(share / (1 - share)),
                odds => 1 / (1 + Math.Exp(-odds))
            ),
            Between(belief.LossPerHour, Point(7), Math.Log, Math.Exp),
            1.0 / Draws
        );
    }

    // A normal distribution on another scale, with a spread of its own on each side of the median.
    private static double Between(
        Interval points,
        double z,
        Func<double, double> there,
        Func<double, double> back
    )
    {
        var middle = there(points.Middle);
        var side = z < 0 ? middle - there(points.Low) : there(points.High) - middle;
        return back(middle + (z / Reach * side));
    }

    private static double LogLikelihood(RhythmDraw draw, GatheredLarvae[] night)
    {
        var alive = night
            .Select(gathered => 1e-6 + draw.AliveOf(gathered.FromHours, gathered.AtHours))
            .ToArray();
        var all = alive.Sum();
        var log = 0.0;
        for (var i = 0; i < night.Length; i++)
        {
            var strength = Bursts * alive[i] / all;
            log += SpecialFunctions.GammaLn(night[i].Larvae + strength) - SpecialFunctions.GammaLn(strength);
        }

        return log;
    }
}
