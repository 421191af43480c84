using Broodtide.Looking.Invented;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Looking.Tried;

/// <summary>Made-up larvae: how far the length is off, and whether its interval holds; the scale is known to 0.2 %.</summary>
public static class Lengths
{
    private const int Side = 520;

    public static void Print(int number, int seed)
    {
        var dice = new Random(seed);
        var (errors, held, refused, width) = (new List<double>(), 0, 0, 0.0);
        for (var i = 0; i < number; i++)
        {
            var larva = LarvaView.Any(dice);
            var (grey, _) = larva.Draw(Side, Side, dice.Next());
            var scale = 5 * (1 + (0.002 * Normal(dice)));
            var found = LarvaLength.Find(grey, new(Side, Side), Interval.FromNormal(scale, 0.01));
            if (!found.Succeeded)
            {
                refused++;
                Board.Write($"refused: {found.Reason} {larva}");
                continue;
            }

            errors.Add((found.Value.Pixels / larva.Length) - 1);
            held += found.Value.Micrometres.Contains(5 * larva.Length) ? 1 : 0;
            width += found.Value.Micrometres.Width / found.Value.Micrometres.Middle;
            if (Math.Abs(errors[^1]) > 0.05)
            {
                Board.Write($"off by {errors[^1]:+0.0 %;-0.0 %}, {larva}");
            }
        }

        var sizes = errors.Select(Math.Abs).Order().ToList();
        Board.Write(
            $"{number} invented larvae, seed {seed}: {refused} refused; error mean {sizes.Average():0.00 %}, median "
                + $"{sizes[sizes.Count / 2]:0.00 %}, 95 % of them under {sizes[sizes.Count * 95 / 100]:0.0 %}, worst "
                + $"{sizes[^1]:0.0 %}, bias {errors.Average():+0.00 %;-0.00 %}; intervals that hold {held} of "
                + $"{errors.Count} ({(double)held / errors.Count:0.0 %}), mean relative width {width / errors.Count:0.000}"
        );
    }

    private static double Normal(Random dice) =>
        Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
