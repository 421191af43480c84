using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Trials;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Comparing;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Comparing;

/// <summary>A point of a curve.</summary>
internal sealed record CurvePointJson(double Day, PointsJson Share);

/// <summary>One vessel of the journal.</summary>
internal sealed record ComparedVesselJson(
    string Vessel,
    string Treatment,
    int? Started,
    PointsJson? Alive,
    bool Estimated,
    double? SettledAfterDays,
    bool Mixed,
    RemarkJson? LeftOut,
    IReadOnlyList<CurvePointJson> Curve
);

/// <summary>Vessels of the journal compared.</summary>
internal sealed record VesselsAnswer(
    string Measure,
    IReadOnlyList<ComparedVesselJson> Vessels,
    ComparedJson? Compared
);

/// <summary>Compares runs, or vessels, of the journal.</summary>
internal static class CompareVesselsVerbs
{
    public static Command Runs()
    {
        var runs = Slot.ManyWords("RUN", "Which ones.");
        return Make(
            "runs",
            "Compare runs by the vessels their larvae lived in: settled share, or alive on a day; settlement times; curves.",
            ["compare runs \"Brood 1\" \"Brood 2\" --day 7", "compare runs \"Brood 1\" \"Brood 2\" --json"],
            runs,
            (said, outlook, texts) =>
                texts
                    .SelectMany(text =>
                    {
                        var read = said.Naming.Run(text);
                        return said.Take(read)
                            ? JournalVessels.Of(
                                outlook,
                                read.Value,
                                said.Naming.NameOf(Subject.Of(read.Value))
                            )
                            : [];
                    })
                    .ToList()
        );
    }

    public static Command Vessels()
    {
        var groups = Slot.ManyWords("GROUP", "A treatment with its vessels: \"NAME: VESSEL, VESSEL\".");
        return Make(
            "vessels",
            "Compare vessels of the journal under the treatments you name.",
            ["compare vessels \"old: Old jar\" \"new: Jar A\" --day 7"],
            groups,
            (said, _, texts) =>
            {
                var all = new List<(VesselId, string)>();
                foreach (var text in texts)
                {
                    var parted = text.IndexOf(':');
                    if (parted < 1)
                    {
                        said.Add(new Remark("compare-group-unread", new Argument("typed", text)));
                        continue;
                    }

                    foreach (
                        var name in text[(parted + 1)..]
                            .Split(
                                ',',
                                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
                            )
                    )
                    {
                        var read = said.Naming.Vessel(name);
                        if (said.Take(read))
                        {
                            all.Add((read.Value, text[..parted].Trim()));
                        }
                    }
                }

                return all;
            }
        );
    }

    public static Command Trial()
    {
        var trial = Slot.ManyWords("TRIAL", "The trial; of several each treatment is told with its trial.");
        return Make(
            "trial",
            "Compare the treatments of a trial by the vessels it was laid out with.",
            ["compare trial \"Trial A\""],
            trial,
            (said, outlook, texts) =>
                [
                    .. texts.SelectMany(text =>
                    {
                        if (TrialBook.Find(outlook.House, text) is { Laid: var laid })
                        {
                            return laid.Vessels.Select(vessel =>
                                (
                                    vessel.Vessel,
                                    (texts.Count > 1 ? $"{laid.Name}, " : "")
                                        + laid.Treatments[vessel.Treatment].Name
                                )
                            );
                        }

                        said.Add(TrialLabelsVerb.Unknown(outlook.House, text));
                        return [];
                    }),
                ],
            // Blocks of several trials are no blocks of each other.
            (outlook, texts) =>
                texts
                    .Select((text, at) => (Laid: TrialBook.Find(outlook.House, text)?.Laid, Trial: at))
                    .SelectMany(pair => pair.Laid?.Vessels.Select(vessel => (vessel, pair.Trial)) ?? [])
                    .DistinctBy(pair => pair.vessel.Vessel)
                    .ToDictionary(pair => pair.vessel.Vessel, pair => (1000 * pair.Trial) + pair.vessel.Block)
        );
    }

    private static VerbCommand Make(
        string name,
        string help,
        IReadOnlyList<string> examples,
        Slot which,
        Func<Said, Outlook, IReadOnlyList<string>, IReadOnlyList<(VesselId Vessel, string Treatment)>> find,
        Func<Outlook, IReadOnlyList<string>, IReadOnlyDictionary<VesselId, int>>? blocksOf = null
    )
    {
        var day = Slot.Option(
            "--day",
            "Alive on this day after the first crossing; else settled ones.",
            "DAY"
        );
        var mixed = Slot.Flag("--with-mixed", "Also vessels that held larvae of two broods.");
        return new VerbCommand(
            name,
            help,
            examples,
            [which, day, mixed],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var vessels = find(said, outlook, said.Texts(which));
                double? wanted = null;
                if (said.Text(day) is { } text)
                {
                    if (
                        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var days)
                        && days is >= 0 and <= 1000
                    )
                    {
                        wanted = days;
                    }
                    else
                    {
                        said.Add(new Remark("count-not-whole", new("field", "day"), new("typed", text)));
                    }
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var compared = JournalVessels
                    .InPieces(
                        outlook,
                        vessels,
                        new Measure(wanted),
                        said.Flag(mixed),
                        blocksOf?.Invoke(outlook, said.Texts(which))
                    )
                    .Last()!;
                var naming = new Naming(outlook.House);
                var answer = Json(compared, saying, naming);
                return sitting.Answer(
                    answer,
                    CliJson.Default.VesselsAnswer,
                    page => Print(page, compared, answer, saying)
                );
            }
        );
    }

    private static VesselsAnswer Json(VesselsCompared compared, Saying saying, Naming naming) =>
        new(
            compared.Measure.Day is { } day
                ? $"alive on day {day.ToString("0.##", CultureInfo.InvariantCulture)}"
                : "settled",
            [
                .. compared.Vessels.Select(vessel => new ComparedVesselJson(
                    naming.NameOf(Subject.Of(vessel.Vessel)),
                    vessel.Treatment,
                    vessel.Started,
                    vessel.Alive is { } alive ? PointsJson.Of(alive) : null,
                    vessel.IsEstimated,
                    vessel.SettledAfterDays,
                    vessel.IsMixed,
                    vessel.LeftOut is { } why ? saying.Json(why) : null,
                    [
                        .. vessel.Curve.Select(point => new CurvePointJson(
                            point.Day,
                            PointsJson.Of(point.Share)
                        )),
                    ]
                )),
            ],
            compared.Compared is { } told ? ComparedJson.Of(told, saying) : null
        );

    private static void Print(Page page, VesselsCompared compared, VesselsAnswer answer, Saying saying)
    {
        page.Heading($"Compared: {answer.Measure}")
            .Table(
                ["treatment", "vessel", "crossed", "alive", "settled first seen", ""],
                answer.Vessels.Select(vessel =>
                    (IReadOnlyList<string>)
                        [
                            vessel.Treatment,
                            vessel.Vessel,
                            vessel.Started?.ToString(CultureInfo.InvariantCulture) ?? "",
                            vessel.Alive is { } alive
                                ? Saying.Number(Math.Round(alive.Middle))
                                    + (
                                        alive.High > alive.Low
                                            ? $" ({Saying.Number(Math.Round(alive.Low))} to {Saying.Number(Math.Round(alive.High))})"
                                            : ""
                                    )
                                : "",
                            vessel.SettledAfterDays is { } days
                                ? $"day {Saying.Number(Math.Round(days))}"
                                : "",
                            vessel.LeftOut is { } why ? $"left out: {why.Words}" : "",
                        ]
                )
            );
        if (compared.Compared is { } told)
        {
            ComparedPage.Print(page, told, saying);
        }
        else
        {
            page.Line("Nothing is left to compare.");
        }

        foreach (var vessel in answer.Vessels.Where(vessel => vessel.Curve.Count > 1))
        {
            var every = Math.Max(1, vessel.Curve.Count / 6);
            page.Line(
                $"{vessel.Vessel}, share alive by day: {string.Join("; ", vessel.Curve.Where((_, i) => i % every == 0).Select(point => $"{Saying.Number(Math.Round(point.Day))} {Saying.Percent(point.Share.Middle)} ({Saying.Percent(point.Share.Low)} to {Saying.Percent(point.Share.High)})"))}"
            );
        }
    }
}
