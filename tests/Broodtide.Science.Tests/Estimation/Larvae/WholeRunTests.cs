using Broodtide.Science.Estimation.Larvae;
using Broodtide.Simulation;
using Broodtide.Simulation.Larvae;
using MathNet.Numerics;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>
/// A second opinion over whole runs with the unknowns held fixed: larvae thrown by chance one by one and weighed by what
/// was seen (a bootstrap filter, Gordon, Salmond and Smith 1993, without resampling, so that every particle keeps its
/// past and past days are smoothed too).
/// </summary>
public sealed class WholeRunTests
{
    private const int Particles = 60_000;
    private const double Hazard = 0.03;
    private const double Early = 4;
    private const double Clumping = 5;
    private const double Detection = 0.3;
    private const double Scatter = 8;
    private const double Days = 20;

    private static readonly double[] Asked = [4, 9, 15, 20];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void The_estimate_of_each_day_is_that_of_the_particles(int seed)
    {
        var random = new Random(seed);
        var scale = 60 + (140 * random.NextDouble());
        var counts = new (double Day, int Seen, double Share)[]
        {
            (3, (int)(scale * 0.7 * 0.1) + random.Next(4), 0.1),
            (8, (int)(scale * 0.85 * 0.1) + random.Next(4), 0.1),
            (16, (int)(scale * 0.6 * 0.1) + random.Next(3), 0.1),
        };
        var look = (Day: 10.0, Seen: (int)(scale * 0.8 * Detection));
        var told = Scenes.At(Fixed(scale, counts, look), Asked);
        var particles = Particled(seed, scale, counts, look);

        for (var i = 0; i < Asked.Length; i++)
        {
            var alive = told.Days[i].All.Alive;
            var (low, middle, high) = particles[i];
            var sd = (high - low) / 3.29;
            Assert.Equal(middle, alive.Middle, 1 + (0.1 * sd));
            Assert.Equal(low, alive.Low, 1.5 + (0.25 * sd));
            Assert.Equal(high, alive.High, 1.5 + (0.25 * sd));
        }
    }

    private static LarvalRun Fixed(
        double scale,
        (double Day, int Seen, double Share)[] counts,
        (double Day, int Seen) look
    ) =>
        Scenes.Run(
            Days,
            [
                new Arrived(0, 0, 0, scale, 0.4),
                new Arrived(5, 1, 1, scale / 2, 0.4),
                .. counts.Select(
                    (count, i) =>
                        new Counted(
                            count.Day,
                            10 + i,
                            Scenes.Both,
                            new AliquotEvidence([
                                new(count.Seen / 2, count.Share / 2),
                                new(count.Seen - (count.Seen / 2), count.Share / 2),
                            ])
                        )
                ),
                new Counted(look.Day, 20, Scenes.Both, new LookEvidence(look.Seen, 0, Scatter, false)),
            ]
        ) with
        {
            Priors = new()
            {
                BaseHazardPerDay = new(Hazard, 1e-3),
                EarlyMultiplier = new(Early, 1e-3),
                MetamorphosisLoss = new(1e-6, 1e-3),
                DevelopmentDays = new(400, 1e-3),
                Clumping = new(Clumping, 1e-3),
                BadDays = new(1e-6, 1e-3),
                ArrivalErrorFactor = new(1, 1e-3),
                DailyShock = 1e-4,
                OddEntry = 0,
                Detection = [new(Detection, 1e-3)],
            },
        };

    private static List<(double Low, double Middle, double High)> Particled(
        int seed,
        double scale,
        (double Day, int Seen, double Share)[] counts,
        (double Day, int Seen) look
    )
    {
        var dice = new Dice((ulong)seed);
        double[] stops =
        [
            .. counts.Select(count => count.Day).Append(look.Day).Concat(Asked).Append(5).Distinct().Order(),
        ];
        var alive = new double[Particles][];
        var weights = new double[Particles];
        for (var i = 0; i < Particles; i++)
        {
            alive[i] = new double[Asked.Length];
            // Mean and variance as the run believes them: error of the number, and a quarter for rounding.
            var first = Start(dice, scale);
            var second = 0;
            var day = 0.0;
            foreach (var stop in stops)
            {
                first = dice.Binomial(first, Survival(day, stop));
                second = dice.Binomial(second, Survival(day - 5, stop - 5));
                second += stop == 5 ? Start(dice, scale / 2) : 0;
                day = stop;
                var total = first + second;
                foreach (var count in counts.Where(count => count.Day == stop))
                {
                    var half = count.Seen / 2;
                    weights[i] += LogNegativeBinomial(half, total * count.Share / 2, Clumping);
                    weights[i] += LogNegativeBinomial(count.Seen - half, total * count.Share / 2, Clumping);
                }

                weights[i] +=
                    stop == look.Day ? LogNegativeBinomial(look.Seen, total * Detection, Scatter) : 0;
                var asked = Array.IndexOf(Asked, stop);
                if (asked >= 0)
                {
                    alive[i][asked] = total;
                }
            }
        }

        var highest = weights.Max();
        weights = Array.ConvertAll(weights, weight => Math.Exp(weight - highest));
        return
        [
            .. Enumerable
                .Range(0, Asked.Length)
                .Select(asked => Points([.. alive.Select(each => each[asked])], weights)),
        ];
    }

    private static int Start(Dice dice, double mean) =>
        (int)Math.Round(dice.GammaOfMean(mean, Math.Sqrt((0.16 * mean * mean) + 0.25) / mean));

    // Of the base hazard with an early part that fades over three days.
    private static double Survival(double from, double until) =>
        until <= 0
            ? 1
            : Math.Exp(-Hazard * (until - from + (Early * 3 * (Math.Exp(-from / 3) - Math.Exp(-until / 3)))));

    private static double LogNegativeBinomial(int seen, double mean, double size) =>
        mean <= 0
            ? seen == 0
                ? 0
                : double.NegativeInfinity
            : SpecialFunctions.GammaLn(seen + size)
                - SpecialFunctions.GammaLn(size)
                - SpecialFunctions.FactorialLn(seen)
                + (seen * Math.Log(mean / (mean + size)))
                + (size * Math.Log(size / (mean + size)));

    private static (double, double, double) Points(double[] values, double[] weights)
    {
        var shares = (double[])weights.Clone();
        Array.Sort(values, shares);
        var all = shares.Sum();
        double At(double level)
        {
            var sum = 0.0;
            for (var i = 0; i < values.Length; i++)
            {
                sum += shares[i];
                if (sum >= level * all)
                {
                    return values[i];
                }
            }

            return values[^1];
        }

        return (At(0.05), At(0.5), At(0.95));
    }
}
