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

        var tooFresh = salinity < band.Target.Practical;
        var farOff = tooFresh ? aim - salinity : salinity - aim;
        if (farOff < (needed ? Hair : NearEnough))
        {
            return (new(needed, CorrectionMeans.None, []), salinity);
        }

        var stepped = new SteppedCorrection(
            order.ReceivingCapacity?.Litres,
            order.AllowJump,
            order.RestMinutes,
            fromMinutes
        );
        if (!tooFresh)
        {
            var fresh = vessel.ToBody() with
            {
                Volume = Volume.FromLitres(double.MaxValue),
                Salinity = default,
            };
            return (
                new(needed, CorrectionMeans.FreshWater, stepped.WithWater(vessel, aim, fresh) ?? []),
                aim
            );
        }

        if (
            order.Brine is { } brine
            && brine.Salinity.Practical >= aim + NearEnough
            && stepped.WithWater(vessel, aim, brine) is { } briny
        )
        {
            return (new(needed, CorrectionMeans.Brine, briny), aim);
        }

        return (new(needed, CorrectionMeans.SaltMix, stepped.WithMix(vessel, aim, order.Mix.Mix)), aim);
    }
}
