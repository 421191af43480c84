using Broodtide.Science.Development;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Development;

/// <summary>
/// With everything but one thing known exactly the forecast must fall back to the textbook case: hatch day normal
/// with mean 28 and sd 3, eye-spot day = 0.72 x hatch day x exp(N(0, 0.05)), not seen on day 18, seen on day 21, not
/// hatched on day 22. Expected values computed on a grid by an independent program (Python 3.11, scipy 1.10.1).
/// </summary>
public sealed class EyeSpotSpecialCaseTests
{
    private static readonly HatchPosterior Posterior = HatchForecast.From(Prior(), Evidence(), 0.02);

    [Fact]
    public void Mean_and_standard_deviation_agree()
    {
        Assert.Equal(27.38073755, Posterior.Mean, 0.01);
        Assert.Equal(1.58463552, Posterior.StandardDeviation, 0.01);
    }

    [Theory]
    [InlineData(0.05, 24.8137)]
    [InlineData(0.5, 27.3598)]
    [InlineData(0.95, 30.0217)]
    public void Quantiles_agree(double probability, double expected) =>
        Assert.Equal(expected, Posterior.Quantile(probability), 0.015);

    [Fact]
    public void Looks_before_and_after_are_needed_for_it()
    {
        var withoutLooks = Evidence() with { Facts = [.. Evidence().Facts.Take(2)] };

        var prior = HatchForecast.From(Prior(), withoutLooks, 0.05);

        Assert.Equal(28, prior.Mean, 0.02);
        Assert.Equal(3, prior.StandardDeviation, 0.02);
    }

    private static EmbryoPrior Prior() =>
        ReferencePriors.ReferenceSpecies with
        {
            // A normal distribution built from many narrow log-normal ones; their own width is taken off its variance.
            Requirement =
            [
                .. Enumerable
                    .Range(-48, 97)
                    .Select(i => 28 + (0.25 * i))
                    .Select(day => new RequirementPart(
                        Math.Exp(-0.5 * Math.Pow((day - 28) / 3, 2) / (1 - Math.Pow(0.3 / 3, 2))),
                        LognormalSpread.FromMedian(day, 0.3 / day)
                    )),
            ],
            BaseCelsius = 0,
            BaseSdCelsius = 0,
            EyedRatio = LognormalSpread.FromMedian(0.72, 0.05),
            Looks = LookTrust.Blind,
        };

    private static BroodEvidence Evidence() =>
        new()
        {
            // The narrowest spawning interval is a fifth of a day, centred on day zero here.
            Facts =
            [
                new BroodFact.SeenEmpty(-0.1),
                new BroodFact.SeenBerried(0.1),
                new BroodFact.EggsLookedAt(18, false, null),
                new BroodFact.EggsLookedAt(21, true, null),
                new BroodFact.StillCarried(22),
            ],
            Temperatures = [],
            Assumption = new()
            {
                Mean = Temperature.FromCelsius(25.5),
                Sd = default,
                Wander = default,
            },
        };
}
