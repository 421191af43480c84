using Broodtide.Science.Estimation.Larvae;
using CsCheck;

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
        ManyNumbers.CubeRoot(numbers, numbers);

        Assert.All(
            numbers.Select((number, i) => (number, i)),
            pair => Assert.Equal(pair.i + 1, Math.Pow(pair.number, 3), 1e-12)
        );
    }

    [Fact]
    public void Cube_roots_of_many_are_those_of_each() =>
        Gen.Select(Gen.Double[-290, 290].Array[0, 40], Gen.Int[0, 40])
            .Sample(
                (powers, zero) =>
                {
                    double[] numbers = [.. powers.Select((power, i) => i == zero ? 0 : Math.Pow(10, power))];
                    var fast = new double[numbers.Length];
                    ManyNumbers.CubeRoot(numbers, fast);
                    for (var i = 0; i < numbers.Length; i++)
                    {
                        var root = Math.Cbrt(numbers[i]);
                        Assert.Equal(root, fast[i], 1e-15 * root);
                    }
                },
                threads: 1
            );

    [Fact]
    public void A_sum_takes_each_number_at_its_place_and_leaves_those_beyond() =>
        Gen.Select(Gen.Double[-10, 10].Array[0, 20], Gen.Double[-3, 3], Gen.Int[0, 3])
            .Sample(
                (numbers, times, more) =>
                {
                    double[] sums = [.. Enumerable.Range(0, numbers.Length + more).Select(i => 0.5 * i)];
                    ManyNumbers.AddTimes(numbers, times, sums);
                    Assert.Equal(
                        Enumerable
                            .Range(0, sums.Length)
                            .Select(i => (0.5 * i) + (i < numbers.Length ? numbers[i] * times : 0)),
                        sums
                    );
                }
            );
}
