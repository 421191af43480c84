using Broodtide.Science.Development.Staging;

namespace Broodtide.Checks.Quantities;

/// <summary>Ordered categories from the columns of a data file.</summary>
internal static class OrdinalData
{
    /// <summary>Counts of the category columns, by row.</summary>
    public static IReadOnlyList<int>[] Counts(CheckInputs inputs, DataTable table)
    {
        var columns = Words(inputs, "counts").Select(table.Numbers).ToArray();
        return
        [
            .. Enumerable
                .Range(0, columns[0].Length)
                .Select(row => columns.Select(column => CheckWhole.Of(column[row], "counts")).ToArray()),
        ];
    }

    public static StageLink Link(CheckInputs inputs) =>
        inputs.OneOf(
            "link",
            ("logit", StageLink.Logit),
            ("probit", StageLink.Probit),
            ("cloglog", StageLink.ComplementaryLogLog)
        );

    public static OrdinalFit Fit(CheckInputs inputs, CheckSurroundings around)
    {
        var (_, rows) = Rows(inputs, around);
        return OrdinalModel.Fit(
            rows,
            inputs.OneOf("model", ("cumulative", OrdinalKind.Cumulative), ("stopping", OrdinalKind.Stopping)),
            Link(inputs)
        );
    }

    /// <summary>A coefficient by its name, with the sign asked for.</summary>
    public static double Coefficient(CheckInputs inputs, CheckSurroundings around)
    {
        var at = Rows(inputs, around).Names.IndexOf(inputs.Word("coef"));
        return at < 0
            ? throw new CheckFormatException($"there is no coefficient {inputs.Word("coef")}")
            : inputs.OneOf("sign", ("plus", 1), ("minus", -1)) * Fit(inputs, around).Coefficients[at];
    }

    private static (List<string> Names, OrdinalRow[] Rows) Rows(CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        var covariates = new List<(string Name, double[] Values)>();
        if (inputs.Has("x"))
        {
            var x = table.Numbers(inputs.Word("x"));
            covariates.Add(("slope", inputs.Has("x_scale") ? Scaled(inputs, x) : x));
        }

        foreach (var factor in inputs.Has("factors") ? Words(inputs, "factors") : [])
        {
            var texts = table.Texts(factor);
            covariates.AddRange(
                texts
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal)
                    .Skip(1)
                    .Select(level =>
                        (factor + level, texts.Select(text => text == level ? 1.0 : 0).ToArray())
                    )
            );
        }

        var counts = inputs.Has("counts") ? Counts(inputs, table) : Responses(inputs, table);
        return (
            [.. covariates.Select(covariate => covariate.Name)],
            [
                .. counts.Select(
                    (row, i) => new OrdinalRow([.. covariates.Select(covariate => covariate.Values[i])], row)
                ),
            ]
        );
    }

    private static double[] Scaled(CheckInputs inputs, double[] x) =>
        inputs.OneOf("x_scale", ("log", true)) ? [.. x.Select(value => Math.Log(value))] : x;

    // One row an answer, counted as often as the frequency says.
    private static IReadOnlyList<int>[] Responses(CheckInputs inputs, DataTable table)
    {
        var responses = table.Numbers(inputs.Word("response"));
        var frequencies = inputs.Has("frequency")
            ? table.Numbers(inputs.Word("frequency"))
            : [.. responses.Select(_ => 1.0)];
        var categories = (int)responses.Max();
        return
        [
            .. responses
                .Zip(frequencies)
                .Select(row =>
                    Enumerable
                        .Range(1, categories)
                        .Select(category =>
                            category == (int)row.First ? CheckWhole.Of(row.Second, "frequency") : 0
                        )
                        .ToArray()
                ),
        ];
    }

    private static IReadOnlyList<string> Words(CheckInputs inputs, string key) =>
        inputs.TryText(key, out var text) && CheckValue.TryList(text, out var items)
            ? items
            : [inputs.Word(key)];
}
