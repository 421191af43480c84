using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.BadDays;

namespace Broodtide.Cli.BadDays;

/// <summary>One vessel without air.</summary>
internal sealed record BreathVesselJson(
    string Vessel,
    double Litres,
    SafetyInterval Animals,
    SafetyInterval OxygenNowMilligramsPerLitre,
    double LowMilligramsPerLitre,
    double DangerMilligramsPerLitre,
    PassageJson ToLow,
    PassageJson ToDanger,
    PassageJson ToDangerWithBatteryPump,
    PassageJson? ToCold,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Hours without mains or without a pump.</summary>
internal sealed record PowerAnswer(
    string Now,
    string? FailedSince,
    IReadOnlyList<RemarkJson> First,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<BreathVesselJson> Vessels,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Tells how long vessels last without air.</summary>
internal static class PowerVerb
{
    public static VerbCommand Make() =>
        new(
            "power",
            "The mains are gone: hours until oxygen is low in each vessel, the one in danger first in front.",
            ["badday power", "badday power --json"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var answer = Json(PowerCut.Of(outlook), new Naming(outlook.House), saying);
                return sitting.Answer(answer, CliJson.Default.PowerAnswer, page => Print(page, answer));
            }
        );

    public static VerbCommand MakePump()
    {
        var vessel = Slot.Word("VESSEL", "The one whose pump is dead.");
        return new(
            "pump",
            "A dead air pump: hours until oxygen is low in its vessel, and what its sponge wants.",
            ["badday pump \"Jar A\"", "badday pump \"Jar A\" --json"],
            [vessel],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var told = PowerCut.DeadPump(outlook, id);
                if (told.Vessels.IsEmpty)
                {
                    return sitting.Refuse(
                        [new Remark("badday-not-told", new Argument("vessel", id))],
                        saying
                    );
                }

                var answer = Json(told, said.Naming, saying);
                return sitting.Answer(answer, CliJson.Default.PowerAnswer, page => Print(page, answer));
            }
        );
    }

    private static PowerAnswer Json(PowerDay told, Naming naming, Saying saying) =>
        new(
            Saying.Iso(told.Now),
            told.Since is { } since ? Saying.Iso(since) : null,
            BadDayVerb.Json(told.First, saying),
            BadDayVerb.Cautions(told.Cautions),
            [
                .. told.Vessels.Select(one => new BreathVesselJson(
                    naming.NameOf(Subject.Of(one.Vessel)),
                    one.Litres,
                    SafetyInterval.Of(one.Animals),
                    SafetyInterval.Of(one.OxygenNow),
                    one.Low.Value,
                    one.Danger.Value,
                    PassageJson.Of(one.ToLow),
                    PassageJson.Of(one.ToDanger),
                    PassageJson.Of(one.ToDangerWithBattery),
                    one.ToCold is { } cold ? PassageJson.Of(cold) : null,
                    BadDayVerb.Json(one.Assumed, saying)
                )),
            ],
            BadDayVerb.Json(told.Assumed, saying)
        );

    private static void Print(Page page, PowerAnswer answer)
    {
        BadDayVerb.PrintFirst(page, answer.First, answer.Cautions);
        page.Heading("Hours left without air")
            .Table(
                ["vessel", "water", "oxygen now", "to low", "to danger", "danger with a battery pump"],
                answer.Vessels.Select(one =>
                    (IReadOnlyList<string>)
                        [
                            one.Vessel,
                            UnitNames.Litres(one.Litres),
                            $"{Saying.Number(Math.Round(one.OxygenNowMilligramsPerLitre.Middle, 1))} mg/L",
                            $"{BadDayVerb.Hours(one.ToLow)}, below {Saying.Number(one.LowMilligramsPerLitre)} mg/L",
                            $"{BadDayVerb.Hours(one.ToDanger)}, below {Saying.Number(one.DangerMilligramsPerLitre)} mg/L",
                            Saying.Percent(one.ToDangerWithBatteryPump.Chance),
                        ]
                )
            );
        BadDayVerb.PrintAssumed(page, [.. answer.Assumes, .. answer.Vessels.SelectMany(one => one.Assumes)]);
    }
}
