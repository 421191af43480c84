using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Hatching;
using NodaTime;
using NodaTime.Text;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Cli.Ahead;

/// <summary>One time.</summary>
internal sealed record CollectTimeJson(string At, PointsJson Larvae, PointsJson LarvaeLostIfSkipped);

/// <summary>The best times to gather larvae.</summary>
internal sealed record CollectTimesAnswer(
    string Brood,
    string Now,
    string Evening,
    string Until,
    double ChanceByThen,
    IReadOnlyList<CollectTimeJson> Times,
    PointsJson LarvaeGathered,
    PointsJson ShareGathered,
    PointsJson LarvaeLeft,
    PointsJson PeakHoursAfterNoon,
    PointsJson ShareLostPerHour,
    int NightsLearnedFrom,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Tells when to gather larvae.</summary>
internal static class CollectTimesVerb
{
    public static Command Make()
    {
        var brood = Slot.Word("BROOD", "Which one.");
        var asleep = Slot.Options(
            "--asleep",
            "When you sleep, over midnight too; 23-7 if left out.",
            "FROM-UNTIL"
        );
        var gone = Slot.Options(
            "--out",
            "When you are out or at work; may be given several times.",
            "FROM-UNTIL"
        );
        var most = Slot.Option(
            "--most",
            $"At most so many times; {CollectionTimes.UsualMost} if left out.",
            "NUMBER"
        );
        return new VerbCommand(
            "collect-times",
            "The best clock times to gather the larvae of a brood tonight, and what skipping each one costs.",
            [
                "collect-times \"Brood 3\"",
                "collect-times \"Brood 3\" --asleep 22:30-6 --out 8:00-17:30 --json",
            ],
            [brood, asleep, gone, most],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheBrood(brood);
                var hours = Hours(said, asleep, gone);
                var number = said.Count(most) ?? CollectionTimes.UsualMost;
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var (times, refusal) = outlook.CollectionTimesOf(id, hours, Math.Clamp(number, 0, 48));
                return refusal is { } why
                    ? sitting.Refuse([why], saying)
                    : sitting.Answer(
                        Json(said.TheText(brood), times!, saying),
                        CliJson.Default.CollectTimesAnswer,
                        page => Print(page, said.TheText(brood), times!, saying)
                    );
            }
        );
    }

    private static KeeperHours Hours(Said said, Slot asleep, Slot gone)
    {
        var sleep = Stretches(said, asleep);
        return new([.. sleep.Count > 0 ? sleep : KeeperHours.Usual.Unable, .. Stretches(said, gone)]);
    }

    private static List<ClockStretch> Stretches(Said said, Slot slot)
    {
        var stretches = new List<ClockStretch>();
        foreach (var text in said.Texts(slot))
        {
            var read = KeeperHours.Read(text, slot.Name);
            if (said.Take(read))
            {
                stretches.Add(read.Value);
            }
        }

        return stretches;
    }

    private static CollectTimesAnswer Json(string brood, CollectionTimes times, Saying saying) =>
        new(
            brood,
            Saying.Iso(times.Now),
            LocalDatePattern.Iso.Format(times.Evening),
            Saying.Iso(times.Until),
            times.Chance.Value,
            [
                .. times.Gatherings.Select(gathering => new CollectTimeJson(
                    Saying.Iso(gathering.At),
                    PointsJson.Of(gathering.Larvae),
                    PointsJson.Of(gathering.LostIfSkipped)
                )),
            ],
            PointsJson.Of(times.Larvae),
            PointsJson.Of(times.Share),
            PointsJson.Of(times.Left),
            PointsJson.Of(times.PeakHoursAfterNoon),
            PointsJson.Of(times.LostPerHour),
            times.NightsLearnedFrom,
            [.. times.Remarks.Select(saying.Json)]
        );

    private static void Print(Page page, string brood, CollectionTimes times, Saying saying)
    {
        page.Heading(
                $"When to gather larvae of {brood}, night of {LocalDatePattern.Iso.Format(times.Evening)}"
            )
            .Facts(
                ("Larvae there by then", Saying.Percent(times.Chance.Value)),
                ("Most hatch about", Peak(times.PeakHoursAfterNoon)),
                (
                    "An hour in fresh water costs",
                    $"{Saying.Percent(times.LostPerHour.Middle)} ({Saying.Percent(times.LostPerHour.Low)} to "
                        + $"{Saying.Percent(times.LostPerHour.High)})"
                ),
                ("Gathered alive, if they hatch", $"{Larvae(times.Larvae)} larvae, {Shares(times.Share)}"),
                ("Left in the box at noon", $"{Larvae(times.Left)} larvae")
            );
        if (times.Gatherings.Count > 0)
        {
            page.Line()
                .Table(
                    ["gather at", "larvae", "skipping it costs"],
                    times.Gatherings.Select(gathering =>
                        (IReadOnlyList<string>)
                            [
                                saying.Time(gathering.At),
                                Larvae(gathering.Larvae),
                                $"{Larvae(gathering.LostIfSkipped)} larvae",
                            ]
                    )
                );
        }
        else
        {
            page.Line().Line("No time is worth it at these hours.");
        }

        foreach (var remark in times.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }

    private static string Peak(Interval hours) =>
        $"{Clock(hours.Middle)} ({Clock(hours.Low)} to {Clock(hours.High)})";

    private static string Clock(double hoursAfterNoon)
    {
        var minutes = (int)Math.Round(hoursAfterNoon * 4) * 15;
        var time = new LocalTime(12, 0).PlusMinutes(minutes);
        return LocalTimePattern.CreateWithInvariantCulture("HH:mm").Format(time);
    }

    private static string Larvae(Interval larvae) =>
        $"about {Whole(larvae.Middle)} ({Whole(larvae.Low)}-{Whole(larvae.High)})";

    private static string Shares(Interval share) =>
        $"{Saying.Percent(share.Middle)} ({Saying.Percent(share.Low)} to {Saying.Percent(share.High)}) of them";

    private static string Whole(double larvae) =>
        Math.Round(larvae).ToString("0", CultureInfo.InvariantCulture);
}
