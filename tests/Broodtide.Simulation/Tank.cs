namespace Broodtide.Simulation;

/// <summary>The water an invented female lives in, hour by hour.</summary>
public sealed class Tank
{
    public const int HoursADay = 24;
    private readonly double[] _celsius;

    private Tank(double[] celsius) => _celsius = celsius;

    /// <summary>
    /// A level, a drift over the weeks, weather that forgets itself in about four days, a warm spell now and then,
    /// and day and night. Heated tanks wander less.
    /// </summary>
    public static Tank Invent(Dice dice, int days)
    {
        var heated = dice.Chance(0.5);
        var level = heated ? dice.Between(23.5, 26.5) : dice.Between(21, 27);
        var drift = dice.Normal() * (heated ? 0.01 : 0.04);
        var swing = dice.Between(0.1, heated ? 0.5 : 1.0);
        var weatherSd = heated ? 0.3 : 0.9;
        var weather = weatherSd * dice.Normal();
        var spellStart = dice.Chance(heated ? 0.05 : 0.2) ? dice.Between(0, days) : double.PositiveInfinity;
        var spellDays = dice.Between(3, 8);
        var spell = dice.Between(1, 3);
        var celsius = new double[days * HoursADay];
        for (var hour = 0; hour < celsius.Length; hour++)
        {
            var day = (double)hour / HoursADay;
            if (hour % HoursADay == 0)
            {
                weather = (0.78 * weather) + (Math.Sqrt(1 - (0.78 * 0.78)) * weatherSd * dice.Normal());
            }

            celsius[hour] =
                level
                + (drift * (day - (days / 2.0)))
                + weather
                + (swing * Math.Sin(2 * Math.PI * (day - 0.42)))
                + (day >= spellStart && day < spellStart + spellDays ? spell : 0);
        }

        return new(celsius);
    }

    public double At(double day) => _celsius[Math.Clamp((int)(day * HoursADay), 0, _celsius.Length - 1)];
}
