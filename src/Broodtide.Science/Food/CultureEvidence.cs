using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>What is believed of a culture before it was counted, as 5 and 95 % points of log-normal beliefs.</summary>
public sealed record CulturePrior
{
    // The ranges are recalled, not measured: they are taken half as wide again, on the logarithmic scale.
    private const double Recalled = 1.5;

    /// <summary>Beliefs by their points.</summary>
    /// <param name="rate">Growth while the culture is thin, 1/d, above zero.</param>
    /// <param name="capacity">Density that is approached, above zero, in the unit of the counts.</param>
    /// <param name="start">Density at the start, above zero, in the unit of the counts.</param>
    /// <exception cref="ArgumentOutOfRangeException">A point is not above zero.</exception>
    public CulturePrior(Interval rate, Interval capacity, Interval start)
    {
        Rate = Positive(rate, nameof(rate));
        Capacity = Positive(capacity, nameof(capacity));
        Start = Positive(start, nameof(start));
    }

    /// <summary>Growth while the culture is thin, 1/d.</summary>
    public Interval Rate { get; }

    /// <summary>Density that is approached.</summary>
    public Interval Capacity { get; }

    /// <summary>Density at the start.</summary>
    public Interval Start { get; }

    /// <summary>
    /// The belief about a culture of some alga, cells/mL: growth by its range; the capacity from the thinnest to twice the
    /// densest usual harvest, since cultures are harvested from half of it on; the start from a hundredth of the thinnest
    /// harvest to the densest. Assumptions of this project.
    /// </summary>
    public static CulturePrior Of(AlgaKind alga)
    {
        var (from, to) = (alga.HarvestFrom.PerMillilitre, alga.HarvestTo.PerMillilitre);
        return new(
            Wide(alga.SlowestPerDay, alga.FastestPerDay),
            Spanned(from, 2 * to),
            Spanned(from / 100, to)
        );
    }

    /// <summary>
    /// The belief about a film of diatoms as a share of the surface covered: growth 0.12 to 0.5 a day, inside the 0.1 to 0.8
    /// that is recalled of such diatoms and slow enough that half a surface takes the weeks that keepers tell of; nearly full
    /// cover as its capacity; the start from a thousandth to a tenth of the surface. Assumptions of this project.
    /// </summary>
    public static CulturePrior OfFilm() => new(Spanned(0.12, 0.5), Spanned(0.7, 1), Spanned(0.001, 0.1));

    /// <summary>
    /// The belief about a culture of something that is not known, cells/mL: wider than that of any alga. Assumptions of this
    /// project.
    /// </summary>
    public static CulturePrior OfAnything() => new(Wide(0.2, 1), Spanned(3e5, 3e7), Spanned(1e3, 3e6));

    /// <summary>
    /// The belief about rotifers, animals/mL: growth up to 0.61 to 0.79 a day was found at best (Hotos 2003, abstract), so
    /// 0.1 to 0.6 at home; 50 to 500 a mL as what they approach. Practice.
    /// </summary>
    public static CulturePrior OfRotifers() => new(Spanned(0.1, 0.6), Spanned(50, 500), Spanned(2, 200));

    private static Interval Wide(double low, double high)
    {
        var middle = Math.Sqrt(low * high);
        var factor = Math.Pow(high / middle, Recalled);
        return Interval.FromPoints(middle / factor, middle, middle * factor);
    }

    private static Interval Spanned(double low, double high) =>
        Interval.FromPoints(low, Math.Sqrt(low * high), high);

    private static Interval Positive(Interval points, string name)
    {
        Finite.Positive(points.Low, name);
        return points;
    }
}

/// <summary>One thing that happened to a culture.</summary>
/// <param name="Day">Days since its start, 0 or more.</param>
public abstract record CultureHappening(double Day);

/// <summary>It was counted.</summary>
/// <param name="Day">Days since its start, 0 or more.</param>
/// <param name="LogDensity">Natural logarithm of the density, in the unit of the prior.</param>
/// <param name="LogSd">Standard deviation of that, above zero.</param>
public sealed record CultureCounted(double Day, double LogDensity, double LogSd) : CultureHappening(Day)
{
    /// <summary>
    /// From cells that were counted: mean and standard deviation of the logarithm under a Gamma belief of n + 1/2 (the
    /// reference belief of a Poisson count), the error of chamber and dilution added. None seen says "few", not "none".
    /// </summary>
    /// <param name="day">Days since the start, 0 or more.</param>
    /// <param name="seen">Cells counted, 0 or more.</param>
    /// <param name="perCell">Density that one cell counted stands for, above zero.</param>
    /// <param name="errorShare">Standard deviation of chamber and dilution as a share, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CultureCounted FromCells(double day, int seen, double perCell, double errorShare)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        var shape = seen + 0.5;
        // The variance of the logarithm is the trigamma function; its series (NIST DLMF 5.15.8) is good to a tenth at 1/2.
        var variance = (1 / shape) + (1 / (2 * shape * shape)) + (1 / (6 * Math.Pow(shape, 3)));
        Finite.Within(errorShare, 0, 1);
        return new(
            Finite.NotNegative(day),
            MathNet.Numerics.SpecialFunctions.DiGamma(shape) + Math.Log(Finite.Positive(perCell)),
            Math.Sqrt(variance + (errorShare * errorShare))
        );
    }

    /// <summary>From a density that was said without its cells.</summary>
    /// <param name="day">Days since the start, 0 or more.</param>
    /// <param name="density">As said, above zero, in the unit of the prior.</param>
    /// <param name="errorShare">Standard deviation as a share, above zero, at most 3.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CultureCounted FromDensity(double day, double density, double errorShare) =>
        new(Finite.NotNegative(day), Math.Log(Finite.Positive(density)), Finite.Within(errorShare, 1e-6, 3));
}

/// <summary>Medium was poured in, so that every cell stands in more water.</summary>
/// <param name="Day">Days since its start, 0 or more.</param>
/// <param name="Kept">Volume before as a share of the volume after, above 0 to 1.</param>
/// <param name="LogSd">Standard deviation of the logarithm of that, 0 or more.</param>
public sealed record CultureThinned(double Day, double Kept, double LogSd) : CultureHappening(Day);
