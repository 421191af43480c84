using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Cli.WhatIf;

/// <summary>One quantity compared; its unit is of its kind: larvae, mg/L, cells/mL or days from now.</summary>
internal sealed record WhatIfFigureJson(
    string Quantity,
    PointsJson AsItIs,
    PointsJson Changed,
    PointsJson Difference,
    double BetterOfHundred,
    double WorseOfHundred,
    string Verdict
);

/// <summary>The chance that a limit is passed at any hour.</summary>
internal sealed record WhatIfLimitJson(
    string Quantity,
    double Limit,
    double AsItIsChance,
    double ChangedChance
);

/// <summary>One day of a quantity.</summary>
internal sealed record WhatIfPointJson(double Days, PointsJson AsItIs, PointsJson Changed);

/// <summary>One quantity day by day.</summary>
internal sealed record WhatIfSeriesJson(string Quantity, IReadOnlyList<WhatIfPointJson> Points);

/// <summary>A vessel as it is and under a change.</summary>
internal sealed record WhatIfAnswerJson(
    string Vessel,
    string Now,
    int Days,
    int Members,
    IReadOnlyList<RemarkJson> Changes,
    IReadOnlyList<WhatIfFigureJson> Figures,
    IReadOnlyList<WhatIfLimitJson> Limits,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<WhatIfSeriesJson> Series
)
{
    public static WhatIfAnswerJson Of(string vessel, WhatIfAnswer answer, Saying saying) =>
        new(
            vessel,
            Saying.Iso(answer.Now),
            answer.Days,
            answer.Members,
            [.. answer.Changes.Select(change => saying.Json(WhatIfTelling.Of(change)))],
            [
                .. answer.Figures.Select(figure => new WhatIfFigureJson(
                    EnumWords.Of(figure.Quantity),
                    PointsJson.Of(figure.AsItIs),
                    PointsJson.Of(figure.Changed),
                    PointsJson.Of(figure.Difference),
                    figure.BetterOfHundred,
                    figure.WorseOfHundred,
                    EnumWords.Of(figure.Verdict)
                )),
            ],
            [
                .. answer.Limits.Select(limit => new WhatIfLimitJson(
                    EnumWords.Of(limit.Quantity),
                    limit.Limit,
                    limit.AsItIs.Value,
                    limit.Changed.Value
                )),
            ],
            [.. answer.Remarks.Select(saying.Json)],
            [
                .. answer.Series.Select(series => new WhatIfSeriesJson(
                    EnumWords.Of(series.Quantity),
                    [
                        .. series.Days.Select(
                            (day, place) =>
                                new WhatIfPointJson(
                                    day,
                                    PointsJson.Of(series.AsItIs[place]),
                                    PointsJson.Of(series.Changed[place])
                                )
                        ),
                    ]
                )),
            ]
        );
}
