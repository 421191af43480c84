using Broodtide.Science.Survival;

namespace Broodtide.Checks.Quantities;

/// <summary>Lives from the columns of a data file.</summary>
internal static class SurvivalData
{
    /// <summary>The rows a check speaks of.</summary>
    public static DataTable Rows(CheckInputs inputs, CheckSurroundings surroundings)
    {
        var table = surroundings.Table(inputs.Word("data"));
        return inputs.Has("filter_column")
            ? table.Where(inputs.Word("filter_column"), inputs.Word("filter_value"))
            : table;
    }

    /// <summary>Lives followed without gaps; without a column of events all died.</summary>
    public static Lifetime[] Lifetimes(CheckInputs inputs, DataTable table)
    {
        var times = table.Numbers(inputs.Word("time"));
        var events = inputs.Has("event") ? table.Numbers(inputs.Word("event")) : [.. times.Select(_ => 1.0)];
        return
        [
            .. times
                .Zip(events)
                .Select(row => row.Second > 0 ? Lifetime.DiedAt(row.First) : Lifetime.AliveAt(row.First)),
        ];
    }

    /// <summary>Lives seen at visits; infinity says not yet dead.</summary>
    public static DeathWindow[] Windows(CheckInputs inputs, DataTable table) =>
        [
            .. table
                .Numbers(inputs.Word("left"))
                .Zip(table.Numbers(inputs.Word("right")))
                .Select(row =>
                    double.IsPositiveInfinity(row.Second)
                        ? DeathWindow.NotBefore(row.First)
                        : DeathWindow.Between(row.First, row.Second)
                ),
        ];

    /// <summary>One where a row is not of the baseline; nothing without a covariate.</summary>
    public static double[] Covariate(CheckInputs inputs, DataTable table) =>
        inputs.Has("covariate")
            ?
            [
                .. table
                    .Texts(inputs.Word("covariate"))
                    .Select(level => level == inputs.Word("baseline") ? 0.0 : 1),
            ]
            : [];

    /// <summary>Name of the coefficient of the level that is not the baseline.</summary>
    public static string Other(CheckInputs inputs, DataTable table) =>
        inputs.Has("covariate")
            ? inputs.Word("covariate")
                + table.Texts(inputs.Word("covariate")).First(level => level != inputs.Word("baseline"))
            : "";
}
