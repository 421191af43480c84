using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Safety;

namespace Broodtide.Workbench.BadDays;

/// <summary>Members of a vessel's twin now, with the scene they stand in.</summary>
internal sealed record BreathGround(VesselScene Scene, VesselEnsemble Members, ImmutableArray<Remark> Assumed)
{
    public int Horizon => Scene.Hours.Length - Members.Hour;
}

/// <summary>A vessel's twin run on without mains: no air, no light, no food.</summary>
internal static class Breath
{
    public const int Horizon = VesselStory.HoursAhead;

    // Fresh water is run as if it held so much salt, for the carbonate terms: it takes up 3 % less oxygen then.
    private const double LeastSalinity = 5;

    // What was long ago no longer matters for the oxygen of fresh water.
    private const int FreshHours = 48;

    /// <summary>The ground of a vessel whose water is told: its own twin.</summary>
    public static BreathGround? OfSea(Outlook outlook, VesselId vessel) =>
        outlook.SafetyAtHand(vessel) is { Run: { } run } safety
            ? new(run.Story.Scene, run.Now, safety.Remarks)
            : null;

    /// <summary>The ground of fresh water with adults, eggs or juveniles: a twin begun two days ago with what is usual.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="no">Why no hours can be told; none where its water is not known at all.</param>
    public static BreathGround? OfFresh(Outlook outlook, Vessel vessel, out Remark? no)
    {
        no = null;
        if (outlook.LedgerOf(vessel.Id) is not { Litres.Middle: > 0.05 } ledger)
        {
            return null;
        }

        var breathing = Breathers.In(outlook, vessel);
        if (!breathing.Succeeded)
        {
            no = breathing.Reason;
            return null;
        }

        var (number, micrograms, supposed) = breathing.Value;
        var profile = outlook.Profiles.Of(vessel);
        var story = StoryTelling
            .InPieces(outlook.House, vessel, ledger, profile, outlook.Zone, outlook.Now)
            .Last()!;
        var first = Math.Max(0, story.NowHour - FreshHours);
        var scene = story.Scene with
        {
            Site = story.Scene.Site with { RipeDays = story.Scene.Site.RipeDays + (first / 24.0) },
            WaterAtStart = story.Scene.Hours[first].Water,
            Hours =
            [
                .. story
                    .Scene.Hours.Skip(first)
                    .Select(hour =>
                        hour with
                        {
                            Salinity = Salinity.FromPractical(
                                Math.Max(LeastSalinity, hour.Salinity.Practical)
                            ),
                            Larvae = number,
                            LarvaDryMicrograms = micrograms,
                        }
                    ),
            ],
            Events =
            [
                .. story
                    .Scene.Events.Where(done => done.Hour >= first)
                    .Select(done => done with { Hour = done.Hour - first }),
            ],
        };
        var members = VesselEnsemble.Draw(
            scene,
            story.Believed,
            VesselPriors.Usual,
            TwinsKept.Members,
            BitConverter.ToUInt64(vessel.Id.Value.ToByteArray())
        );
        var nowHour = story.NowHour - first;
        return new(
            scene,
            nowHour > 0 ? VesselTwin.Forward(members, scene, nowHour).End : members,
            [
                .. story.Assumes,
                .. supposed,
                new Remark("badday-fresh-by-the-usual", new Argument("number", Math.Round(number.Middle))),
            ]
        );
    }

    /// <summary>The scene with the mains gone from now on: dark, nothing fed, nothing moved; warmth as told.</summary>
    public static VesselScene Dark(BreathGround ground, AirFlow air, Func<int, double, double> celsius) =>
        From(
            ground,
            (hour, ahead) =>
                hour with
                {
                    Air = air,
                    LightMicromoles = 0,
                    Temperature = Temperature.FromCelsius(celsius(ahead, hour.Temperature.Celsius)),
                }
        );

    /// <summary>The scene with other air from now on, nothing fed, and light and warmth as they are.</summary>
    public static VesselScene Aired(BreathGround ground, AirFlow air) =>
        From(ground, (hour, _) => hour with { Air = air });

    /// <summary>Hours until each member is below a limit of oxygen.</summary>
    public static FirstPassage Passage(VesselTraces traces, double limit)
    {
        var values = new double[traces.Members];
        var before = new double[traces.Members];
        var hours = Enumerable.Repeat(double.PositiveInfinity, traces.Members).ToArray();
        for (var place = 0; place <= traces.Hours; place++)
        {
            traces.Read(VesselQuantity.Oxygen, place, values);
            for (var member = 0; member < values.Length; member++)
            {
                if (values[member] < limit && double.IsPositiveInfinity(hours[member]))
                {
                    var fell = before[member] - values[member];
                    hours[member] =
                        place == 0 ? 0
                        : fell > 0 ? place - 1 + ((before[member] - limit) / fell)
                        : place;
                }

                before[member] = values[member];
            }
        }

        return FirstPassage.Of(hours.Select(at => (at, 1.0)), traces.Hours);
    }

    private static VesselScene From(BreathGround ground, Func<VesselHour, int, VesselHour> change) =>
        ground.Scene with
        {
            Hours =
            [
                .. ground.Scene.Hours.Select(
                    (hour, at) => at < ground.Members.Hour ? hour : change(hour, at - ground.Members.Hour)
                ),
            ],
            Events = [.. ground.Scene.Events.Where(done => done.Hour < ground.Members.Hour)],
        };
}
