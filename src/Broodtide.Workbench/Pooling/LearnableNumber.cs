using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Pooling;

/// <summary>
/// A number of a profile that runs can say something about: on which scale, what the profile believes of it, and which
/// entries of the profile hold that belief.
/// </summary>
/// <param name="Code">The quantity.</param>
/// <param name="Scale">The scale it is pooled on.</param>
/// <param name="Learned">What an estimate of larvae learned of it; none for the numbers of eggs.</param>
internal sealed record LearnableNumber(
    string Code,
    PoolScale Scale,
    Func<LarvalEstimate, Interval>? Learned = null
)
{
    /// <summary>All of them, in the order of a life.</summary>
    public static IReadOnlyList<LearnableNumber> All { get; } =
    [
        new(QuantityCodes.EmbryoDegreeDays, PoolScale.Logarithm),
        new(QuantityCodes.LarvalDays, PoolScale.Logarithm, told => told.DevelopmentDays),
        new(LarvalQuantityCodes.DevelopmentCv, PoolScale.Logarithm, told => told.DevelopmentCv),
        new(LarvalQuantityCodes.Hazard, PoolScale.Logarithm, told => told.BaseHazardPerDay),
        new(LarvalQuantityCodes.EarlyHazardFactor, PoolScale.Logarithm, told => told.EarlyMultiplier),
        new(LarvalQuantityCodes.MetamorphosisLoss, PoolScale.LogOdds, told => told.MetamorphosisLoss),
    ];

    /// <summary>What a profile believes of it for one run; none where the profile says too little.</summary>
    public NormalBelief? Belief(SpeciesProfile profile)
    {
        if (Code == QuantityCodes.EmbryoDegreeDays)
        {
            // The spread of ordinary broods; the odd ones are few and would hide what the others say.
            var thermal = profile.EmbryoThermal;
            return thermal is { DegreeDays: > 0, SpreadFactor: > 1 }
                ? new(
                    Scale.To(thermal.DegreeDays),
                    Math.Log(thermal.SpreadFactor) / Interval.StandardNormal95
                )
                : null;
        }

        var usual = LarvalBeliefs.Priors(profile, []);
        return Code switch
        {
            QuantityCodes.LarvalDays => Of(usual.DevelopmentDays),
            LarvalQuantityCodes.DevelopmentCv => Of(usual.DevelopmentCv),
            LarvalQuantityCodes.Hazard => Of(usual.BaseHazardPerDay),
            LarvalQuantityCodes.EarlyHazardFactor => Of(usual.EarlyMultiplier),
            _ => new(Scale.To(usual.MetamorphosisLoss.Median), usual.MetamorphosisLoss.LogitSd),
        };
    }

    /// <summary>The entries of a profile that would say a belief about the next run.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="next">5, 50 and 95 % points, in the unit of the quantity.</param>
    public IReadOnlyList<ChosenParts> Choice(SpeciesProfile profile, Interval next)
    {
        var original = profile.Find(Code)!.Original;
        var own = new ChosenParts(
            Code,
            original.Value is null ? null : next.Middle,
            original.Low is null ? null : next.Low,
            original.High is null ? null : next.High
        );
        return Code == QuantityCodes.EmbryoDegreeDays
            ? [own, new(QuantityCodes.EmbryoSpreadFactor, Math.Sqrt(next.High / next.Low), null, null)]
            : [own];
    }

    private static NormalBelief? Of(LogBelief belief) =>
        belief.LogSd > 0 ? new(Math.Log(belief.Median), belief.LogSd) : null;
}

/// <summary>The parts of a quantity that a keeper would choose.</summary>
/// <param name="Code">The quantity.</param>
/// <param name="Value">Its value, in its own unit; none where it has none.</param>
/// <param name="Low">Its low end.</param>
/// <param name="High">Its high end.</param>
public sealed record ChosenParts(string Code, double? Value, double? Low, double? High);
