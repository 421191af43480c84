using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Chance of having at least so many of each of two kinds among animals taken blindly from lots, when the share of the
/// first kind differs from lot to lot as a beta. The beta-binomial of each lot is summed over lots (Johnson, Kemp and
/// Kotz 2005, Univariate Discrete Distributions, section 6.2.2); a plain binomial would promise too much wherever lots
/// are sorted.
/// </summary>
public static class BothKinds
{
    /// <summary>Most animals in one lot that are reckoned with.</summary>
    public const int MostInALot = 500;

    /// <summary>Chance of at least so many of both kinds.</summary>
    /// <param name="lots">How many are taken from each lot, 0 to 500; lots do not depend on each other.</param>
    /// <param name="share">The share of the first kind in a lot, as it differs from lot to lot.</param>
    /// <param name="first">At least so many of the first kind, 0 or more.</param>
    /// <param name="second">At least so many of the second kind, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative or a lot too large.</exception>
    public static Probability Chance(ReadOnlySpan<int> lots, BetaBelief share, int first, int second)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfNegative(second);
        var numbers = NumbersOf(lots, share);
        return Within(numbers, first, second);
    }

    /// <summary>The same where the share is one known number for every animal: the plain binomial.</summary>
    /// <param name="taken">How many are taken, 0 to 500.</param>
    /// <param name="share">The share of the first kind.</param>
    /// <param name="first">At least so many of the first kind.</param>
    /// <param name="second">At least so many of the second kind.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative or too large.</exception>
    public static Probability ChanceAt(int taken, Probability share, int first, int second)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfNegative(second);
        Checked(taken);
        var numbers = new double[taken + 1];
        for (var i = 0; i <= taken; i++)
        {
            numbers[i] = Math.Exp(LogProbability.Binomial(i, taken, share));
        }

        return Within(numbers, first, second);
    }

    /// <summary>The fewest animals from one lot that reach a wanted chance; none up to a limit where no number does.</summary>
    /// <param name="wanted">The chance wanted.</param>
    /// <param name="chanceOf">The chance with a number of animals; it must not fall as the number grows.</param>
    /// <param name="most">The limit, 1 to 500.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is outside its range.</exception>
    public static int? Fewest(Probability wanted, Func<int, Probability> chanceOf, int most)
    {
        ArgumentNullException.ThrowIfNull(chanceOf);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        Checked(most);
        var (low, high) = (0, most);
        if (chanceOf(most).Value < wanted.Value)
        {
            return null;
        }

        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = chanceOf(middle).Value >= wanted.Value ? (low, middle) : (middle, high);
        }

        return high;
    }

    // How likely each number of the first kind is, all lots together.
    private static double[] NumbersOf(ReadOnlySpan<int> lots, BetaBelief share)
    {
        double[] sum = [1];
        foreach (var taken in lots)
        {
            Checked(taken);
            var next = new double[sum.Length + taken];
            for (var of = 0; of <= taken; of++)
            {
                var chance = Math.Exp(LogProbability.BetaBinomial(of, taken, share));
                for (var before = 0; before < sum.Length; before++)
                {
                    next[before + of] += sum[before] * chance;
                }
            }

            sum = next;
        }

        return sum;
    }

    private static Probability Within(double[] numbers, int first, int second)
    {
        var chance = 0.0;
        for (var of = first; of <= numbers.Length - 1 - second; of++)
        {
            chance += numbers[of];
        }

        return Probability.FromFraction(Math.Clamp(chance, 0, 1));
    }

    private static void Checked(int taken)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(taken);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(taken, MostInALot);
    }
}
