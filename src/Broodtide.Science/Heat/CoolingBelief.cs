using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Heat;

/// <summary>One supposition of how a vessel follows its room.</summary>
/// <param name="TimeConstantHours">Hours in which a difference shrinks to 37 %.</param>
/// <param name="OffsetCelsius">How much warmer than its room it comes to rest, K: lamps warm, evaporation cools.</param>
/// <param name="Weight">Probability.</param>
public readonly record struct CoolingSupposition(
    double TimeConstantHours,
    double OffsetCelsius,
    double Weight
);

/// <summary>
/// How a vessel follows the warmth of its room, by Newton's law of cooling: dT/dt = (room + offset - T) / time constant.
/// Both numbers are learned from readings of the vessel and of the room; before any, the time constant follows from the
/// vessel's volume and surfaces.
/// </summary>
public sealed record CoolingBelief
{
    // W/(m2 K) through all surfaces of a vessel in a still room: free convection 3 to 5 and radiation 5 to 6 (from memory),
    // evaporation on top, glass and the table below off again. Two times either way holds nine in ten.
    private const double UsualConductance = 10;
    private const double Factor95 = 2;

    // Offset before it is learned, K: a lamp above, evaporation below (this project's estimate).
    private const double OffsetSd = 1;

    // A thermometer read to half a degree; and a room that is a straight line between two readings in our eyes only.
    private const double ReadingSd = 0.3;
    private const double RoomSd = 0.8;

    // Neighbouring stretches share a reading, and all of them the room's course: each counts for half.
    private const double Counts = 0.5;

    private const double LongestRoomGapHours = 16;
    private const double LongestVesselGapHours = 48;

    // More stretches teach next to nothing new, and a phone has to weigh them.
    private const int MostStretches = 40;
    private const int TimeConstants = 15;
    private const int Offsets = 13;
    private const double LeastWeight = 1e-4;

    private CoolingBelief(ImmutableArray<CoolingSupposition> all, int learned) =>
        (Suppositions, StretchesLearned) = (all, learned);

    /// <summary>The suppositions; their weights add up to one.</summary>
    public ImmutableArray<CoolingSupposition> Suppositions { get; }

    /// <summary>From how many stretches between two readings of the vessel it was learned.</summary>
    public int StretchesLearned { get; }

    /// <summary>Hours in which a difference shrinks to 37 %: 5, 50 and 95 %.</summary>
    public Interval TimeConstantHours =>
        WeightedQuantiles.Of(Suppositions.Select(one => (one.TimeConstantHours, one.Weight)));

    /// <summary>How much warmer than its room the vessel comes to rest, K: 5, 50 and 95 %.</summary>
    public Interval OffsetCelsius =>
        WeightedQuantiles.Of(Suppositions.Select(one => (one.OffsetCelsius, one.Weight)));

    /// <summary>The belief about a vessel of which nothing was read.</summary>
    /// <param name="body">The vessel.</param>
    public static CoolingBelief Of(VesselBody body) => Of(body, [], []);

    /// <summary>The belief after readings.</summary>
    /// <param name="body">The vessel.</param>
    /// <param name="vessel">Its temperatures while nothing heated it, by time.</param>
    /// <param name="room">Temperatures of the room on the same clock, by time.</param>
    public static CoolingBelief Of(
        VesselBody body,
        IReadOnlyList<TimedCelsius> vessel,
        IReadOnlyList<TimedCelsius> room
    )
    {
        var conductance = UsualConductance * (body.OpenSquareMetres + body.WallSquareMetres);
        var median = body.JoulesPerKelvin / conductance / 3600;
        var logSd = Math.Log(Factor95) / Interval.StandardNormal95;
        var stretches = StretchesOf(vessel, room);
        var nodes = new List<(CoolingSupposition Node, double Log)>();
        for (var i = 0; i < TimeConstants; i++)
        {
            var z = 3.0 * ((2.0 * i / (TimeConstants - 1)) - 1);
            var tau = median * Math.Exp(logSd * z);
            for (var j = 0; j < Offsets; j++)
            {
                var u = 3.0 * ((2.0 * j / (Offsets - 1)) - 1);
                var offset = OffsetSd * u;
                var log = -0.5 * ((z * z) + (u * u));
                foreach (var stretch in stretches)
                {
                    log += Counts * LogLikelihood(stretch, tau, offset);
                }

                nodes.Add((new(tau, offset, 0), log));
            }
        }

        var most = nodes.Max(node => node.Log);
        var kept = nodes
            .Select(node => node.Node with { Weight = Math.Exp(node.Log - most) })
            .Where(node => node.Weight >= LeastWeight)
            .ToList();
        var sum = kept.Sum(node => node.Weight);
        return new([.. kept.Select(node => node with { Weight = node.Weight / sum })], stretches.Count);
    }

    /// <summary>Temperature after a stretch in which the room goes in a straight line, degC: the exact solution.</summary>
    /// <param name="startCelsius">At the start.</param>
    /// <param name="roomStart">Room at the start, degC.</param>
    /// <param name="roomEnd">Room at the end, degC.</param>
    /// <param name="hours">Length, above zero.</param>
    /// <param name="timeConstantHours">Time constant, above zero.</param>
    /// <param name="offsetCelsius">Offset, K.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public static double After(
        double startCelsius,
        double roomStart,
        double roomEnd,
        double hours,
        double timeConstantHours,
        double offsetCelsius = 0
    )
    {
        var slope = (roomEnd - roomStart) / Finite.Positive(hours);
        var lag = slope * Finite.Positive(timeConstantHours);
        var start = roomStart + offsetCelsius - lag;
        var end = roomEnd + offsetCelsius - lag;
        return end + ((startCelsius - start) * Math.Exp(-hours / timeConstantHours));
    }

    private static double LogLikelihood(Stretch stretch, double tau, double offset)
    {
        var told = stretch.From.Celsius;
        for (var i = 1; i < stretch.Room.Count; i++)
        {
            var (before, after) = (stretch.Room[i - 1], stretch.Room[i]);
            told = After(told, before.Celsius, after.Celsius, after.Hours - before.Hours, tau, offset);
        }

        var left = Math.Exp(-(stretch.To.Hours - stretch.From.Hours) / tau);
        var variance =
            (ReadingSd * ReadingSd * (1 + (left * left))) + (RoomSd * RoomSd * (1 - left) * (1 - left));
        var miss = stretch.To.Celsius - told;
        return -0.5 * ((miss * miss / variance) + Math.Log(variance));
    }

    private static List<Stretch> StretchesOf(
        IReadOnlyList<TimedCelsius> vessel,
        IReadOnlyList<TimedCelsius> room
    )
    {
        var stretches = new List<Stretch>();
        if (RoomCourse.From(room) is not { } day)
        {
            return stretches;
        }

        for (var i = 1; i < vessel.Count; i++)
        {
            var (from, to) = (vessel[i - 1], vessel[i]);
            var gap = to.Hours - from.Hours;
            if (
                gap is > 0.2 and <= LongestVesselGapHours
                && RoomOf(room, day, from.Hours, to.Hours) is { } path
            )
            {
                stretches.Add(new(from, to, path));
            }
        }

        return stretches[Math.Max(0, stretches.Count - MostStretches)..];
    }

    // The room from one hour to another, hour by hour: its day as all readings tell it, bent to those nearest. None where
    // nobody read it often enough.
    private static List<TimedCelsius>? RoomOf(
        IReadOnlyList<TimedCelsius> room,
        RoomCourse day,
        double from,
        double to
    )
    {
        var hours = Math.Max(1, (int)Math.Ceiling(to - from));
        var path = new List<TimedCelsius>(hours + 1);
        for (var i = 0; i <= hours; i++)
        {
            var hour = from + ((to - from) * i / hours);
            if (AwayFrom(day, room, hour) is not { } away)
            {
                return null;
            }

            path.Add(new(hour, day.At(hour) + away));
        }

        return path;
    }

    // How far the readings about an hour lie from the room's usual day, K.
    private static double? AwayFrom(RoomCourse day, IReadOnlyList<TimedCelsius> room, double hours)
    {
        double Away(TimedCelsius reading) => reading.Celsius - day.At(reading.Hours);
        var next = 0;
        while (next < room.Count && room[next].Hours < hours)
        {
            next++;
        }

        next = next == room.Count ? -1 : next;
        var before = next < 0 ? room.Count - 1 : next - 1;
        if (next < 0 || before < 0)
        {
            // Beyond the first or the last reading: as that one, if it is near.
            var near = next < 0 ? before : next;
            return near >= 0 && near < room.Count && Math.Abs(room[near].Hours - hours) <= 2
                ? Away(room[near])
                : null;
        }

        var (low, high) = (room[before], room[next]);
        if (high.Hours - low.Hours > LongestRoomGapHours)
        {
            return null;
        }

        var share = high.Hours > low.Hours ? (hours - low.Hours) / (high.Hours - low.Hours) : 1;
        return Away(low) + (share * (Away(high) - Away(low)));
    }

    private sealed record Stretch(TimedCelsius From, TimedCelsius To, List<TimedCelsius> Room);
}
