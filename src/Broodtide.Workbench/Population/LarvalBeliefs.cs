using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using MathNet.Numerics;

namespace Broodtide.Workbench.Population;

/// <summary>What is believed of larvae before a run is known, from the species profile.</summary>
internal static class LarvalBeliefs
{
    private const double Reach = Interval.StandardNormal95;

    internal static LarvalPriors Priors(SpeciesProfile profile, IReadOnlyList<ShareBelief> looks)
    {
        var usual = new LarvalPriors();
        return usual with
        {
            DevelopmentDays = Spread(profile, QuantityCodes.LarvalDays) ?? usual.DevelopmentDays,
            BaseHazardPerDay = Spread(profile, LarvalQuantityCodes.Hazard) ?? usual.BaseHazardPerDay,
            EarlyMultiplier = Spread(profile, LarvalQuantityCodes.EarlyHazardFactor) ?? usual.EarlyMultiplier,
            DevelopmentCv = Spread(profile, LarvalQuantityCodes.DevelopmentCv) ?? usual.DevelopmentCv,
            MetamorphosisLoss =
                ShareSpread(profile, LarvalQuantityCodes.MetamorphosisLoss) ?? usual.MetamorphosisLoss,
            DevelopmentPerKelvin = 1 / Span(Conditions(profile)),
            Detection = looks,
        };
    }

    internal static LarvalConditions Conditions(SpeciesProfile profile)
    {
        var usual = new LarvalConditions();
        var works = profile.LarvalSalinityCompleting;
        var reference =
            profile.Find(LarvalQuantityCodes.ReferenceTemperature)?.Value ?? usual.Reference.Celsius;
        return usual with
        {
            Reference = Temperature.FromCelsius(reference),
            // Whatever was chosen, development goes on somewhere below the reference.
            Base = Temperature.FromCelsius(
                Math.Min(
                    profile.Find(LarvalQuantityCodes.BaseTemperature)?.Value ?? usual.Base.Celsius,
                    Math.Min(reference, usual.Quickest.Celsius) - 1
                )
            ),
            LossesFrom = Temperature.FromCelsius(
                profile.Find(QuantityCodes.LarvalTemperatureLosses)?.Value ?? usual.LossesFrom.Celsius
            ),
            Comfort = (works.Low, works.High > usual.Comfort.Highest ? works.High : usual.Comfort.Highest),
        };
    }

    internal static LarvalStages Stages(SpeciesProfile profile)
    {
        var larval = profile.Stages.Count(stage => !IsSettled(stage.Code));
        var fades = profile
            .Stages.Select((stage, place) => (stage, place))
            .Where(pair =>
                pair.stage.Signs.Any(sign =>
                    string.Equals(sign.Code, "light-attraction-fades", StringComparison.Ordinal)
                )
            )
            .Select(pair => (int?)pair.place)
            .FirstOrDefault();
        return LarvalStages.Even(Math.Max(1, larval), fades ?? larval);
    }

    internal static bool IsSettled(string stage) =>
        string.Equals(stage, "PL", StringComparison.OrdinalIgnoreCase);

    /// <summary>The chance to be seen in a look, as practice has it, on the logit scale.</summary>
    internal static ShareBelief Look(BetaBelief practice)
    {
        var middle = SpecialFunctions.DiGamma(practice.A) - SpecialFunctions.DiGamma(practice.B);
        return new(Share(middle), Math.Sqrt(TriGamma(practice.A) + TriGamma(practice.B)));
    }

    /// <summary>Own and shared coefficient of variation of a number said at a crossing.</summary>
    internal static (double Own, double Shared) NumberError(CountMethod? method) =>
        method switch
        {
            CountMethod.Full => (0.04, 0),
            CountMethod.Photo => (0.12, 0.05),
            CountMethod.Beam or CountMethod.Aliquot => (0.25, 0.15),
            CountMethod.Glance => (0.45, 0.3),
            _ => (0.3, 0.15),
        };

    private static double Span(LarvalConditions conditions) =>
        Math.Max(1, conditions.Reference.Celsius - conditions.Base.Celsius);

    // A range taken as the 5 and 95 % points of a belief; its middle is the value, where there is one between them.
    private static LogBelief? Spread(SpeciesProfile profile, string code) =>
        profile.Find(code) is { Low: { } low, High: { } high } quantity && low > 0 && high > low
            ? new(
                quantity.Value is { } value && value > low && value < high ? value : Math.Sqrt(low * high),
                Math.Log(high / low) / (2 * Reach)
            )
            : null;

    private static ShareBelief? ShareSpread(SpeciesProfile profile, string code) =>
        profile.Find(code) is { Low: { } low, High: { } high } quantity && low > 0 && high > low && high < 1
            ? new(
                quantity.Value is { } value && value > low && value < high
                    ? value
                    : Share((Logit(low) + Logit(high)) / 2),
                (Logit(high) - Logit(low)) / (2 * Reach)
            )
            : null;

    private static double Logit(double share) => Math.Log(share / (1 - share));

    private static double Share(double logit) => 1 / (1 + Math.Exp(-logit));

    // Trigamma by its recurrence and asymptotic series (Abramowitz and Stegun 6.4.6 and 6.4.12).
    private static double TriGamma(double x)
    {
        double sum = 0;
        for (; x < 10; x++)
        {
            sum += 1 / (x * x);
        }

        var inverse = 1 / (x * x);
        return sum + (1 / x) + (inverse / 2) + (inverse / x * ((1.0 / 6) - (inverse / 30)));
    }
}
