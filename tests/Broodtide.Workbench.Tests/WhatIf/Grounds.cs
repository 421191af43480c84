using Broodtide.Domain;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.WhatIf;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Tests.WhatIf;

/// <summary>A jar of six litres at salinity 35 and 24 degC, lit from 7 to 19, fed 20 mg of yeast a day, with larvae.</summary>
internal static class Grounds
{
    public const int Past = 48;

    public static LarvalRun Run { get; } =
        new()
        {
            Cells = [new(0, 0)],
            Courses = [VesselCourse.Plain],
            Stages = LarvalStages.Even(9, 6),
            Events = [new Arrived(0, 0, 0, 200, 0.1)],
            Now = 10,
        };

    private static LarvalEstimate Learned { get; } =
        LarvalEstimator.Of(Run, new LarvalQuestion { Days = [Run.Now] });

    public static VesselScene Told(double milligrams = 20) =>
        new()
        {
            Site = new(),
            WaterAtStart = Volume.FromLitres(6),
            Hours =
            [
                .. Enumerable
                    .Range(0, Past)
                    .Select(hour => new VesselHour
                    {
                        Water = Volume.FromLitres(6),
                        Salinity = Salinity.FromPractical(35),
                        Temperature = Temperature.FromCelsius(24),
                        LightMicromoles = hour % 24 is >= 7 and < 19 ? 80 : 0,
                        Air = AirFlow.Gentle,
                        Larvae = Interval.FromPoints(130, 150, 170),
                        LarvaDryMicrograms = 40,
                    }),
            ],
            Events = milligrams > 0 ? [Yeast(9, milligrams), Yeast(33, milligrams)] : [],
        };

    public static WhatIfGround Of(int days = 6, int members = 40, bool larvae = true, double milligrams = 20)
    {
        var told = Told(milligrams);
        var (scene, assumed) = GoingOn.Of(told, Past, days);
        var start = VesselEnsemble.Draw(told, new VesselStart(), VesselPriors.Usual, members);
        return new()
        {
            Vessel = new VesselId(Guid.Parse("00000000-0000-7000-8000-000000000001")),
            Now = Instant.FromUtc(2026, 5, 20, 0, 0),
            AsItIs = scene,
            Members = VesselTwin.Forward(start, told, Past).End,
            Days = days,
            EvaporationLitresPerDay = 0.12,
            Larvae = larvae
                ? new()
                {
                    Run = Run,
                    Learned = Learned,
                    Vessel = 0,
                    Conditions = new(),
                }
                : null,
            AmmoniaLimit = 0.05,
            OxygenLimit = 4,
            Assumed = assumed,
        };
    }

    public static WhatIfFigure Figure(this WhatIfAnswer answer, WhatIfQuantity quantity) =>
        Assert.Single(answer.Figures, figure => figure.Quantity == quantity);

    private static VesselEvent.Fed Yeast(int hour, double milligrams) =>
        new(hour, Mass.FromMilligrams(milligrams), FeedComposition.Yeast);
}
