using Broodtide.Domain.Vessels;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Phone.Pages.Cultures;

/// <summary>A culture's numbers in the size that reads best.</summary>
internal static class CultureWords
{
    /// <summary>Density in millions, thousands or ones a mL, or per cent of the surface, with its unit.</summary>
    public static (Interval Value, string Unit) Density(CultureState culture, Interval density, Words words)
    {
        if (culture.IsFilm)
        {
            return (
                Interval.FromPoints(
                    Math.Min(100, 100 * density.Low),
                    Math.Min(100, 100 * density.Middle),
                    Math.Min(100, 100 * density.High)
                ),
                words["culture.unit.percent"]
            );
        }

        var (size, unit) =
            density.Middle >= 1e5 ? (1e6, "culture.unit.million")
            : density.Middle >= 1e3 ? (1e3, "culture.unit.thousand")
            : (1, "culture.unit.one");
        return (density.Scaled(1 / size), words[unit]);
    }

    /// <summary>Growth a day in per cent while thin.</summary>
    public static Interval GrowthPercent(CultureState culture) =>
        Interval.FromPoints(
            100 * (Math.Exp(culture.RatePerDay.Low) - 1),
            100 * (Math.Exp(culture.RatePerDay.Middle) - 1),
            100 * (Math.Exp(culture.RatePerDay.High) - 1)
        );

    /// <summary>What grows in it.</summary>
    public static string Kind(CultureState culture, Words words) =>
        words[$"is.{KindCode(culture.Described.Alga)}"];

    private static string KindCode(CultureKind kind) =>
        System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(kind.ToString());
}
