namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What a twin tells of the water.</summary>
public enum VesselQuantity
{
    /// <summary>Algae in the water, cells/mL of the kind that is counted.</summary>
    CellsPerMillilitre,

    /// <summary>Film as a share of the thickest, 0 to 1 and, where it was thicker once, above.</summary>
    FilmShare,

    /// <summary>Nitrogen of food and dead matter in the water, mg/L.</summary>
    Suspended,

    /// <summary>Nitrogen of food and dead matter on the bottom, mg/L of the vessel.</summary>
    Settled,

    /// <summary>Ammonia and ammonium as nitrogen, mg/L.</summary>
    Tan,

    /// <summary>Nitrite as nitrogen, mg/L.</summary>
    Nitrite,

    /// <summary>Nitrate as nitrogen, mg/L.</summary>
    Nitrate,

    /// <summary>Dissolved oxygen, mg/L.</summary>
    Oxygen,

    /// <summary>pH as an electrode set in NBS buffers reads it.</summary>
    PHNbs,

    /// <summary>Un-ionised ammonia as nitrogen, mg/L, by Hampson's constant.</summary>
    UnionisedAmmonia,
}
