using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>Something read in a vessel that its twin learns from.</summary>
/// <param name="Entry">The entry that tells it.</param>
/// <param name="Reading">What was read, at an hour of the vessel's clock.</param>
public sealed record LearnedReading(EntryId Entry, VesselReading Reading);

/// <summary>
/// What a journal tells of one standing fill, as a twin takes it: hour by hour from the start of its clock to two days
/// after now, with nothing done in the days ahead.
/// </summary>
public sealed record VesselStory
{
    /// <summary>Hours that are looked ahead.</summary>
    public const int HoursAhead = 48;

    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>When the clock starts, a whole hour.</summary>
    public required Instant Start { get; init; }

    /// <summary>Hours from the start to now, whole ones.</summary>
    public required int NowHour { get; init; }

    /// <summary>What is around the vessel and done to it.</summary>
    public required VesselScene Scene { get; init; }

    /// <summary>What is believed to be in the water at the start.</summary>
    public required VesselStart Believed { get; init; }

    /// <summary>What was read, by hour.</summary>
    public required ImmutableArray<LearnedReading> Readings { get; init; }

    /// <summary>Dry foods that went in, by hour.</summary>
    public required ImmutableArray<FoodGiven> Foods { get; init; }

    /// <summary>What is supposed because nobody told it, and what was left out.</summary>
    public required ImmutableArray<Remark> Assumes { get; init; }

    /// <summary>The instant of an hour of the clock.</summary>
    public Instant At(int hour) => Start + Duration.FromHours(hour);

    /// <summary>
    /// The first hour at which another telling of the same vessel differs: what was run up to it still holds. Ledgers that
    /// are told again draw the same hours a trifle otherwise, which is no difference.
    /// </summary>
    /// <param name="other">The other telling.</param>
    /// <returns>0 where they have nothing in common.</returns>
    public int SameUntil(VesselStory other)
    {
        if (
            Vessel != other.Vessel
            || Start != other.Start
            || Believed != other.Believed
            || !Scene.Site.Equals(other.Scene.Site)
            || Off(Scene.WaterAtStart.Litres, other.Scene.WaterAtStart.Litres)
        )
        {
            return 0;
        }

        var same = Math.Min(Scene.Hours.Length, other.Scene.Hours.Length);
        for (var hour = 0; hour < same; hour++)
        {
            if (Differ(Scene.Hours[hour], other.Scene.Hours[hour]))
            {
                same = hour;
            }
        }

        same = Math.Min(same, FirstDifferent(Scene.Events, other.Scene.Events, done => done.Hour));
        return Math.Min(same, FirstDifferent(Readings, other.Readings, read => read.Reading.Hour));
    }

    private static int FirstDifferent<T>(ImmutableArray<T> left, ImmutableArray<T> right, Func<T, int> hourOf)
        where T : notnull
    {
        var shared = Math.Min(left.Length, right.Length);
        var first = int.MaxValue;
        for (var i = 0; i < shared && first == int.MaxValue; i++)
        {
            if (!left[i].Equals(right[i]))
            {
                first = Math.Min(hourOf(left[i]), hourOf(right[i]));
            }
        }

        return first < int.MaxValue ? first
            : left.Length > shared ? hourOf(left[shared])
            : right.Length > shared ? hourOf(right[shared])
            : first;
    }

    private static bool Differ(in VesselHour left, in VesselHour right) =>
        left.Air != right.Air
        || left.LightMicromoles != right.LightMicromoles
        || left.LarvaDryMicrograms != right.LarvaDryMicrograms
        || Off(left.Larvae.Middle, right.Larvae.Middle)
        || Off(left.Water.Litres, right.Water.Litres)
        || Math.Abs(left.Salinity.Practical - right.Salinity.Practical) > 0.05
        || Math.Abs(left.Temperature.Celsius - right.Temperature.Celsius) > 0.01;

    private static bool Off(double left, double right) =>
        Math.Abs(left - right) > 0.003 * Math.Max(Math.Abs(left), Math.Abs(right));
}
