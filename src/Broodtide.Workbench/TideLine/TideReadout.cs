using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>What the tide line says at one instant.</summary>
/// <param name="At">The instant.</param>
/// <param name="Expected">Whether it lies after now.</param>
/// <param name="InSea">Whether larvae had crossed by then; otherwise the brood is in fresh water.</param>
/// <param name="SalinityPpt">Salinity of the vessel with most larvae, in ppt; absent when unknown.</param>
/// <param name="Alive">How many larvae live in all vessels; absent without an estimate.</param>
/// <param name="AliveIsRough">Whether that estimate has no honest middle.</param>
/// <param name="Stages">Stages over one tenth, with their shares, in their order.</param>
public sealed record TideReadout(
    Instant At,
    bool Expected,
    bool InSea,
    Interval? SalinityPpt,
    Interval? Alive,
    bool AliveIsRough,
    IReadOnlyList<TideStageShare> Stages
)
{
    /// <summary>Reads a record at an instant.</summary>
    public static TideReadout Of(TideLineRecord record, Instant at)
    {
        var main = TideFleet.Main(record);
        var inSea = TideFleet.SeaFrom(record) is { } from && at >= from;
        var alive = record.Alive.Count > 0 ? record.Alive : main?.Alive ?? [];
        return new(
            at,
            at > record.Now,
            inSea,
            inSea && main is not null ? TideTrack.At(main.Salinity, at) : null,
            inSea ? TideTrack.At(alive, at) : null,
            record.AliveIsRough,
            inSea ? StagesAt(record, at) : []
        );
    }

    private static List<TideStageShare> StagesAt(TideLineRecord record, Instant at)
    {
        var shares = TideFleet.SharesAt(record, at);
        return
        [
            .. shares
                .Select((share, index) => new TideStageShare(record.StageNames[index], share))
                .Where(stage => stage.Share > ShownFrom),
        ];
    }

    /// <summary>Stages up to this share are not told. A choice of the picture's, not a measurement.</summary>
    private const double ShownFrom = 0.1;
}

/// <summary>A stage with the share of larvae in it, 0 to 1.</summary>
public sealed record TideStageShare(TideStage Stage, double Share);
