using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>One night, from noon to noon, named by the day of its evening.</summary>
/// <param name="Evening">The day on whose evening it begins.</param>
/// <param name="From">Noon of that day.</param>
/// <param name="To">The next noon.</param>
/// <param name="Chance">Probability that the first larvae come in it.</param>
public readonly record struct HatchNight(LocalDate Evening, Instant From, Instant To, Probability Chance);

/// <summary>A stretch of time.</summary>
/// <param name="From">Its beginning.</param>
/// <param name="To">Its end.</param>
public readonly record struct HatchWindow(Instant From, Instant To)
{
    /// <summary>Length in days.</summary>
    public double Days => (To - From).TotalDays;
}

/// <summary>Both risks of putting the female alone on one evening.</summary>
/// <param name="Evening">The day.</param>
/// <param name="At">The instant the risks are told for.</param>
/// <param name="LarvaeFirst">Chance that larvae come before, if none have come yet: too late.</param>
/// <param name="DaysInBox">Days she is expected to wait in the box.</param>
/// <param name="HarmInBox">Chance that she drops the eggs or moults in the box: too early.</param>
/// <param name="ExpectedLossShare">Share of the larvae lost by either, as expected, 0 to 1.</param>
public readonly record struct IsolationEvening(
    LocalDate Evening,
    Instant At,
    Probability LarvaeFirst,
    double DaysInBox,
    Probability HarmInBox,
    double ExpectedLossShare
);

/// <summary>What is recommended about the hatching box.</summary>
/// <param name="Code">What to do.</param>
/// <param name="Evening">The day it speaks of.</param>
/// <param name="At">The instant it speaks of.</param>
/// <param name="Evenings">Both risks, evening by evening, the first one first.</param>
public sealed record IsolationPlan(
    IsolationCode Code,
    LocalDate Evening,
    Instant At,
    IReadOnlyList<IsolationEvening> Evenings
);

/// <summary>One reason why a forecast moved.</summary>
/// <param name="Code">What was learned.</param>
/// <param name="When">When that happened.</param>
/// <param name="LaterByDays">By how much it moved the median; negative is earlier.</param>
/// <param name="NarrowedByDays">By how much it narrowed the 90 % window; negative is wider.</param>
public sealed record HatchMoveReason(
    ChangeCode Code,
    Instant When,
    double LaterByDays,
    double NarrowedByDays
);

/// <summary>What moved since the noon of yesterday.</summary>
/// <param name="Since">That noon: only what was written by then counts as known.</param>
/// <param name="LaterByDays">By how much the median moved; negative is earlier.</param>
/// <param name="NarrowedByDays">By how much the 90 % window became narrower; negative is wider.</param>
/// <param name="Reasons">What moved it, the strongest first; empty if nothing new is known.</param>
public sealed record HatchMove(
    Instant Since,
    double LaterByDays,
    double NarrowedByDays,
    IReadOnlyList<HatchMoveReason> Reasons
);

/// <summary>What a look for eyed eggs would tell now.</summary>
/// <param name="Eyed">Chance that they are seen to be eyed.</param>
/// <param name="NowDays">Length of the 90 % window without the look, days.</param>
/// <param name="IfEyedDays">Its length if they are.</param>
/// <param name="IfNotEyedDays">Its length if they are not.</param>
public sealed record LookWorth(Probability Eyed, double NowDays, double IfEyedDays, double IfNotEyedDays)
{
    /// <summary>Length of the 90 % window to expect after the look, days.</summary>
    public double ExpectedDays => (Eyed.Value * IfEyedDays) + (Eyed.Opposite * IfNotEyedDays);
}

/// <summary>What is assumed of the temperature where none was read.</summary>
public enum WarmthSource
{
    /// <summary>Nothing is known: a room that nobody measures.</summary>
    UnmeasuredRoom,

    /// <summary>The setting of the heater in her vessel.</summary>
    HeaterSetting,
}

/// <summary>The temperatures a forecast rests on.</summary>
/// <param name="Source">Where the assumption comes from.</param>
/// <param name="Mean">The level assumed where none was read.</param>
/// <param name="Sd">Its standard deviation.</param>
/// <param name="ReadingCount">How many readings followed the animal.</param>
/// <param name="Reliance">How far the forecast owes itself to what was assumed.</param>
public sealed record WarmthUsed(
    WarmthSource Source,
    Temperature Mean,
    TemperatureDifference Sd,
    int ReadingCount,
    TemperatureReliance Reliance
);
