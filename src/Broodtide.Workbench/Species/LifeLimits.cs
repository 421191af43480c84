using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>What lives in a water, as far as its limits differ.</summary>
public enum LifeStage
{
    /// <summary>The first third of the zoeal stages, and eggs off the female: the most tender.</summary>
    EarlyZoea,

    /// <summary>The second third.</summary>
    MiddleZoea,

    /// <summary>The last third.</summary>
    LateZoea,

    /// <summary>Post-larvae and juveniles.</summary>
    Settled,

    /// <summary>Adults.</summary>
    Adult,
}

/// <summary>What of a water has a limit.</summary>
public enum LimitedQuantity
{
    /// <summary>Un-ionised ammonia as nitrogen, mg/L.</summary>
    UnionisedAmmonia,

    /// <summary>Nitrite as nitrogen, mg/L.</summary>
    Nitrite,

    /// <summary>Nitrate as nitrogen, mg/L.</summary>
    Nitrate,

    /// <summary>Dissolved oxygen, mg/L.</summary>
    Oxygen,

    /// <summary>Temperature, degC.</summary>
    Temperature,

    /// <summary>pH by ordinary buffers.</summary>
    Acidity,

    /// <summary>Practical salinity.</summary>
    Salinity,
}

/// <summary>One limit of one quantity at one stage.</summary>
/// <param name="Quantity">Of what.</param>
/// <param name="IsUpper">Whether it is the most that is good; the least otherwise.</param>
/// <param name="Value">The limit, in the unit of the quantity.</param>
/// <param name="From">The number of the profile: its provenance, source, note, and the keeper's choice on top.</param>
/// <param name="IsDanger">
/// Whether it is where harm is near, apart from what is advised. A quantity without one has its harm at the limit itself.
/// </param>
public sealed record LifeLimit(
    LimitedQuantity Quantity,
    bool IsUpper,
    double Value,
    ProfileQuantity From,
    bool IsDanger = false
);

public sealed partial class SpeciesProfile
{
    /// <summary>
    /// The limits of the water by what lives in it, the keeper's choices included. What a profile does not tell of a
    /// stage is taken from the stage before, which is more tender; what it does not tell at all is left out.
    /// </summary>
    /// <param name="stage">What lives in the water.</param>
    public ImmutableArray<LifeLimit> LimitsFor(LifeStage stage)
    {
        var isLarva = stage is LifeStage.EarlyZoea or LifeStage.MiddleZoea or LifeStage.LateZoea;
        var limits = ImmutableArray.CreateBuilder<LifeLimit>();
        Upper(LimitedQuantity.UnionisedAmmonia, Staged(QuantityCodes.AmmoniaNitrogenLimit, stage));
        Upper(LimitedQuantity.Nitrite, Staged(QuantityCodes.NitriteNitrogenLimit, stage));
        Upper(LimitedQuantity.Nitrate, Find("nitrate-nitrogen-limit"));
        Lower(LimitedQuantity.Oxygen, Find(QuantityCodes.DissolvedOxygenLimit));
        Lower(LimitedQuantity.Oxygen, Find("dissolved-oxygen-danger"), isDanger: true);
        Upper(LimitedQuantity.Acidity, Find(QuantityCodes.PhLimits));
        Lower(LimitedQuantity.Acidity, Find(QuantityCodes.PhLimits));
        Upper(LimitedQuantity.Acidity, Find("ph-danger"), isDanger: true);
        if (isLarva)
        {
            Upper(LimitedQuantity.Temperature, Find(QuantityCodes.LarvalTemperatureLosses));
            Lower(LimitedQuantity.Temperature, Find(QuantityCodes.LarvalTemperature));
            var (young, old) = SalinityOf(stage);
            Upper(LimitedQuantity.Salinity, old);
            Lower(LimitedQuantity.Salinity, young);
            Lower(LimitedQuantity.Salinity, Find(QuantityCodes.LarvalSalinity), isDanger: true);
        }
        else
        {
            Upper(LimitedQuantity.Temperature, Find("adult-temperature-danger"));
        }

        return limits.ToImmutable();

        void Upper(LimitedQuantity quantity, ProfileQuantity? from, bool isDanger = false)
        {
            if (from is not null && (from.High ?? from.Value) is { } value)
            {
                limits.Add(new(quantity, IsUpper: true, value, from, isDanger));
            }
        }

        void Lower(LimitedQuantity quantity, ProfileQuantity? from, bool isDanger = false)
        {
            if (from is not null && (from.Low ?? from.Value) is { } value)
            {
                limits.Add(new(quantity, IsUpper: false, value, from, isDanger));
            }
        }
    }

    /// <summary>The third of the zoeal stages that a stage belongs to.</summary>
    /// <param name="order">Order of the stage in the profile, from 1; the last is the post-larva.</param>
    public LifeStage LifeStageOf(int order)
    {
        var zoeae = Stages.Length - 1;
        return order > zoeae ? LifeStage.Settled
            : 3 * order <= zoeae ? LifeStage.EarlyZoea
            : 3 * order <= 2 * zoeae ? LifeStage.MiddleZoea
            : LifeStage.LateZoea;
    }

    // The bands that hold for the first and for the last stage of a third.
    private (ProfileQuantity Young, ProfileQuantity Old) SalinityOf(LifeStage stage)
    {
        var orders = Enumerable
            .Range(1, Math.Max(1, Stages.Length - 1))
            .Where(order => LifeStageOf(order) == stage)
            .DefaultIfEmpty(1)
            .ToList();
        return (SalinityAt(orders.Min()).From, SalinityAt(orders.Max()).From);
    }

    private ProfileQuantity? Staged(string code, LifeStage stage)
    {
        string[] endings = stage switch
        {
            LifeStage.EarlyZoea => [""],
            LifeStage.MiddleZoea => ["-middle", ""],
            LifeStage.LateZoea => ["-late", "-middle", ""],
            _ => ["-settled", "-late", "-middle", ""],
        };
        return endings.Select(ending => Find(code + ending)).OfType<ProfileQuantity>().FirstOrDefault();
    }
}
