using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Review;

namespace Broodtide.Cli.Review;

/// <summary>One stretch of the story.</summary>
internal sealed record ChapterJson(string Code, string From, string? Until, IReadOnlyList<RemarkJson> Lines);

/// <summary>What was lost in a phase.</summary>
internal sealed record PhaseJson(
    string Phase,
    string Known,
    string? From,
    string? Until,
    PointsJson? Came,
    PointsJson? Lost,
    PointsJson? LostShare,
    RemarkJson Why
);

/// <summary>What was read of one quantity.</summary>
internal sealed record ReviewedWaterJson(
    string Vessel,
    string Quantity,
    int Readings,
    double? Lowest,
    double? Median,
    double? Highest,
    double? LowLimit,
    double? HighLimit,
    int Outside,
    double LongestGapDays
);

/// <summary>What was fed.</summary>
internal sealed record ReviewedFoodJson(
    string Vessel,
    int Feedings,
    double? FirstAfterHours,
    double LongestGapDays,
    IReadOnlyList<string> Foods,
    int LooksAtFood
);

/// <summary>A forecast and what came of it.</summary>
internal sealed record OutcomeJson(
    string Subject,
    string MadeOn,
    bool Issued,
    string Early,
    string Middle,
    string Late,
    string? CameFrom,
    string? CameTo,
    bool? Inside90,
    double? DaysOff
);

/// <summary>What the record says of a cause.</summary>
internal sealed record CauseJson(
    string Cause,
    string Verdict,
    int? Rank,
    int Days,
    IReadOnlyList<RemarkJson> For,
    IReadOnlyList<RemarkJson> Against,
    IReadOnlyList<RemarkJson> Lacks
);

/// <summary>Causes that cannot be told apart.</summary>
internal sealed record TiedJson(IReadOnlyList<string> Causes, RemarkJson Why);

/// <summary>One thing to do otherwise.</summary>
internal sealed record DifferentlyJson(RemarkJson Change, string Basis, RemarkJson Why, int Runs);

/// <summary>The review of a run.</summary>
internal sealed record ReviewAnswer(
    string Run,
    string? End,
    string From,
    string Until,
    IReadOnlyList<ChapterJson> Chapters,
    IReadOnlyList<PhaseJson> Phases,
    IReadOnlyList<ReviewedWaterJson> Water,
    IReadOnlyList<ReviewedFoodJson> Food,
    IReadOnlyList<OutcomeJson> Forecasts,
    IReadOnlyList<CauseJson> Causes,
    IReadOnlyList<TiedJson> CannotBeToldApart,
    IReadOnlyList<DifferentlyJson> Differently,
    IReadOnlyList<RemarkJson> Remarks
)
{
    public static ReviewAnswer Of(string run, RunReview review, Saying saying, Naming naming) =>
        new(
            run,
            review.End is { } end ? EnumWords.Of(end) : null,
            Saying.Iso(review.From),
            Saying.Iso(review.Until),
            [
                .. review.Chapters.Select(chapter => new ChapterJson(
                    EnumWords.Of(chapter.Code),
                    Saying.Iso(chapter.From),
                    chapter.Until is { } until ? Saying.Iso(until) : null,
                    [.. chapter.Lines.Select(saying.Json)]
                )),
            ],
            [
                .. review.Phases.Select(phase => new PhaseJson(
                    EnumWords.Of(phase.Phase),
                    EnumWords.Of(phase.Known),
                    phase.From is { } from ? Saying.Iso(from) : null,
                    phase.Until is { } until ? Saying.Iso(until) : null,
                    Points(phase.Came),
                    Points(phase.Lost),
                    Points(phase.LostShare),
                    saying.Json(phase.Why)
                )),
            ],
            [
                .. review.Water.Select(water => new ReviewedWaterJson(
                    naming.NameOf(Domain.Journal.Subject.Of(water.Vessel)),
                    EnumWords.Of(water.Quantity),
                    water.Readings,
                    water.Read?.Low,
                    water.Read?.Middle,
                    water.Read?.High,
                    water.LowLimit,
                    water.HighLimit,
                    water.Outside,
                    water.LongestGapDays
                )),
            ],
            [
                .. review.Food.Select(food => new ReviewedFoodJson(
                    naming.NameOf(Domain.Journal.Subject.Of(food.Vessel)),
                    food.Feedings,
                    food.FirstAfterHours,
                    food.LongestGapDays,
                    [.. food.Foods.Select(EnumWords.Of)],
                    food.CellCounts
                )),
            ],
            [
                .. review.Forecasts.Select(outcome => new OutcomeJson(
                    EnumWords.Of(outcome.Subject),
                    Saying.Iso(outcome.MadeOn),
                    outcome.IsIssued,
                    Saying.Iso(outcome.Early),
                    Saying.Iso(outcome.Middle),
                    Saying.Iso(outcome.Late),
                    outcome.From is { } from ? Saying.Iso(from) : null,
                    outcome.To is { } to ? Saying.Iso(to) : null,
                    outcome.IsInside,
                    outcome.DaysOff
                )),
            ],
            [
                .. review.Causes.Select(cause => new CauseJson(
                    EnumWords.Of(cause.Cause),
                    EnumWords.Of(cause.Verdict),
                    cause.Rank,
                    cause.Observations,
                    [.. cause.For.Select(saying.Json)],
                    [.. cause.Against.Select(saying.Json)],
                    [.. cause.Lacks.Select(saying.Json)]
                )),
            ],
            [
                .. review.Tied.Select(tied => new TiedJson(
                    [.. tied.Causes.Select(EnumWords.Of)],
                    saying.Json(tied.Why)
                )),
            ],
            [
                .. review.Differently.Select(it => new DifferentlyJson(
                    saying.Json(it.Change),
                    EnumWords.Of(it.Basis),
                    saying.Json(it.Why),
                    it.Runs
                )),
            ],
            [.. review.Remarks.Select(saying.Json)]
        );

    private static PointsJson? Points(Units.Interval? interval) =>
        interval is { } known ? PointsJson.Of(known) : null;
}
