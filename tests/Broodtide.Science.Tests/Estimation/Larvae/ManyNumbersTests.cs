using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Statistics;
using CsCheck;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Four at a time says what one at a time says, whatever is left over at the end.</summary>
public sealed class ManyNumbersTests
{
    [Fact]
    public void Logarithms_are_those_of_the_plain_loop() =>
        Gen.Double[1e-12, 1e12]
            .Array[0, 41]
            .Sample(numbers =>
            {
                var (fast, plain) = (new double[numbers.Length], new double[numbers.Length]);
                ManyNumbers.Log(numbers, fast);
                ManyNumbers.PlainLog(numbers, plain);
                Assert.All(
                    fast.Zip(plain),
                    pair => Assert.Equal(pair.Second, pair.First, 1e-13 * (1 + Math.Abs(pair.Second)))
                );
            });

    [Fact]
    public void Exponentials_are_those_of_the_plain_loop() =>
        Gen.Double[-300, 300]
            .Array[0, 41]
            .Sample(numbers =>
            {
                var (fast, plain) = (new double[numbers.Length], new double[numbers.Length]);
                ManyNumbers.Exp(numbers, fast);
                ManyNumbers.PlainExp(numbers, plain);
                Assert.All(fast.Zip(plain), pair => Assert.Equal(1, pair.First / pair.Second, 1e-12));
            });

    [Fact]
    public void The_result_may_stand_where_the_numbers_stood()
    {
        double[] numbers = [1, 2, 3, 4, 5, 6, 7];
        ManyNumbers.Log(numbers, numbers);
        ManyNumbers.Exp(numbers, numbers);

        Assert.All(
            numbers.Select((number, i) => (number, i)),
            pair => Assert.Equal(pair.i + 1, pair.number, 1e-12)
        );
    }

    [Fact]
    public void Cube_roots_of_many_are_those_of_each() =>
        Gen.Select(Gen.Double[-290, 290].Array[0, 40], Gen.Int[0, 40])
            .Sample(
                (powers, zeros) =>
                {
                    double[] numbers = [.. powers.Select((power, i) => i == zeros ? 0 : Math.Pow(10, power))];
                    var fast = new double[numbers.Length];
                    ManyNumbers.CubeRoot(numbers, fast);
                    for (var i = 0; i < numbers.Length; i++)
                    {
                        var root = Math.Cbrt(numbers[i]);
                        Assert.Equal(root, fast[i], 5e-16 * root);
                    }
                },
                threads: 1
            );

    // Against MathNet.Numerics, a general-purpose library.
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
                    double[] fast = [.. numbers];
                    NormalTable.Below(fast);
                    Assert.Equal(numbers.Select(NormalTable.Below), fast);
                },
                threads: 1
            );
    }

    // Against MathNet.Numerics, a general-purpose library.
    [Fact]
    public void The_logarithm_of_gamma_is_that_of_a_library() =>
        Gen.Double[-6, 12]
            .Array[1, 9]
            .Sample(
                powers =>
                {
                    foreach (var number in powers.Select(power => Math.Pow(10, power)))
                    {
                        var expected = SpecialFunctions.GammaLn(number);
                        var told = Lanes.LogGamma(new Lane(number));
                        for (var lane = 0; lane < Lanes.Count; lane++)
                        {
                            Assert.Equal(expected, told[lane], 2e-14 * (1 + Math.Abs(expected)));
                        }
                    }
                },
                threads: 1
            );

    // Abramowitz and Stegun (1964), table 6.1, ln Gamma of 1.25, 1.5 and 1.75 from Gamma 0.90640 24771, 0.88622 69255
    // and 0.91906 25268; read from memory.
    [Theory]
    [InlineData(1.25, 0.9064024771)]
    [InlineData(1.5, 0.8862269255)]
    [InlineData(1.75, 0.9190625268)]
    public void Gamma_is_that_of_a_published_table(double number, double gamma) =>
        Assert.Equal(gamma, Math.Exp(Lanes.LogGamma(new Lane(number))[0]), 1e-10);
}
