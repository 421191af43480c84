using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>
/// Two independent looks at one closed number in which individuals were matched: two observers, two photos, or marked
/// and caught. Larvae that are hard to see for both are missed twice, which makes the estimate too low.
/// </summary>
public sealed record TwoLookers
{
    /// <summary>So many by each and by both.</summary>
    /// <param name="first">Seen (or marked) first.</param>
    /// <param name="second">Seen (or caught) second.</param>
    /// <param name="both">Seen by both (recaptured), not more than either.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, or more by both than by one.</exception>
    public TwoLookers(int first, int second, int both)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(both);
        ArgumentOutOfRangeException.ThrowIfLessThan(first, both);
        ArgumentOutOfRangeException.ThrowIfLessThan(second, both);
        First = first;
        Second = second;
        Both = both;
    }

    /// <summary>Seen first.</summary>
    public int First { get; }

    /// <summary>Seen second.</summary>
    public int Second { get; }

    /// <summary>Seen by both.</summary>
    public int Both { get; }

    /// <summary>Chapman 1951, Univ. Calif. Publ. Stat. 1:131: (M + 1)(n + 1)/(m + 1) - 1.</summary>
    public double Chapman => ((First + 1.0) * (Second + 1.0) / (Both + 1.0)) - 1;

    /// <summary>
    /// Standard error of <see cref="Chapman"/>: the root of (M + 1)(n + 1)(M - m)(n - m) / ((m + 1)^2 (m + 2)) (Seber
    /// 1982, The Estimation of Animal Abundance, section 3.1).
    /// </summary>
    public double ChapmanStandardError =>
        Math.Sqrt((First + 1.0) * (Second + 1.0) * (First - Both) * (Second - Both) / (Both + 2.0))
        / (Both + 1.0);

    /// <summary>Petersen: M n / m. Without any seen by both there is no finite estimate.</summary>
    /// <exception cref="ArithmeticException">None were seen by both.</exception>
    public double Petersen =>
        Both > 0
            ? (double)First * Second / Both
            : throw new ArithmeticException("None were seen by both: no finite number follows.");

    /// <summary>Chapman's estimate as an interval, not below the number of different individuals seen.</summary>
    public Interval ToInterval() =>
        Interval.FromNormal(Chapman, ChapmanStandardError).AtLeast(First + Second - Both);
}
