using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>Waters to be blended to a target: sea water, brine, fresh water, each as much as is at hand.</summary>
public sealed record BlendOrder
{
    /// <summary>The waters at hand; the first is used as far as it goes, then the second, and so on.</summary>
    public required IReadOnlyList<WaterBody> Waters { get; init; }

    /// <summary>How much is wished.</summary>
    public required Volume Wanted { get; init; }

    /// <summary>How salt, on any scale.</summary>
    public required ScaledSalinity Target { get; init; }

    /// <summary>Salt mix, for targets said in grams of it.</summary>
    public SaltProduct Product { get; init; } = SaltProduct.Unmeasured;

    /// <summary>How well the keeper measures.</summary>
    public MeasuringErrors Errors { get; init; } = new();
}

/// <summary>How much of each water, and what it gives.</summary>
/// <param name="Amounts">One for each water, in the order given; 0 for those not used.</param>
/// <param name="Blend">The blend.</param>
/// <param name="Expected">The practical salinity to expect, 5, 50 and 95 %.</param>
public sealed record WaterBlend(IReadOnlyList<Volume> Amounts, WaterBody Blend, Interval Expected);

/// <summary>Blends waters, by mass with EOS-80 densities.</summary>
public static class BlendingWater
{
    private const double Hair = 1e-9;

    /// <summary>What comes of pouring given amounts together.</summary>
    /// <returns>The blend, or why the amounts cannot be computed.</returns>
    public static MixingAnswer<WaterBlend> Of(IReadOnlyList<WaterBody> waters, MeasuringErrors errors)
    {
        ArgumentNullException.ThrowIfNull(waters);
        ArgumentNullException.ThrowIfNull(errors);
        if (waters.Select(Wishes.Of).FirstOrDefault(r => r is not null) is { } no)
        {
            return new MixingAnswer<WaterBlend>.Refused(no);
        }

        return waters.Count == 0
            ? MixingAnswer<WaterBlend>.No(MixingRefusalCode.NotEnoughWater, 0)
            : Found([.. waters.Select(WaterMass.From)], errors);
    }

    /// <summary>How much of each water makes the wished one.</summary>
    public static MixingAnswer<WaterBlend> Plan(BlendOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var no =
            Wishes.OfVolume(order.Wanted)
            ?? order.Waters.Select(Wishes.Of).FirstOrDefault(r => r is not null);
        if (no is not null)
        {
            return new MixingAnswer<WaterBlend>.Refused(no);
        }

        var waters = order.Waters.Select(WaterMass.From).ToList();
        var grams = waters.Sum(w => w.Grams);
        if (grams <= 0)
        {
            return MixingAnswer<WaterBlend>.No(MixingRefusalCode.NotEnoughWater, order.Wanted.Litres, 0);
        }

        // The blend's temperature hangs on the amounts; the mean of all is near enough to read the target with.
        var celsius = waters.Sum(w => w.HeatGramDegrees) / grams;
        var (target, refusal) = Wishes.Target(order.Target, Temperature.FromCelsius(celsius), order.Product);
        if (refusal is not null)
        {
            return new MixingAnswer<WaterBlend>.Refused(refusal);
        }

        var low = waters.Min(w => w.SalinityPractical);
        var high = waters.Max(w => w.SalinityPractical);
        if (target.Practical < low - Hair || target.Practical > high + Hair)
        {
            return MixingAnswer<WaterBlend>.No(
                MixingRefusalCode.NotBetweenTheWaters,
                target.Practical,
                Math.Clamp(target.Practical, low, high)
            );
        }

        return Amounts(order, waters, Math.Clamp(target.Practical, low, high));
    }

    private static MixingAnswer<WaterBlend> Amounts(BlendOrder order, List<WaterMass> waters, double target)
    {
        if (Solved(waters, target, order.Wanted.Litres) is { } parts)
        {
            return Found(parts, order.Errors);
        }

        var (can, cannot) = (0.0, order.Wanted.Litres);
        for (var i = 0; i < 50; i++)
        {
            var middle = (can + cannot) / 2;
            (can, cannot) = Solved(waters, target, middle) is null ? (can, middle) : (middle, cannot);
        }

        return MixingAnswer<WaterBlend>.No(MixingRefusalCode.NotEnoughWater, order.Wanted.Litres, can);
    }

    // The mass of so many litres hangs on the blend's temperature: a few rounds settle it to the last digits.
    private static List<WaterMass>? Solved(List<WaterMass> waters, double target, double litres)
    {
        var celsius = waters.Sum(w => w.HeatGramDegrees) / waters.Sum(w => w.Grams);
        List<WaterMass>? parts = null;
        for (var round = 0; round < 8; round++)
        {
            parts = ByMass(waters, target, litres * WaterMass.GramsPerLitre(target, celsius));
            if (parts is null || parts.Sum(p => p.Grams) <= 0)
            {
                return null;
            }

            celsius = parts.Sum(p => p.HeatGramDegrees) / parts.Sum(p => p.Grams);
        }

        return parts;
    }

    // Takes as much of each water, in turn, as leaves the rest able to make up mass and salt.
    private static List<WaterMass>? ByMass(List<WaterMass> waters, double target, double grams)
    {
        var rest = new List<WaterMass>(waters);
        var parts = new List<WaterMass>(waters.Count);
        var needGrams = grams;
        var needSalt = WaterMass.Of(grams, target, 0).SaltGrams;
        var hair = Hair * grams;
        var room = 0.0;
        while (rest.Count > 0)
        {
            // What one choice leaves open by rounding, the next one must be given on top.
            room += hair;
            var water = rest[0];
            rest.RemoveAt(0);
            var taken = Most(water, rest, needGrams, needSalt, room);
            if (taken is not { } part)
            {
                return null;
            }

            parts.Add(water.Part(part));
            needGrams -= part;
            needSalt -= parts[^1].SaltGrams;
        }

        return Math.Abs(needGrams) <= room + hair && Math.Abs(needSalt) <= room + hair ? parts : null;
    }

    // How far the rest misses what is left to make up grows to either side of a valley; its floor is where it can.
    private static double? Most(
        WaterMass water,
        List<WaterMass> rest,
        double needGrams,
        double needSalt,
        double room
    )
    {
        var most = Math.Min(water.Grams, Math.Max(0, needGrams));
        if (Miss(most) <= room)
        {
            return most;
        }

        var (low, high) = (0.0, most);
        for (var i = 0; i < 120 && Miss(low) > room; i++)
        {
            var (left, right) = (low + ((high - low) / 3), high - ((high - low) / 3));
            (low, high) = Miss(left) <= Miss(right) ? (low, right) : (left, high);
            if (Miss((low + high) / 2) <= room)
            {
                low = (low + high) / 2;
            }
        }

        if (Miss(low) > room)
        {
            return null;
        }

        var beyond = most;
        for (var i = 0; i < 80; i++)
        {
            var middle = (low + beyond) / 2;
            (low, beyond) = Miss(middle) <= room ? (middle, beyond) : (low, middle);
        }

        return low;

        double Miss(double taken)
        {
            var grams = needGrams - taken;
            var salt = needSalt - water.Part(taken).SaltGrams;
            var available = rest.Sum(w => w.Grams);
            var (least, greatest) = SaltRange(rest, Math.Clamp(grams, 0, available));
            return Math.Max(0, grams - available) + Math.Max(0, salt - greatest) + Math.Max(0, least - salt);
        }
    }

    // Least and most salt that so many grams of the waters can hold.
    private static (double Least, double Most) SaltRange(List<WaterMass> waters, double grams)
    {
        return (
            Filled(waters.OrderBy(w => w.SalinityPractical)),
            Filled(waters.OrderByDescending(w => w.SalinityPractical))
        );

        double Filled(IEnumerable<WaterMass> inOrder)
        {
            var (left, salt) = (grams, 0.0);
            foreach (var water in inOrder)
            {
                var part = water.Part(Math.Min(left, water.Grams));
                salt += part.SaltGrams;
                left -= part.Grams;
            }

            return salt;
        }
    }

    private static MixingAnswer<WaterBlend>.Found Found(List<WaterMass> parts, MeasuringErrors errors)
    {
        var blend = parts.Aggregate((left, right) => left + right);
        var salinity = blend.SalinityPractical;
        var variance = 0.0;
        foreach (var part in parts)
        {
            var share = part.Grams / blend.Grams;
            var ofSalinity = part.SalinityPractical > 0 ? share * Finite.NotNegative(errors.SalinitySd) : 0;
            var ofVolume =
                share * (part.SalinityPractical - salinity) * Finite.NotNegative(errors.VolumeSdShare);
            variance += (ofSalinity * ofSalinity) + (ofVolume * ofVolume);
        }

        return new(
            new(
                [.. parts.Select(p => Volume.FromLitres(p.Litres))],
                blend.ToBody(),
                Interval.FromNormal(salinity, Math.Sqrt(variance)).AtLeast(0)
            )
        );
    }
}
