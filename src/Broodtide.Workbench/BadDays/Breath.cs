using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Safety;
using Interval = Broodtide.Units.Interval;

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

    // An adult of a gram breathes about 0.35 mg of oxygen an hour at 25 degC (order of published figures for small
    // freshwater shrimps, from memory): as much as 70 mg of larvae by the twin's figure. A juvenile of 1.67 mg as 0.4 mg.
    private const double AdultAsLarvaMicrograms = 70_000;
    private const double JuvenileAsLarvaMicrograms = 400;
    private const int UnknownAdults = 10;

    /// <summary>The ground of a vessel whose water is told: its own twin.</summary>
    public static BreathGround? OfSea(Outlook outlook, VesselId vessel) =>
        outlook.SafetyAtHand(vessel) is { Run: { } run } safety
            ? new(run.Story.Scene, run.Now, safety.Remarks)
            : null;

    /// <summary>The ground of fresh water with adults, eggs or juveniles: a twin begun two days ago with what is usual.</summary>
    public static BreathGround? OfFresh(Outlook outlook, Vessel vessel)
    {
        if (outlook.LedgerOf(vessel.Id) is not { Litres.Middle: > 0.05 } ledger)
        {
            return null;
        }

        var profile = outlook.Profiles.Of(vessel);
        var story = StoryTelling
            .InPieces(outlook.House, vessel, ledger, profile, outlook.Zone, outlook.Now)
            .Last()!;
        var first = Math.Max(0, story.NowHour - FreshHours);
        var assumed = new List<Remark>(story.Assumes);
        var (number, micrograms) = Animals(outlook, vessel, assumed);
        assumed.Add(new Remark("badday-fresh-by-the-usual", new Argument("number", number.Middle)));
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
            [.. assumed]
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

    /// <summary>The scene with no air from now on, and all else as it is.</summary>
    public static VesselScene Still(BreathGround ground) =>
        From(ground, (hour, _) => hour with { Air = AirFlow.None });

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

    private static (Interval Number, double Micrograms) Animals(
        Outlook outlook,
        Vessel vessel,
        List<Remark> assumed
    )
    {
        if (vessel.Role is VesselRole.Nursery)
        {
            var juveniles = outlook
                .House.Account.About(Domain.Journal.Subject.Of(vessel.Id))
                .Aggregate(
                    0.0,
                    (sum, told) =>
                        told.Fact switch
                        {
                            JuvenilesCounted counted => counted.Number,
                            JuvenilesReturned { To: var to } back when to == vessel.Id => sum
                                + (back.Number ?? 0),
                            JuvenilesGivenAway given => Math.Max(0, sum - given.Number),
                            _ => sum,
                        }
                );
            return (
                Interval.FromPoints(0.5 * juveniles, juveniles, 1.5 * juveniles),
                JuvenileAsLarvaMicrograms
            );
        }

        var adults = outlook.House.Animals.Count(animal =>
            animal.Died is null && animal.PlaceAt(outlook.Now) == vessel.Id
        );
        if (vessel.Role is VesselRole.BroodTank && adults < 2)
        {
            assumed.Add(new Remark("badday-adults-unknown", new Argument("number", (double)UnknownAdults)));
            return (
                Interval.FromPoints(0.3 * UnknownAdults, UnknownAdults, 3 * UnknownAdults),
                AdultAsLarvaMicrograms
            );
        }

        return (Interval.FromPoints(0.7 * adults, adults, 2 * adults), AdultAsLarvaMicrograms);
    }
}
