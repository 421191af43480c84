namespace Broodtide.Simulation.Larvae;

/// <summary>Hazard and development of one cohort summed up, a quarter day at a time.</summary>
internal sealed class Course
{
    private readonly double[] _hazard;
    private readonly double[] _development;

    public Course(World world, Warmth warmth, double[] shocks, double crossed)
    {
        Crossed = crossed;
        _hazard = new double[warmth.Steps + 1];
        _development = new double[warmth.Steps + 1];
        for (var step = 0; step < warmth.Steps; step++)
        {
            var from = Math.Max(step * Warmth.Step, crossed);
            var until = Math.Max((step + 1) * Warmth.Step, crossed);
            var days = until - from;
            var celsius = warmth.OfStep(step);
            // At the middle of the step.
            var hazard =
                days > 0
                    ? days
                        * shocks[(int)(step * Warmth.Step)]
                        * world.Hazard(((from + until) / 2) - crossed, celsius)
                    : 0;
            if (world.CrashDay is { } crash && crash >= from && crash < until)
            {
                hazard -= Math.Log(1 - world.CrashShare);
            }

            _hazard[step + 1] = _hazard[step] + hazard;
            _development[step + 1] = _development[step] + (days * World.ReferenceDays(celsius));
        }
    }

    public double Crossed { get; }

    /// <summary>The day by which so much hazard has been met; infinity if never.</summary>
    public double DayOfHazard(double amount) => Day(_hazard, amount);

    /// <summary>The day by which so many reference days have been lived; infinity if never.</summary>
    public double DayOfDevelopment(double amount) => Day(_development, amount);

    private double Day(double[] sums, double amount)
    {
        var at = Array.BinarySearch(sums, amount);
        at = at >= 0 ? at : ~at;
        if (at >= sums.Length)
        {
            return double.PositiveInfinity;
        }

        if (at == 0)
        {
            return Crossed;
        }

        // The step in which the crossing falls begins at the crossing.
        var from = Math.Max((at - 1) * Warmth.Step, Crossed);
        var until = at * Warmth.Step;
        return from + ((until - from) * (amount - sums[at - 1]) / (sums[at] - sums[at - 1]));
    }
}
