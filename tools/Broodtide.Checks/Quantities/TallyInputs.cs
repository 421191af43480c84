using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Shares and regression terms from the columns of a data file.</summary>
internal static class TallyInputs
{
    public const string TallyKeys = "data, successes, trials, filter_column, filter_value";
    public const string TermKeys = "data, successes, trials, link, terms, baseline";

    /// <summary>The rows, all of them or those of one value.</summary>
    public static DataTable Rows(this CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        return inputs.Has("filter_column")
            ? table.Where(inputs.Word("filter_column"), inputs.Word("filter_value"))
            : table;
    }

    /// <summary>How many of how many, row by row.</summary>
    public static Tally[] Tallies(this CheckInputs inputs, DataTable rows) =>
        [
            .. rows.Numbers(inputs.Word("successes"))
                .Zip(rows.Numbers(inputs.Word("trials")), (y, n) => new Tally((int)y, (int)n)),
        ];

    /// <summary>Factors in the order of their first mention, each with its baseline.</summary>
    public static RegressionDesign Design(this CheckInputs inputs, DataTable rows)
    {
        var terms = inputs.Words("terms");
        var factors = terms
            .SelectMany(term => term.Split(':'))
            .Distinct(StringComparer.Ordinal)
            .Zip(
                inputs.Words("baseline"),
                (factor, baseline) => new Factor(factor, rows.Texts(factor), baseline)
            );
        return RegressionDesign.OfFactors([.. factors], terms);
    }

    /// <summary>The link by its word.</summary>
    public static BinomialLink Link(this CheckInputs inputs) =>
        inputs.OneOf(
            "link",
            ("logit", BinomialLink.Logit),
            ("probit", BinomialLink.Probit),
            ("cloglog", BinomialLink.ComplementaryLogLog)
        );
}
