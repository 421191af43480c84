using System.Collections.Immutable;
using System.Globalization;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;

namespace Broodtide.Workbench.Species;

/// <summary>The salinities larvae are kept in from one stage on.</summary>
/// <param name="FromOrder">Order of the first stage it holds for; 1 is the first zoea.</param>
/// <param name="Band">Between which salinities.</param>
/// <param name="Target">The one that is aimed at.</param>
/// <param name="From">The number of the profile.</param>
public sealed record StageSalinity(int FromOrder, SalinityRange Band, Salinity Target, ProfileQuantity From);

public sealed partial class SpeciesProfile
{
    private const string StagedBand = QuantityCodes.LarvalSalinityBand + "-from-z";

    /// <summary>
    /// The salinities by stage, the first stage first; one alone where they are the same for all. A chosen target
    /// outside the first band stretches it: the keeper wants the water there.
    /// </summary>
    public ImmutableArray<StageSalinity> SalinityByStage
    {
        get
        {
            var (band, target) = (LarvalSalinityBand, LarvalSalinityTarget);
            var first = new SalinityRange(
                band.Low < target ? band.Low : target,
                band.High > target ? band.High : target
            );
            return
            [
                new(1, first, target, Quantity(QuantityCodes.LarvalSalinityBand)),
                .. Quantities.Select(Staged).OfType<StageSalinity>().OrderBy(stage => stage.FromOrder),
            ];
        }
    }

    /// <summary>Whether larvae are brought to other salinities as they grow.</summary>
    public bool SalinityFollowsStage => SalinityByStage.Length > 1;

    /// <summary>The salinities of a stage.</summary>
    /// <param name="order">Order of the stage, from 1; later stages than any told of take the last.</param>
    public StageSalinity SalinityAt(int order) =>
        SalinityByStage.Last(stage => stage.FromOrder <= Math.Max(1, order));

    /// <summary>The band that larvae come into.</summary>
    public SalinityBand FirstSalinityBand()
    {
        var first = SalinityAt(1);
        return SalinityBand.From(first.Band.Low, first.Target, first.Band.High);
    }

    private static StageSalinity? Staged(ProfileQuantity quantity) =>
        quantity.Code.StartsWith(StagedBand, StringComparison.Ordinal)
        && int.TryParse(
            quantity.Code.AsSpan(StagedBand.Length),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var order
        )
        && order > 1
        && quantity is { Low: { } low, High: { } high }
            ? new(
                order,
                new(Salinity.FromPractical(low), Salinity.FromPractical(high)),
                Salinity.FromPractical(quantity.Value ?? ((low + high) / 2)),
                quantity
            )
            : null;
}
