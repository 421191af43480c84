using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Water;

/// <summary>Three points of an uncertain number.</summary>
internal sealed record SafetyInterval(double Low, double Middle, double High)
{
    public static SafetyInterval Of(Units.Interval interval) =>
        new(interval.Low, interval.Middle, interval.High);
}

/// <summary>One limit.</summary>
internal sealed record SafetyLimitJson(
    string Quantity,
    string Unit,
    bool IsUpper,
    double Limit,
    bool IsDanger,
    SafetyInterval Now,
    double CrossedNow,
    double CrossedWithin12Hours,
    double CrossedWithin48Hours,
    string? LikelyFrom,
    string Level,
    RemarkJson? Cause,
    string ProfileQuantity,
    string Provenance,
    string? BorrowedFrom,
    string Source,
    bool Yours
);

/// <summary>A point of a track.</summary>
internal sealed record SafetyPoint(string At, double Low, double Middle, double High);

/// <summary>One vessel.</summary>
internal sealed record SafetyVesselJson(
    string Vessel,
    string Name,
    string? Stage,
    string Level,
    IReadOnlyList<SafetyLimitJson> Limits,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<string> OddReadings,
    IReadOnlyDictionary<string, IReadOnlyList<SafetyPoint>> Track
);

/// <summary>All of them.</summary>
internal sealed record SafetyAnswer(string Now, IReadOnlyList<SafetyVesselJson> Vessels);

/// <summary>What the water does to those that live in it.</summary>
internal static class SafetyVerb
{
    private static readonly VesselQuantity[] Tracks =
    [
        VesselQuantity.Oxygen,
        VesselQuantity.UnionisedAmmonia,
        VesselQuantity.Tan,
        VesselQuantity.Nitrite,
        VesselQuantity.PHNbs,
        VesselQuantity.CellsPerMillilitre,
        VesselQuantity.FilmShare,
    ];

    public static Command Make()
    {
        var vessel = Slot.MaybeWord("VESSEL", "Which one; all whose water is told if left out.");
        return new VerbCommand(
            "safety",
            "What the water of a vessel does to those that live in it: chances to cross a limit now and in two days, and why.",
            ["safety", "safety \"Jar A\" --json"],
            [vessel],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var named = said.Vessel(vessel);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                if (named is { } only && outlook.SafetyOf(only) is null)
                {
                    return sitting.Refuse([new Remark("safety-not-told", new Argument("vessel", only))]);
                }

                var told = (named is { } one ? [one] : outlook.WatersTold)
                    .Select(outlook.SafetyOf)
                    .OfType<VesselSafety>()
                    .Where(safety => named is not null || safety.Stage is not null)
                    .ToList();
                var saying = await sitting.SayingAsync();
                return sitting.Answer(
                    new SafetyAnswer(
                        Saying.Iso(outlook.Now),
                        [.. told.Select(safety => Json(safety, said.Naming, saying))]
                    ),
                    CliJson.Default.SafetyAnswer,
                    page => Print(page, told, said.Naming, saying)
                );
            }
        );
    }

    private static SafetyVesselJson Json(VesselSafety safety, Naming naming, Saying saying) =>
        new(
            safety.Vessel.Value.ToString(),
            naming.NameOf(Subject.Of(safety.Vessel)),
            safety.Stage is { } stage ? EnumWords.Of(stage) : null,
            EnumWords.Of(safety.Level),
            [.. safety.Limits.Select(limit => Json(limit, saying))],
            [.. safety.Remarks.Select(saying.Json)],
            [.. safety.Run?.Odd.Select(odd => odd.Entry.Value.ToString()) ?? []],
            safety.Run is { } run
                ? Tracks.ToDictionary(
                    EnumWords.Of,
                    quantity =>
                        (IReadOnlyList<SafetyPoint>)
                            [
                                .. run.Track(quantity)
                                    .Select(point => new SafetyPoint(
                                        Saying.Iso(point.At),
                                        point.Value.Low,
                                        point.Value.Middle,
                                        point.Value.High
                                    )),
                            ]
                )
                : new Dictionary<string, IReadOnlyList<SafetyPoint>>()
        );

    private static SafetyLimitJson Json(LimitAhead limit, Saying saying) =>
        new(
            EnumWords.Of(limit.Limit.Quantity),
            UnitOf(limit.Limit.Quantity),
            limit.Limit.IsUpper,
            limit.Limit.Value,
            limit.Limit.IsDanger,
            SafetyInterval.Of(limit.Now),
            limit.CrossedNow.Value,
            limit.CrossedSoon.Value,
            limit.CrossedAhead.Value,
            limit.LikelyFrom is { } from ? Saying.Iso(from) : null,
            EnumWords.Of(limit.Level),
            limit.Cause is { } cause ? saying.Json(cause) : null,
            limit.Limit.From.Code,
            EnumWords.Of(limit.Limit.From.Provenance),
            limit.Limit.From.BorrowedFrom,
            limit.Limit.From.Source,
            limit.Limit.From.Chosen is not null
        );

    private static void Print(Page page, List<VesselSafety> told, Naming naming, Saying saying)
    {
        if (told.Count == 0)
        {
            page.Line("No salt water stands in a vessel with larvae.");
        }

        foreach (var safety in told)
        {
            page.Heading($"{naming.NameOf(Subject.Of(safety.Vessel))}: {EnumWords.Plain(safety.Level)}");
            foreach (var limit in safety.Limits.Where(limit => limit.Level > SafetyLevel.Calm))
            {
                page.Line(Sentence(limit, saying));
            }

            page.Table(
                ["", "now", "limit", "crossed now", "in 12 h", "in 48 h"],
                safety.Limits.Select(limit =>
                    (IReadOnlyList<string>)
                        [
                            Name(limit.Limit.Quantity),
                            $"{Figure(limit.Now.Middle)} ({Figure(limit.Now.Low)} to {Figure(limit.Now.High)})",
                            $"{(limit.Limit.IsUpper ? "at most" : "at least")} {Figure(limit.Limit.Value)}{(limit.Limit.IsDanger ? ", harm near" : "")}",
                            Percent(limit.CrossedNow),
                            Percent(limit.CrossedSoon),
                            Percent(limit.CrossedAhead),
                        ]
                )
            );
            foreach (var remark in safety.Remarks)
            {
                page.Line(saying.Of(remark));
            }

            page.Line();
        }
    }

    private static string Sentence(LimitAhead limit, Saying saying)
    {
        var side = limit.Limit.IsUpper ? "over" : "under";
        var what =
            $"{Name(limit.Limit.Quantity)} {side} {Figure(limit.Limit.Value)} {UnitOf(limit.Limit.Quantity)}".TrimEnd();
        var when = limit.LikelyFrom is { } from
            ? $"likely from {saying.Time(from)}"
            : $"{Percent(limit.CrossedAhead)} within two days";
        return limit.Cause is { } cause ? $"{saying.Of(cause)}: {what}, {when}." : $"{what}, {when}.";
    }

    private static string Name(LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.UnionisedAmmonia => "un-ionised ammonia",
            LimitedQuantity.Acidity => "pH",
            _ => EnumWords.Plain(quantity),
        };

    private static string UnitOf(LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.UnionisedAmmonia => "mg/L NH3-N",
            LimitedQuantity.Nitrite => "mg/L NO2-N",
            LimitedQuantity.Nitrate => "mg/L NO3-N",
            LimitedQuantity.Oxygen => "mg/L",
            LimitedQuantity.Temperature => "°C",
            LimitedQuantity.Salinity => "ppt",
            _ => "",
        };

    private static string Percent(Probability probability) => $"{Math.Round(probability.Percent)} %";

    private static string Figure(double value) =>
        Math.Abs(value) < 1
            ? value.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)
            : value.ToString("0.#", System.Globalization.CultureInfo.InvariantCulture);
}
