using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Safety.Advising;
using Broodtide.Workbench.Safety.Mending;

namespace Broodtide.Cli.Water;

/// <summary>What a limit becomes.</summary>
internal sealed record MendedLimitJson(
    string Quantity,
    bool IsUpper,
    double Limit,
    double AsItIs,
    double Mended
);

/// <summary>One thing to do; what does not belong to it is left out.</summary>
internal sealed record ActJson(
    string Act,
    string? At = null,
    double? Litres = null,
    double? Share = null,
    double? SalinityPpt = null,
    double? HoursPerDay = null
);

/// <summary>What brings the water back.</summary>
internal sealed record MendJson(
    IReadOnlyList<ActJson> Acts,
    bool IsEnough,
    IReadOnlyList<MendedLimitJson> Limits,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>One line of advice; what does not belong to it is left out.</summary>
internal sealed record AdviceJson(
    string Kind,
    RemarkJson Why,
    SafetyInterval? Cells = null,
    double? WantedPerMillilitre = null,
    string? Culture = null,
    double? MillilitresOfCulture = null,
    string? Food = null,
    double? DryMilligrams = null,
    SafetyInterval? SafeMilligrams = null,
    double? HoursPerDay = null,
    bool? On = null,
    double? EachLitres = null,
    int? Portions = null,
    string? Quantity = null,
    double? Told = null
);

/// <summary>What is advised for a vessel.</summary>
internal sealed record AdviseAnswer(
    string Vessel,
    string Now,
    MendJson? Mend,
    IReadOnlyList<AdviceJson> Advice,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>What to give and to do today, and what brings water back that is going wrong.</summary>
internal static class AdviseVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        return new VerbCommand(
            "advise",
            "What to give and to do in a vessel with larvae today, each run forward first; and what mends its water.",
            ["advise \"Jar A\"", "advise \"Jar A\" --json"],
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

                if (outlook.AdviceOf(id) is not { } advice)
                {
                    return sitting.Refuse(
                        [new Remark("advice-not-told", new Argument("vessel", id))],
                        saying
                    );
                }

                var answer = new AdviseAnswer(
                    said.TheText(vessel),
                    Saying.Iso(outlook.Now),
                    outlook.MendOf(id) is { } mend ? Json(mend, saying) : null,
                    [.. advice.Lines.Select(line => Json(line, said.Naming, saying))],
                    [.. advice.Assumes.Select(saying.Json)]
                );
                return sitting.Answer(answer, CliJson.Default.AdviseAnswer, page => Print(page, answer));
            }
        );
    }

    private static MendJson Json(Mend mend, Saying saying) =>
        new(
            [.. mend.Acts.Select(Json)],
            mend.IsEnough,
            [
                .. mend.Limits.Select(limit => new MendedLimitJson(
                    EnumWords.Of(limit.Limit.Quantity),
                    limit.Limit.IsUpper,
                    limit.Limit.Value,
                    limit.AsItIs.Value,
                    limit.Mended.Value
                )),
            ],
            [.. mend.Remarks.Select(saying.Json)]
        );

    private static ActJson Json(MendAct act) =>
        act switch
        {
            MendAct.LeadAir => new("lead-air"),
            MendAct.NoFood none => new("no-food", none.Until is { } until ? Saying.Iso(until) : null),
            MendAct.Siphon => new("siphon"),
            MendAct.Light light => new("light", HoursPerDay: light.HoursPerDay),
            MendAct.ChangeWater change => new(
                "change-water",
                Saying.Iso(change.At),
                change.Volume.Litres,
                change.Share.Value,
                change.Salinity.Practical
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(act), act, "No such act."),
        };

    private static AdviceJson Json(Advice line, Naming naming, Saying saying)
    {
        var why = saying.Json(line.Why);
        return line switch
        {
            Advice.Algae algae => new(
                "algae",
                why,
                SafetyInterval.Of(algae.Cells),
                algae.WantedPerMillilitre,
                algae.Culture is { } culture ? naming.NameOf(Domain.Journal.Subject.Of(culture)) : null,
                algae.Volume?.Millilitres
            ),
            Advice.Ration ration => new(
                "ration",
                why,
                Food: ration.Feed ?? EnumWords.Of(ration.Food),
                DryMilligrams: ration.DryMilligrams,
                SafeMilligrams: SafetyInterval.Of(ration.SafeMilligrams)
            ),
            Advice.Light light => new("light", why, HoursPerDay: light.HoursPerDay),
            Advice.Air air => new("air", why, On: air.On),
            Advice.Sponge => new("sponge", why),
            Advice.TopUp top => new("top-up", why, EachLitres: top.Each.Litres, Portions: top.Portions),
            Advice.Measure measure => new(
                "measure",
                why,
                Quantity: EnumWords.Of(measure.Quantity),
                Told: measure.Told.Value
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(line), line, "No such advice."),
        };
    }

    private static void Print(Page page, AdviseAnswer answer)
    {
        if (answer.Mend is { } mend)
        {
            page.Heading(mend.IsEnough ? "To mend the water" : "To mend the water, not enough by itself");
            foreach (var act in mend.Acts)
            {
                page.Line(Told(act));
            }

            foreach (var limit in mend.Limits)
            {
                page.Line(
                    $"  {limit.Quantity} {(limit.IsUpper ? "at most" : "at least")} {Figure(limit.Limit)}: crossed with {Saying.Percent(limit.AsItIs)} as it is, {Saying.Percent(limit.Mended)} then"
                );
            }

            foreach (var remark in mend.Remarks)
            {
                page.Line(remark.Words);
            }

            page.Line(
                "Pour and siphon through a sieve, and put the larvae back. Dry hands and plugs beside salt water."
            );
            page.Line();
        }

        page.Heading($"{answer.Vessel} today");
        foreach (var line in answer.Advice)
        {
            page.Line($"{Told(line)} {line.Why.Words}");
        }

        foreach (var remark in answer.Assumes)
        {
            page.Line(remark.Words);
        }
    }

    private static string Told(ActJson act) =>
        act.Act switch
        {
            "lead-air" => "Lead air through it, coarse bubbles.",
            "no-food" => act.At is { } until
                ? $"No dry food until {until}."
                : "No dry food for two days at least.",
            "siphon" => "Siphon what has settled.",
            "light" => act.HoursPerDay > 0
                ? $"Light for {Figure(act.HoursPerDay!.Value)} h a day."
                : "Light off.",
            _ =>
                $"{act.At}: change {UnitNames.Litres(act.Litres!.Value)} ({Saying.Percent(act.Share!.Value)}) for new sea water of {Figure(act.SalinityPpt!.Value)} ppt.",
        };

    private static string Told(AdviceJson line) =>
        line.Kind switch
        {
            "algae" => line.Cells!.Middle <= 0 ? "Green water: none."
            : line.MillilitresOfCulture is { } millilitres
                ? $"Green water: {Figure(millilitres)} mL of {line.Culture} in place of as much water ({Millions(line.Cells)} million cells)."
            : $"Green water: {Millions(line.Cells)} million cells.",
            "ration" => line.DryMilligrams > 0
                ? $"{line.Food}: at most {Figure(line.DryMilligrams!.Value)} mg dry ({Figure(line.SafeMilligrams!.Low)} to {Figure(line.SafeMilligrams.High)} are borne)."
                : $"{line.Food}: none.",
            "light" => $"Light: {Figure(line.HoursPerDay!.Value)} h a day.",
            "air" => line.On is true ? "Air: on." : "Air: not needed.",
            "sponge" => "A sponge.",
            "top-up" =>
                $"Top up: {line.Portions} x {UnitNames.Litres(line.EachLitres!.Value)} of fresh water.",
            _ => $"Measure {line.Quantity}.",
        };

    private static string Millions(SafetyInterval cells) =>
        $"{Figure(cells.Middle / 1e6)} ({Figure(cells.Low / 1e6)} to {Figure(cells.High / 1e6)})";

    private static string Figure(double value) =>
        value.ToString(Math.Abs(value) < 1 ? "0.###" : "0.#", CultureInfo.InvariantCulture);
}
