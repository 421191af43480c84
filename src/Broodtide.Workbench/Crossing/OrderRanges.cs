using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>A number of an order outside what can be computed or done, and the order with it moved to the edge.</summary>
internal sealed record OutOfRange(CrossingField Field, double Given, double Edge, CrossingOrder Moved);

/// <summary>
/// What an order may hold. Salinity and temperature: the published range of the density formula EOS-80 (0 to 42,
/// -2 to 40 degC on IPTS-68), a hundredth of a degree inside it. The other bounds are those of a bench.
/// </summary>
internal static class OrderRanges
{
    private const double LowestCelsius = -1.99;
    private const double HighestCelsius = 39.98;
    private const double HighestSalinity = 42;
    private const double LeastCupLitres = 0.001;
    private const double MostCupLitres = 1000;
    private const double MostVesselLitres = 1e6;
    private const double MostMinutes = 24 * 60;
    private const double MostRestMinutes = 7 * 24 * 60;

    /// <summary>The first number out of range, or null.</summary>
    public static OutOfRange? First(CrossingOrder order) =>
        Litres(
            CrossingField.CupCapacity,
            order.CupCapacity,
            (LeastCupLitres, MostCupLitres),
            v => order with { CupCapacity = v }
        )
        ?? Body(
            (CrossingField.CupVolume, CrossingField.CupSalinity, CrossingField.CupTemperature),
            order.Cup,
            (LeastCupLitres, MostCupLitres),
            w => order with { Cup = w }
        )
        ?? Body(
            (CrossingField.SourceVolume, CrossingField.SourceSalinity, CrossingField.SourceTemperature),
            order.Source,
            (0, MostVesselLitres),
            w => order with { Source = w }
        )
        ?? Body(
            (
                CrossingField.ReceivingVolume,
                CrossingField.ReceivingSalinity,
                CrossingField.ReceivingTemperature
            ),
            order.Receiving,
            (0, MostVesselLitres),
            w => order with { Receiving = w }
        )
        ?? Times(order)
        ?? Wishes(order);

    /// <summary>The bounds that hang on other numbers of the order, once those are in range.</summary>
    public static OutOfRange? Dependent(CrossingOrder order)
    {
        if (order.LeastWithAnimals is { } least)
        {
            var most = Math.Min(order.Cup.Volume.Litres, order.CupCapacity.Litres / 2);
            var outside = Litres(
                CrossingField.LeastWithAnimals,
                least,
                (LeastCupLitres / 10, most),
                v => order with { LeastWithAnimals = v }
            );
            if (outside is not null)
            {
                return outside;
            }
        }

        return order.ReceivingCapacity is { } capacity
            ? Litres(
                CrossingField.ReceivingCapacity,
                capacity,
                (Math.Max(LeastCupLitres, order.Receiving.Volume.Litres), 2 * MostVesselLitres),
                v => order with { ReceivingCapacity = v }
            )
            : null;
    }

    private static OutOfRange? Times(CrossingOrder order) =>
        Number(
            CrossingField.WantedMinutes,
            Finite.Required(order.WantedMinutes),
            (0, MostMinutes),
            v => order with { WantedMinutes = v }
        )
        ?? Number(
            CrossingField.RestMinutes,
            Finite.Required(order.RestMinutes),
            (0, MostRestMinutes),
            v => order with { RestMinutes = v }
        );

    private static OutOfRange? Wishes(CrossingOrder order)
    {
        if (
            order.CupTarget is { } target
            && Practical(CrossingField.CupTarget, target, v => order with { CupTarget = v }) is { } far
        )
        {
            return far;
        }

        if (
            order.WantedSteps is { } steps
            && Number(CrossingField.WantedSteps, steps, (1, 60), v => order with { WantedSteps = (int)v })
                is { } many
        )
        {
            return many;
        }

        var band = order.ReceivingBand;
        var salt = Practical(
            CrossingField.BandTarget,
            band.Target,
            v =>
                order with
                {
                    ReceivingBand = SalinityBand.From(band.Lower < v ? band.Lower : v, v, band.Upper),
                }
        );
        return salt
            ?? (
                order.Brine is { } brine
                    ? Body(
                        (
                            CrossingField.BrineVolume,
                            CrossingField.BrineSalinity,
                            CrossingField.BrineTemperature
                        ),
                        brine,
                        (0, MostVesselLitres),
                        w => order with { Brine = w }
                    )
                    : null
            );
    }

    private static OutOfRange? Body(
        (CrossingField Volume, CrossingField Salinity, CrossingField Temperature) fields,
        WaterBody water,
        (double Least, double Most) litres,
        Func<WaterBody, CrossingOrder> with
    ) =>
        Litres(fields.Volume, water.Volume, litres, v => with(water with { Volume = v }))
        ?? Practical(fields.Salinity, water.Salinity, s => with(water with { Salinity = s }))
        ?? Number(
            fields.Temperature,
            water.Temperature.Celsius,
            (LowestCelsius, HighestCelsius),
            t => with(water with { Temperature = Temperature.FromCelsius(t) })
        );

    private static OutOfRange? Litres(
        CrossingField field,
        Volume given,
        (double Least, double Most) range,
        Func<Volume, CrossingOrder> with
    ) => Number(field, given.Litres, range, v => with(Volume.FromLitres(v)));

    private static OutOfRange? Practical(
        CrossingField field,
        Salinity given,
        Func<Salinity, CrossingOrder> with
    ) => Number(field, given.Practical, (0, HighestSalinity), v => with(Salinity.FromPractical(v)));

    private static OutOfRange? Number(
        CrossingField field,
        double given,
        (double Least, double Most) range,
        Func<double, CrossingOrder> with
    )
    {
        var edge = Math.Clamp(given, range.Least, range.Most);
        return edge == given ? null : new(field, given, edge, with(edge));
    }
}
