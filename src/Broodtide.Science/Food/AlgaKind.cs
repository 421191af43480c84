using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// What is expected of an alga in a home culture before it was ever counted, at 22 to 26 degC and 60 to 150 umol/(m2 s).
/// All of it is practice and memory: counts of the culture itself go before it.
/// </summary>
/// <param name="Code">The alga, lower-case.</param>
/// <param name="SlowestPerDay">Growth that nineteen of twenty cultures exceed, 1/d.</param>
/// <param name="FastestPerDay">Growth that one in twenty exceeds, 1/d.</param>
/// <param name="HarvestFrom">Thinnest usual harvest.</param>
/// <param name="HarvestTo">Densest usual harvest.</param>
/// <param name="DryPicogramsPerCell">Dry mass of a cell, pg.</param>
/// <param name="IsDiatom">Whether it needs silicate.</param>
public sealed record AlgaKind(
    string Code,
    double SlowestPerDay,
    double FastestPerDay,
    CellDensity HarvestFrom,
    CellDensity HarvestTo,
    double DryPicogramsPerCell,
    bool IsDiatom
)
{
    /// <summary>
    /// The algae that are known here. Growth and harvest from memory and practice; dry mass after Brown 1991 as tabulated
    /// in Lavens and Sorgeloos 1996 (FAO Fisheries Technical Paper 361), from memory. <em>Tetraselmis</em> stands with
    /// <em>T. chui</em>, <em>Chaetoceros</em> with <em>C. gracilis</em>, the large <em>Thalassiosira</em> without a dry
    /// mass of its own with that of its volume against the small one (12.5 and 5 um: 16 times).
    /// </summary>
    public static ImmutableArray<AlgaKind> All { get; } =
    [
        Alga("tetraselmis", 0.3, 0.8, 0.5e6, 2e6, 269, false),
        Alga("nannochloropsis", 0.2, 0.7, 1e7, 6e7, 6.1, false),
        Alga("isochrysis", 0.4, 1.0, 3e6, 12e6, 30.5, false),
        Alga("chaetoceros", 0.6, 1.8, 2e6, 8e6, 74.8, true),
        Alga("thalassiosira", 0.5, 1.5, 2e6, 5e6, 28.4, true),
        Alga("thalassiosira-weissflogii", 0.5, 1.5, 2e5, 5e5, 28.4 * 16, true),
        Alga("phaeodactylum", 0.4, 1.2, 3e6, 10e6, 76.7, true),
    ];

    /// <summary>The alga of this name: its code, or a scientific name that begins with it; none if it is not known.</summary>
    public static AlgaKind? Find(string? name)
    {
        if (name is null)
        {
            return null;
        }

        var plain = name.Trim().ToLowerInvariant().Replace(' ', '-');
        return All.FirstOrDefault(kind => kind.Code == plain)
            ?? (
                plain is "tisochrysis" || plain.StartsWith("tisochrysis-", StringComparison.Ordinal)
                    ? Find("isochrysis")
                    : All.Where(kind => plain.StartsWith(kind.Code, StringComparison.Ordinal))
                        .MaxBy(kind => kind.Code.Length)
            );
    }

    private static AlgaKind Alga(
        string code,
        double slowest,
        double fastest,
        double from,
        double to,
        double picograms,
        bool diatom
    ) =>
        new(
            code,
            slowest,
            fastest,
            CellDensity.FromPerMillilitre(from),
            CellDensity.FromPerMillilitre(to),
            picograms,
            diatom
        );
}
