namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What differs from member to member of an ensemble and is learned. Rates at 25 degC.</summary>
public enum VesselParameter
{
    /// <summary>Growth of the algae in the water in the best light with nitrogen in plenty, 1/d.</summary>
    AlgalGrowthPerDay,

    /// <summary>Light of best growth, umol/(m2 s).</summary>
    BestLightMicromoles,

    /// <summary>Death of well-fed algae, 1/d.</summary>
    AlgalDeathPerDay,

    /// <summary>Further death of algae without nitrogen, 1/d.</summary>
    StarvedDeathPerDay,

    /// <summary>Decay of food and dead matter to ammonia, 1/d.</summary>
    DecayPerDay,

    /// <summary>How many times faster decay takes its oxygen than it gives off its nitrogen.</summary>
    OxygenHaste,

    /// <summary>Sinking of food and dead matter to the bottom, 1/d.</summary>
    SinkingPerDay,

    /// <summary>Oxygen through a surface at rest, m/d.</summary>
    StillSurfaceMetresPerDay,

    /// <summary>Oxygen by gentle air, 1/d in addition; strong air brings four times as much.</summary>
    GentleAirPerDay,

    /// <summary>Nitrogen that a grown film of nitrifiers takes, g/(m2 d).</summary>
    NitrifiedGramsPerSquareMetreDay,

    /// <summary>Days until half of the ammonia oxidisers have grown.</summary>
    AmmoniaOxidiserDays,

    /// <summary>Days by which nitrite oxidisers come later.</summary>
    NitriteOxidiserDelayDays,

    /// <summary>Growth of the film, 1/d.</summary>
    FilmGrowthPerDay,

    /// <summary>Nitrogen in the thickest film, mg/cm2.</summary>
    ThickFilmMilligramsPerSquareCentimetre,

    /// <summary>Water that a larva clears, mL/d.</summary>
    ClearedMillilitresPerDay,

    /// <summary>Nitrogen in one algal cell, pg: turns counts into nitrogen.</summary>
    CellNitrogenPicograms,

    /// <summary>Nitrogen at which algae grow half as fast, mg/L.</summary>
    HalfGrowthNitrogen,

    /// <summary>Ammonia, and nitrite, at which nitrifiers take half as much, mg/L.</summary>
    HalfNitrifiedNitrogen,

    /// <summary>Shading by algae, 1/m for a mg/L of their nitrogen.</summary>
    ShadingPerMetre,

    /// <summary>Breathing of algae, their carbon a day, 1/d.</summary>
    AlgalBreathPerDay,

    /// <summary>Photosynthesis that goes on without nitrogen, share of what it is with it.</summary>
    UnfedPhotosynthesis,

    /// <summary>Loss of film to the bottom, 1/d.</summary>
    FilmLossPerDay,

    /// <summary>Ammonia given off by larvae, ug N a mg of dry mass and hour.</summary>
    ExcretedMicrogramsPerMilligramHour,

    /// <summary>Carbon dioxide of the room's air, microatmospheres.</summary>
    RoomCarbonDioxide,

    /// <summary>Error of the number of larvae given, standard normal: one member has it high for ever, another low.</summary>
    LarvaeError,
}
