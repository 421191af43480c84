using Broodtide.Domain.Journal;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>What the reports of a profile say of juveniles by their age; nothing where it has none.</summary>
internal static class NurseryGrowth
{
    // The two ages at which lengths are told, days after hatching, and how far beyond them nothing is said.
    private const double FirstDay = 35;
    private const double SecondDay = 60;
    private const double DaysBeyond = 10;

    public static (double Low, double High)? LengthOn(SpeciesProfile profile, double days)
    {
        if (
            profile.Find("juvenile-length-day-35") is not { Low: { } low, High: { } high }
            || profile.Find("juvenile-length-day-60") is not { Low: { } later, High: { } laterHigh }
            || days < FirstDay
            || days > SecondDay + DaysBeyond
        )
        {
            return null;
        }

        var share = Math.Min(1, (days - FirstDay) / (SecondDay - FirstDay));
        return (low + (share * (later - low)), high + (share * (laterHigh - high)));
    }

    public static (Instant Early, Instant Late)? AdultFrom(SpeciesProfile profile, Happened? came) =>
        came is { } home
        && profile.Find("juvenile-to-adult-days") is { } days
        && (days.Low ?? days.Value) is { } least
        && (days.High ?? days.Value) is { } most
            ? (home.Earliest + Duration.FromDays(least), home.Latest + Duration.FromDays(most))
            : null;
}
