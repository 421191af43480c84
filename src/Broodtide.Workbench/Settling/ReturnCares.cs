using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Settling;

/// <summary>What to mind on the way home, whichever way is gone.</summary>
internal static class ReturnCares
{
    public static IEnumerable<Remark> Of(SpeciesProfile profile, ReturnOrder order)
    {
        yield return new Remark("return-nobody-measured-which");
        foreach (var remark in Hardness(profile, order))
        {
            yield return remark;
        }

        yield return new Remark("return-lid-on");
        yield return new Remark("return-sponge-over-the-intake");
        yield return new Remark("return-no-fish");
        yield return new Remark("return-search-what-is-siphoned");
        yield return new Remark("return-old-vessel-stays");
        yield return new Remark("return-never-into-nature");
        foreach (var borrowed in BorrowedNumbers.Of(profile, BorrowedNumbers.OfLarvae))
        {
            yield return borrowed;
        }
    }

    private static IEnumerable<Remark> Hardness(SpeciesProfile profile, ReturnOrder order)
    {
        var usual = profile.Find("juvenile-hardness");
        if (usual is { Low: { } low, High: { } high })
        {
            if (order.HardnessMilligramsPerLitre is not { } hardness)
            {
                yield return new Remark(
                    "return-hardness-not-told",
                    new("lowMilligramsPerLitre", low),
                    new("highMilligramsPerLitre", high)
                );
            }
            else if (hardness < low || hardness > high)
            {
                yield return new Remark(
                    "return-hardness-unusual",
                    new("hardnessMilligramsPerLitre", hardness),
                    new("lowMilligramsPerLitre", low),
                    new("highMilligramsPerLitre", high)
                );
            }
        }

        if (
            profile.Find("juvenile-alkalinity-limit")?.High is { } most
            && order.AlkalinityMilligramsPerLitre is { } alkalinity
            && alkalinity >= most
        )
        {
            yield return new Remark(
                "return-alkalinity-kills",
                new("alkalinityMilligramsPerLitre", alkalinity),
                new("mostMilligramsPerLitre", most)
            );
        }
    }
}
