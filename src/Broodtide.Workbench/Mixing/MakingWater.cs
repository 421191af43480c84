using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>Sea water to be made.</summary>
public sealed record MakeOrder
{
    /// <summary>How much finished water, at <see cref="Temperature"/>.</summary>
    public required Volume Finished { get; init; }

    /// <summary>How salt, on any scale.</summary>
    public required ScaledSalinity Target { get; init; }

    /// <summary>Temperature of the fresh and the finished water.</summary>
    public required Temperature Temperature { get; init; }

    /// <summary>The salt mix.</summary>
    public SaltProduct Product { get; init; } = SaltProduct.Unmeasured;

    /// <summary>Salinity the water to start from already has; 0 for fresh.</summary>
    public Salinity Start { get; init; }

    /// <summary>How well the keeper measures.</summary>
    public MeasuringErrors Errors { get; init; } = new();
}

/// <summary>What to weigh and to pour.</summary>
/// <param name="Mix">Salt mix to weigh, with its own water.</param>
/// <param name="Water">Water to start from, at the temperature ordered.</param>
/// <param name="Finished">What it gives.</param>
/// <param name="Expected">The practical salinity to expect, 5, 50 and 95 %.</param>
/// <param name="Doubts">What the doubt in it is made of, the greatest first.</param>
/// <param name="OtherScales">The same water on other scales.</param>
public sealed record SeaWaterRecipe(
    Mass Mix,
    Volume Water,
    WaterBody Finished,
    Interval Expected,
    IReadOnlyList<SalinityDoubt> Doubts,
    IReadOnlyList<ScaleValue> OtherScales
);

/// <summary>One source of doubt.</summary>
/// <param name="Source">What it comes from.</param>
/// <param name="Sd">Standard deviation it gives the salinity, practical salinity.</param>
public sealed record SalinityDoubt(DoubtSource Source, double Sd);

/// <summary>Where doubt in a salinity comes from.</summary>
public enum DoubtSource
{
    /// <summary>The share of water in the salt mix.</summary>
    WaterInTheMix,

    /// <summary>Weighing.</summary>
    Weighing,

    /// <summary>Measuring volumes.</summary>
    Volumes,

    /// <summary>The salinity of the waters at hand.</summary>
    StartingSalinity,
}

/// <summary>Makes sea water from mix and water.</summary>
public static class MakingWater
{
    /// <summary>Works out a recipe, by mass with EOS-80 densities.</summary>
    public static MixingAnswer<SeaWaterRecipe> Plan(MakeOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        if ((Wishes.OfVolume(order.Finished) ?? Wishes.OfTemperature(order.Temperature)) is { } no)
        {
            return new MixingAnswer<SeaWaterRecipe>.Refused(no);
        }

        var (target, refusal) = Wishes.Target(order.Target, order.Temperature, order.Product);
        if (refusal is not null)
        {
            return new MixingAnswer<SeaWaterRecipe>.Refused(refusal);
        }

        if (order.Start > target)
        {
            return MixingAnswer<SeaWaterRecipe>.No(
                MixingRefusalCode.WaterTooSalt,
                order.Start.Practical,
                target.Practical
            );
        }

        return new MixingAnswer<SeaWaterRecipe>.Found(Recipe(order, target));
    }

    private static SeaWaterRecipe Recipe(MakeOrder order, Salinity target)
    {
        var whole = order.Finished * SeawaterDensity.Eos80(target, order.Temperature).Value;
        // Product for each gram of the water to start from; the two together are the whole.
        var perGram = MakingSeaWater.ToRaise(Mass.FromGrams(1), order.Start, target, order.Product.Mix).Grams;
        var water = Mass.FromGrams(whole.Grams / (1 + perGram));
        var mix = Mass.FromGrams(whole.Grams - water.Grams);
        var finished = new WaterBody(order.Finished, target, order.Temperature);
        var doubts = Doubts(order, target, mix);
        return new(
            mix,
            water / SeawaterDensity.Eos80(order.Start, order.Temperature).Value,
            finished,
            Interval.FromNormal(target.Practical, Root.OfSquares([.. doubts.Select(d => d.Sd)])).AtLeast(0),
            doubts,
            Mixing.OtherScales.All(target, order.Temperature, order.Product)
        );
    }

    // What the mix brings is uncertain as a share of itself; so is the volume it goes into.
    private static List<SalinityDoubt> Doubts(MakeOrder order, Salinity target, Mass mix)
    {
        var brought = target.Practical - order.Start.Practical;
        List<SalinityDoubt> doubts =
        [
            new(DoubtSource.WaterInTheMix, brought * order.Product.WaterShareSd / order.Product.Mix.DryShare),
            new(DoubtSource.Weighing, brought * order.Errors.ShareOf(mix)),
            new(DoubtSource.Volumes, brought * Finite.NotNegative(order.Errors.VolumeSdShare)),
        ];
        if (order.Start > default(Salinity))
        {
            doubts.Add(new(DoubtSource.StartingSalinity, Finite.NotNegative(order.Errors.SalinitySd)));
        }

        return [.. doubts.OrderByDescending(d => d.Sd)];
    }
}
