using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>A vessel to be brought to another salinity.</summary>
public sealed record CorrectOrder
{
    /// <summary>The vessel as it is.</summary>
    public required WaterBody Vessel { get; init; }

    /// <summary>How salt it shall be, on any scale.</summary>
    public required ScaledSalinity Target { get; init; }

    /// <summary>What the vessel holds when full; none where there is room.</summary>
    public Volume? Capacity { get; init; }

    /// <summary>Whether the volume stays: as much is drawn off as is added.</summary>
    public bool KeepVolume { get; init; }

    /// <summary>Saltier water at hand, used before the mix where it suffices.</summary>
    public WaterBody? Brine { get; init; }

    /// <summary>Water at hand to lower with; none for fresh water of the vessel's temperature, as much as it takes.</summary>
    public WaterBody? Fresh { get; init; }

    /// <summary>The salt mix to raise with.</summary>
    public SaltProduct Product { get; init; } = SaltProduct.Unmeasured;

    /// <summary>Whether the vessel may change by more than 1 ppt or 1 degC at once.</summary>
    public bool AllowJump { get; init; }

    /// <summary>Minutes between two changes.</summary>
    public double RestMinutes { get; init; } = GentleChange.RestMinutes;

    /// <summary>How well the keeper measures.</summary>
    public MeasuringErrors Errors { get; init; } = new();
}

/// <summary>How a vessel is brought to a salinity.</summary>
/// <param name="Means">What it is done with.</param>
/// <param name="Steps">The changes; none where nothing is to be done.</param>
/// <param name="Mix">Salt mix in all.</param>
/// <param name="Water">Water added in all.</param>
/// <param name="DrawnOff">Water drawn off in all.</param>
/// <param name="Expected">The practical salinity to expect at the end, 5, 50 and 95 %.</param>
public sealed record WaterCorrection(
    CorrectionMeans Means,
    IReadOnlyList<CorrectionStep> Steps,
    Mass Mix,
    Volume Water,
    Volume DrawnOff,
    Interval Expected
);

/// <summary>Corrects the salinity of a vessel in steps its animals bear.</summary>
public static class CorrectingWater
{
    /// <summary>Water at hand must lie this far beyond the target to lead there; practical salinity.</summary>
    public const double BeyondTarget = 0.1;

    private const double NoChange = 1e-9;

    /// <summary>Works out the steps, by mass with EOS-80 densities.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The minutes between changes are not finite or negative.</exception>
    public static MixingAnswer<WaterCorrection> Plan(CorrectOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var no =
            Wishes.Of(order.Vessel)
            ?? (order.Brine is { } brine ? Wishes.Of(brine) : null)
            ?? (order.Fresh is { } given ? Wishes.Of(given) : null);
        if (no is not null)
        {
            return new MixingAnswer<WaterCorrection>.Refused(no);
        }

        if (order.Capacity is { } full && full < order.Vessel.Volume)
        {
            return MixingAnswer<WaterCorrection>.No(
                MixingRefusalCode.VolumeOutsideRange,
                order.Vessel.Volume.Litres,
                full.Litres
            );
        }

        var (target, refusal) = Wishes.Target(order.Target, order.Vessel.Temperature, order.Product);
        if (refusal is not null)
        {
            return new MixingAnswer<WaterCorrection>.Refused(refusal);
        }

        return Towards(order, target.Practical);
    }

    private static MixingAnswer<WaterCorrection> Towards(CorrectOrder order, double target)
    {
        var now = order.Vessel.Salinity.Practical;
        var vessel = WaterMass.From(order.Vessel);
        var stepped = new SteppedCorrection(
            order.KeepVolume ? order.Vessel.Volume.Litres : order.Capacity?.Litres,
            order.AllowJump,
            Finite.NotNegative(order.RestMinutes),
            -order.RestMinutes
        );
        if (Math.Abs(target - now) < NoChange)
        {
            return Found(order, target, CorrectionMeans.None, []);
        }

        if (target > now)
        {
            return
                order.Brine is { } brine
                && brine.Salinity.Practical >= target + BeyondTarget
                && stepped.WithWater(vessel, target, brine) is { } briny
                ? Found(order, target, CorrectionMeans.Brine, briny)
                : Found(
                    order,
                    target,
                    CorrectionMeans.SaltMix,
                    stepped.WithMix(vessel, target, order.Product.Mix)
                );
        }

        var fresh =
            order.Fresh
            ?? order.Vessel with
            {
                Volume = Volume.FromLitres(double.MaxValue),
                Salinity = default,
            };
        var lowest = fresh.Salinity.Practical + BeyondTarget;
        if (target < lowest)
        {
            return MixingAnswer<WaterCorrection>.No(
                MixingRefusalCode.NotBetweenTheWaters,
                target,
                Math.Min(now, lowest)
            );
        }

        if (stepped.WithWater(vessel, target, fresh) is { } steps)
        {
            return Found(order, target, CorrectionMeans.FreshWater, steps);
        }

        var unlimited = stepped.WithWater(
            vessel,
            target,
            fresh with
            {
                Volume = Volume.FromLitres(double.MaxValue),
            }
        );
        return MixingAnswer<WaterCorrection>.No(
            MixingRefusalCode.NotEnoughWater,
            fresh.Volume.Litres,
            unlimited?.Sum(s => s.AddWater.Litres)
        );
    }

    private static MixingAnswer<WaterCorrection>.Found Found(
        CorrectOrder order,
        double target,
        CorrectionMeans means,
        IReadOnlyList<CorrectionStep> steps
    )
    {
        var mix = Mass.FromGrams(steps.Sum(s => s.AddMix.Grams));
        return new(
            new(
                means,
                steps,
                mix,
                Volume.FromLitres(steps.Sum(s => s.AddWater.Litres)),
                Volume.FromLitres(steps.Sum(s => s.DrawOff.Litres)),
                Expected(order, target, means, mix)
            )
        );
    }

    // The doubt in where it starts is carried through, less what is diluted; the change itself is uncertain as a
    // share of itself.
    private static Interval Expected(CorrectOrder order, double target, CorrectionMeans means, Mass mix)
    {
        var now = order.Vessel.Salinity.Practical;
        var carried = target < now && now > 0 ? target / now : 1;
        var change = Math.Abs(target - now);
        var ofMix =
            means == CorrectionMeans.SaltMix
                ? Root.OfSquares(
                    order.Product.WaterShareSd / order.Product.Mix.DryShare,
                    order.Errors.ShareOf(mix)
                )
                : 0;
        var sd = Root.OfSquares(
            carried * Finite.NotNegative(order.Errors.SalinitySd),
            change * Finite.NotNegative(order.Errors.VolumeSdShare),
            change * ofMix
        );
        return Interval.FromNormal(target, sd).AtLeast(0);
    }
}
