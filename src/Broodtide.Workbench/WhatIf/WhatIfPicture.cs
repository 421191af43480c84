using System.Collections.Immutable;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WhatIf;

/// <summary>One point of two futures laid over each other.</summary>
/// <param name="At">When.</param>
/// <param name="AsItIs">If the keeper goes on.</param>
/// <param name="Changed">With the change.</param>
public sealed record WhatIfPicturePoint(Instant At, Interval AsItIs, Interval Changed);

/// <summary>Two futures of one quantity laid over each other, to be drawn.</summary>
/// <param name="Quantity">Which.</param>
/// <param name="Points">In their order, two or more.</param>
/// <param name="Limit">The limit of the species; none where there is none.</param>
public sealed record WhatIfPicture(
    WhatIfQuantity Quantity,
    ImmutableArray<WhatIfPicturePoint> Points,
    double? Limit
)
{
    /// <summary>Whether the forbidden side of the limit is below it.</summary>
    public bool IsLimitBelow => Quantity is WhatIfQuantity.Oxygen;

    /// <summary>The pictures of an answer, in the order of its series.</summary>
    /// <param name="answer">The answer.</param>
    public static IReadOnlyList<WhatIfPicture> Of(WhatIfAnswer answer) =>
        [
            .. answer
                .Series.Where(series => series.Days.Length > 1)
                .Select(series => new WhatIfPicture(
                    series.Quantity,
                    [
                        .. series.Days.Select(
                            (day, place) =>
                                new WhatIfPicturePoint(
                                    answer.Now + Duration.FromDays(day),
                                    series.AsItIs[place],
                                    series.Changed[place]
                                )
                        ),
                    ],
                    answer.Limits.FirstOrDefault(limit => limit.Quantity == series.Quantity)?.Limit
                )),
        ];
}
