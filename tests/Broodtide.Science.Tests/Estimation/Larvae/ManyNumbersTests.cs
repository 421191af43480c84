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

        Assert.All(
            numbers.Select((number, i) => (number, i)),
            pair => Assert.Equal(pair.i + 1, pair.number, 1e-12)
        );
    }
}
