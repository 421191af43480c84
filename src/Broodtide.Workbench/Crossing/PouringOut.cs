using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>Works out how the cup is poured into the receiving vessel.</summary>
internal static class PouringOut
{
    private const int MostPortions = 20;
    private const double Hair = 1e-9;

    /// <summary>The pouring, or the code of what stands in the way with the litres it would take.</summary>
    public static (Pouring? Pouring, CrossingRefusalCode Code, double NeededLitres) Plan(
        CrossingOrder order,
        WaterMass cup,
        double atMinutes
    )
    {
        var receiving = WaterMass.From(order.Receiving);
        var gentle = !order.AllowJump && receiving.Grams > 0;
        var least = Math.Min(cup.Grams, cup.Grams / cup.Litres * CupSchedule.LeastLitres(order));
        var kept = cup;
        if (gentle)
        {
            var roomed = receiving.Without(GramsOver(order, receiving, cup));
            kept = cup.Part(Math.Clamp(MostAtOnce(roomed, cup), least, cup.Grams));
        }

        if (order.ReceivingCapacity is { } capacity && kept.Litres > capacity.Litres)
        {
            return (null, CrossingRefusalCode.ReceivingTooSmall, kept.Litres * (1 + Hair));
        }

        var over = GramsOver(order, receiving, kept);
        var vessel = receiving.Without(over);
        if (gentle && vessel.Grams <= receiving.Grams * Hair)
        {
            // Poured away but for crumbs of rounding, which have no warmth and no salt to speak of: what counts is what
            // stood there before.
            if (GentleChange.Apart(receiving, cup) > 1)
            {
                return (
                    null,
                    CrossingRefusalCode.PourTooGreat,
                    LitresOf(receiving, ForOnePour(receiving, cup, least))
                );
            }

            gentle = false;
        }

        var left = kept.Grams;
        var portions = new List<PouredPortion>();
        while (left > 0)
        {
            if (portions.Count == MostPortions)
            {
                return (
                    null,
                    CrossingRefusalCode.PourTooGreat,
                    LitresOf(receiving, ForOnePour(receiving, cup, least))
                );
            }

            var grams = gentle ? Math.Min(left, MostAtOnce(vessel, cup)) : left;
            // Crumbs of rounding go with the portion before them.
            grams = left - grams < kept.Grams * Hair ? left : grams;
            vessel += cup.Part(grams);
            left -= grams;
            portions.Add(
                new(
                    atMinutes + (portions.Count * order.RestMinutes),
                    Volume.FromLitres(cup.Part(grams).Litres),
                    vessel.ToBody()
                )
            );
        }

        var pouring = new Pouring(
            Volume.FromLitres(Math.Max(0, cup.Litres - kept.Litres)),
            Volume.FromLitres(receiving.Part(over).Litres),
            portions
        );
        return (pouring, default, 0);
    }

    // Grams of the cup that change the vessel by no more than is allowed: x / (x + m) * apart <= 1.
    private static double MostAtOnce(WaterMass vessel, WaterMass cup)
    {
        var apart = GentleChange.Apart(vessel, cup);
        return apart <= 1 ? double.MaxValue : (1 - Hair) * vessel.Grams / (apart - 1);
    }

    // Grams of the receiving water that take the least with animals at one go.
    private static double ForOnePour(WaterMass receiving, WaterMass cup, double least) =>
        least * (GentleChange.Apart(receiving, cup) - 1) * (1 + Hair);

    private static double GramsOver(CrossingOrder order, WaterMass receiving, WaterMass poured)
    {
        if (order.ReceivingCapacity is not { } capacity || receiving.Grams <= 0)
        {
            return 0;
        }

        var over = receiving.Litres + poured.Litres - capacity.Litres;
        return Math.Clamp(over * (receiving.Grams / receiving.Litres), 0, receiving.Grams);
    }

    private static double LitresOf(WaterMass kind, double grams) => grams * (kind.Litres / kind.Grams);
}
