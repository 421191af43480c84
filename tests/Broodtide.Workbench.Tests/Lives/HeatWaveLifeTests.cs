using Broodtide.Domain.Journal;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests.Lives;

public sealed class HeatWaveLifeTests
{
    // The truth of this kitchen: both jars follow the room, the small one faster, each a trifle cooler for its evaporation.
    private const double TruthJarHours = 5;
    private const double TruthSmallHours = 2.2;
    private const double TruthOffset = -0.4;

    // Mild until the sixth of June, then a degree and a half warmer each day.
    private static double Room(Instant at)
    {
        var local = at.InZone(Zone);
        var day = local.Day + (local.Hour / 24.0) + (local.Minute / 1440.0);
        return 24.5 + (1.5 * Math.Max(0, day - 6)) + (2.5 * Math.Cos(2 * Math.PI * ((day * 24) - 17) / 24));
    }

    private static Dictionary<Instant, (double Jar, double Small)> Truth()
    {
        var told = new Dictionary<Instant, (double, double)>();
        var (jar, small) = (24.5, 24.5);
        for (var at = At(6, 1, 0); at <= At(6, 12, 0); at += Duration.FromMinutes(10))
        {
            var room = Room(at) + TruthOffset;
            jar += (room - jar) / 6 / TruthJarHours;
            small += (room - small) / 6 / TruthSmallHours;
            told[at] = (jar, small);
        }

        return told;
    }

    private static KeptJournal Read(Instant now)
    {
        var kept = Until(now.InZone(Zone).Day - 1);
        var truth = Truth();
        for (var day = 2; day <= now.InZone(Zone).Day; day++)
        {
            foreach (var hour in new[] { 8, 13, 18, 22 })
            {
                var at = At(6, day, hour);
                if (at <= now)
                {
                    kept.Warm(
                        at,
                        Math.Round(2 * Room(at)) / 2,
                        Math.Round(2 * truth[at].Jar) / 2,
                        Math.Round(2 * truth[at].Small) / 2
                    );
                }
            }
        }

        return kept;
    }

    [Fact]
    public void A_heat_wave_day_by_day_until_the_list_says_cool_it()
    {
        // Mild days: nothing is asked.
        Assert.DoesNotContain(
            Read(At(6, 5, 19)).Due(At(6, 5, 19)).Items,
            item => item.Action.Code == ActionCodes.CoolVessel
        );

        Instant? asked = null;
        for (var day = 6; day <= 11 && asked is null; day++)
        {
            foreach (var hour in new[] { 9, 19 })
            {
                var now = At(6, day, hour);
                if (
                    asked is null
                    && Read(now)
                        .Due(now)
                        .Items.Any(item =>
                            item.Action.Code == ActionCodes.CoolVessel
                            && item.Action.About == Subject.Of(SmallJar)
                        )
                )
                {
                    asked = now;
                }
            }
        }

        // It is asked before the small jar is at 29 degC, and not days before.
        var reached = Truth().First(point => point.Value.Small >= 29).Key;
        Assert.NotNull(asked);
        Assert.InRange(asked.Value, reached - Duration.FromHours(36), reached);
    }

    [Fact]
    public void The_forecast_holds_the_truth_and_says_which_jar_is_first()
    {
        var now = At(6, 8, 9);
        // The keeper heard the weather forecast: 25 at night, 31 by day.
        var told = HeatWave
            .Of(Read(now).Seen(now), new HeatWishes { CoolestCelsius = 25, HottestCelsius = 31 })
            .Value;

        var jars = told.Vessels.Where(one => one.Limit is not null && one.Vessel != Tank).ToList();
        Assert.Equal([SmallJar, Jar], jars.Select(one => one.Vessel));
        Assert.All(jars, one => Assert.Equal(29, one.Limit!.Value));
        Assert.All(jars, one => Assert.True(one.StretchesLearned > 10));
        Assert.True(jars[0].TimeConstantHours.Contains(TruthSmallHours), $"{jars[0].TimeConstantHours}");
        Assert.True(jars[1].TimeConstantHours.Contains(TruthJarHours), $"{jars[1].TimeConstantHours}");
        Assert.All(
            jars,
            one =>
            {
                Assert.True(one.ToLimit!.EarlyHours is > 0 and < 72);
                Assert.True((one.ToLimitWithFan!.MiddleHours ?? 999) >= (one.ToLimit.MiddleHours ?? 999));
                Assert.True(one.WarmestWithFanCelsius.Middle < one.WarmestCelsius.Middle - 0.3);
                Assert.True(one.LostWithFanMillilitres.Middle > one.LostMillilitres.Middle);
                Assert.InRange(one.IceGramsPerKelvin, 8, 80);
            }
        );

        // The day went exactly so: the truth is run on through that room.
        var (jar, small) = Truth()[now];
        var hour = 9.0;
        double? crossed = null;
        for (var minute = 0; minute < 72 * 60; minute += 10, hour += 1 / 6.0)
        {
            var room = 28 + (3 * Math.Cos(2 * Math.PI * (hour - 17) / 24)) + TruthOffset;
            small += (room - small) / 6 / TruthSmallHours;
            jar += (room - jar) / 6 / TruthJarHours;
            crossed ??= small >= 29 ? minute / 60.0 : null;
        }

        Assert.NotNull(crossed);
        Assert.InRange(crossed.Value, jars[0].ToLimit!.EarlyHours!.Value, jars[0].ToLimit!.LateHours ?? 72);
        Assert.Equal("badday-heat-first", told.First[0].Code);
    }

    [Fact]
    public void Without_a_reading_of_the_room_it_asks_for_one_and_takes_what_the_keeper_expects()
    {
        var outlook = Until(5).Seen(At(6, 6, 9));

        Assert.Equal("badday-room-unknown", HeatWave.Of(outlook).Reason!.Code);
        var told = HeatWave.Of(outlook, new HeatWishes { HottestCelsius = 33 }).Value;
        Assert.All(told.Vessels, one => Assert.Equal(0, one.StretchesLearned));
        Assert.Equal(27, told.Room.MiddleCelsius - told.Room.SwingCelsius, 6);
    }

    [Theory]
    [InlineData(20.0, 30.0, "badday-room-impossible")]
    [InlineData(double.NaN, null, "badday-room-impossible")]
    public void Impossible_wishes_are_refused(double hottest, double? coolest, string code) =>
        Assert.Equal(
            code,
            HeatWave
                .Of(
                    Until(3).Seen(At(6, 4)),
                    new HeatWishes { HottestCelsius = hottest, CoolestCelsius = coolest }
                )
                .Reason?.Code
        );
}
