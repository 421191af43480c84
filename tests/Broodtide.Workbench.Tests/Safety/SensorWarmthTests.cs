using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Sensors;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Safety;

/// <summary>What a sensor of temperature tells the twin of a vessel.</summary>
public sealed class SensorWarmthTests
{
    private static readonly Instant Now = At(5, 20, 12);

    private static KeptJournal Journal() =>
        new KeptJournal()
            .Write(At(5, 10), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")))
            .Write(
                At(5, 10, 13),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(7, "L"),
                    TypedNumber.Of(32, UnitCode.PracticalSalinity),
                    TypedNumber.Of(24, "Cel")
                )
            );

    private static SensorsSeen Shown(Instant until, Func<Instant, double> celsius) =>
        new(
            until.ToUnixTimeMilliseconds(),
            [
                new(
                    "shelf-1/warm",
                    null,
                    "Cel",
                    Jar.Value,
                    true,
                    until.ToUnixTimeMilliseconds(),
                    celsius(until),
                    null,
                    null,
                    false,
                    [],
                    [],
                    [
                        .. Enumerable
                            .Range(0, 37)
                            .Select(at => At(5, 11) + Duration.FromHours(6 * at))
                            .Where(at => at < until)
                            .Select(at => new MeanSeen(
                                at.ToUnixTimeMilliseconds(),
                                celsius(at),
                                0.1,
                                6,
                                Jar.Value
                            )),
                    ]
                ),
            ],
            [],
            null,
            false,
            new Dictionary<string, long>()
        );

    private static double Celsius(Outlook outlook, Instant at)
    {
        var story = outlook.SafetyOf(Jar)!.Run!.Story;
        return story.Scene.Hours[(int)(at - story.Start).TotalHours].Temperature.Celsius;
    }

    [Fact]
    public void The_twin_lives_in_the_warmth_that_the_sensor_showed()
    {
        var warm = Outlook.Of(
            Journal().Account(),
            Now,
            Zone,
            sensors: Shown(Now, at => at < At(5, 15) ? 24 : 28)
        );

        Assert.Equal(24, Celsius(warm, At(5, 13)), 1);
        Assert.Equal(28, Celsius(warm, At(5, 17)), 1);
        Assert.Equal(24, Celsius(Outlook.Of(Journal().Account(), Now, Zone), At(5, 17)), 1);
    }

    [Fact]
    public void Readings_by_hand_set_it_right_from_then_on_and_not_before()
    {
        // It shows a degree too much. One reading moves it by 0.25/(0.25 + 0.09) of the gap, ten by nearly all of it.
        var journal = Journal();
        for (var day = 0; day < 5; day++)
        {
            journal.Write(At(5, 13 + day, 18), new ReadingTaken(TypedNumber.Of(24, "Cel"), Jar));
        }

        var outlook = Outlook.Of(journal.Account(), Now, Zone, sensors: Shown(Now, _ => 25));

        Assert.Equal(25, Celsius(outlook, At(5, 12, 12)), 2);
        Assert.Equal(25 - (0.25 / 0.34), Celsius(outlook, At(5, 14, 6)), 2);
        Assert.Equal(25 - (5 / (5 + 0.36)), Celsius(outlook, At(5, 19, 12)), 2);
    }

    [Fact]
    public void An_outlook_that_goes_on_tells_the_same_as_one_made_anew_and_runs_the_twin_only_from_the_change_on()
    {
        double Course(Instant at) => 24 + (0.1 * (at - At(5, 11)).TotalDays);
        var first = Outlook.Of(Journal().Account(), Now, Zone, sensors: Shown(Now, Course));
        _ = first.SafetyOf(Jar);
        var before = first.TwinHoursRun;
        var later = Now + Duration.FromHours(6);
        var goneOn = first.Renewed(later, sensors: Shown(later, Course));
        var anew = Outlook.Of(Journal().Account(), later, Zone, sensors: Shown(later, Course));

        Assert.Equal(
            anew.SafetyOf(Jar)!.Run!.Story.Scene.Hours.Select(hour => hour.Temperature.Celsius),
            goneOn.SafetyOf(Jar)!.Run!.Story.Scene.Hours.Select(hour => hour.Temperature.Celsius)
        );
        Assert.True(goneOn.TwinHoursRun - before < 120, $"{goneOn.TwinHoursRun - before} hours");
        Assert.True(anew.TwinHoursRun > 200, $"{anew.TwinHoursRun} hours");
    }
}
