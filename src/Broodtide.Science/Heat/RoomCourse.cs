using Broodtide.Units;

namespace Broodtide.Science.Heat;

/// <summary>A temperature that was read at an hour of some clock.</summary>
/// <param name="Hours">Hours since the clock's zero; only differences matter.</param>
/// <param name="Celsius">What was read, degC.</param>
public readonly record struct TimedCelsius(double Hours, double Celsius);

/// <summary>
/// The warmth of a room round the day: a middle and a swing that is warmest in the late afternoon. The middle is known
/// with an error that holds for all hours alike.
/// </summary>
public sealed record RoomCourse
{
    /// <summary>Hour of the day at which rooms are warmest: late afternoon (common practice, no source).</summary>
    public const double WarmestHour = 17;

    // A room swings by 2 K either way, rarely by less than 0.5 or more than 3.5 (this project's estimate).
    private const double UsualSwing = 2;
    private const double SwingSd = 1;

    // A reading of a room against its own smooth course: thermometer and draughts (this project's estimate).
    private const double ReadingSd = 0.8;

    // From one day to the next (this project's estimate): no forecast of the weather is made here.
    private const double DayToDaySd = 1;

    /// <summary>A course.</summary>
    /// <param name="middleCelsius">Middle of the day's warmth, degC.</param>
    /// <param name="swingCelsius">How far it goes above and below, K, 0 or more.</param>
    /// <param name="sdCelsius">Standard deviation of the middle, K, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or below zero.</exception>
    public RoomCourse(double middleCelsius, double swingCelsius, double sdCelsius)
    {
        MiddleCelsius = Finite.Within(middleCelsius, -50, 80);
        SwingCelsius = Finite.Within(swingCelsius, 0, 40);
        SdCelsius = Finite.Within(sdCelsius, 0, 40);
    }

    /// <summary>Middle of the day's warmth, degC.</summary>
    public double MiddleCelsius { get; }

    /// <summary>How far it goes above and below, K.</summary>
    public double SwingCelsius { get; }

    /// <summary>Standard deviation of the middle, K.</summary>
    public double SdCelsius { get; }

    /// <summary>Warmth at an hour of the day, degC.</summary>
    /// <param name="hourOfDay">0 to 24 by the clock on the wall; hours of further days go on from there.</param>
    public double At(double hourOfDay) =>
        MiddleCelsius + (SwingCelsius * Math.Cos(2 * Math.PI * (hourOfDay - WarmestHour) / 24));

    /// <summary>A course between what a keeper expects as the coolest and the hottest of the day.</summary>
    /// <param name="coolestCelsius">Coolest of the night, degC.</param>
    /// <param name="hottestCelsius">Hottest of the day, degC, not below the coolest.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the coolest above the hottest.</exception>
    public static RoomCourse Between(double coolestCelsius, double hottestCelsius) =>
        new(
            (coolestCelsius + hottestCelsius) / 2,
            Finite.NotNegative(hottestCelsius - coolestCelsius) / 2,
            DayToDaySd
        );

    /// <summary>
    /// The course that readings of the last days tell, taken on as it was: least squares on middle and swing, the swing
    /// held to what rooms usually do. None without a reading.
    /// </summary>
    /// <param name="readings">Readings of the room, hours counted from a midnight.</param>
    public static RoomCourse? From(IReadOnlyList<TimedCelsius> readings)
    {
        if (readings.Count == 0)
        {
            return null;
        }

        var precision = 1 / (ReadingSd * ReadingSd);
        double n = 0;
        double c = 0;
        var cc = 1 / (SwingSd * SwingSd);
        double y = 0;
        var cy = UsualSwing / (SwingSd * SwingSd);
        foreach (var reading in readings)
        {
            var wave = Math.Cos(2 * Math.PI * (reading.Hours - WarmestHour) / 24);
            n += precision;
            c += precision * wave;
            cc += precision * wave * wave;
            y += precision * reading.Celsius;
            cy += precision * wave * reading.Celsius;
        }

        var determinant = (n * cc) - (c * c);
        var middle = ((cc * y) - (c * cy)) / determinant;
        var swing = ((n * cy) - (c * y)) / determinant;
        return new(
            middle,
            Math.Clamp(swing, 0, 20),
            Math.Sqrt((cc / determinant) + (DayToDaySd * DayToDaySd))
        );
    }
}
