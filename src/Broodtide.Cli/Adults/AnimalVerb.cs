using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Adults;
using NodaTime.Text;

namespace Broodtide.Cli.Adults;

/// <summary>At least and at most.</summary>
internal sealed record SpanJson(double LeastDays, double MostDays);

/// <summary>One clutch.</summary>
internal sealed record ClutchJson(
    string Brood,
    string End,
    string? Ended,
    string? Moult,
    string? LaidNotBefore,
    string? LaidNotAfter,
    IReadOnlyList<string> HatchNights,
    SpanJson? Carried,
    SpanJson? SinceLastLaid,
    int? Larvae,
    int Collections,
    int Unnumbered,
    bool Mixed,
    double? MeanCelsius,
    int TemperatureReadings
);

/// <summary>When she may carry again.</summary>
internal sealed record AgainJson(
    string? Early,
    string? Middle,
    string? Late,
    int LearnedFrom,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>One animal.</summary>
internal sealed record AnimalAnswer(
    string Name,
    string? Species,
    string? Sex,
    string? Place,
    string? Acquired,
    string? LastMoult,
    IReadOnlyList<ClutchJson> Clutches,
    AgainJson? Again
);

/// <summary>Tells one animal: its clutches, and when she may carry again.</summary>
internal static class AnimalVerb
{
    public static Command Make()
    {
        var name = Slot.Word("ANIMAL", "Who.");
        return new VerbCommand(
            "animal",
            "One animal: moults, clutches with days, larvae and warmth, and when she may carry again.",
            ["animal Berta", "animal Berta --json"],
            [name],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheAnimal(name);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var answer = Answer(outlook, outlook.House.Animal(id), saying);
                return sitting.Answer(
                    answer,
                    CliJson.Default.AnimalAnswer,
                    page => Print(page, outlook, outlook.House.Animal(id), answer, saying)
                );
            }
        );
    }

    public static AgainJson Again(CarryAgain again, Saying saying) =>
        new(
            again.When is { } early ? Saying.Iso(early.Early) : null,
            again.When is { } middle ? Saying.Iso(middle.Middle) : null,
            again.When is { } late ? Saying.Iso(late.Late) : null,
            again.LearnedFrom,
            [.. again.Remarks.Select(saying.Json)]
        );

    public static string AgainWords(CarryAgain again, Saying saying) =>
        again.When is { } when
            ? $"about {saying.Day(when.Middle)}, nine chances in ten from {saying.Day(when.Early)} to {saying.Day(when.Late)}"
            : "not known";

    private static AnimalAnswer Answer(Outlook outlook, Animal animal, Saying saying)
    {
        var naming = new Naming(outlook.House);
        return new(
            naming.NameOf(Subject.Of(animal.Id)),
            animal.Species,
            animal.Sex is { } sex ? EnumWords.Of(sex) : null,
            animal.PlaceAt(outlook.Now) is { } place ? naming.NameOf(Subject.Of(place)) : null,
            animal.Acquired is { } came ? Saying.Iso(came.Latest) : null,
            animal.Moults.Count > 0 ? Saying.Iso(animal.Moults[^1].Latest) : null,
            [.. outlook.HistoryOf(animal).Clutches.Select(clutch => Clutch(clutch, naming))],
            animal.Sex is Sex.Female ? Again(outlook.CarryAgainOf(animal), saying) : null
        );
    }

    private static ClutchJson Clutch(ClutchTold clutch, Naming naming) =>
        new(
            naming.NameOf(Subject.Of(clutch.Brood)),
            EnumWords.Of(clutch.End),
            clutch.Ended is { } ended ? Saying.Iso(ended.Latest) : null,
            clutch.Laid?.Moult is { } moult ? Saying.Iso(moult.Latest) : null,
            clutch.Laid?.From is { } from ? Saying.Iso(from) : null,
            clutch.Laid is { } laid ? Saying.Iso(laid.To) : null,
            [.. clutch.HatchNights.Select(LocalDatePattern.Iso.Format)],
            clutch.CarriedDays is { } carried ? new(carried.Least, carried.Most) : null,
            clutch.SinceLastLaidDays is { } since ? new(since.Least, since.Most) : null,
            clutch.Larvae,
            clutch.Collections,
            clutch.Unnumbered,
            clutch.IsMixed,
            clutch.Warmth?.Mean.Celsius,
            clutch.Warmth?.Readings ?? 0
        );

    private static void Print(Page page, Outlook outlook, Animal animal, AnimalAnswer answer, Saying saying)
    {
        page.Heading(answer.Name)
            .Facts(
                ("Species, as believed", answer.Species),
                ("Sex", answer.Sex ?? "not known"),
                ("Lives in", answer.Place),
                ("Here since", animal.Acquired is { } came ? saying.Time(came) : null),
                ("Last moult written", animal.Moults.Count > 0 ? saying.Time(animal.Moults[^1]) : "none")
            );
        if (animal.Sex is not Sex.Female)
        {
            return;
        }

        if (answer.Clutches.Count > 0)
        {
            page.Line()
                .Table(
                    [
                        "brood",
                        "laid",
                        "end",
                        "days carried",
                        "since last",
                        "larvae",
                        "hatch nights",
                        "warmth",
                    ],
                    outlook
                        .HistoryOf(animal)
                        .Clutches.Zip(answer.Clutches, (clutch, told) => Row(clutch, told, saying))
                );
        }

        var again = outlook.CarryAgainOf(animal);
        page.Line().Facts(("May carry again", AgainWords(again, saying)));
        foreach (var remark in again.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }

    private static IReadOnlyList<string> Row(ClutchTold clutch, ClutchJson told, Saying saying) =>
        [
            told.Brood,
            clutch.Laid is not { } laid ? "?"
            : laid.From is { } from
                ? $"{saying.Day(from)} to {saying.Day(laid.To)}{(laid.Moult is null ? "" : ", moult")}"
            : $"before {saying.Day(laid.To)}",
            Saying.Of(clutch.End),
            Range(clutch.CarriedDays),
            Range(clutch.SinceLastLaidDays),
            (clutch.Larvae is { } larvae ? $"{larvae}" : "?")
                + (clutch.Unnumbered > 0 ? " or more" : "")
                + (clutch.IsMixed ? ", shared box" : ""),
            string.Join(", ", told.HatchNights),
            clutch.Warmth is { } warmth
                ? $"{Saying.Number(warmth.Mean.Celsius)} °C ({warmth.Readings})"
                : "not read",
        ];

    private static string Range((double Least, double Most)? days) =>
        days is { } known ? $"{Saying.Number(known.Least)} to {Saying.Number(known.Most)}" : "?";
}
