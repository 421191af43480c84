using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.WhatIf;

/// <summary>Compares members of two scenes, each with its own twin.</summary>
internal static class WhatIfFigures
{
    // What is less nobody could measure or count: a tenth of what test kits and meters tell apart, half a larva, a square
    // of a counting chamber, a quarter of a day. Practice, no source.
    private static double Smallest(WhatIfQuantity quantity) =>
        quantity switch
        {
            WhatIfQuantity.Alive => 0.5,
            WhatIfQuantity.UnionisedAmmonia => 0.001,
            WhatIfQuantity.Oxygen => 0.05,
            WhatIfQuantity.Food => 500,
            _ => 0.25,
        };

    public static WhatIfFigure Of(
        WhatIfQuantity quantity,
        IReadOnlyList<double> asItIs,
        IReadOnlyList<double> changed
    )
    {
        var difference = asItIs.Zip(changed, (before, after) => after - before).ToArray();
        var moreIsBetter = quantity is WhatIfQuantity.Alive or WhatIfQuantity.Oxygen or WhatIfQuantity.Food;
        var smallest = Smallest(quantity);
        var more = difference.Count(added => added > smallest);
        var less = difference.Count(added => added < -smallest);
        var hundred = 100.0 / difference.Length;
        return new(
            quantity,
            MemberQuantiles.Of(asItIs.ToArray()),
            MemberQuantiles.Of(changed.ToArray()),
            MemberQuantiles.Of(difference),
            hundred * (moreIsBetter ? more : less),
            hundred * (moreIsBetter ? less : more)
        );
    }
}
