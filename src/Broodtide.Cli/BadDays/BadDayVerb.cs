using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.BadDays;

/// <summary>When something uncertain first comes to a limit; a point beyond the horizon is left out.</summary>
internal sealed record PassageJson(
    double HorizonHours,
    double? EarlyHours,
    double? MiddleHours,
    double? LateHours,
    double Chance
)
{
    public static PassageJson Of(FirstPassage passage) =>
        new(
            passage.HorizonHours,
            passage.EarlyHours,
            passage.MiddleHours,
            passage.LateHours,
            passage.Chance.Value
        );
}

/// <summary>Days on which something goes wrong, or nobody is there.</summary>
internal static class BadDayVerb
{
    public static Command Make()
    {
        var bad = new Command(
            "badday",
            "Bad days: heat, no mains, a dead pump, an absence, sick animals. What to do first, then hours left per vessel."
        );
        bad.Subcommands.Add(HeatVerb.Make());
        bad.Subcommands.Add(PowerVerb.Make());
        bad.Subcommands.Add(PowerVerb.MakePump());
        bad.Subcommands.Add(AwayVerb.Make());
        bad.Subcommands.Add(SickVerb.Make());
        return bad;
    }

    /// <summary>What to do first, numbered, and what to mind.</summary>
    public static void PrintFirst(Page page, IReadOnlyList<RemarkJson> first, IReadOnlyList<string> cautions)
    {
        page.Heading("First");
        for (var i = 0; i < first.Count; i++)
        {
            page.Line($"{i + 1}. {first[i].Words}");
        }

        foreach (var caution in cautions)
        {
            page.Line($"Mind: {caution}");
        }

        page.Line();
    }

    /// <summary>What is supposed, each once.</summary>
    public static void PrintAssumed(Page page, IEnumerable<RemarkJson> assumed)
    {
        page.Line();
        foreach (var words in assumed.Select(remark => remark.Words).Distinct(StringComparer.Ordinal))
        {
            page.Line(words);
        }
    }

    public static IReadOnlyList<string> Cautions(IEnumerable<CautionCode> cautions) =>
        [.. cautions.Select(caution => Saying.Of(caution))];

    public static IReadOnlyList<RemarkJson> Json(IEnumerable<Remark> remarks, Saying saying) =>
        [.. remarks.Select(saying.Json)];

    /// <summary>Hours as a person reads them: earliest, middle, latest, and the chance.</summary>
    public static string Hours(PassageJson passage) =>
        passage.Chance < 0.05
            ? $"not within {Plain(passage.HorizonHours)} h ({Saying.Percent(passage.Chance)})"
        : passage.MiddleHours is null
            ? $"hardly in {Plain(passage.HorizonHours)} h, {Plain(passage.EarlyHours)} h at the earliest, {Saying.Percent(passage.Chance)}"
        : $"{Plain(passage.MiddleHours)} ({Plain(passage.EarlyHours)} to {Plain(passage.LateHours)}) h, {Saying.Percent(passage.Chance)}";

    public static string Plain(double? value) =>
        value?.ToString(value < 10 ? "0.#" : "0", CultureInfo.InvariantCulture) ?? "later";
}
