using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Settling;

/// <summary>What to mind on the way home, whichever way is gone.</summary>
internal static class ReturnCares
{
    public static IEnumerable<Remark> Of(
        SpeciesProfile profile,
        ReturnOrder order,
        WaterBody water,
        Dilution inSteps
    )
    {
        yield return new Remark("return-nobody-measured-which");
        if (BelowTheReports(profile, water, inSteps) is { } own)
        {
            yield return own;
        }

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

    // The reported dilutions end at some grams of mix in a litre; below them the steps go on as they were.
    private static Remark? BelowTheReports(SpeciesProfile profile, WaterBody water, Dilution inSteps)
    {
        if (
            inSteps.Steps.Count == 0
            || profile.Find("return-last-salt")?.Value is not { } grams
            || OtherScales.On(
                water.Salinity,
                water.Temperature,
                SalinityScale.MixPerLitreFinished,
                SaltProduct.Unmeasured
            )
                is not ({ } holds and > 0)
        )
        {
            return null;
        }

        var reported = water.Salinity.Practical * grams / holds;
        return inSteps.Steps[^1].ToPpt < reported - 0.5
            ? new Remark("return-below-the-reports", new Argument("reportedPpt", reported))
            : null;
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
