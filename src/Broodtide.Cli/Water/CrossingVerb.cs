using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Species;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.Water;

/// <summary>One deed at the bench or afterwards.</summary>
internal sealed record DeedJson(
    double OffsetSeconds,
    string Act,
    double WaterLitres,
    double MixGrams,
    WaterJson After
);

/// <summary>A note on a plan.</summary>
internal sealed record NoteJson(string Code, double Amount, string Words);

/// <summary>A crossing worked out.</summary>
internal sealed record CrossingAnswerJson(
    string Direction,
    double PourAtMinutes,
    double MinutesBrackish,
    double SourceUsedLitres,
    WaterJson ReceivingAfter,
    bool CorrectionNeeded,
    IReadOnlyList<DeedJson> AtTheBench,
    IReadOnlyList<DeedJson> Afterwards,
    IReadOnlyList<NoteJson> Notes
);

/// <summary>Plans a crossing, larvae to salt water or juveniles to fresh.</summary>
internal static class CrossingVerb
{
    public static Command Make()
    {
        var crossing = new Command(
            "crossing",
            "The way of larvae into salt water, and of juveniles back to fresh."
        );
        crossing.Subcommands.Add(PlanOne());
        return crossing;
    }

    private static VerbCommand PlanOne()
    {
        var capacity = Slot.Option("--cup-capacity", "What the cup holds when full.", "VOLUME");
        var cup = Slot.Option("--cup", $"The water with the animals: {WaterText.Form}.", "WATER");
        var source = Slot.Option("--source", $"The water to pour. {KnownWater.Form}", "WATER");
        var receiving = Slot.Option(
            "--receiving",
            $"The receiving vessel before. {KnownWater.Form}",
            "WATER"
        );
        var receivingCapacity = Slot.Option("--receiving-capacity", "What it holds when full.", "VOLUME");
        var minutes = Slot.Option(
            "--minutes",
            "From the first pour to pouring the cup out; 4 if left out.",
            "NUMBER"
        );
        var steps = Slot.Option("--steps", "Pours wished.", "COUNT");
        var cupTarget = Slot.Option("--cup-target", "Salinity of the cup when it is poured out.", "SALINITY");
        var limit = Slot.Option(
            "--brackish-limit",
            "Most minutes in brackish water; the species' own if left out.",
            "NUMBER"
        );
        var down = Slot.Flag("--down", "Juveniles to fresh water: the receiving vessel is minded as fresh.");
        var jump = Slot.Flag(
            "--allow-jump",
            "The receiving vessel may change by more than 1 ppt or 1 °C at once."
        );
        var species = SpeciesSlot.Make();
        return new(
            "plan",
            "The pours of a crossing: when, how much, salinity after each, minutes brackish, and what it does to the vessel.",
            [
                "crossing plan --cup-capacity 400mL --cup \"100 mL; 0; 24 C\" --source \"1 L; 30; 24 C\" --receiving \"7 L; 30; 24 C\" --receiving-capacity 8L",
                "crossing plan --cup-capacity 500mL --cup \"120 mL; 0; 24 C\" --source \"Sea can\" --receiving \"7 L; 30; 24 C\"",
                "crossing plan --down --cup-capacity 2L --cup \"200 mL; 30; 24 C\" --source \"5 L; 0; 24 C\" --receiving \"20 L; 0; 24 C\" --minutes 60 --brackish-limit 90 --json",
            ],
            [
                capacity,
                cup,
                source,
                receiving,
                receivingCapacity,
                minutes,
                steps,
                cupTarget,
                limit,
                down,
                jump,
                species,
            ],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                foreach (var needed in new[] { capacity, cup, source, receiving })
                {
                    if (said.Text(needed) is null)
                    {
                        said.Add(new Remark("option-needed", new Argument("field", needed.Name)));
                    }
                }

                var holds = said.Volume(capacity).AsVolume();
                var animals = WaterText.The(said, cup, SaltProduct.Unmeasured);
                var pour = KnownWater.Of(said, outlook, source, SaltProduct.Unmeasured);
                var vessel = KnownWater.Of(said, outlook, receiving, SaltProduct.Unmeasured);
                var profile = SpeciesSlot.Read(said, species, outlook.Profiles);
                var band =
                    said.Flag(down) ? SalinityBand.Fresh
                    : vessel.Vessel is { } id && outlook.Profiles.BandOf(outlook.House.Vessel(id)) is { } own
                        ? own
                    : profile.FirstSalinityBand();
                var typedTarget = said.Salinity(cupTarget);
                var aim = typedTarget is null
                    ? (Salinity?)null
                    : WaterText.Salinity(
                        said,
                        typedTarget,
                        cupTarget.Name,
                        animals.Temperature,
                        SaltProduct.Unmeasured
                    );
                var most = said.Number(limit) ?? profile.BrackishLimit.TotalMinutes;
                var wanted = said.Number(minutes) ?? 4;
                if (most < 0)
                {
                    said.Add(Impossible(said, limit));
                }

                if (wanted < 0)
                {
                    said.Add(Impossible(said, minutes));
                }

                if (
                    said.Wrong.Count > 0
                    || holds is not { } full
                    || pour.Body is not { } sourceWater
                    || vessel.Body is not { } receivingWater
                )
                {
                    return sitting.NotUnderstood(Complaints.Of(said, said.Volume(capacity)), saying);
                }

                if ((pour.Doubtful ?? vessel.Doubtful) is { } doubtful)
                {
                    return sitting.Refuse([doubtful], saying);
                }

                var order = new CrossingOrder
                {
                    CupCapacity = full,
                    Cup = animals,
                    Source = sourceWater,
                    Receiving = receivingWater,
                    ReceivingCapacity = said.Volume(receivingCapacity).AsVolume() ?? vessel.Capacity,
                    WantedMinutes = wanted,
                    WantedSteps = said.Count(steps),
                    CupTarget = aim,
                    Brackish = BrackishRule.From(
                        profile.BrackishSalinity.Low,
                        profile.BrackishSalinity.High,
                        most
                    ),
                    ReceivingBand = band,
                    AllowJump = said.Flag(jump),
                };
                return CrossingPlanner.Plan(order) switch
                {
                    CrossingAnswer.Planned { Plan: var plan } => sitting.Answer(
                        Json(plan),
                        CliJson.Default.CrossingAnswerJson,
                        page => Print(page, plan)
                    ),
                    CrossingAnswer.Refused { Refusal: var refusal } => sitting.Refuse([.. Refusal(refusal)]),
                    _ => throw new InvalidOperationException("A crossing is planned or refused."),
                };
            }
        );
    }

    private static Remark Impossible(Said said, Slot slot) =>
        new(
            "number-impossible",
            new("field", slot.Name),
            new("typed", said.TheText(slot)),
            new("lowest", 0.0),
            new("highest", 1e6)
        );

    private static IEnumerable<Remark> Refusal(CrossingRefusal refusal)
    {
        yield return new Remark(
            Saying.Key(refusal.Code),
            new("field", Saying.Of(refusal.Field)),
            new("given", refusal.Given),
            new("needed", refusal.Needed)
        );
        foreach (var remedy in refusal.Remedies)
        {
            yield return new Remark(Saying.Key(remedy.Code), new Argument("amount", remedy.Amount));
        }
    }

    private static CrossingAnswerJson Json(CrossingPlan plan) =>
        new(
            EnumWords.Of(plan.Direction),
            plan.PourAtMinutes,
            plan.MinutesBrackish,
            plan.SourceUsed.Litres,
            WaterJson.Of(plan.ReceivingAfter),
            plan.Correction.IsNeeded,
            Deeds(plan.AtTheBench()),
            Deeds(plan.Afterwards()),
            [.. plan.Notes.Select(note => new NoteJson(EnumWords.Of(note.Code), note.Amount, Words(note)))]
        );

    private static IReadOnlyList<DeedJson> Deeds(IReadOnlyList<BenchDeed> deeds) =>
        [
            .. deeds.Select(deed => new DeedJson(
                deed.OffsetSeconds,
                EnumWords.Of(deed.Act),
                deed.Water.Litres,
                deed.Mix.Grams,
                WaterJson.Of(deed.After)
            )),
        ];

    private static void Print(Page page, CrossingPlan plan)
    {
        page.Facts(
            (
                "Way",
                plan.Direction == CrossingDirection.ToSalt
                    ? "larvae into salt water"
                    : "juveniles into fresh water"
            ),
            ("Brackish", $"{Saying.Number(plan.MinutesBrackish)} min"),
            ("Source used", UnitNames.Litres(plan.SourceUsed.Litres)),
            ("Receiving vessel then", ScaleWords.Of(plan.ReceivingAfter))
        );
        page.Line();
        Table(page, "at the bench", plan.AtTheBench());
        if (plan.Afterwards() is { Count: > 0 } after)
        {
            page.Line(
                plan.Correction.IsNeeded
                    ? "Then bring the vessel back into its band:"
                    : "Then, if you wish, to its target:"
            );
            Table(page, "afterwards", after);
        }

        foreach (var note in plan.Notes)
        {
            page.Line(Words(note));
        }

        page.Line(Saying.Of(CautionCode.WetHandsChargingPhone)).Line(Saying.Of(CautionCode.NoRelease));
    }

    private static void Table(Page page, string title, IReadOnlyList<BenchDeed> deeds) =>
        page.Table(
            ["time", title, "how much", "then"],
            deeds.Select(deed =>
                (IReadOnlyList<string>)
                    [
                        $"{(int)(deed.OffsetSeconds / 60)}:{(int)(deed.OffsetSeconds % 60):00}",
                        Saying.Of(deed.Act),
                        deed.Mix.Grams > 0
                            ? $"{Saying.Number(deed.Mix.Grams)} g"
                            : UnitNames.Litres(deed.Water.Litres),
                        ScaleWords.Of(deed.After),
                    ]
            )
        );

    private static string Words(CrossingNote note) =>
        new Saying(NodaTime.DateTimeZone.Utc, null).Of(
            Saying.Key(note.Code),
            [new Argument("amount", note.Amount)]
        );
}
