using System.Collections.Immutable;
using static Broodtide.Science.Estimation.Vessels.PriorFooting;
using static Broodtide.Science.Estimation.Vessels.VesselParameter;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What is believed of all parameters, each with its source. Rates at 25 degC.</summary>
public sealed record VesselPriors
{
    private VesselPriors(ImmutableArray<VesselPrior> rows) => Rows = rows;

    private static VesselPriors Wander(ImmutableArray<VesselPrior> rows) =>
        new([.. rows.Select(row => Wandering.Contains(row.Parameter) ? row.Wandering(WanderDays) : row)]);

    /// <summary>One for each parameter, in their order.</summary>
    public ImmutableArray<VesselPrior> Rows { get; }

    /// <summary>The belief about one parameter.</summary>
    public VesselPrior this[VesselParameter parameter] => Rows[(int)parameter];

    // What wanders from day to day, and how long it remembers. That rates of living water change within weeks is common
    // practice; the days are this project's estimate, held against months of another model (docs/science/vessel-twin.md).
    private const double WanderDays = 10;

    private static readonly VesselParameter[] Wandering =
    [
        AlgalGrowthPerDay,
        AlgalDeathPerDay,
        StarvedDeathPerDay,
        DecayPerDay,
        OxygenHaste,
        SinkingPerDay,
        StillSurfaceMetresPerDay,
        GentleAirPerDay,
        NitrifiedGramsPerSquareMetreDay,
        FilmGrowthPerDay,
        ClearedMillilitresPerDay,
        AlgalBreathPerDay,
        UnfedPhotosynthesis,
        FilmLossPerDay,
        ExcretedMicrogramsPerMilligramHour,
        RoomCarbonDioxide,
    ];

    /// <summary>The same with another belief about one parameter.</summary>
    public VesselPriors With(VesselPrior prior) => new(Rows.SetItem((int)prior.Parameter, prior));

    /// <summary>For a vessel of larvae with green <em>Tetraselmis</em> water in home conditions.</summary>
    public static VesselPriors Usual { get; } =
        Wander([
            new(
                AlgalGrowthPerDay,
                0.5,
                0.4,
                0,
                3,
                Memory,
                "Tetraselmis 0.3 to 0.8 a day at 22 to 26 degC; other hatchery algae 0.2 to 1.8"
            ),
            new(
                BestLightMicromoles,
                120,
                0.6,
                15,
                1500,
                Practice,
                "cultures grow at 60 to 150; a keeper's lamp is known to half or double"
            ),
            new(AlgalDeathPerDay, 0.05, 0.6, 0, 1, Practice, "reference model of this project"),
            new(
                StarvedDeathPerDay,
                0.1,
                0.8,
                0,
                2,
                Practice,
                "cultures turn within days to weeks when their nitrogen is used up"
            ),
            new(DecayPerDay, 0.12, 0.55, 0, 1.5, Practice, "0.05 to 0.3 a day at 25 degC"),
            new(
                OxygenHaste,
                5,
                0.6,
                0,
                30,
                Practice,
                "yeast is known to empty water of oxygen in a night, while its ammonia comes over weeks: carbon is burnt long before nitrogen is given off"
            ),
            new(SinkingPerDay, 1, 0.8, 0, 20, Practice, "powder settles within hours to days"),
            new(
                StillSurfaceMetresPerDay,
                0.4,
                0.5,
                0,
                10,
                Memory,
                "gas transfer through quiet indoor water, 0.2 to 1 m/d"
            ),
            new(
                GentleAirPerDay,
                25,
                0.7,
                0,
                500,
                Memory,
                "a small air stone in litres of water, order of 1 an hour"
            ),
            new(
                NitrifiedGramsPerSquareMetreDay,
                0.08,
                0.8,
                0,
                0.6,
                Borrowed,
                "at most 0.28 in sea water at 24 degC (Nijhof and Bovendeur 1990, abstract); active surface uncertain by ten times"
            ),
            new(
                AmmoniaOxidiserDays,
                24,
                0.55,
                3,
                120,
                Practice,
                "a new sponge takes 2 to 6 weeks; water and gear from other tanks bring some along"
            ),
            new(NitriteOxidiserDelayDays, 10, 0.5, 0, 60, Practice, "nitrite stands for one or two weeks"),
            new(
                FilmGrowthPerDay,
                0.3,
                0.5,
                0,
                2,
                Borrowed,
                "benthic diatoms 0.06 to 0.42 divisions a day and more (abstracts); films 0.1 to 0.8 a day"
            ),
            new(
                ThickFilmMilligramsPerSquareCentimetre,
                0.004,
                0.8,
                1e-6,
                0.1,
                Memory,
                "1e4 to 1e6 cells/cm2 of some pg of nitrogen each"
            ),
            new(
                ClearedMillilitresPerDay,
                2.2,
                0.9,
                0,
                50,
                Borrowed,
                "0.5 to 10; Metapenaeus ensis about 0.75 (abstract); no atyid was measured"
            ),
            new(
                CellNitrogenPicograms,
                8.3,
                0.3,
                0.01,
                100,
                Memory,
                "Tetraselmis suecica, protein / 6.25 (Brown 1991)"
            ),
            new(HalfGrowthNitrogen, 0.014, 0.45, 0, 1, Memory, "0.5 to 2 umol/L"),
            new(
                HalfNitrifiedNitrogen,
                1,
                0.5,
                0,
                20,
                Borrowed,
                "a straight line up to 0.5 mg/L fits (Malone et al. 2006, abstract)"
            ),
            new(
                ShadingPerMetre,
                2.8,
                0.5,
                0,
                50,
                Memory,
                "0.02 m2/mg chlorophyll; carbon to chlorophyll 40, to nitrogen 5.7"
            ),
            new(AlgalBreathPerDay, 0.08, 0.5, 0, 1, Memory, "10 to 20 % of the best growth"),
            new(UnfedPhotosynthesis, 0.2, 0.6, 0, 1, Practice, "starved algae go on making sugar for a time"),
            new(FilmLossPerDay, 0.05, 0.6, 0, 1, Practice, "as algae in the water"),
            new(
                ExcretedMicrogramsPerMilligramHour,
                0.65,
                0.4,
                0,
                10,
                Borrowed,
                "zoea V of Macrobrachium amazonicum 0.65 +- 0.25 (abstract)"
            ),
            new(RoomCarbonDioxide, 600, 0.25, 350, 3000, Practice, "rooms with people, 450 to 1000 ppm"),
            new(LarvaeError, 0, 1, -3, 3, Measured, "the interval that is given with the number"),
        ]);
}
