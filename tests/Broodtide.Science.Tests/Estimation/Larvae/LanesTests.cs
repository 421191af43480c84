using Broodtide.Science.Estimation.Larvae;
using CsCheck;
using MathNet.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Functions of one number a lane against published values and a general-purpose library.</summary>
public sealed class LanesTests
{
    // Against MathNet.Numerics, a general-purpose library.
    [Fact]
    public void The_logarithm_of_gamma_is_that_of_a_library() =>
        Gen.Double[-6, 12]
            .Array[8, 24]
            .Sample(
                powers =>
                {
                    // Near and far numbers stand side by side in the lanes.
                    for (var first = 0; first + Lanes.Count <= powers.Length; first++)
                    {
                        double[] numbers =
                        [
                            .. powers.Skip(first).Take(Lanes.Count).Select(power => Math.Pow(10, power)),
                        ];
                        var told = Lanes.LogGamma(new Lane(numbers));
                        for (var lane = 0; lane < Lanes.Count; lane++)
                        {
                            var expected = SpecialFunctions.GammaLn(numbers[lane]);
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
