using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Demo;

/// <summary>An invented vessel to measure a machine with: 6 L for 60 days, fed daily, a quarter changed weekly.</summary>
public static class SixtyDays
{
    /// <summary>How many days.</summary>
    public const int Days = 60;

    /// <summary>How many members run through them.</summary>
    public const int Members = 200;

    /// <summary>The vessel and what is done to it.</summary>
    /// <param name="days">How many days of it, 1 or more.</param>
    public static VesselScene Scene(int days = Days)
    {
        List<VesselEvent> events = [new VesselEvent.AlgaeGiven(8, 6000 * 5e4)];
        for (var day = 1; day < days; day++)
        {
            events.Add(new VesselEvent.Fed((24 * day) + 18, Mass.FromMilligrams(6), FeedComposition.Yeast));
            if (day % 7 == 0)
            {
                var changed = Volume.FromLitres(1.5);
                events.Add(
                    new VesselEvent.WaterMoved((24 * day) + 10, changed, changed, IncomingWater.Clean)
                );
            }
        }

        return new()
        {
            Site = new() { FilterSquareCentimetres = 300 },
            WaterAtStart = Volume.FromLitres(6),
            Events = [.. events],
            Hours =
            [
                .. Enumerable
                    .Range(0, 24 * days)
                    .Select(hour => new VesselHour
                    {
                        Water = Volume.FromLitres(6),
                        Salinity = Salinity.FromPractical(30),
                        Temperature = Temperature.FromCelsius(25 + Math.Sin(hour / 24.0 * 2 * Math.PI)),
                        LightMicromoles = hour % 24 is >= 7 and < 21 ? 100 : 0,
                        Larvae = Interval.FromPoints(100, 140, 180),
                        LarvaDryMicrograms = 40,
                    }),
            ],
        };
    }

    /// <summary>The members at the start.</summary>
    public static VesselEnsemble Start(VesselScene scene) =>
        VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, Members);

    /// <summary>Runs them through, a quarter of a day with each step that is taken.</summary>
    public static IEnumerable<VesselTraces> Steps(VesselScene scene)
    {
        const int hours = 6;
        var members = Start(scene);
        for (var hour = 0; hour < 24 * Days; hour += hours)
        {
            (var traces, members) = VesselTwin.Forward(members, scene, hours);
            yield return traces;
        }
    }

    /// <summary>One number of the last hour that every member has a share in: to tell whether two machines agree.</summary>
    public static double AnswerOf(VesselTraces traces)
    {
        var sum = 0.0;
        for (var member = 0; member < traces.Members; member++)
        {
            sum +=
                traces.Value(VesselQuantity.UnionisedAmmonia, traces.Hours, member)
                + traces.Value(VesselQuantity.Oxygen, traces.Hours, member)
                + Math.Log(1 + traces.Value(VesselQuantity.CellsPerMillilitre, traces.Hours, member));
        }

        return sum / traces.Members;
    }
}
