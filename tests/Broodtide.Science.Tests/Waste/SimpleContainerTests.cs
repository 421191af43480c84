using Broodtide.Science.Waste;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Waste;

public sealed class SimpleContainerTests
{
    private static readonly Gen<NitrogenStocks> Stocks = Gen.Select(
        Gen.Double[0, 20],
        Gen.Double[0, 20],
        Gen.Double[0, 20],
        Gen.Double[0, 20],
        (algae, detritus, tan, nitrate) => new NitrogenStocks(algae, detritus, tan, nitrate)
    );

    [Fact]
    public void A_green_container_stays_safe_and_an_overfed_clear_one_does_not()
    {
        // The pair of the reference model of this project: 5e4 cells/mL of Tetraselmis against 20 mg/L of dry yeast a day.
        var green = SimpleContainer.After(new(0.415, 0, 0.05, 0), new() { GrazingPerDay = 0.0225 }, 10);
        var overfed = SimpleContainer.After(new(0, 0, 0.05, 0), new() { FeedPerDay = 1.6 }, 10);
        Assert.InRange(green.Tan, 0, 0.02);
        Assert.InRange(overfed.Tan, 5, 7);
    }

    [Fact]
    public void Without_grazing_the_nitrogen_there_is_what_was_there_and_what_came() =>
        Gen.Select(Stocks, Gen.Double[0, 5], Gen.Double[0, 5], Gen.Int[1, 20], Gen.Int[1, 20])
            .Sample(
                (start, feed, filter, days, steps) =>
                {
                    var settings = new SimpleContainerSettings { FeedPerDay = feed, FilterPerDay = filter };
                    var end = SimpleContainer.After(start, settings, days, steps);
                    var expected = start.Total + (days * (feed + settings.ExcretionPerDay));
                    Assert.Equal(expected, end.Total, 1e-9 * (1 + expected));
                }
            );

    [Fact]
    public void No_stock_turns_negative_however_long_the_step() =>
        Gen.Select(Stocks, Gen.Double[0, 50], Gen.Double[0, 50], Gen.Double[0, 50])
            .Sample(
                (start, feed, filter, grazing) =>
                {
                    var end = SimpleContainer.After(
                        start,
                        new()
                        {
                            FeedPerDay = feed,
                            FilterPerDay = filter,
                            GrazingPerDay = grazing,
                        },
                        days: 5,
                        stepsPerDay: 1
                    );
                    Assert.All(
                        new[] { end.Algae, end.Detritus, end.Tan, end.Nitrate },
                        stock => Assert.True(stock >= 0 && double.IsFinite(stock))
                    );
                }
            );

    [Fact]
    public void Half_the_step_leaves_a_quarter_of_the_error()
    {
        var start = new NitrogenStocks(0.415, 0.2, 0.6, 1);
        var settings = new SimpleContainerSettings { GrazingPerDay = 0.0225, FilterPerDay = 0.2 };
        var truth = SimpleContainer.After(start, settings, 5, 4096).Tan;
        var coarse = Math.Abs(SimpleContainer.After(start, settings, 5, 32).Tan - truth);
        var fine = Math.Abs(SimpleContainer.After(start, settings, 5, 64).Tan - truth);
        Assert.InRange(coarse / fine, 3, 5);
    }

    [Fact]
    public void A_change_of_all_the_water_leaves_nothing()
    {
        var settings = new SimpleContainerSettings { ChangedPerDay = Probability.FromFraction(1) };
        Assert.Equal(default, SimpleContainer.After(new(1, 1, 1, 1), settings, 1));
    }
}
