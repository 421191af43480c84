using System.Globalization;
using Broodtide.Science.Development;
using Broodtide.Units;

namespace Broodtide.Scoring;

/// <summary>
/// Prints rows of published embryo durations that carry a temperature beside the prior's forecast at that
/// temperature. Nothing is judged: the prior comes from these rows, and most are of a relative.
/// </summary>
public static class DevelopmentRows
{
    public const string Header = "species,phase,temperature_C,published_days,q05,q50,q95";

    /// <exception cref="FileTroubleException">The file is missing or a line cannot be read.</exception>
    public static IEnumerable<string> Beside(EmbryoPrior prior, string file)
    {
        var table = Table.Read(
            file,
            "species",
            "phase",
            "temperature_C",
            "days_mean",
            "days_low",
            "days_high"
        );
        foreach (var row in table.Rows)
        {
            if (
                !table.Text(row, 1).StartsWith("embryo", StringComparison.Ordinal)
                || Table.Number(table.Text(row, 2)) is not { } celsius
            )
            {
                continue;
            }

            var published = string.Join(
                ' ',
                table.Text(row, 3),
                table.Text(row, 4).Length > 0 ? $"({table.Text(row, 4)}-{table.Text(row, 5)})" : ""
            );
            var days = HatchForecast.From(prior, Kept(celsius)).Days;
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{table.Text(row, 0)},{table.Text(row, 1)},{celsius},{published.Trim()},{days.Low:0.0},{days.Middle:0.0},{days.High:0.0}"
            );
        }
    }

    /// <summary>A clutch of known age at a temperature that is known.</summary>
    private static BroodEvidence Kept(double celsius) =>
        new()
        {
            Facts = [new BroodFact.SeenEmpty(-0.1), new BroodFact.SeenBerried(0.1)],
            Temperatures = [],
            Assumption = new()
            {
                Mean = Temperature.FromCelsius(celsius),
                Sd = default,
                Wander = default,
            },
        };
}
