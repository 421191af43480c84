using System.Collections.Immutable;
using Broodtide.Science.Water;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Heat;

/// <summary>What a vessel's warmth is forecast from.</summary>
public sealed record WarmthScene
{
    /// <summary>The vessel.</summary>
    public required VesselBody Body { get; init; }

    /// <summary>How it follows its room.</summary>
    public required CoolingBelief Cooling { get; init; }

    /// <summary>The room of the coming days.</summary>
    public required RoomCourse Room { get; init; }

    /// <summary>Water at the start, degC.</summary>
    public required double StartCelsius { get; init; }

    /// <summary>Hour of the day at the start, 0 to 24.</summary>
    public required double StartHourOfDay { get; init; }

    /// <summary>Its salinity; fresh by default.</summary>
    public Salinity Salinity { get; init; }

    /// <summary>Air over the surface, m/s; 0 for a still room.</summary>
    public double FanMetresPerSecond { get; init; }

    /// <summary>Dampness of the room's air, 0 to 1.</summary>
    public double RelativeHumidity { get; init; } = 0.5;

    /// <summary>Setting of a heater that stays on, degC: the water does not fall below; none where there is none.</summary>
    public double? HeaterCelsius { get; init; }
}

/// <summary>A vessel's warmth in the hours ahead, with what is uncertain about vessel and room.</summary>
public sealed class WarmthAhead
{
    /// <summary>Heat that a kilogram of water takes along as it evaporates at 25 to 30 degC, J/kg (from memory, 2.43 MJ).</summary>
    public const double JoulesPerKilogram = 2.43e6;

    private const int StepsPerHour = 4;
    private const int HoursADay = 24;

    // A square metre gives off 3.8 W more for a kelvin and a metre a second (McAdams, as h = 5.7 + 3.8 v; from memory).
    private const double BlownConductance = 3.8;

    // Fifths of a normal distribution stand for what is not known of the room.
    private static readonly ImmutableArray<double> Fifths =
    [
        .. Enumerable.Range(0, 5).Select(i => Normal.InvCDF(0, 1, (i + 0.5) / 5)),
    ];

    private readonly double[][] _courses;
    private readonly double[] _weights;

    private WarmthAhead(double[][] courses, double[] weights, int hours, double litresPerDay)
    {
        (_courses, _weights, Hours) = (courses, weights, hours);
        EvaporationLitresPerDay = litresPerDay;
    }

    /// <summary>Hours looked ahead.</summary>
    public int Hours { get; }

    /// <summary>
    /// Water that an open, unlidded surface gives off on the first day by formula, L/d; expect a third more or less.
    /// </summary>
    public double EvaporationLitresPerDay { get; }

    /// <summary>Looks ahead.</summary>
    /// <param name="scene">From what.</param>
    /// <param name="hours">Hours, 1 to 240.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number outside its limits.</exception>
    public static WarmthAhead Of(WarmthScene scene, int hours) => InPieces(scene, hours).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<WarmthAhead?> InPieces(WarmthScene scene, int hours)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(hours, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hours, 240);
        Finite.Within(scene.StartCelsius, -5, 60);
        Finite.Within(scene.StartHourOfDay, 0, 24);
        Finite.Within(scene.FanMetresPerSecond, 0, 10);
        Finite.Within(scene.RelativeHumidity, 0, 1);
        return Pieces(scene, hours);
    }

    /// <summary>Temperature after so many hours, degC.</summary>
    /// <param name="hour">0 to <see cref="Hours"/>.</param>
    public Interval At(int hour) =>
        WeightedQuantiles.Of(
            _courses.Zip(_weights, (course, weight) => (course[hour * StepsPerHour], weight))
        );

    /// <summary>The warmest it comes to, degC.</summary>
    public Interval Warmest =>
        WeightedQuantiles.Of(_courses.Zip(_weights, (course, weight) => (course.Max(), weight)));

    /// <summary>When it first comes to a limit.</summary>
    /// <param name="celsius">The limit, degC.</param>
    public FirstPassage Reaches(double celsius) =>
        FirstPassage.Of(
            _courses.Zip(
                _weights,
                (course, weight) =>
                {
                    var at = Array.FindIndex(course, value => value >= celsius);
                    return (at < 0 ? double.PositiveInfinity : at / (double)StepsPerHour, weight);
                }
            ),
            Hours
        );

    /// <summary>When it first falls to a limit.</summary>
    /// <param name="celsius">The limit, degC.</param>
    public FirstPassage FallsTo(double celsius) =>
        FirstPassage.Of(
            _courses.Zip(
                _weights,
                (course, weight) =>
                {
                    var at = Array.FindIndex(course, value => value <= celsius);
                    return (at < 0 ? double.PositiveInfinity : at / (double)StepsPerHour, weight);
                }
            ),
            Hours
        );

    private static IEnumerable<WarmthAhead?> Pieces(WarmthScene scene, int hours)
    {
        var weights = new List<double>();
        var courses = new List<double[]>();
        double litres = 0;
        foreach (var supposed in scene.Cooling.Suppositions)
        {
            foreach (var z in Fifths)
            {
                var weight = supposed.Weight / Fifths.Length;
                courses.Add(Run(scene, supposed, z * scene.Room.SdCelsius, hours, out var gone));
                weights.Add(weight);
                litres += weight * gone;
                yield return null;
            }
        }

        yield return new([.. courses], [.. weights], hours, litres);
    }

    private static double[] Run(
        WarmthScene scene,
        CoolingSupposition supposed,
        double roomError,
        int hours,
        out double litresPerDay
    )
    {
        var course = new double[(hours * StepsPerHour) + 1];
        course[0] = scene.StartCelsius;
        litresPerDay = 0;
        const double step = 1.0 / StepsPerHour;
        var open = scene.Body.OpenSquareMetres;
        var perKelvin = scene.Body.JoulesPerKelvin;
        var day = Math.Min(hours, HoursADay) * StepsPerHour;
        for (var i = 1; i < course.Length; i++)
        {
            var hour = scene.StartHourOfDay + ((i - 1) * step);
            var room = scene.Room.At(hour) + roomError;
            var next = scene.Room.At(hour + step) + roomError;
            var before = course[i - 1];
            var told = CoolingBelief.After(
                before,
                room,
                next,
                step,
                supposed.TimeConstantHours,
                supposed.OffsetCelsius
            );
            if (scene.FanMetresPerSecond > 0 || i <= day)
            {
                var water = Temperature.FromCelsius(before);
                var air = new RoomAir(Temperature.FromCelsius(room), scene.RelativeHumidity);
                var still = Evaporation.StillAir(scene.Salinity, water, air).Value;
                var blown =
                    scene.FanMetresPerSecond > 0
                        ? Math.Max(
                            still,
                            Evaporation.MovingAir(scene.Salinity, water, air, scene.FanMetresPerSecond).Value
                        )
                        : still;
                // What a still room does is in the offset already; the fan's share comes on top.
                var watts =
                    open
                    * (
                        (BlownConductance * scene.FanMetresPerSecond * (room - before))
                        - (JoulesPerKilogram * (blown - still) / 3600)
                    );
                told += watts * step * 3600 / perKelvin;
                litresPerDay += i <= day ? open * blown * step * ((double)HoursADay * StepsPerHour / day) : 0;
            }

            course[i] = scene.HeaterCelsius is { } floor && before >= floor ? Math.Max(told, floor) : told;
        }

        return course;
    }
}
