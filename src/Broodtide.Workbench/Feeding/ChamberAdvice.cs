using Broodtide.Science.Counting;
using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>Cells counted in the squares of a chamber.</summary>
public sealed record ChamberOrder
{
    /// <summary>The chamber.</summary>
    public required CountingChamber Chamber { get; init; }

    /// <summary>Cells in each square counted, 0 or more.</summary>
    public required IReadOnlyList<int> Counts { get; init; }

    /// <summary>How many times the sample was thinned with water, 1 or more.</summary>
    public double Dilution { get; init; } = 1;

    /// <summary>Lugol's solution put into the sample, as a share of the sample's volume, 0 or more.</summary>
    public double LugolShare { get; init; }

    /// <summary>Standard deviation of chamber and dilution as a share: 5 to 10 % (practice).</summary>
    public double ErrorShare { get; init; } = 0.1;
}

/// <summary>What a chamber count says and how to count better.</summary>
/// <param name="Density">The density with its limits, 95 %.</param>
/// <param name="Dilution">How many times the sample was thinned in all, Lugol's solution included.</param>
/// <param name="HalfWidthPercent">Half of the interval by chance, in per cent of the count; none where nothing was seen.</param>
/// <param name="Remarks">What to mind, and what would be better.</param>
public sealed record ChamberAdvice(
    ChamberDensity Density,
    double Dilution,
    double? HalfWidthPercent,
    IReadOnlyList<Remark> Remarks
)
{
    // A hundred cells are right to a fifth, four hundred to a tenth (Lund, Kipling and Le Cren 1958).
    private const int Enough = 100;

    // Variance over mean from which the interval by chance is too narrow. Practice, no source.
    private const double Clumped = 1.5;

    private static readonly Probability Level = Probability.FromFraction(0.95);

    /// <summary>What a count says.</summary>
    /// <exception cref="ArgumentException">No square was counted.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number outside its limits.</exception>
    public static ChamberAdvice Of(ChamberOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var dilution = Finite.Within(order.Dilution, 1, 1e9) * (1 + Finite.Within(order.LugolShare, 0, 1e3));
        var density = ChamberDensity.Of(order.Counts, order.Chamber, dilution, order.ErrorShare, Level);
        return new(
            density,
            dilution,
            density.Seen > 0 ? PoissonCount.RelativeErrorPercent(density.Seen) : null,
            [.. RemarksOf(order, density)]
        );
    }

    private static IEnumerable<Remark> RemarksOf(ChamberOrder order, ChamberDensity density)
    {
        var inChamber = density.InChamber.PerMillilitre;
        if (density.Seen == 0)
        {
            yield return new Remark(
                "cells-none-is-not-none",
                new Argument("upperPerMillilitre", density.InAll.Upper)
            );
        }
        else if (density.Seen < Enough)
        {
            var perSquare = (double)density.Seen / order.Counts.Count;
            yield return new Remark(
                "cells-count-more",
                new("seen", density.Seen),
                new("squares", (int)Math.Ceiling(Enough / perSquare)),
                new("ofSquares", order.Chamber.Squares),
                new("halfWidthPercent", PoissonCount.RelativeErrorPercent(density.Seen))
            );
        }

        if (order.Chamber.BestTo is { } top && density.InChamber > top)
        {
            yield return new Remark(
                order.Chamber.BestFrom is null ? "cells-take-a-haemocytometer" : "cells-dilute-more",
                new("chamberPerMillilitre", inChamber),
                new("bestToPerMillilitre", top.PerMillilitre),
                new("times", Math.Ceiling(inChamber / top.PerMillilitre))
            );
        }
        else if (order.Chamber.BestFrom is { } bottom && density.InChamber < bottom && density.Seen > 0)
        {
            yield return new Remark(
                inChamber < SedgewickRafterTop ? "cells-take-a-ruled-chamber" : "cells-thin-for-the-chamber",
                new("chamberPerMillilitre", inChamber),
                new("bestFromPerMillilitre", bottom.PerMillilitre)
            );
        }

        if (density.Spread is { } spread && spread.Index > Clumped && spread.ClumpedChance.Value < 0.05)
        {
            yield return new Remark("cells-clumped", new Argument("index", spread.Index));
        }

        if (order.Counts.Count > order.Chamber.Squares)
        {
            yield return new Remark(
                "cells-more-squares-than-ruled",
                new("squares", order.Counts.Count),
                new("ofSquares", order.Chamber.Squares)
            );
        }

        yield return new Remark("cells-edge-rule");
    }

    // A Sedgewick-Rafter chamber below 1e4 cells/mL, a haemocytometer above (CSIRO method sheets).
    private const double SedgewickRafterTop = 1e4;
}
