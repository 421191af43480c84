namespace Broodtide.Simulation.Larvae;

/// <summary>The true temperature of a vessel, degC, in steps of a quarter day.</summary>
public sealed class Warmth
{
    public const double Step = 0.25;
    private readonly double[] _celsius;

    private Warmth(double[] celsius) => _celsius = celsius;

    public int Steps => _celsius.Length;

    public double OfStep(int step) => _celsius[step];

    public double At(double day) => _celsius[Math.Clamp((int)(day / Step), 0, _celsius.Length - 1)];

    /// <summary>Always the same.</summary>
    public static Warmth Steady(double celsius, int days)
    {
        var steps = new double[(int)(days / Step)];
        Array.Fill(steps, celsius);
        return new(steps);
    }

    /// <summary>25 degC, a slow wander of sd 0.7 that keeps 0.9 of itself from day to day, and sd 0.2 within the day.</summary>
    public static Warmth Wandering(Dice dice, int days) => Made(dice, days, _ => 25, 0.7);

    /// <summary>From 22 to 28 degC and back in six to fourteen days; the wander carries it above 28 now and then.</summary>
    public static Warmth Swinging(Dice dice, int days)
    {
        var period = dice.Between(6, 14);
        var phase = dice.Between(0, period);
        return Made(dice, days, day => 25 + (3 * Math.Sin(2 * Math.PI * (day + phase) / period)), 0.5);
    }

    private static Warmth Made(Dice dice, int days, Func<double, double> level, double sd)
    {
        const double kept = 0.9;
        var celsius = new double[(int)(days / Step)];
        var wander = sd * dice.Normal();
        for (var step = 0; step < celsius.Length; step++)
        {
            var day = step * Step;
            if (step > 0 && day == Math.Floor(day))
            {
                wander = (kept * wander) + (Math.Sqrt(1 - (kept * kept)) * sd * dice.Normal());
            }

            celsius[step] = level(day) + wander + (0.2 * dice.Normal());
        }

        return new(celsius);
    }
}
