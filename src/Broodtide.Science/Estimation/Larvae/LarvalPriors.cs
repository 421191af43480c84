using Broodtide.Science.Counting;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>A belief about a positive number: normal in its logarithm.</summary>
public sealed record LogBelief
{
    /// <summary>A belief by its median and spread.</summary>
    /// <param name="median">Median, above zero, in the unit of the number.</param>
    /// <param name="logSd">Standard deviation of the natural logarithm, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or out of range.</exception>
    public LogBelief(double median, double logSd)
    {
        Median = Finite.Positive(median);
        LogSd = Finite.NotNegative(logSd);
    }

    /// <summary>Median, in the unit of the number.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the natural logarithm.</summary>
    public double LogSd { get; }

    /// <summary>The number at a point of the standard normal scale.</summary>
    internal double At(double z) => Median * Math.Exp(LogSd * z);
}

/// <summary>A belief about a share: normal on the logit scale.</summary>
public sealed record ShareBelief
{
    /// <summary>A belief by its median and spread.</summary>
    /// <param name="median">Median, above 0 and below 1.</param>
    /// <param name="logitSd">Standard deviation of the logit, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or out of range.</exception>
    public ShareBelief(double median, double logitSd)
    {
        Median = Finite.Within(median, 1e-9, 1 - 1e-9);
        LogitSd = Finite.NotNegative(logitSd);
    }

    /// <summary>Median.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the logit.</summary>
    public double LogitSd { get; }

    /// <summary>The share at a point of the standard normal scale.</summary>
    internal double At(double z) => 1 / (1 + ((1 - Median) / Median * Math.Exp(-LogitSd * z)));
}

/// <summary>
/// What is believed about larvae before anything of a run is known. The numbers of a species come from its profile;
/// those here are the same for every species and this project's assumptions unless a source is named.
/// </summary>
public sealed record LarvalPriors
{
    /// <summary>Hazard of a settled-in larva, per day, in good water.</summary>
    public LogBelief BaseHazardPerDay { get; init; } = new(0.02, 0.6);

    /// <summary>How many times the base hazard is added at hatching; decays with <see cref="EarlyDays"/>.</summary>
    public LogBelief EarlyMultiplier { get; init; } = new(5, 0.6);

    /// <summary>Days over which the early hazard falls to 1/e.</summary>
    public double EarlyDays { get; init; } = 3;

    /// <summary>Chance to die at metamorphosis, over and above the hazards.</summary>
    public ShareBelief MetamorphosisLoss { get; init; } = new(0.15, 0.6);

    /// <summary>Development from hatching to settlement, in days at the reference temperature with enough food.</summary>
    public LogBelief DevelopmentDays { get; init; } = new(40, 0.18);

    /// <summary>Coefficient of variation of development between larvae.</summary>
    public LogBelief DevelopmentCv { get; init; } = new(0.12, 0.35);

    /// <summary>
    /// How far the ends of the stages lie from where they are supposed: each share of development is raised to this
    /// power. Where no stage times are published, even stages are a guess.
    /// </summary>
    public LogBelief StageBend { get; init; } = new(1, 0.05);

    /// <summary>Size of the negative binomial law of one aliquot: small is clumped.</summary>
    public LogBelief Clumping { get; init; } = new(ClumpingPrior.Usual.MedianK, ClumpingPrior.Usual.LogSd);

    /// <summary>Log standard deviation of a day's common shock on the hazard.</summary>
    public double DailyShock { get; init; } = 0.35;

    /// <summary>
    /// Standard deviation, as a share of those alive and per square root of a day, of what no hazard explains: bad
    /// days that strike a whole vessel.
    /// </summary>
    public LogBelief BadDays { get; init; } = new(0.01, 1.1);

    /// <summary>How far the errors of the numbers at the crossing lie from what their method promises.</summary>
    public LogBelief ArrivalErrorFactor { get; init; } = new(1, 0.5);

    /// <summary>Precision of a stage sample: like a sample this large at most, drawn without favour.</summary>
    public double StagePrecision { get; init; } = 60;

    /// <summary>Share of larvae put in a wrong stage, spread over all stages.</summary>
    public double StagingMistakes { get; init; } = 0.02;

    /// <summary>Chance that an entry is plainly wrong (a slip of the pen, another vessel).</summary>
    public double OddEntry { get; init; } = 0.005;

    /// <summary>Uncertainty of the temperature to come, in kelvin (one standard deviation of its mean).</summary>
    public double FutureTemperatureSdKelvin { get; init; } = 0.7;

    /// <summary>Reference days of development a day, for each kelvin that the future is warmer.</summary>
    public double DevelopmentPerKelvin { get; init; } = 1.0 / 13;

    /// <summary>Detection of each class of looks (a keeper's glance, a keeper's beam): a larva is seen with it.</summary>
    public IReadOnlyList<ShareBelief> Detection { get; init; } = [];
}
