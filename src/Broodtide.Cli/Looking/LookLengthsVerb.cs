using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>Larvae of a run measured at one look.</summary>
internal sealed record LengthLookJson(
    string At,
    string Vessel,
    double? AgeDays,
    IReadOnlyList<double> LengthsMicrometres,
    PointsJson? MeanMicrometres
);

/// <summary>Mean growth between two ages.</summary>
internal sealed record GrowthJson(PointsJson MicrometresPerDay, double FromAgeDays, double ToAgeDays);

/// <summary>The lengths of a run.</summary>
internal sealed record LookLengthsAnswer(
    string Run,
    IReadOnlyList<LengthLookJson> Looks,
    GrowthJson? Growth,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>The growth curve of a run.</summary>
internal static class LookLengthsVerb
{
    public static VerbCommand Make()
    {
        var run = Slot.Option("--run", "Which run.", "RUN");
        return new(
            "lengths",
            "Lengths of a run's larvae by age, and how fast they grew while they were measured.",
            ["look lengths --run \"Brood 2\"", "look lengths --run \"Brood 2\" --json"],
            [run],
            async sitting =>
            {
                var house = (await sitting.LookAsync()).House;
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, house);
                var which = said.Run(run);
                if (said.Text(run) is null)
                {
                    said.Add(new Units.Remark("look-lengths-needs-run"));
                }

                if (said.Wrong.Count > 0 || which is not { } id)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var told = Growth.Of(house, id);
                return sitting.Answer(
                    Json(told, house.Run(id).Name ?? "", vessel => house.Vessel(vessel).Name ?? "", saying),
                    CliJson.Default.LookLengthsAnswer,
                    page => Say(page, told, saying)
                );
            }
        );
    }

    private static LookLengthsAnswer Json(
        RunLengths told,
        string name,
        Func<Domain.VesselId, string> nameOf,
        Saying saying
    ) =>
        new(
            name,
            [
                .. told.Looks.Select(look => new LengthLookJson(
                    Saying.Iso(look.Told.Happened.Middle),
                    nameOf(look.Measured.Vessel),
                    look.AgeDays is { } age ? Math.Round(age, 2) : null,
                    [.. look.Measured.Micrometres!.Select(it => it.Middle)],
                    look.Mean is { } mean ? PointsJson.Of(mean) : null
                )),
            ],
            told.Growth.Succeeded
                ? new(
                    PointsJson.Of(told.Growth.Value.MicrometresPerDay),
                    Math.Round(told.Growth.Value.FromDays, 2),
                    Math.Round(told.Growth.Value.ToDays, 2)
                )
                : null,
            [.. Remarks(told).Select(saying.Json)]
        );

    private static IEnumerable<Units.Remark> Remarks(RunLengths told) =>
        [.. told.Growth.Succeeded ? told.Growth.Value.Remarks : [told.Growth.Reason], .. told.Remarks];

    private static void Say(Page page, RunLengths told, Saying saying)
    {
        if (told.Looks.Count == 0)
        {
            page.Line("No larva of this run was measured yet (look length --write, write measured).");
            return;
        }

        page.Table(
            ["when", "days since crossing", "larvae", "mean length, mm", "nine chances in ten"],
            told.Looks.Select(look =>
                (IReadOnlyList<string>)
                    [
                        saying.Time(look.Told.Happened.Middle),
                        look.AgeDays is { } age ? Saying.Number(Math.Round(age, 1)) : "",
                        Saying.Number(look.Measured.Micrometres!.Count),
                        Millimetres(look.Measured.Micrometres!.Average(it => it.Middle)),
                        look.Mean is { } mean ? $"{Millimetres(mean.Low)} to {Millimetres(mean.High)}" : "",
                    ]
            )
        );
        page.Line();
        if (told.Growth.Succeeded)
        {
            var growth = told.Growth.Value;
            page.Line(
                $"Grew by {LedgerVerb.Points(growth.MicrometresPerDay, "um a day")} from day {Saying.Number(Math.Round(growth.FromDays, 1))} to day {Saying.Number(Math.Round(growth.ToDays, 1))} after the crossing."
            );
        }

        foreach (var remark in Remarks(told))
        {
            page.Line(saying.Of(remark));
        }
    }

    private static string Millimetres(double micrometres) =>
        (micrometres / 1_000).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);
}
