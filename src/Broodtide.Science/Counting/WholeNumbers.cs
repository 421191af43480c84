using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>Searching among whole numbers.</summary>
internal static class WholeNumbers
{
    // Whole numbers are exact in a double up to here.
    private const double Largest = 9e15;

    /// <summary>The smallest whole number from a start at which something that stays true turns true.</summary>
    internal static double First(double start, Func<double, bool> holds)
    {
        if (holds(start))
        {
            return start;
        }

        var (fails, step) = (start, 1.0);
        while (!holds(fails + step))
        {
            fails += step;
            step = 2 * Finite.Within(step, 0, Largest);
        }

        var reached = fails + step;
        while (reached - fails > 1)
        {
            var middle = Math.Floor((fails + reached) / 2);
            (fails, reached) = holds(middle) ? (fails, middle) : (middle, reached);
        }

        return reached;
    }

    /// <summary>The 5, 50 and 95 % points of a quantile function.</summary>
    internal static Interval ToInterval(Func<Probability, double> quantile) =>
        Interval.FromPoints(
            quantile(Probability.FromFraction(0.05)),
            quantile(Probability.FromFraction(0.5)),
            quantile(Probability.FromFraction(0.95))
        );
}
