using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.BadDays;

namespace Broodtide.Cli.BadDays;

/// <summary>One vessel in hot days.</summary>
internal sealed record HeatVesselJson(
    string Vessel,
    double NowCelsius,
    double? LimitCelsius,
    PassageJson? ToLimit,
    PassageJson? ToLimitWithFan,
    SafetyInterval WarmestCelsius,
    SafetyInterval WarmestWithFanCelsius,
    SafetyInterval TimeConstantHours,
    int StretchesLearned,
    SafetyInterval LostMillilitresPerDay,
    SafetyInterval LostWithFanMillilitresPerDay,
    double IceGramsPerDegree,
    IReadOnlyList<SafetyInterval> EverySixHoursCelsius,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Hot days.</summary>
internal sealed record HeatAnswer(
    string Now,
    int Hours,
    double RoomCoolestCelsius,
    double RoomHottestCelsius,
    double RoomSdCelsius,
    IReadOnlyList<RemarkJson> First,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<HeatVesselJson> Vessels,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Tells what a heat wave does.</summary>
internal static class HeatVerb
{
    public static VerbCommand Make()
    {
        var hottest = Slot.Option(
            "--hottest",
            "Hottest of the room by day; as in the last two days if left out.",
            "TEMPERATURE"
        );
        var coolest = Slot.Option("--coolest", "Coolest of the room at night.", "TEMPERATURE");
        var fan = Slot.Option("--fan", "Air that a fan moves over the surface, m/s; 1 if left out.", "SPEED");
        var damp = Slot.Option(
            "--humidity",
            "Dampness of the room's air in percent; 50 if left out.",
            "PERCENT"
        );
        var hours = Slot.Option("--hours", "Hours to look ahead, 6 to 120; 72 if left out.", "HOURS");
        return new VerbCommand(
            "heat",
            "A heat wave: each vessel's warmth forecast from the room, hours to its limit with and without a fan, what to top up.",
            ["badday heat --hottest 33", "badday heat --hottest 34 --coolest 26 --fan 1.5 --json"],
            [hottest, coolest, fan, damp, hours],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var usual = new HeatWishes();
                var wishes = new HeatWishes
                {
                    HottestCelsius = said.Degrees(hottest)?.Celsius,
                    CoolestCelsius = said.Degrees(coolest)?.Celsius,
                    FanMetresPerSecond = said.Number(fan) ?? usual.FanMetresPerSecond,
                    RelativeHumidity = (said.Number(damp) / 100) ?? usual.RelativeHumidity,
                    Hours = said.Count(hours) ?? usual.Hours,
                };
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var told = HeatWave.Of(outlook, wishes);
                if (!told.Succeeded)
                {
                    return sitting.Refuse([told.Reason], saying);
                }

                var answer = Json(told.Value, said.Naming, saying);
                return sitting.Answer(answer, CliJson.Default.HeatAnswer, page => Print(page, answer));
            }
        );
    }

    private static HeatAnswer Json(HeatDay told, Naming naming, Saying saying) =>
        new(
            Saying.Iso(told.Now),
            told.Hours,
            told.Room.MiddleCelsius - told.Room.SwingCelsius,
            told.Room.MiddleCelsius + told.Room.SwingCelsius,
            told.Room.SdCelsius,
            BadDayVerb.Json(told.First, saying),
            BadDayVerb.Cautions(told.Cautions),
            [
                .. told.Vessels.Select(one => new HeatVesselJson(
                    naming.NameOf(Subject.Of(one.Vessel)),
                    one.NowCelsius,
                    one.Limit?.Value,
                    one.ToLimit is { } still ? PassageJson.Of(still) : null,
                    one.ToLimitWithFan is { } blown ? PassageJson.Of(blown) : null,
                    SafetyInterval.Of(one.WarmestCelsius),
                    SafetyInterval.Of(one.WarmestWithFanCelsius),
                    SafetyInterval.Of(one.TimeConstantHours),
                    one.StretchesLearned,
                    SafetyInterval.Of(one.LostMillilitres),
                    SafetyInterval.Of(one.LostWithFanMillilitres),
                    one.IceGramsPerKelvin,
                    [.. one.SixHourly.Select(SafetyInterval.Of)],
                    BadDayVerb.Json(one.Assumed, saying)
                )),
            ],
            BadDayVerb.Json(told.Assumed, saying)
        );

    private static void Print(Page page, HeatAnswer answer)
    {
        BadDayVerb.PrintFirst(page, answer.First, answer.Cautions);
        page.Heading($"The next {answer.Hours} hours")
            .Table(
                [
                    "vessel",
                    "now",
                    "limit",
                    "hours to it",
                    "with a fan",
                    "warmest",
                    "top up a day, with a fan",
                ],
                answer.Vessels.Select(one =>
                    (IReadOnlyList<string>)
                        [
                            one.Vessel,
                            Degrees(one.NowCelsius),
                            one.LimitCelsius is { } limit ? Degrees(limit) : "none",
                            one.ToLimit is { } still ? BadDayVerb.Hours(still) : "",
                            one.ToLimitWithFan is { } blown ? BadDayVerb.Hours(blown) : "",
                            $"{Degrees(one.WarmestCelsius.Middle)} ({Degrees(one.WarmestCelsius.Low)} to {Degrees(one.WarmestCelsius.High)})",
                            $"{Saying.Number(Math.Round(one.LostMillilitresPerDay.Middle))} mL, {Saying.Number(Math.Round(one.LostWithFanMillilitresPerDay.Middle))} mL",
                        ]
                )
            );
        BadDayVerb.PrintAssumed(page, [.. answer.Vessels.SelectMany(one => one.Assumes), .. answer.Assumes]);
    }

    private static string Degrees(double celsius) => $"{Saying.Number(Math.Round(celsius, 1))} °C";
}
