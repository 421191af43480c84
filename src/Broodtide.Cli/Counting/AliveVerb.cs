using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Population;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Counting;

/// <summary>Tells how many larvae are alive, in which stage, and when they settle.</summary>
internal static class AliveVerb
{
    public static Command Make()
    {
        var which = Slot.MaybeWord(
            "BROOD|VESSEL",
            "Which larvae: of a brood, or in a vessel. All if left out."
        );
        var day = Slot.Option(
            "--day",
            "Tell the numbers of this time, past or future, as believed now. With --at instead, now itself is moved and later entries are passed over.",
            "TIME"
        );
        var why = Slot.Flag("--why", "Also list how much each entry changed the answer, the largest first.");
        return new VerbCommand(
            "alive",
            "How many larvae are alive, in which vessel and stage, when they settle, and which one look would tell most.",
            [
                "alive",
                "alive \"Brood 2\" --why",
                "alive \"Jar A\" --day 2026-03-20 --json",
                "alive \"Brood 2\" --at 2026-03-01 --as-known-at 2026-03-01",
            ],
            [which, day, why],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var (populations, none) = Chosen(said, outlook, which);
                var at = said.Time(day)?.Middle;
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (none is { } reason)
                {
                    return sitting.Refuse([reason], saying);
                }

                var telling = new AliveTelling(saying, outlook.House);
                var answer = new AliveAnswer(
                    Saying.Iso(outlook.Now),
                    Saying.Iso(at ?? outlook.Now),
                    [.. populations.Select(population => telling.Of(population, at, said.Flag(why)))]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.AliveAnswer,
                    page => Print(page, answer, outlook, saying)
                );
            }
        );
    }

    private static (IReadOnlyList<LarvalPopulation> Populations, Remark? None) Chosen(
        Said said,
        Outlook outlook,
        Slot which
    )
    {
        if (said.Text(which) is not { } name)
        {
            return (outlook.Populations, null);
        }

        if (said.Naming.Brood(name) is { Succeeded: true } brood)
        {
            return outlook.PopulationOf(brood.Value) is { } hatched
                ? ([hatched], null)
                : ([], new Remark("alive-none-crossed", new Argument("brood", brood.Value)));
        }

        if (said.Naming.Vessel(name) is { Succeeded: true } vessel)
        {
            return outlook.PopulationIn(vessel.Value) is { } within
                ? ([within], null)
                : ([], new Remark("alive-none-in-vessel", new Argument("vessel", vessel.Value)));
        }

        said.Add(
            new Remark(
                "name-unknown",
                new("sort", "brood or vessel"),
                new("typed", name),
                new("known", Known(outlook))
            )
        );
        return ([], null);
    }

    private static string Known(Outlook outlook) =>
        string.Join(
            ", ",
            outlook
                .House.Broods.Select(brood => brood.Name)
                .Concat(
                    outlook
                        .Populations.SelectMany(population => population.Vessels)
                        .Select(vessel => outlook.House.Vessel(vessel).Name)
                )
                .OfType<string>()
                .Distinct(StringComparer.Ordinal)
                .Select(name => $"\"{name}\"")
        );

    private static void Print(Page page, AliveAnswer answer, Outlook outlook, Saying saying)
    {
        if (answer.Populations.Count == 0)
        {
            page.Line("No larvae have crossed yet.");
        }

        foreach (var (place, population) in answer.Populations.Index())
        {
            if (place > 0)
            {
                page.Line();
            }

            Print(page, population, At(answer.At), outlook, saying);
        }
    }

    private static void Print(Page page, PopulationJson told, Instant at, Outlook outlook, Saying saying)
    {
        page.Heading(
                $"Larvae of {string.Join(" and ", told.Broods)}, {saying.Time(at)}"
                    + (
                        at == outlook.Now ? ""
                        : at < outlook.Now ? ", as believed now"
                        : ", foretold"
                    )
            )
            .Facts(("Alive", Larvae(told.AliveLarvae) + (told.Rough ? ", rough" : "")));
        if (told.AliveLarvae.High >= 1)
        {
            PrintParts(page, told, saying);
        }

        if (told.WhatHelpsMost is { } helps)
        {
            page.Line(helps);
        }

        foreach (var remark in told.Remarks)
        {
            page.Line(remark.Words);
        }

        foreach (var conflict in told.Conflicts)
        {
            page.Line($"Does not agree: {conflict.Words}");
        }

        if (told.Why is { } why)
        {
            Print(page, why, saying);
        }
    }

    private static void PrintParts(Page page, PopulationJson told, Saying saying) =>
        page.Facts(
                ("Of all that crossed", Share(told.SurvivedShare)),
                (
                    "Juveniles to expect",
                    $"{Larvae(told.JuvenilesExpected)}, by {Day(told.JuvenilesOn, saying)}"
                )
            )
            .Line()
            .Table(
                ["where", "alive"],
                [
                    .. told.Vessels.Select(part =>
                        (IReadOnlyList<string>)[part.Name, Larvae(part.AliveLarvae)]
                    ),
                    .. told.Cohorts.Select(part =>
                        (IReadOnlyList<string>)[$"cohort {part.Name}", Larvae(part.AliveLarvae)]
                    ),
                ]
            )
            .Line()
            .Table(
                ["stage", "larvae", "share"],
                told.Stages.Where(stage => stage.AliveLarvae.High >= 1 || stage.Share >= 0.005)
                    .Select(stage =>
                        (IReadOnlyList<string>)
                            [stage.Stage, Larvae(stage.AliveLarvae), Saying.Percent(stage.Share)]
                    )
            )
            .Line()
            .Table(
                ["settled", "likely", "between"],
                [
                    Settled("the first", told.Settlement.First, saying),
                    Settled("one in ten", told.Settlement.OneInTen, saying),
                    Settled("half", told.Settlement.Half, saying),
                    Settled("nine in ten", told.Settlement.NineInTen, saying),
                ]
            )
            .Line();

    private static void Print(Page page, IReadOnlyList<EntryWeightJson> why, Saying saying)
    {
        page.Line()
            .Table(
                ["entry", "happened", "what", "alive without it", "changed by", "half settled by"],
                why.Select(weight =>
                    (IReadOnlyList<string>)
                        [
                            weight.Entry,
                            saying.Time(At(weight.Happened)),
                            weight.Words,
                            Larvae(weight.AliveWithoutLarvae),
                            Signed(weight.AliveMovedByLarvae, 0),
                            $"{Signed(weight.HalfSettledMovedByDays, 1)} days",
                        ]
                )
            )
            .Line("Crossings are not listed: without them there is nothing to estimate.")
            .Line("Small changes lie within the grain of the calculation.");
    }

    private static IReadOnlyList<string> Settled(string what, InstantsJson when, Saying saying) =>
        [what, Day(when.Middle, saying), $"{Day(when.Early, saying)} and {Day(when.Late, saying)}"];

    private static string Day(string iso, Saying saying) => saying.Day(At(iso));

    private static Instant At(string iso) => InstantPattern.ExtendedIso.Parse(iso).Value;

    private static string Larvae(PointsJson larvae) =>
        larvae.High < 1
            ? "none counted on"
            : $"about {Whole(larvae.Middle)} ({Whole(larvae.Low)} to {Whole(larvae.High)})";

    private static string Share(PointsJson share) =>
        $"{Saying.Percent(share.Middle)} ({Saying.Percent(share.Low)} to {Saying.Percent(share.High)})";

    private static string Signed(double value, int places)
    {
        var rounded = Math.Round(value, places);
        return (rounded > 0 ? "+" : "") + Saying.Number(rounded);
    }

    private static string Whole(double larvae) =>
        Math.Round(larvae).ToString("0", CultureInfo.InvariantCulture);
}
