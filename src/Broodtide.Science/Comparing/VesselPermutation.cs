using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Comparing;

/// <summary>The outcome of a permutation test between vessels.</summary>
/// <param name="P">How often chance alone brings a difference at least this large, two-sided.</param>
/// <param name="SmallestP">The smallest value that so few vessels can bring at all.</param>
/// <param name="Arrangements">How many arrangements were looked at.</param>
/// <param name="IsExact">Whether these were all there are.</param>
public sealed record PermutationOutcome(
    Probability P,
    Probability SmallestP,
    long Arrangements,
    bool IsExact
);

/// <summary>
/// Whether two treatments differ, asked by dealing the vessels anew (Fisher 1935, The Design of Experiments, section 21;
/// Pitman 1937, Suppl. J. R. Stat. Soc. 4:119). The vessel is what was dealt out, so one number stands for each vessel.
/// </summary>
public static class VesselPermutation
{
    /// <summary>Up to so many arrangements all are looked at.</summary>
    public const int MostArrangements = 200_000;

    // Sums of the same numbers in another order differ in their last digits: some 1e-16 of what is summed for each number. The
    // share is of the numbers themselves, or a change of their unit would change the answer.
    private const double Same = 1e-12;

    /// <summary>
    /// The smallest two-sided p that vessels dealt out to two treatments can bring: 2 in all arrangements where both have as
    /// many vessels, for then the arrangement that is turned round counts as well; else 1 in all.
    /// </summary>
    /// <param name="first">Vessels of one treatment, 1 or more.</param>
    /// <param name="second">Vessels of the other, 1 or more.</param>
    /// <returns>1 at most: with one vessel each no test is possible.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No vessel.</exception>
    public static Probability SmallestP(int first, int second)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(first, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(second, 1);
        return Probability.FromFraction(
            Math.Min(
                1,
                (first == second ? 2 : 1) * Math.Exp(-SpecialFunctions.BinomialLn(first + second, first))
            )
        );
    }

    /// <summary>The smallest two-sided p that pairs of vessels can bring: 2 in 2 to the number of pairs.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No pair.</exception>
    public static Probability SmallestPOfPairs(int pairs)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(pairs, 1);
        return Probability.FromFraction(Math.Pow(2, 1 - pairs));
    }

    /// <summary>Compares the means of two groups of vessels.</summary>
    /// <param name="first">One finite number for each vessel of one treatment.</param>
    /// <param name="second">The same of the other.</param>
    /// <param name="seed">Which arrangements are drawn where there are too many.</param>
    /// <exception cref="ArgumentException">A treatment has no vessel.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public static PermutationOutcome OfGroups(
        IReadOnlyList<double> first,
        IReadOnlyList<double> second,
        int seed = 1
    )
    {
        if (first.Count == 0 || second.Count == 0)
        {
            throw new ArgumentException("Each treatment needs a vessel.", nameof(first));
        }

        double[] all = [.. first.Concat(second).Select(value => Finite.Required(value, nameof(first)))];
        var total = all.Sum();
        double Apart(double sum) => Math.Abs((sum / first.Count) - ((total - sum) / second.Count));
        var seen = Apart(first.Sum()) - (Same * all.Sum(Math.Abs));
        var smallest = SmallestP(first.Count, second.Count);
        if (SpecialFunctions.BinomialLn(all.Length, first.Count) <= Math.Log(MostArrangements))
        {
            var (reached, looked) = Choose(all, first.Count, sum => Apart(sum) >= seen);
            return new(Probability.FromFraction((double)reached / looked), smallest, looked, true);
        }

        var random = new Random(seed);
        var far = 1L;
        for (var i = 0; i < MostArrangements; i++)
        {
            random.Shuffle(all);
            far += Apart(all.AsSpan(0, first.Count).ToArray().Sum()) >= seen ? 1 : 0;
        }

        // The arrangement that was seen counts as one of them (Phipson and Smyth 2010, Stat. Appl. Genet. Mol. Biol. 9:39).
        return new(
            Probability.FromFraction((double)far / (MostArrangements + 1)),
            smallest,
            MostArrangements + 1,
            false
        );
    }

    /// <summary>Compares two treatments over pairs of vessels: which of a pair got which was chance.</summary>
    /// <param name="differences">First less second of each pair, finite.</param>
    /// <param name="seed">Which arrangements are drawn where there are too many.</param>
    /// <exception cref="ArgumentException">There is no pair.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public static PermutationOutcome OfPairs(IReadOnlyList<double> differences, int seed = 1)
    {
        if (differences.Count == 0)
        {
            throw new ArgumentException("One pair at least is needed.", nameof(differences));
        }

        double[] all = [.. differences.Select(value => Finite.Required(value, nameof(differences)))];
        var seen = Math.Abs(all.Sum()) - (Same * all.Sum(Math.Abs));
        var isExact = Math.Pow(2, all.Length) <= MostArrangements;
        var looked = isExact ? 1L << all.Length : MostArrangements;
        var random = new Random(seed);
        var far = isExact ? 0L : 1L;
        for (var i = 0L; i < looked; i++)
        {
            var signs = isExact ? i : random.NextInt64();
            var sum = 0.0;
            for (var pair = 0; pair < all.Length; pair++)
            {
                // Beyond 62 pairs the signs are drawn anew.
                signs = pair > 0 && pair % 62 == 0 ? random.NextInt64() : signs;
                sum += ((signs >> (pair % 62)) & 1) == 0 ? all[pair] : -all[pair];
            }

            far += Math.Abs(sum) >= seen ? 1 : 0;
        }

        return new(
            Probability.FromFraction((double)far / (looked + (isExact ? 0 : 1))),
            SmallestPOfPairs(all.Length),
            looked + (isExact ? 0 : 1),
            isExact
        );
    }

    /// <summary>The smallest two-sided p that vessels dealt out within blocks can bring.</summary>
    /// <param name="blocks">Vessels of both treatments in each block; a block that lacks one of them brings nothing.</param>
    public static Probability SmallestPOfBlocks(IReadOnlyList<(int First, int Second)> blocks)
    {
        var whole = blocks.Where(block => block is { First: > 0, Second: > 0 }).ToList();
        return Probability.FromFraction(
            Math.Min(
                1,
                (whole.TrueForAll(block => block.First == block.Second) ? 2 : 1)
                    * Math.Exp(
                        -whole.Sum(block =>
                            SpecialFunctions.BinomialLn(block.First + block.Second, block.First)
                        )
                    )
            )
        );
    }

    /// <summary>
    /// Compares two treatments that were dealt out within blocks: vessels change their treatment within their block only. What
    /// is compared is the mean over blocks of the difference in a block, each weighed by the product of its vessels over their
    /// sum.
    /// </summary>
    /// <param name="blocks">One finite number for each vessel; blocks that lack a treatment are passed over.</param>
    /// <param name="seed">Which arrangements are drawn where there are too many.</param>
    /// <exception cref="ArgumentException">No block holds both treatments.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public static PermutationOutcome OfBlocks(
        IReadOnlyList<(IReadOnlyList<double> First, IReadOnlyList<double> Second)> blocks,
        int seed = 1
    )
    {
        var whole = blocks.Where(block => block.First.Count > 0 && block.Second.Count > 0).ToList();
        if (whole.Count == 0)
        {
            throw new ArgumentException("One block with both treatments is needed.", nameof(blocks));
        }

        List<double[]> values =
        [
            .. whole.Select(block =>
                block
                    .First.Concat(block.Second)
                    .Select(value => Finite.Required(value, nameof(blocks)))
                    .ToArray()
            ),
        ];
        // Weighed by the product over the sum, a block brings its first sum less what is to be expected of it.
        double Apart(int block, double sum) =>
            sum - (values[block].Sum() * whole[block].First.Count / values[block].Length);
        var seen =
            Math.Abs(whole.Select((block, at) => Apart(at, block.First.Sum())).Sum())
            - (Same * values.Sum(block => block.Sum(Math.Abs)));
        var smallest = SmallestPOfBlocks([.. whole.Select(block => (block.First.Count, block.Second.Count))]);
        var all = whole.Sum(block =>
            SpecialFunctions.BinomialLn(block.First.Count + block.Second.Count, block.First.Count)
        );
        if (all <= Math.Log(MostArrangements))
        {
            List<double> sums = [0];
            for (var block = 0; block < whole.Count; block++)
            {
                var own = new List<double>();
                _ = Choose(
                    values[block],
                    whole[block].First.Count,
                    sum =>
                    {
                        own.Add(Apart(block, sum));
                        return true;
                    }
                );
                sums = [.. sums.SelectMany(_ => own, (before, now) => before + now)];
            }

            return new(
                Probability.FromFraction((double)sums.Count(sum => Math.Abs(sum) >= seen) / sums.Count),
                smallest,
                sums.Count,
                true
            );
        }

        var random = new Random(seed);
        var far = 1L;
        for (var i = 0; i < MostArrangements; i++)
        {
            var sum = 0.0;
            for (var block = 0; block < whole.Count; block++)
            {
                random.Shuffle(values[block]);
                sum += Apart(block, values[block].Take(whole[block].First.Count).Sum());
            }

            far += Math.Abs(sum) >= seen ? 1 : 0;
        }

        return new(
            Probability.FromFraction((double)far / (MostArrangements + 1)),
            smallest,
            MostArrangements + 1,
            false
        );
    }

    // Every choice of so many values: how many pass, and how many there are.
    private static (long Reached, long Looked) Choose(double[] values, int number, Func<double, bool> passes)
    {
        var (reached, looked) = (0L, 0L);
        void From(int at, int left, double sum)
        {
            if (left == 0)
            {
                looked++;
                reached += passes(sum) ? 1 : 0;
                return;
            }

            for (var i = at; i <= values.Length - left; i++)
            {
                From(i + 1, left - 1, sum + values[i]);
            }
        }

        From(0, number, 0);
        return (reached, looked);
    }
}
