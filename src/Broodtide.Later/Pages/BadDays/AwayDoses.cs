using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench.BadDays;

namespace Broodtide.Phone.Pages.BadDays;

/// <summary>Doses of an absence in words.</summary>
internal static class AwayDoses
{
    public static string Of(AwayPortion portion, Words words, Formats formats) =>
        portion.DryMilligrams is { } milligrams
            ? words["bad.away.dry", Name(portion, words), formats.Plain(milligrams, 1)]
            : words[
                "bad.away.green",
                Name(portion, words),
                formats.Amount(Volume.FromMillilitres(portion.Millilitres ?? 0))
            ];

    private static string Name(AwayPortion portion, Words words) =>
        portion.Name
        ?? words[
            "is." + System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(portion.Food.ToString())
        ];
}
