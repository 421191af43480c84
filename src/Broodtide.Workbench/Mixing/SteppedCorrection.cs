using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// Brings a vessel to a salinity in steps, none of which changes it by more than is allowed at once. Water is drawn
/// off only where the vessel would run over.
/// </summary>
/// <param name="CapacityLitres">What the vessel holds; none where room is taken for granted.</param>
/// <param name="AllowJump">Whether one step may change it by more.</param>
/// <param name="RestMinutes">Minutes between steps.</param>
/// <param name="FromMinutes">The first step comes one rest after this.</param>
internal sealed record SteppedCorrection(
    double? CapacityLitres,
    bool AllowJump,
    double RestMinutes,
    double FromMinutes
)
{
    private const int MostSteps = 400;
    private const double Hair = 1e-9;

    /// <summary>
    /// By adding water. Null where the water at hand does not suffice, or does not lie beyond the aim.
    /// </summary>
    public List<CorrectionStep>? WithWater(WaterMass vessel, double aim, WaterBody water)
    {
        var count = FewestSteps(vessel.SalinityPractical, aim);
        while (count <= MostSteps)
        {
            if (TryWithWater(vessel, aim, water, count) is { } steps)
            {
                return steps.Sum(s => s.AddWater.Litres) <= water.Volume.Litres ? steps : null;
            }

            count += Math.Max(1, count / 8);
        }

        return null;
    }

    /// <summary>By dissolving salt mix.</summary>
    public List<CorrectionStep> WithMix(WaterMass vessel, double aim, SaltMix mix)
    {
        var from = vessel.SalinityPractical;
        var count = FewestSteps(from, aim);
        var steps = new List<CorrectionStep>(count);
        for (var i = 1; i <= count; i++)
        {
            var next = from + ((aim - from) * i / count);
            var drawn = 0.0;
            var after = Dissolved(vessel, next, mix);
            if (CapacityLitres is { } capacity && after.Litres > capacity)
            {
                drawn = vessel.Grams * (1 - ((1 - Hair) * capacity / after.Litres));
            }

            var density = WaterMass.GramsPerLitre(vessel.SalinityPractical, vessel.Celsius);
            var kept = vessel.Without(drawn);
            vessel = Dissolved(kept, next, mix);
            steps.Add(
                new(
                    FromMinutes + (i * RestMinutes),
                    Volume.FromLitres(drawn / density),
                    default,
                    Mass.FromGrams(Math.Max(0, vessel.Grams - kept.Grams)),
                    vessel.ToBody()
                )
            );
        }

        return steps;
    }

    private int FewestSteps(double from, double to) =>
        AllowJump
            ? 1
            : Math.Max(1, (int)Math.Ceiling((Math.Abs(to - from) / GentleChange.MostPptAtOnce) - Hair));

    // Null where a step would warm or cool the vessel too much, or replace more than half of its water.
    private List<CorrectionStep>? TryWithWater(WaterMass vessel, double aim, WaterBody water, int count)
    {
        var from = vessel.SalinityPractical;
        var (s, t) = (water.Salinity.Practical, water.Temperature.Celsius);
        var waterDensity = WaterMass.GramsPerLitre(s, t);
        var steps = new List<CorrectionStep>(count);
        for (var i = 1; i <= count; i++)
        {
            var now = vessel.SalinityPractical;
            var next = from + ((aim - from) * i / count);
            var perGram = (next - now) / (s - next);
            var warming = Math.Abs(t - vessel.Celsius) * perGram / (1 + perGram);
            if (!(perGram is >= 0 and <= 1) || (!AllowJump && warming > GentleChange.MostDegreesAtOnce))
            {
                return null;
            }

            var density = WaterMass.GramsPerLitre(now, vessel.Celsius);
            var keep = vessel.Grams;
            if (CapacityLitres is { } capacity)
            {
                keep = Math.Min(keep, (1 - Hair) * capacity / ((1 / density) + (perGram / waterDensity)));
            }

            var drawn = vessel.Grams - keep;
            var added = keep * perGram;
            vessel = vessel.Without(drawn) + WaterMass.Of(added, s, t);
            steps.Add(
                new(
                    FromMinutes + (i * RestMinutes),
                    Volume.FromLitres(drawn / density),
                    Volume.FromLitres(added / waterDensity),
                    default,
                    vessel.ToBody()
                )
            );
        }

        return steps;
    }

    // The mix takes the temperature of the water.
    private static WaterMass Dissolved(WaterMass vessel, double salinity, SaltMix mix)
    {
        if (salinity <= vessel.SalinityPractical)
        {
            return vessel;
        }

        var product = MakingSeaWater.ToRaise(
            Mass.FromGrams(vessel.Grams),
            Salinity.FromPractical(vessel.SalinityPractical),
            Salinity.FromPractical(salinity),
            mix
        );
        var grams = vessel.Grams + product.Grams;
        return new(grams, vessel.SaltGrams + mix.DryIn(product).Grams, grams * vessel.Celsius);
    }
}
