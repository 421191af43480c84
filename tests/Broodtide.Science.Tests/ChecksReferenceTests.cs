using Broodtide.Checks;

namespace Broodtide.Science.Tests;

public sealed class ChecksReferenceTests
{
    private const string WaterFile = "water-checks.csv";
    private const string StatisticsFile = "statistics-checks.csv";

    private const string FoodFile = "food-and-growth-checks.csv";

    public static TheoryData<string, int, string> Published() =>
        [
            .. new[] { WaterFile, StatisticsFile, FoodFile }.SelectMany(file =>
                ReferenceFiles
                    .Rows(file)
                    .Select(row => new TheoryDataRow<string, int, string>(
                        file,
                        row.Line,
                        $"{row.Check?.Quantity} {row.Check?.Inputs}"
                    ))
            ),
        ];

    [Theory]
    [MemberData(nameof(Published))]
    public void A_published_value_comes_out_of_the_library(string file, int line, string what)
    {
        var row = ReferenceFiles.Rows(file).Single(row => row.Line == line);
        var outcome = CheckRunner.Run(row, ReferenceFiles.Surroundings);
        Assert.True(outcome.Verdict == CheckVerdict.Passed, $"{what}: {outcome.Words}");
    }

    [Fact]
    public void Every_row_of_the_water_file_is_computed() =>
        Assert.Equal(284, Published().Count(row => row.Data.Item1 == WaterFile));

    [Fact]
    public void Every_row_of_the_food_file_is_computed() =>
        Assert.Equal(172, Published().Count(row => row.Data.Item1 == FoodFile));

    [Fact]
    public void Every_row_of_the_statistics_file_is_computed() =>
        Assert.Equal(411, Published().Count(row => row.Data.Item1 == StatisticsFile));

    [Fact]
    public void Density_by_EOS80_stays_within_nine_grams_per_cubic_metre_of_TEOS10()
    {
        // TEOS-10 values by the reference library GSW-C; the rows themselves allow 0.012 kg/m3.
        var rows = ReferenceFiles
            .Rows(WaterFile)
            .Where(row => row.Check!.Quantity == "density.teos10")
            .ToArray();
        Assert.Equal(15, rows.Length);
        Assert.All(
            rows,
            row =>
            {
                var stricter = row with { Check = row.Check! with { Tolerance = 0.009 } };
                Assert.Equal("", CheckRunner.Run(stricter, ReferenceFiles.Surroundings).Words);
            }
        );
    }
}
