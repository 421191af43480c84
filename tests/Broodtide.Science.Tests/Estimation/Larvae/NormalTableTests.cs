using Broodtide.Science.Statistics;
using CsCheck;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>The table of shares below a number of the standard normal distribution, read one by one and four at once.</summary>
public sealed class NormalTableTests
{
    // The table is filled by another function of the same general-purpose library (MathNet.Numerics): what is held here is
    // what lies between its places.
    [Fact]
    public void Shares_below_are_within_what_is_said_of_the_table() =>
        Gen.Double[-12, 12]
            .Sample(
                z => Assert.Equal(Normal.CDF(0, 1, z), NormalTable.Below(z), 2e-6),
                threads: 1,
                iter: 10_000
            );

    [Fact]
    public void Shares_below_of_many_are_those_of_each_to_the_last_digit()
    {
        double[] ends =
        [
            -8,
            -8.0000001,
            -7.9999999,
            8,
            8.0000001,
            7.9999999,
            0,
            100,
            -100,
            double.NegativeInfinity,
            double.PositiveInfinity,
        ];
        Gen.OneOf(Gen.Double[-9, 9], Gen.Int[0, ends.Length - 1].Select(i => ends[i]))
            .Array[0, 40]
            .Sample(
                numbers =>
                {
                    // Four that are all beyond one end, and four of both, besides.
                    double[] asked = [-9, -8, -100, -20, 9, 8, 100, 20, -9, 9, 0, 1, .. numbers];
                    double[] fast = [.. asked];
                    NormalTable.Below(fast);
                    Assert.Equal(asked.Select(NormalTable.Below), fast);
                },
                threads: 1
            );
    }

    [Fact]
    public void What_is_not_a_number_stops_at_the_table()
    {
        Assert.ThrowsAny<Exception>(() => NormalTable.Below(double.NaN));
        Assert.ThrowsAny<Exception>(() => NormalTable.Below([0, 1, double.NaN, 2]));
    }
}
