using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>What a female in the hatching box risks. Both rates are assumptions: nobody measured them.</summary>
public sealed record BoxRisk
{
    /// <summary>
    /// Chance a day that she drops the eggs or moults early because she is in the box, 0 to 0.5. That early isolation
    /// stresses is common practice's warning; the figure has no source.
    /// </summary>
    public double HarmPerDay { get; init; } = 0.02;

    /// <summary>
    /// Share of the larvae lost if they hatch among tank mates instead of in the box, 0 to 1. Keepers who gather by
    /// torch save some; the figure has no source.
    /// </summary>
    public double LossIfLate { get; init; } = 0.8;

    /// <summary>Share of the larvae lost if she drops the eggs or moults in the box, 0 to 1; no source.</summary>
    public double LossIfHarmed { get; init; } = 0.6;

    internal void Check()
    {
        Finite.Within(HarmPerDay, 0, 0.5);
        Finite.Within(LossIfLate, 0, 1);
        Finite.Within(LossIfHarmed, 0, 1);
    }
}

/// <summary>Both risks of isolating the female on one day.</summary>
/// <param name="Day">The day, on the caller's axis.</param>
/// <param name="HatchedBefore">Chance that the larvae come before, if they have not come by now: too late.</param>
/// <param name="DaysInBox">Expected days in the box until the hatch.</param>
/// <param name="HarmInBox">Chance of a drop or an early moult in the box: too early.</param>
/// <param name="ExpectedLoss">Expected share of the larvae lost by either, 0 to 1.</param>
public readonly record struct IsolationChoice(
    double Day,
    Probability HatchedBefore,
    double DaysInBox,
    Probability HarmInBox,
    double ExpectedLoss
);

/// <summary>What is recommended; the words are made by whoever shows it.</summary>
public enum IsolationCode
{
    /// <summary>Nothing seen says that the hatch is near: wait, and look again by the day given.</summary>
    WaitForSigns,

    /// <summary>No sign was noted, but the days are running out: look at the eggs now.</summary>
    LookNow,

    /// <summary>A sign was seen; isolate on the day given, where both risks together are least.</summary>
    IsolateOn,

    /// <summary>A sign was seen and waiting only adds risk: isolate now.</summary>
    IsolateNow,

    /// <summary>The larvae are likelier out than not: look for them, with a torch, in the tank.</summary>
    LookForLarvae,

    /// <summary>The eggs are off the mother: there is nobody to isolate.</summary>
    EggsAreOff,
}

/// <summary>A recommendation with its reasons as numbers.</summary>
/// <param name="Code">What to do.</param>
/// <param name="Day">The day it speaks of, on the caller's axis.</param>
/// <param name="Choices">Both risks for each candidate day, in the order of the days; day one is now.</param>
public sealed record IsolationAdvice(IsolationCode Code, double Day, IReadOnlyList<IsolationChoice> Choices)
{
    /// <summary>
    /// Chance of missing the hatch up to which one can wait for the next look, and at which one looks at once;
    /// an assumption.
    /// </summary>
    public const double WaitUntilProbability = 0.05;

    /// <summary>Risks of waiting and of acting, with a recommendation that waits unless a sign was seen.</summary>
    /// <param name="forecast">The forecast.</param>
    /// <param name="facts">The facts that it was made from.</param>
    /// <param name="nowDay">Now, on the caller's axis.</param>
    /// <param name="days">Whole days ahead to weigh, 1 to 60.</param>
    /// <param name="risk">What the box and lateness cost.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static IsolationAdvice From(
        HatchPosterior forecast,
        IReadOnlyList<BroodFact> facts,
        double nowDay,
        int days,
        BoxRisk risk
    )
    {
        Finite.Required(nowDay);
        Finite.Within(days, 1, 60);
        risk.Check();
        var choices = new IsolationChoice[days + 1];
        for (var i = 0; i <= days; i++)
        {
            choices[i] = Weigh(forecast, nowDay, nowDay + i, risk);
        }

        if (forecast.IsOffMother)
        {
            return new(IsolationCode.EggsAreOff, forecast.DroppedDay ?? nowDay, choices);
        }

        if (forecast.ProbabilityBy(nowDay).Value > 0.5 || facts.Any(fact => fact is BroodFact.FirstLarvae))
        {
            return new(IsolationCode.LookForLarvae, nowDay, choices);
        }

        if (!facts.Any(IsSign))
        {
            var last = Array.FindLastIndex(choices, c => c.HatchedBefore.Value <= WaitUntilProbability);
            return last <= 0
                ? new(IsolationCode.LookNow, nowDay, choices)
                : new(IsolationCode.WaitForSigns, choices[last].Day, choices);
        }

        var best = choices.MinBy(choice => choice.ExpectedLoss);
        return new(best.Day > nowDay ? IsolationCode.IsolateOn : IsolationCode.IsolateNow, best.Day, choices);
    }

    /// <summary>Signs that wake the recommendation: eyed or pale eggs, a new saddle.</summary>
    private static bool IsSign(BroodFact fact) =>
        fact
            is BroodFact.SaddleSeen
                or BroodFact.EggsLookedAt { Eyed: true }
                or BroodFact.EggsLookedAt { Pale: true };

    private static IsolationChoice Weigh(HatchPosterior forecast, double now, double day, BoxRisk risk)
    {
        // Given that nothing has hatched by now; if that is all but impossible, everything counts as hatched.
        var ahead = 1 - forecast.ProbabilityBy(now).Value;
        if (ahead < 1e-9)
        {
            return new(day, Probability.FromFraction(1), 0, default, risk.LossIfLate);
        }

        var late = Math.Clamp(forecast.ProbabilityBetween(now, day).Value / ahead, 0, 1);
        var inBox = forecast.Expect(hatch => Math.Max(0, hatch - day)) / ahead;
        var harm =
            forecast.Expect(hatch => 1 - Math.Pow(1 - risk.HarmPerDay, Math.Max(0, hatch - day))) / ahead;
        harm = Math.Clamp(harm, 0, 1);
        return new(
            day,
            Probability.FromFraction(late),
            inBox,
            Probability.FromFraction(harm),
            (late * risk.LossIfLate) + (harm * risk.LossIfHarmed)
        );
    }
}
