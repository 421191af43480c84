namespace Broodtide.Simulation.Larvae;

/// <summary>What larvae of one run are subject to. Days at 25 degC are called reference days.</summary>
public sealed record World
{
    public const int ZoealStages = 9;
    private const double NoGrowthCelsius = 12;
    private const double ReferenceCelsius = 25;
    private const double EarlyDays = 3;

    /// <summary>Deaths a day that the young and the changing are spared.</summary>
    public required double BaseHazard { get; init; }

    /// <summary>How many times the base comes on top right after the crossing; it fades over three days.</summary>
    public required double EarlyMultiplier { get; init; }

    /// <summary>Extra chance to die at metamorphosis.</summary>
    public required double MetamorphosisDeath { get; init; }

    /// <summary>Reference days from crossing to metamorphosis, mean over larvae.</summary>
    public required double Requirement { get; init; }

    /// <summary>Its coefficient of variation between larvae.</summary>
    public required double RequirementCv { get; init; }

    /// <summary>Negative binomial size of one aliquot.</summary>
    public required double Clumping { get; init; }

    /// <summary>Sd of the logarithm of the shock that a day's hazard is multiplied by; its mean is one.</summary>
    public double ShockSd { get; init; } = 0.35;

    /// <summary>Weibull mortality instead of base and early hazard, if a shape is given.</summary>
    public double? WeibullShape { get; init; }

    public double WeibullDays { get; init; }

    /// <summary>CV between larvae of a factor on the hazard.</summary>
    public double FrailtyCv { get; init; }

    /// <summary>By how much the logarithm of the hazard rises for each degree above 28.</summary>
    public double HeatSlope { get; init; }

    /// <summary>A day on which a share of all is killed.</summary>
    public double? CrashDay { get; init; }

    public double CrashShare { get; init; }

    /// <summary>Stages as a chain, each with a mean and a shape of its own, if given; else shares of the requirement.</summary>
    public IReadOnlyList<(double Mean, double Shape)>? Chain { get; init; }

    /// <summary>Chance that a moult marks time: the same stage once more, somewhat shorter.</summary>
    public double MarkTime { get; init; }

    /// <summary>Share of the requirement for a day at this temperature.</summary>
    public static double ReferenceDays(double celsius) =>
        Math.Max(0, celsius - NoGrowthCelsius) / (ReferenceCelsius - NoGrowthCelsius);

    /// <summary>Hazard a day, before shock and frailty.</summary>
    public double Hazard(double ageDays, double celsius)
    {
        var calm = WeibullShape is { } shape
            ? shape / WeibullDays * Math.Pow(ageDays / WeibullDays, shape - 1)
            : BaseHazard * (1 + (EarlyMultiplier * Math.Exp(-ageDays / EarlyDays)));
        return calm * Math.Exp(HeatSlope * Math.Max(0, celsius - 28));
    }

    /// <summary>Reference days after the crossing at which one larva leaves each zoeal stage.</summary>
    public double[] StageEnds(Dice dice)
    {
        var ends = new double[ZoealStages];
        if (Chain is { } chain)
        {
            var sum = 0.0;
            for (var stage = 0; stage < ZoealStages; stage++)
            {
                var (mean, shape) = chain[stage];
                sum += mean / shape * dice.Gamma(shape);
                while (dice.Chance(MarkTime))
                {
                    sum += 0.8 * mean / shape * dice.Gamma(shape);
                }

                ends[stage] = sum;
            }

            return ends;
        }

        var own = dice.GammaOfMean(Requirement, RequirementCv);
        for (var stage = 0; stage < ZoealStages; stage++)
        {
            ends[stage] = own * (stage + 1) / ZoealStages;
        }

        return ends;
    }

    /// <summary>Every parameter anew, from the spread of runs.</summary>
    public static World Drawn(Dice dice) =>
        new()
        {
            BaseHazard = dice.LogNormal(0.02, 0.6),
            EarlyMultiplier = dice.LogNormal(5, 0.6),
            MetamorphosisDeath = FromLogit(Math.Log(0.15 / 0.85) + (0.6 * dice.Normal())),
            Requirement = dice.LogNormal(40, 0.18),
            RequirementCv = dice.LogNormal(0.12, 0.35),
            Clumping = dice.LogNormal(5, 0.7),
        };

    /// <summary>Hazards and requirement one to one and a half spreads away, each to a side of its own.</summary>
    public static World OffThePriors(Dice dice) =>
        Drawn(dice) with
        {
            BaseHazard = 0.02 * Math.Exp(0.6 * Off(dice)),
            EarlyMultiplier = 5 * Math.Exp(0.6 * Off(dice)),
            Requirement = 40 * Math.Exp(0.18 * Off(dice)),
        };

    private static double Off(Dice dice) => (dice.Chance(0.5) ? 1 : -1) * dice.Between(1, 1.5);

    private static double FromLogit(double logit) => 1 / (1 + Math.Exp(-logit));
}
