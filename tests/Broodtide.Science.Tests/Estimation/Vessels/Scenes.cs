using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using static Broodtide.Science.Estimation.Vessels.VesselParameter;

namespace Broodtide.Science.Tests.Estimation.Vessels;

/// <summary>Vessels to run.</summary>
internal static class Scenes
{
    internal static VesselHour Hour(
        double litres = 6,
        double salinity = 30,
        double celsius = 25,
        double light = 0,
        AirFlow air = AirFlow.None
    ) =>
        new()
        {
            Water = Volume.FromLitres(litres),
            Salinity = Salinity.FromPractical(salinity),
            Temperature = Temperature.FromCelsius(celsius),
            LightMicromoles = light,
            Air = air,
        };

    /// <summary>So many days with light from 7 to 19 o'clock, the clock starting at midnight.</summary>
    internal static VesselScene Days(
        int days,
        double light = 100,
        AirFlow air = AirFlow.None,
        double litres = 6,
        params VesselEvent[] events
    ) =>
        new()
        {
            Site = new(),
            WaterAtStart = Volume.FromLitres(litres),
            Hours =
            [
                .. Enumerable
                    .Range(0, 24 * days)
                    .Select(hour =>
                        Hour(litres, light: hour % 24 is >= 7 and < 19 ? light : 0, air: air) with
                        {
                            Larvae = Interval.FromPoints(100, 140, 180),
                            LarvaDryMicrograms = 40,
                        }
                    ),
            ],
            Events = [.. events],
        };

    /// <summary>The reference container: everything off that its four stocks do not know.</summary>
    internal static VesselPriors ContainerPriors(double grazing)
    {
        var priors = VesselPriors.Usual;
        foreach (
            var (parameter, value) in new (VesselParameter, double)[]
            {
                (AlgalGrowthPerDay, 0.3),
                (BestLightMicromoles, 100),
                (AlgalDeathPerDay, 0.05),
                (StarvedDeathPerDay, 0),
                (DecayPerDay, 0.1),
                (OxygenHaste, 0),
                (SinkingPerDay, 0),
                (NitrifiedGramsPerSquareMetreDay, 0),
                (FilmGrowthPerDay, 0),
                (ClearedMillilitresPerDay, grazing * 1000 / 30),
                (CellNitrogenPicograms, 8.3),
                (HalfGrowthNitrogen, 0.014),
                (HalfNitrifiedNitrogen, 1),
                (ShadingPerMetre, 0),
                (AlgalBreathPerDay, 0),
                (FilmLossPerDay, 0),
                (ExcretedMicrogramsPerMilligramHour, 0.65),
                (LarvaeError, 0),
            }
        )
        {
            priors = priors.With(new(parameter, value, 0, value, value, PriorFooting.Practice, "reference"));
        }

        return priors;
    }

    /// <summary>Total carbon dioxide water and clear sea water without interference, to look at nitrogen alone.</summary>
    internal static VesselScene Container(int days, double feedNitrogenPerHour)
    {
        const double litres = 10;
        // 30 larvae a litre give off 0.028 mg/L/d at 0.65 ug a mg and hour.
        const double micrograms = 0.028 / (30 * 0.65 * 24e-3) * 1000;
        var hour = Hour(litres, light: 100, air: AirFlow.Strong) with
        {
            Larvae = Interval.Exactly(300),
            LarvaDryMicrograms = micrograms,
        };
        return new()
        {
            Site = new() { WallSquareCentimetresPerLitre = 0 },
            WaterAtStart = Volume.FromLitres(litres),
            Hours = [.. Enumerable.Repeat(hour, 24 * days)],
            Chemistry = new()
            {
                HalfOxygen = 0,
                HighPh = 14,
                EgestedShare = 0,
                DustForCells = 0,
                HalfAlkalinity = 0,
                ClearWaterPerMetre = 0,
            },
            Events =
                feedNitrogenPerHour > 0
                    ?
                    [
                        .. Enumerable
                            .Range(0, 24 * days)
                            .Select(i => new VesselEvent.Fed(
                                i,
                                Mass.FromMilligrams(feedNitrogenPerHour * litres / 0.08),
                                new(0.08, 0)
                            )),
                    ]
                    : [],
        };
    }

    internal static VesselStart ContainerStart(double algae) =>
        new()
        {
            CellsPerMillilitre = new(algae / 8.3e-6, 0),
            FilmShare = default,
            Suspended = default,
            Settled = default,
            Tan = new(0.05, 0),
            Nitrite = default,
            Nitrate = default,
        };
}
