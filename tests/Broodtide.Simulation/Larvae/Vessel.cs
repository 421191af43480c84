namespace Broodtide.Simulation.Larvae;

/// <summary>All larvae of one run, lived to the end one by one.</summary>
public sealed class Vessel
{
    /// <summary>Days looked at: the slowest larva has long settled.</summary>
    public const int Days = 400;

    private readonly List<Larva> _larvae = [];

    private Vessel(Warmth warmth) => Warmth = warmth;

    public Warmth Warmth { get; }

    public IReadOnlyList<Larva> Larvae => _larvae;

    public static Vessel Lived(Dice dice, World world, Warmth warmth, IReadOnlyList<Crossing> crossings)
    {
        var vessel = new Vessel(warmth);
        var shocks = new double[Days];
        for (var day = 0; day < Days; day++)
        {
            shocks[day] = Math.Exp((world.ShockSd * dice.Normal()) - (world.ShockSd * world.ShockSd / 2));
        }

        for (var cohort = 0; cohort < crossings.Count; cohort++)
        {
            var course = new Course(world, warmth, shocks, crossings[cohort].Day);
            for (var i = 0; i < crossings[cohort].Larvae; i++)
            {
                vessel._larvae.Add(Live(dice, world, course, cohort + 1));
            }
        }

        return vessel;
    }

    public IReadOnlyList<Larva> LivingAt(double day) => [.. _larvae.Where(larva => larva.LivesAt(day))];

    public int AliveAt(double day) => _larvae.Count(larva => larva.LivesAt(day));

    /// <summary>The day by which half of all that ever settle have settled; none if none ever does.</summary>
    public double? SettledMedianDay()
    {
        var days = _larvae.Select(larva => larva.Settled).OfType<double>().Order().ToArray();
        return days.Length == 0 ? null : days[(days.Length - 1) / 2];
    }

    private static Larva Live(Dice dice, World world, Course course, int cohort)
    {
        double[] ends = [.. world.StageEnds(dice).Select(course.DayOfDevelopment)];
        var frailty = world.FrailtyCv > 0 ? dice.GammaOfMean(1, world.FrailtyCv) : 1;
        var died = course.DayOfHazard(dice.Exponential(1) / frailty);
        if (dice.Chance(world.MetamorphosisDeath))
        {
            died = Math.Min(died, ends[^1]);
        }

        return new(cohort, course.Crossed, ends, died);
    }
}

/// <summary>So many larvae cross on a day.</summary>
public readonly record struct Crossing(double Day, int Larvae);
