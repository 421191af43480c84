using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>One change of the whole vessel.</summary>
internal sealed record DilutionJson(
    int Number,
    double AfterHours,
    double FromPpt,
    double ToPpt,
    double DrawnOffLitres,
    double AddedLitres
);

/// <summary>One pour into the cup of single ones.</summary>
internal sealed record CupJson(
    double AfterMinutes,
    double DrawnOffMillilitres,
    double AddedMillilitres,
    double Ppt
);

/// <summary>Both ways home.</summary>
internal sealed record ReturnAnswer(
    string Vessel,
    CountsJson? Settled,
    CountsJson? Zoeae,
    string Dilution,
    double FloorPpt,
    RemarkJson? Hold,
    IReadOnlyList<DilutionJson> Steps,
    IReadOnlyList<CupJson> OneByOne,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<string> Cautions
);

/// <summary>Plans both practices of the way home.</summary>
internal static class ReturnPlanVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "The larval vessel.");
        var fresh = Slot.Option(
            "--fresh",
            $"The fresh water that waits. {WaterText.Form}; plenty if left out.",
            "WATER"
        );
        var nursery = Slot.Option("--nursery", $"Where single ones go. {KnownWater.Form}", "WATER");
        var hardness = Slot.Option(
            "--hardness",
            "Hardness of the fresh water, such as \"8 dH\" or \"140 mg/L\" of calcium carbonate.",
            "HARDNESS"
        );
        var alkalinity = Slot.Option("--alkalinity", "Its alkalinity, said the same way.", "ALKALINITY");
        var none = Slot.Flag(
            "--no-zoeae-seen",
            "You looked in the dark and at a lamp, and nothing swims any more: your word goes before the estimate, if settled ones were ever seen or most have settled by it."
        );
        return new VerbCommand(
            "plan",
            "Both ways back to fresh water, side by side: the vessel diluted in steps, and settled ones moved one by one. Held while zoeae that are not ready are in the water.",
            [
                "return plan \"Jar A\"",
                "return plan \"Jar A\" --fresh \"40 L; 0; 24 C\" --hardness \"8 dH\" --no-zoeae-seen --json",
            ],
            [vessel, fresh, nursery, hardness, alkalinity, none],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                var waits = WaterText.Of(said, fresh, SaltProduct.Unmeasured);
                var home = KnownWater.Of(said, outlook, nursery, SaltProduct.Unmeasured).Body;
                var usual = ReturnPlaces.Order(outlook, id);
                var order = usual with
                {
                    Fresh = waits ?? usual.Fresh,
                    Nursery = home ?? usual.Nursery,
                    HardnessMilligramsPerLitre = Hardness(said, hardness) ?? usual.HardnessMilligramsPerLitre,
                    AlkalinityMilligramsPerLitre = Hardness(said, alkalinity),
                    NoZoeaeByWord = said.Flag(none),
                };
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var (plan, no) = Returning.Plan(outlook, order);
                if (plan is null)
                {
                    return sitting.Refuse([no!], saying);
                }

                var answer = Of(plan, said.TheText(vessel), saying);
                return sitting.Answer(
                    answer,
                    CliJson.Default.ReturnAnswer,
                    page => Print(page, answer, plan, saying)
                );
            }
        );
    }

    internal static double? Hardness(Said said, Slot slot)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        var read = HardnessText.Parse(text, slot.Name);
        if (!read.Succeeded)
        {
            said.Add(read.Reason);
            return null;
        }

        return read.Value;
    }

    private static ReturnAnswer Of(ReturnPlan plan, string vessel, Saying saying) =>
        new(
            vessel,
            plan.Now is { } now ? WatchVerb.Of(now.Settled) : null,
            plan.Now is { } then ? WatchVerb.Of(then.Zoeae) : null,
            EnumWords.Of(plan.InSteps.State),
            plan.InSteps.FloorPpt,
            plan.InSteps.Hold is { } hold ? saying.Json(hold) : null,
            [
                .. plan.InSteps.Steps.Select(step => new DilutionJson(
                    step.Number,
                    step.AfterHours,
                    step.FromPpt,
                    step.ToPpt,
                    step.DrawnOff.Litres,
                    step.Added.Litres
                )),
            ],
            plan.OneByOne is CrossingAnswer.Planned { Plan: var cup }
                ?
                [
                    .. cup.Steps.Select(step => new CupJson(
                        step.OffsetMinutes,
                        step.DrawOff.Millilitres,
                        step.Add.Millilitres,
                        step.After.Salinity.Practical
                    )),
                ]
                : [],
            [.. plan.Remarks.Select(saying.Json)],
            [Saying.Of(CautionCode.MainsBesideSaltWater), Saying.Of(CautionCode.NoRelease)]
        );

    private static void Print(Page page, ReturnAnswer answer, ReturnPlan plan, Saying saying)
    {
        page.Heading($"Back to fresh water: {answer.Vessel}");
        page.Facts(
            ("Settled", answer.Settled is { } settled ? WatchVerb.Told(settled) : null),
            ("Zoeae", answer.Zoeae is { } zoeae ? WatchVerb.Told(zoeae) : null)
        );
        page.Heading("The vessel diluted in steps");
        if (plan.InSteps.Hold is { } hold)
        {
            page.Line(saying.Of(hold));
        }

        if (plan.InSteps.Refused is { } refused)
        {
            page.Line(
                saying.Of(
                    new Remark("return-cannot-be-planned", new Argument("why", EnumWords.Plain(refused.Code)))
                )
            );
        }

        if (answer.Steps.Count > 0)
        {
            page.Table(
                ["step", "after", "from", "to", "draw off", "fresh water"],
                answer.Steps.Select(step =>
                    (IReadOnlyList<string>)
                        [
                            $"{step.Number}",
                            $"{Saying.Number(step.AfterHours)} h",
                            $"{Saying.Number(step.FromPpt)} ppt",
                            $"{Saying.Number(step.ToPpt)} ppt",
                            UnitNames.Litres(step.DrawnOffLitres),
                            UnitNames.Litres(step.AddedLitres),
                        ]
                )
            );
        }

        page.Heading("Settled ones moved one by one");
        if (plan.OneByOne is CrossingAnswer.Refused { Refusal: var no })
        {
            page.Line(
                saying.Of(
                    new Remark("return-cannot-be-planned", new Argument("why", EnumWords.Plain(no.Code)))
                )
            );
        }

        if (answer.OneByOne.Count > 0)
        {
            page.Table(
                ["after", "draw off", "fresh water", "cup"],
                answer.OneByOne.Select(step =>
                    (IReadOnlyList<string>)
                        [
                            $"{Saying.Number(step.AfterMinutes)} min",
                            $"{Saying.Number(step.DrawnOffMillilitres)} mL",
                            $"{Saying.Number(step.AddedMillilitres)} mL",
                            $"{Saying.Number(step.Ppt)} ppt",
                        ]
                )
            );
        }

        page.Heading("On both ways");
        foreach (var caution in answer.Cautions)
        {
            page.Line($"Mind: {caution}");
        }

        foreach (var remark in plan.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }
}
