using System.Collections.Immutable;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>What each member came to day by day in one scene: gathered from the traces of the pieces as they are run.</summary>
internal sealed class MemberDays(int days, int members)
{
    private const int HoursADay = 24;

    private readonly double[] _values = new double[members];

    /// <summary>Highest un-ionised ammonia of each day and member, mg/L.</summary>
    public double[][] Ammonia { get; } = Made(days, members, double.NegativeInfinity);

    /// <summary>Lowest oxygen, mg/L.</summary>
    public double[][] Oxygen { get; } = Made(days, members, double.PositiveInfinity);

    /// <summary>Mean algae, cells/mL.</summary>
    public double[][] Food { get; } = Made(days, members, 0);

    /// <summary>Takes the hours of a piece.</summary>
    /// <param name="traces">The piece.</param>
    /// <param name="hour">Its first hour, counted from now.</param>
    public void Take(VesselTraces traces, int hour)
    {
        for (var place = 1; place <= traces.Hours; place++)
        {
            var day = (hour + place - 1) / HoursADay;
            traces.Read(VesselQuantity.UnionisedAmmonia, place, _values);
            for (var member = 0; member < members; member++)
            {
                Ammonia[day][member] = Math.Max(Ammonia[day][member], _values[member]);
            }

            traces.Read(VesselQuantity.Oxygen, place, _values);
            for (var member = 0; member < members; member++)
            {
                Oxygen[day][member] = Math.Min(Oxygen[day][member], _values[member]);
            }

            traces.Read(VesselQuantity.CellsPerMillilitre, place, _values);
            for (var member = 0; member < members; member++)
            {
                Food[day][member] += _values[member] / HoursADay;
            }
        }
    }

    /// <summary>Each member over all days.</summary>
    public static double[] Over(double[][] byDay, Func<IEnumerable<double>, double> what) =>
        [.. Enumerable.Range(0, byDay[0].Length).Select(member => what(byDay.Select(day => day[member])))];

    /// <summary>The 5, 50 and 95 % points of each day.</summary>
    public static ImmutableArray<Interval> Points(double[][] byDay) =>
        [.. byDay.Select(day => MemberQuantiles.Of(day.ToArray()))];

    private static double[][] Made(int days, int members, double start) =>
        [.. Enumerable.Range(0, days).Select(_ => Enumerable.Repeat(start, members).ToArray())];
}
