using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>A part of a counting chamber: how much of it was looked at.</summary>
public sealed record ChamberPart
{
    /// <summary>Parts of one area under one depth of water.</summary>
    /// <param name="parts">Squares, fields or strips counted, 1 or more.</param>
    /// <param name="areaSquareMillimetres">Area of one, mm2, above zero.</param>
    /// <param name="depthMillimetres">Depth of the chamber, mm, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public ChamberPart(int parts, double areaSquareMillimetres, double depthMillimetres)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(parts, 1);
        Parts = parts;
        AreaSquareMillimetres = Finite.Positive(areaSquareMillimetres);
        DepthMillimetres = Finite.Positive(depthMillimetres);
    }

    /// <summary>Squares, fields or strips counted.</summary>
    public int Parts { get; }

    /// <summary>Area of one, mm2.</summary>
    public double AreaSquareMillimetres { get; }

    /// <summary>Depth of the chamber, mm.</summary>
    public double DepthMillimetres { get; }

    /// <summary>Volume looked at, mm3, which is microlitres.</summary>
    public double Microlitres => Parts * AreaSquareMillimetres * DepthMillimetres;
}

/// <summary>
/// Cell densities from a counting chamber or from drops: count over the volume looked at (chamber geometry, as in
/// Guillard and Sieracki 2005, Algal Culturing Techniques, chapter 16).
/// </summary>
public static class ChamberCount
{
    private const double MicrolitresPerMillilitre = 1000;

    /// <summary>Density of the culture when a sample was diluted before counting (haemocytometer).</summary>
    /// <param name="seen">Cells counted, 0 or more.</param>
    /// <param name="part">What was looked at.</param>
    /// <param name="dilution">How many times the sample was diluted, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CellDensity Diluted(int seen, ChamberPart part, double dilution = 1) =>
        CellDensity.FromPerMillilitre(InChamber(seen, part) * Finite.Within(dilution, 1, double.MaxValue));

    /// <summary>Density of the water when a sample was concentrated before counting (Sedgewick-Rafter).</summary>
    /// <param name="seen">Cells counted, 0 or more.</param>
    /// <param name="part">What was looked at: fields, or strips of length times width.</param>
    /// <param name="concentrated">How many times the sample was concentrated, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CellDensity Concentrated(int seen, ChamberPart part, double concentrated = 1) =>
        CellDensity.FromPerMillilitre(
            InChamber(seen, part) / Finite.Within(concentrated, 1, double.MaxValue)
        );

    /// <summary>Density by drops of one volume, each counted.</summary>
    /// <param name="counts">The count of each drop, one or more.</param>
    /// <param name="drop">Volume of a drop, above zero.</param>
    /// <exception cref="ArgumentException">No drop.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A negative count, or no volume.</exception>
    public static CellDensity Drops(IReadOnlyList<int> counts, Volume drop)
    {
        if (counts.Count == 0)
        {
            throw new ArgumentException("There is no drop.", nameof(counts));
        }

        foreach (var count in counts)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(count, nameof(counts));
        }

        return CellDensity.FromPerMillilitre(
            counts.Average() / Finite.Positive(drop.Millilitres, nameof(drop))
        );
    }

    private static double InChamber(int seen, ChamberPart part)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        return seen / part.Microlitres * MicrolitresPerMillilitre;
    }
}
