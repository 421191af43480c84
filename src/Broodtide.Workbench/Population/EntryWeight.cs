using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>How much one entry changed what is believed of a population.</summary>
/// <param name="Entry">The entry as it is told.</param>
/// <param name="AliveWithout">How many would be believed alive without it, whole numbers.</param>
/// <param name="HalfSettledWithout">When half would be believed to have settled without it.</param>
/// <param name="Weight">
/// What entries are ordered by: how far the 5, 50 and 95 % points move on average, of those alive as a share of their
/// median and of the day of settlement in weeks, added.
/// </param>
public sealed record EntryWeight(
    Occurrence Entry,
    Interval AliveWithout,
    InstantRange HalfSettledWithout,
    double Weight
)
{
    private const double DaysInWeek = 7;

    internal static double Of(
        Interval alive,
        Interval aliveWithout,
        InstantRange halfSettled,
        InstantRange halfSettledWithout
    )
    {
        var larvae =
            (
                Math.Abs(alive.Low - aliveWithout.Low)
                + Math.Abs(alive.Middle - aliveWithout.Middle)
                + Math.Abs(alive.High - aliveWithout.High)
            ) / 3;
        var days =
            (
                Apart(halfSettled.Early, halfSettledWithout.Early)
                + Apart(halfSettled.Middle, halfSettledWithout.Middle)
                + Apart(halfSettled.Late, halfSettledWithout.Late)
            ) / 3;
        return (larvae / Math.Max(1, alive.Middle)) + (days / DaysInWeek);
    }

    private static double Apart(NodaTime.Instant one, NodaTime.Instant other) =>
        Math.Abs((one - other).TotalDays);
}
