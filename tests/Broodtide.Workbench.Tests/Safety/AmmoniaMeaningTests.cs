using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Safety;

namespace Broodtide.Workbench.Tests.Safety;

public sealed class AmmoniaMeaningTests
{
    private static AmmoniaWater Sea(AcidityScale scale, double ph = 8.0) =>
        new(ph, scale, Salinity.FromPractical(35), Temperature.FromCelsius(25));

    private static AmmoniaMeaning Means(double value, string unit, AmmoniaWater water) =>
        AmmoniaMeaning.Of(AmmoniaReading.Of(TypedNumber.Of(value, unit))!, water);

    // Percent at S 35, 25 degC, pH 8: Hampson as in EPA 440/5-88-004 (own evaluation 4.48), Clegg and Whitfield 1995 on the
    // total scale 5.56.
    [Theory]
    [InlineData(AcidityScale.Nbs, 4.48)]
    [InlineData(AcidityScale.Total, 5.56)]
    public void The_buffers_of_the_meter_decide_which_constant_holds(AcidityScale scale, double percent) =>
        Assert.Equal(percent, Means(1, "mg/L{TAN-N}", Sea(scale)).UnionisedShare.Percent, 0.006);

    // Atomic weights: NH4 18.039, NH3 17.031, N 14.007.
    [Fact]
    public void The_same_ammonia_said_in_four_ways_means_the_same()
    {
        var water = Sea(AcidityScale.Nbs, 8.2);
        var asTan = Means(0.5, "mg/L{TAN-N}", water);
        var asIon = Means(0.5 * 18.039 / 14.007, "mg/L{NH4}", water);
        var poison = asTan.UnionisedNitrogenMilligramsPerLitre.Middle;
        var asNitrogen = Means(poison, "mg/L{NH3-N}", water);
        var asAmmonia = Means(poison * 17.031 / 14.007, "mg/L{NH3}", water);
        foreach (var other in new[] { asIon, asNitrogen, asAmmonia })
        {
            Assert.Equal(0.5, other.TotalNitrogen.MilligramsPerLitre, 1e-9);
            Assert.Equal(poison, other.UnionisedNitrogenMilligramsPerLitre.Middle, 1e-9);
            Assert.Equal(
                asTan.UnionisedAmmonia.MilligramsPerLitre,
                other.UnionisedAmmonia.MilligramsPerLitre,
                1e-9
            );
        }
    }

    [Fact]
    public void What_the_constant_makes_of_a_total_is_told_with_a_tenth_both_ways()
    {
        var told = Means(1, "mg/L{TAN-N}", Sea(AcidityScale.Nbs)).UnionisedNitrogenMilligramsPerLitre;
        Assert.Equal(0.9, told.Low / told.Middle, 1e-9);
        Assert.Equal(1.1, told.High / told.Middle, 1e-9);
        var said = Means(0.05, "mg/L{NH3-N}", Sea(AcidityScale.Nbs)).UnionisedNitrogenMilligramsPerLitre;
        Assert.Equal(0, said.Width);
    }

    [Fact]
    public void A_number_of_something_else_is_no_ammonia()
    {
        Assert.Null(AmmoniaReading.Of(TypedNumber.Of(1, "mg/L{NO2-N}")));
        Assert.Null(AmmoniaReading.Of(new TypedNumber("x", "mg/L{TAN-N}", double.NaN)));
        Assert.Null(AmmoniaReading.Of(TypedNumber.Of(-1, "mg/L{TAN-N}")));
    }

    // Printed NH3-N of Cobo et al. 2012 and Figueroa-Lucero et al. 2012, one and two figures: within the tenth that the
    // published constants differ.
    [Fact]
    public void Studies_worked_out_again_lie_within_a_tenth_of_what_they_print() =>
        Assert.All(
            AmmoniaStudies.All,
            study =>
                Assert.InRange(
                    study.Printed.MilligramsPerLitre / study.RecomputedMilligramsPerLitre.Middle,
                    0.90,
                    1.1
                )
        );

    [Fact]
    public void The_page_on_ammonia_shows_the_studies_as_they_are_worked_out()
    {
        var page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", "science", "ammonia.md"));
        foreach (var study in AmmoniaStudies.All)
        {
            var row = page.Split('\n')
                .Single(line =>
                    line.StartsWith(
                        $"| {study.Animal} | {FormattableString.Invariant($"{study.TotalNitrogen.MilligramsPerLitre:0.##}")} |",
                        StringComparison.Ordinal
                    )
                )
                .Split('|', StringSplitOptions.TrimEntries);
            Assert.Equal(
                double.Parse(row[4], System.Globalization.CultureInfo.InvariantCulture),
                study.RecomputedMilligramsPerLitre.Middle,
                0.006
            );
        }
    }
}
