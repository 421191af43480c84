using Broodtide.Checks;
using Broodtide.Science.Development.Staging;

namespace Broodtide.Science.Tests.Development.Staging;

public sealed class HousingTests
{
    private static readonly (string Column, string Level)[] Factors =
    [
        ("influence", "Medium"),
        ("influence", "High"),
        ("type", "Apartment"),
        ("type", "Atrium"),
        ("type", "Terrace"),
        ("contact", "High"),
    ];

    [Fact]
    public void Three_factors_come_out_to_the_digits_they_are_printed_with()
    {
        // Venables and Ripley 2002, Modern Applied Statistics with S, section 7.3; from memory, recomputed from the
        // data here. Their coefficients are taken off the thresholds, ours are added.
        var fit = OrdinalModel.Fit(Rows(), OrdinalKind.Cumulative);
        Assert.Equal(["-0.4961", "0.6907"], fit.Thresholds.Select(threshold => $"{threshold:F4}"));
        Assert.Equal(
            ["0.5664", "1.2888", "-0.5724", "-0.3662", "-1.0910", "0.3603"],
            fit.Coefficients.Select(coefficient => $"{-coefficient:F4}")
        );
        // The deviance of single residents is -2 log-likelihood.
        Assert.Equal(3479.149, -2 * fit.LogLikelihoodKernel, 1e-3);
    }

    private static OrdinalRow[] Rows()
    {
        var table = DataTable.Parse(File.ReadAllText(ReferenceFiles.PathOf("data/housing_madsen1976.csv")));
        var covariates = Factors
            .Select(factor =>
                table.Texts(factor.Column).Select(text => text == factor.Level ? 1.0 : 0).ToArray()
            )
            .ToArray();
        var counts = new[] { "low", "medium", "high" }.Select(table.Numbers).ToArray();
        return
        [
            .. Enumerable
                .Range(0, counts[0].Length)
                .Select(row => new OrdinalRow(
                    [.. covariates.Select(column => column[row])],
                    [.. counts.Select(column => (int)column[row])]
                )),
        ];
    }
}
