using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Workbench.Mixing;

/// <summary>Algae culture to be poured into a vessel for a wished density of food.</summary>
public sealed record DoseOrder
{
    /// <summary>The vessel with the larvae.</summary>
    public required WaterBody Vessel { get; init; }

    /// <summary>Cells in it now.</summary>
    public required CellDensity Present { get; init; }

    /// <summary>Cells wished.</summary>
    public required CellDensity Target { get; init; }

    /// <summary>Cells of the culture.</summary>
    public required CellDensity Culture { get; init; }

    /// <summary>Salinity of the culture's water; none where it is not known.</summary>
    public Salinity? CultureSalinity { get; init; }

    /// <summary>Whether the dose takes the place of vessel water drawn off first, so that the volume stays.</summary>
    public bool Replaces { get; init; }
}

/// <summary>A dose.</summary>
/// <param name="Dose">Culture to pour; 0 where there is food enough.</param>
/// <param name="DrawOff">Vessel water to draw off first; 0 where the volume may rise.</param>
/// <param name="After">The vessel afterwards, at its own temperature; its salinity is unchanged where the culture's is not known.</param>
/// <param name="SalinityChange">How much saltier the vessel gets, practical salinity; none where it is not known.</param>
/// <param name="ShareOfVessel">Dose as a share of the vessel's water.</param>
/// <param name="Warning">Whether it is much at once.</param>
public sealed record FoodDose(
    Volume Dose,
    Volume DrawOff,
    WaterBody After,
    double? SalinityChange,
    double ShareOfVessel,
    DoseWarning Warning
);

/// <summary>How much a dose is for one time: medium, salinity and pH come with it. Practice, no source.</summary>
public enum DoseWarning
{
    /// <summary>Not over a twentieth of the vessel.</summary>
    None,

    /// <summary>Over a twentieth: better in two doses.</summary>
    Large,

    /// <summary>Over a tenth: thicken the culture or aim lower.</summary>
    VeryLarge,
}

/// <summary>
/// Volume of culture for a density of food, by balance of cells. With Vt the vessel's volume, C0 its cells, Ct the
/// target and Cc the culture: V = (Ct - C0) Vt / (Cc - Ct) where the volume rises, V = (Ct - C0) Vt / (Cc - C0)
/// where the dose replaces water.
/// </summary>
public static class CultureDose
{
    private const double LargeShare = 0.05;
    private const double VeryLargeShare = 0.1;

    /// <summary>Works out a dose.</summary>
    /// <returns>
    /// The dose, 0 where there are cells enough; or a refusal where the culture is not denser than the target.
    /// </returns>
    public static MixingAnswer<FoodDose> Plan(DoseOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        if (Wishes.Of(order.Vessel) is { } no)
        {
            return new MixingAnswer<FoodDose>.Refused(no);
        }

        if (order.CultureSalinity is { } salinity && Wishes.OfSalinity(salinity) is { } tooSalt)
        {
            return new MixingAnswer<FoodDose>.Refused(tooSalt);
        }

        if (CellsLikely.OfFood(order.Target) is not null)
        {
            return MixingAnswer<FoodDose>.No(
                MixingRefusalCode.CellsPerLitreLikely,
                order.Target.PerMillilitre,
                order.Target.PerMillilitre / 1000
            );
        }

        var (present, target, culture) = (
            order.Present.PerMillilitre,
            order.Target.PerMillilitre,
            order.Culture.PerMillilitre
        );
        if (present >= target)
        {
            return new MixingAnswer<FoodDose>.Found(Poured(order, 0));
        }

        if (culture <= target)
        {
            return MixingAnswer<FoodDose>.No(
                MixingRefusalCode.CultureTooThin,
                target,
                Math.Max(present, (present + culture) / 2)
            );
        }

        var litres =
            (target - present)
            * order.Vessel.Volume.Litres
            / (order.Replaces ? culture - present : culture - target);
        // A culture hardly above the target would be poured without end.
        return double.IsFinite(litres) && litres <= order.Vessel.Volume.Litres
            ? new MixingAnswer<FoodDose>.Found(Poured(order, litres))
            : MixingAnswer<FoodDose>.No(MixingRefusalCode.CultureTooThin, target, (present + culture) / 2);
    }

    private static FoodDose Poured(DoseOrder order, double litres)
    {
        var before = order.Vessel;
        var drawn = order.Replaces ? litres : 0;
        var rest = WaterMass.From(before with { Volume = Volume.FromLitres(before.Volume.Litres - drawn) });
        var after =
            rest
            + WaterMass.From(
                new(Volume.FromLitres(litres), order.CultureSalinity ?? before.Salinity, before.Temperature)
            );
        var share = litres / before.Volume.Litres;
        return new(
            Volume.FromLitres(litres),
            Volume.FromLitres(drawn),
            after.ToBody(),
            order.CultureSalinity is null ? null : after.SalinityPractical - before.Salinity.Practical,
            share,
            share > VeryLargeShare ? DoseWarning.VeryLarge
                : share > LargeShare ? DoseWarning.Large
                : DoseWarning.None
        );
    }
}
