using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;

namespace Broodtide.Cli.Water;

/// <summary>The 5, 50 and 95 % points of a number whose unit stands in the name of what holds it.</summary>
internal sealed record PointsJson(double Low, double Middle, double High)
{
    public static PointsJson Of(Interval interval) => new(interval.Low, interval.Middle, interval.High);
}

/// <summary>One line of a ledger.</summary>
internal sealed record LedgerRowJson(
    string When,
    string Entry,
    string Words,
    PointsJson Litres,
    PointsJson SalinityPpt,
    string? Fit,
    double? ExpectedPpt,
    double? SeenPpt
);

/// <summary>When it leaves its band.</summary>
internal sealed record LeavingJson(
    bool TooSalty,
    double LimitPpt,
    string Earliest,
    string? Middle,
    string? Latest
);

/// <summary>What to pour.</summary>
internal sealed record TopUpJson(
    double EachLitres,
    int Portions,
    double TemperatureCelsius,
    PointsJson AfterPpt,
    PointsJson AfterLitres,
    bool HeldByLine
);

/// <summary>The ledger of a vessel.</summary>
internal sealed record LedgerAnswer(
    string Vessel,
    string Now,
    PointsJson SalinityPpt,
    PointsJson Litres,
    PointsJson SaltGrams,
    PointsJson EvaporationMillilitresPerDay,
    double TemperatureCelsius,
    LeavingJson? Leaving,
    TopUpJson? TopUp,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<LedgerRowJson> Rows
);

/// <summary>Tells the ledger of a vessel.</summary>
internal static class LedgerVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var last = Slot.Option("--last", "Only so many lines, the newest.", "COUNT");
        return new VerbCommand(
            "ledger",
            "Volume, salt and salinity of a vessel from every move and reading, when it leaves its band, what to pour.",
            ["ledger \"Jar A\"", "ledger \"Jar A\" --last 3 --json"],
            [vessel, last],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                var most = said.Count(last) ?? int.MaxValue;
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (outlook.LedgerOf(id) is not { } ledger)
                {
                    return sitting.Refuse(
                        [new Remark("vessel-holds-no-water", new Argument("vessel", id))],
                        saying
                    );
                }

                var answer = Json(said.TheText(vessel), ledger, saying, outlook.House, most);
                return sitting.Answer(
                    answer,
                    CliJson.Default.LedgerAnswer,
                    page => Print(page, answer, ledger, saying)
                );
            }
        );
    }

    private static LedgerAnswer Json(string vessel, VesselLedger ledger, Saying saying, House house, int most)
    {
        var words = new FactWords(saying, house);
        return new(
            vessel,
            Saying.Iso(ledger.Now),
            PointsJson.Of(ledger.SalinityPpt),
            PointsJson.Of(ledger.Litres),
            PointsJson.Of(ledger.SaltGrams),
            PointsJson.Of(ledger.EvaporationMillilitresPerDay),
            ledger.Temperature.Celsius,
            ledger.Leaving is { } leaving
                ? new(
                    leaving.TooSalty,
                    leaving.LimitPpt,
                    Saying.Iso(leaving.Earliest),
                    leaving.Middle is { } middle ? Saying.Iso(middle) : null,
                    leaving.Latest is { } latest ? Saying.Iso(latest) : null
                )
                : null,
            ledger.TopUp is { } top
                ? new(
                    top.Each.Litres,
                    top.Portions,
                    top.Temperature.Celsius,
                    PointsJson.Of(top.AfterPpt),
                    PointsJson.Of(top.AfterLitres),
                    top.HeldByLine
                )
                : null,
            [.. ledger.Remarks.Select(saying.Json)],
            [
                .. ledger
                    .Rows.Skip(Math.Max(0, ledger.Rows.Count - most))
                    .Select(row => new LedgerRowJson(
                        Saying.Iso(row.When),
                        Naming.Short(row.Occurrence.Id),
                        words.Of(row.Occurrence.Fact),
                        PointsJson.Of(row.Litres),
                        PointsJson.Of(row.SalinityPpt),
                        row.Fit is { } fit ? EnumWords.Of(fit) : null,
                        row.Innovation?.Expected,
                        row.Innovation?.Seen
                    )),
            ]
        );
    }

    private static void Print(Page page, LedgerAnswer answer, VesselLedger ledger, Saying saying)
    {
        page.Heading($"Ledger of {answer.Vessel}")
            .Facts(
                ("Salinity", Points(ledger.SalinityPpt, "ppt")),
                ("Water", Points(ledger.Litres, "L")),
                ("Salt", Points(ledger.SaltGrams, "g")),
                ("Evaporation", Points(ledger.EvaporationMillilitresPerDay, "mL a day")),
                ("Temperature", $"{Saying.Number(ledger.Temperature.Celsius)} °C, as last written"),
                ("Leaves its band", Leaving(ledger, saying)),
                ("Pour", Pour(ledger))
            );
        foreach (var remark in answer.Remarks)
        {
            page.Line(remark.Words);
        }

        page.Line()
            .Table(
                ["when", "what", "L", "ppt", "reading"],
                answer
                    .Rows.Zip(ledger.Rows.Skip(ledger.Rows.Count - answer.Rows.Count))
                    .Select(pair =>
                        (IReadOnlyList<string>)
                            [
                                saying.Time(pair.Second.When),
                                pair.First.Words,
                                Saying.Number(pair.First.Litres.Middle),
                                $"{Saying.Number(pair.First.SalinityPpt.Middle)} ({Saying.Number(pair.First.SalinityPpt.Low)} to {Saying.Number(pair.First.SalinityPpt.High)})",
                                pair.First.Fit?.Replace('-', ' ') ?? "",
                            ]
                    )
            );
    }

    public static string Points(Interval interval, string unit) =>
        $"{Saying.Number(interval.Middle)} {unit} ({Saying.Number(interval.Low)} to {Saying.Number(interval.High)}, nine chances in ten)";

    private static string Leaving(VesselLedger ledger, Saying saying) =>
        ledger.Leaving is not { } leaving ? "not as far as is looked ahead"
        : leaving.Middle <= ledger.Now
            ? $"it is {(leaving.TooSalty ? "too salty" : "too fresh")} already, past {Saying.Number(leaving.LimitPpt)} ppt"
        : $"{(leaving.TooSalty ? "too salty" : "too fresh")}, past {Saying.Number(leaving.LimitPpt)} ppt: earliest {saying.Time(leaving.Earliest)}"
            + (leaving.Middle is { } middle ? $", likely {saying.Time(middle)}" : "");

    private static string Pour(VesselLedger ledger) =>
        ledger.Remarks.Any(remark => remark.Code == "second-reading-first")
            ? "nothing before a second reading"
        : ledger.TopUp is not { } top ? "nothing"
        : $"{top.Portions} x {UnitNames.Litres(top.Each.Litres)} fresh water of {Saying.Number(top.Temperature.Celsius)} °C, an hour apart: "
            + $"then {Saying.Number(top.AfterPpt.Middle)} ppt"
            + (top.HeldByLine ? "; the working line leaves no room for more" : "");
}
