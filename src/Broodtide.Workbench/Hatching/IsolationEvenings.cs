using Broodtide.Science.Development;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>The advice about the hatching box, told in the keeper's evenings.</summary>
internal static class IsolationEvenings
{
    // Before dark, when she is moved; an assumption.
    private static readonly LocalTime Evening = new(18, 0);

    // Up to this hour the night that began yesterday still counts as the one at hand.
    private const int SmallHours = 6;

    private const int FewestDays = 3;
    private const int MostDays = 30;

    public static IsolationPlan Of(
        HatchPosterior posterior,
        IReadOnlyList<BroodFact> facts,
        DayAxis axis,
        Instant now,
        DateTimeZone zone
    )
    {
        var local = now.InZone(zone).LocalDateTime;
        var first = local.Hour < SmallHours ? local.Date.PlusDays(-1) : local.Date;
        var from = Instant.Max(now, DayAxis.At(first, Evening, zone));
        var fromDay = axis.DayOf(from);
        var ahead = (int)Math.Ceiling(posterior.Window90.ToDay - fromDay) + 2;
        var advice = IsolationAdvice.From(
            posterior,
            facts,
            fromDay,
            Math.Clamp(ahead, FewestDays, MostDays),
            new BoxRisk()
        );
        var evenings = advice
            .Choices.Select(
                (choice, i) =>
                    new IsolationEvening(
                        first.PlusDays(i),
                        axis.InstantOf(choice.Day),
                        choice.HatchedBefore,
                        choice.DaysInBox,
                        choice.HarmInBox,
                        choice.ExpectedLoss
                    )
            )
            .ToList();
        var place = (int)Math.Clamp(Math.Round(advice.Day - fromDay), 0, evenings.Count - 1);
        return advice.Code is IsolationCode.EggsAreOff
            ? new(
                advice.Code,
                DayAxis.EveningOf(axis.InstantOf(advice.Day), zone),
                axis.InstantOf(advice.Day),
                evenings
            )
            : new(advice.Code, evenings[place].Evening, evenings[place].At, evenings);
    }
}
