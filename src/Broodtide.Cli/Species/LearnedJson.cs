using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Pooling;

namespace Broodtide.Cli.Species;

/// <summary>What one run says of one number.</summary>
internal sealed record RunSaysJson(
    string Run,
    string? From,
    PointsJson Alone,
    bool Counted,
    string? LeftOutBecause,
    double Weight,
    PointsJson? NextWithout
);

/// <summary>The runs by themselves.</summary>
internal sealed record RunsAloneJson(PointsJson Mean, PointsJson Next, double ShareBetween);

/// <summary>How far an answer moves with a number.</summary>
internal sealed record NumberMoveJson(
    string Brood,
    string Answer,
    string? AtLow,
    string? AtHigh,
    double? LarvaeAtLow,
    double? LarvaeAtHigh
);

/// <summary>One number as published, as the runs have it, and as the next run would begin with.</summary>
internal sealed record LearnedNumberJson(
    string Code,
    string Unit,
    string Provenance,
    PointsJson Published,
    PointsJson Next,
    double WidthRatio,
    int RunsCounted,
    bool Chosen,
    IReadOnlyList<RunSaysJson> Runs,
    RunsAloneJson? RunsAlone,
    IReadOnlyList<NumberMoveJson>? Moves
)
{
    public static LearnedNumberJson Of(PooledNumber number, Outlook? moving, Naming naming) =>
        new(
            number.Quantity.Code,
            number.Quantity.Unit.Code,
            EnumWords.Of(number.Quantity.Provenance),
            PointsJson.Of(number.Published),
            PointsJson.Of(number.Next),
            number.WidthRatio,
            number.Counted,
            number.Quantity.Chosen is not null,
            [
                .. number.Runs.Select(run => new RunSaysJson(
                    run.Source.Name,
                    run.Source.From,
                    PointsJson.Of(run.Alone),
                    run.LeftOut is LeftOut.No,
                    run.LeftOut is LeftOut.No ? null : EnumWords.Of(run.LeftOut),
                    run.Weight,
                    run.NextWithout is { } next ? PointsJson.Of(next) : null
                )),
            ],
            number.Alone is { } alone
                ? new(PointsJson.Of(alone.Mean), PointsJson.Of(alone.Next), alone.ShareBetween)
                : null,
            moving is null
                ? null
                :
                [
                    .. NumberMoves
                        .Of(moving, number)
                        .Select(move => new NumberMoveJson(
                            naming.NameOf(Subject.Of(move.Brood)),
                            EnumWords.Of(move.Answer),
                            move.AtLow is { } low ? Saying.Iso(low) : null,
                            move.AtHigh is { } high ? Saying.Iso(high) : null,
                            move.LarvaeAtLow,
                            move.LarvaeAtHigh
                        )),
                ]
        );
}

/// <summary>What runs taught of a species.</summary>
internal sealed record LearnedAnswer(string Species, IReadOnlyList<LearnedNumberJson> Numbers);
