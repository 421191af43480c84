using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>Works out how the receiving vessel is brought back to the target of its band.</summary>
internal static class ReceivingCorrecting
{
    /// <summary>Inside the band, a vessel this near to its target is left alone; practical salinity.</summary>
    public const double NearEnough = 0.1;

    /// <summary>
    /// Below this target, practical salinity, fresh water would have to be exchanged without end: the correction
    /// then stops half way between target and upper edge.
    /// </summary>
    public const double LowestAim = 0.5;

    private const int MostSteps = 200;
    private const double Hair = 1e-9;

    /// <summary>The correction, and the salinity it leads to.</summary>
    /// <param name="order">The order.</param>
    /// <param name="vessel">The receiving vessel after the cup was poured in.</param>
    /// <param name="fromMinutes">When the last of the cup was poured.</param>
    public static (ReceivingCorrection Correction, double Aim) Plan(
        CrossingOrder order,
        WaterMass vessel,
        double fromMinutes
    )
    {
        var band = order.ReceivingBand;
        var salinity = vessel.SalinityPractical;
        var needed = !band.Holds(Salinity.FromPractical(salinity));
        var aim = band.Target.Practical;
        if (salinity > aim && aim < LowestAim)
        {
            aim = Math.Max(NearEnough, (aim + band.Upper.Practical) / 2);
        }

        var tooFresh = salinity < aim;
        var near = Math.Abs(salinity - aim) < (needed ? Hair : NearEnough);
        if (
            near
            || (!tooFresh && !needed && salinity <= aim)
            || (tooFresh && salinity >= band.Target.Practical)
        )
        {
            return (new(needed, CorrectionMeans.None, []), salinity);
        }

        if (!tooFresh)
        {
            var fresh = new WaterBody(
                Volume.FromLitres(double.MaxValue),
                default,
                Temperature.FromCelsius(vessel.Celsius)
            );
            var steps = WithWater(order, vessel, aim, fresh, fromMinutes);
            return (new(needed, CorrectionMeans.FreshWater, steps ?? []), aim);
        }

        if (
            order.Brine is { } brine
            && brine.Salinity.Practical >= aim + NearEnough
            && WithWater(order, vessel, aim, brine, fromMinutes) is { } briny
        )
        {
            return (new(needed, CorrectionMeans.Brine, briny), aim);
        }

        return (new(needed, CorrectionMeans.SaltMix, WithMix(order, vessel, aim, fromMinutes)), aim);
    }

    private static int FewestSteps(CrossingOrder order, double from, double to) =>
        order.AllowJump
            ? 1
            : Math.Max(1, (int)Math.Ceiling((Math.Abs(to - from) / PouringOut.MostPptAtOnce) - Hair));

    private static List<CorrectionStep>? WithWater(
        CrossingOrder order,
        WaterMass vessel,
        double aim,
        WaterBody water,
        double fromMinutes
    )
    {
        for (var count = FewestSteps(order, vessel.SalinityPractical, aim); count <= MostSteps; count++)
        {
            var steps = TryWithWater(order, vessel, aim, water, count, fromMinutes);
            if (steps is not null)
            {
                var litres = steps.Sum(s => s.AddWater.Litres);
                return litres <= water.Volume.Litres ? steps : null;
            }
        }

        return null;
    }

    // Null where a step would warm or cool the vessel too much, or replace more than half of its water.
    private static List<CorrectionStep>? TryWithWater(
        CrossingOrder order,
        WaterMass vessel,
        double aim,
        WaterBody water,
        int count,
        double fromMinutes
    )
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
            if (perGram > 1 || (!order.AllowJump && warming > PouringOut.MostDegreesAtOnce))
            {
                return null;
            }

            var density = WaterMass.GramsPerLitre(now, vessel.Celsius);
            var keep = vessel.Grams;
            if (order.ReceivingCapacity is { } capacity)
            {
                keep = Math.Min(
                    keep,
                    (1 - Hair) * capacity.Litres / ((1 / density) + (perGram / waterDensity))
                );
            }

            var drawn = vessel.Grams - keep;
            var added = keep * perGram;
            vessel = vessel.Without(drawn) + WaterMass.Of(added, s, t);
            steps.Add(
                new(
                    fromMinutes + (i * order.RestMinutes),
                    Volume.FromLitres(drawn / density),
                    Volume.FromLitres(added / waterDensity),
                    default,
                    vessel.ToBody()
                )
            );
        }

        return steps;
    }

    private static List<CorrectionStep> WithMix(
        CrossingOrder order,
        WaterMass vessel,
        double aim,
        double fromMinutes
    )
    {
        var from = vessel.SalinityPractical;
        var count = FewestSteps(order, from, aim);
        var steps = new List<CorrectionStep>(count);
        for (var i = 1; i <= count; i++)
        {
            var next = from + ((aim - from) * i / count);
            var drawn = 0.0;
            var after = Dissolved(vessel, next, order.Mix);
            if (order.ReceivingCapacity is { } capacity && after.Litres > capacity.Litres)
            {
                drawn = vessel.Grams * (1 - ((1 - Hair) * capacity.Litres / after.Litres));
            }

            var density = WaterMass.GramsPerLitre(vessel.SalinityPractical, vessel.Celsius);
            var kept = vessel.Without(drawn);
            vessel = Dissolved(kept, next, order.Mix);
            steps.Add(
                new(
                    fromMinutes + (i * order.RestMinutes),
                    Volume.FromLitres(drawn / density),
                    default,
                    Mass.FromGrams(vessel.Grams - kept.Grams),
                    vessel.ToBody()
                )
            );
        }

        return steps;
    }

    // (salt + x) / (m + x / (1 - h)) = absolute salinity wanted; x is dry salt, x / (1 - h) the mix weighed. The mix
    // takes the temperature of the water.
    private static WaterMass Dissolved(WaterMass vessel, double salinity, SaltMix mix)
    {
        var share = salinity * WaterMass.SaltPerUnit / 1000;
        var dry = ((vessel.Grams * share) - vessel.SaltGrams) / (1 - (share / (1 - mix.WaterShare)));
        var grams = vessel.Grams + mix.ToWeigh(Mass.FromGrams(dry)).Grams;
        return new(grams, vessel.SaltGrams + dry, grams * vessel.Celsius);
    }
}
