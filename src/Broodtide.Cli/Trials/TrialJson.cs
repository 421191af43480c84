using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Trials;

/// <summary>One vessel of a layout.</summary>
internal sealed record DealtJson(
    int Place,
    int Block,
    int Treatment,
    string? Vessel,
    string? VesselId,
    bool? New
);

/// <summary>How a trial would be laid out, and what it could find.</summary>
internal sealed record TrialPlanAnswer(
    int VesselsPerTreatment,
    int Blocks,
    int LarvaePerVessel,
    int VesselsOver,
    double Level,
    double SmallestP,
    double? Power,
    double? PowerLow,
    double? PowerHigh,
    int? SimulatedTrials,
    double? ShareFound,
    int VesselsWanted,
    int VesselsAtLeast,
    double Correlation,
    int Seed,
    IReadOnlyList<DealtJson> Layout,
    IReadOnlyList<RemarkJson> Remarks
)
{
    public static TrialPlanAnswer Of(TrialProposal proposal, Saying saying) =>
        new(
            proposal.PerTreatment,
            proposal.Wishes.Blocks,
            proposal.LarvaePerVessel,
            proposal.VesselsOver,
            proposal.Level.Value,
            proposal.SmallestP.Value,
            proposal.Power?.Power.Value,
            proposal.Power?.Within.Lower,
            proposal.Power?.Within.Upper,
            proposal.Power?.Trials,
            proposal.Found?.Value,
            proposal.VesselsWanted,
            proposal.VesselsAtLeast,
            proposal.Wishes.Correlation.Value,
            proposal.Wishes.Seed,
            [
                .. proposal.Layout.Select(
                    (dealt, at) => new DealtJson(at + 1, dealt.Block, dealt.Treatment + 1, null, null, null)
                ),
            ],
            [.. proposal.Remarks.Select(saying.Json)]
        );
}

/// <summary>One treatment of the next round.</summary>
internal sealed record NextTreatmentJson(
    double First,
    double Second,
    PointsJson Share,
    double Gain,
    bool Control
);

/// <summary>What to try next.</summary>
internal sealed record TrialNextAnswer(
    IReadOnlyList<NextTreatmentJson> Treatments,
    NextTreatmentJson Best,
    bool WorthAnother,
    IReadOnlyList<RemarkJson> Remarks
);
