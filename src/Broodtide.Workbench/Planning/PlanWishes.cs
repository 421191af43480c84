using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Planning;

/// <summary>What a keeper wishes of a plan, beyond the species profile.</summary>
public sealed record PlanWishes
{
    /// <summary>Sea water for the larvae; none to work it out from the vessels or the larvae to expect.</summary>
    public Volume? LarvalWater { get; init; }

    /// <summary>The salt mix.</summary>
    public SaltProduct Product { get; init; } = SaltProduct.Unmeasured;

    /// <summary>Whether water is to be sterilised with bleach.</summary>
    public bool Sterilise { get; init; }

    /// <summary>
    /// Available chlorine of the bleach. Household bleach is sold at about 2.5 to 5 %; the bottle decides. Practice.
    /// </summary>
    public Concentration BleachStrength { get; init; } = Concentration.FromGramsPerLitre(25);

    /// <summary>
    /// Cells of a green-water culture when it is used, per mL: Tetraselmis is harvested at 0.5 to 2 million, from
    /// memory.
    /// </summary>
    public CellDensity Culture { get; init; } = CellDensity.FromPerMillilitre(1e6);

    /// <summary>Temperature of the room, for the density of water.</summary>
    public Temperature Room { get; init; } = Temperature.FromCelsius(24);
}
