using Broodtide.Looking.Invented;
using Broodtide.Science.Imaging.Lengths;

namespace Broodtide.Looking.Tried;

/// <summary>Made-up rulers: how far the scale is off, and whether its interval holds.</summary>
public static class Rulers
{
    public static void Print(int number, int seed)
    {
        var dice = new Random(seed);
        var (errors, held, refused, width) = (new List<double>(), 0, 0, 0.0);
        for (var i = 0; i < number; i++)
        {
            var ruler = Ruler.Any(dice);
            var found = RulerScale.Find(ruler.Draw(900, 700, dice.Next()), new(900, 700), 10);
            if (!found.Succeeded)
            {
                refused++;
                Board.Write($"refused: {found.Reason} {ruler}");
                continue;
            }

            var scale = found.Value.MicrometresPerPixel;
            errors.Add(Math.Abs((scale.Middle * ruler.Pitch / 10) - 1));
            held += scale.Contains(10 / ruler.Pitch) ? 1 : 0;
            width += scale.Width / scale.Middle;
            if (errors[^1] > 0.005)
            {
                Board.Write($"off by {errors[^1]:0.0 %}, {ruler}");
            }
        }

        errors.Sort();
        Board.Write(
            $"{number} invented rulers, seed {seed}: {refused} refused; error median {errors[errors.Count / 2]:0.000 %}, "
                + $"95 % of them under {errors[errors.Count * 95 / 100]:0.000 %}, worst {errors[^1]:0.00 %}; over 0.5 %: "
                + $"{errors.Count(e => e > 0.005)}; intervals that hold {held} of {errors.Count}, mean width "
                + $"{width / errors.Count:0.000 %}"
        );
    }
}
