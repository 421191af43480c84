using Broodtide.Looking.Invented;
using Broodtide.Science.Counting;
using Broodtide.Science.Imaging.Chambers;

namespace Broodtide.Looking.Tried;

/// <summary>
/// Made-up looks into counting chambers: whether the interval of cells per mL holds the density they were thrown by. The
/// filling of the chamber and the dilution err by 10 % (one standard deviation, a log-normal share), as is supposed of them.
/// </summary>
public static class Chambers
{
    private const int Side = 900;

    private static readonly (string Code, double Step, int Border, double Depth)[] Rulings =
    [
        ("neubauer", 0.25, 4, 0.1),
        ("neubauer-middle", 0.05, 4, 0.1),
        ("fuchs-rosenthal", 0.25, 4, 0.2),
        ("sedgewick-rafter", 1, 1, 1),
    ];

    public static void Print(int number, int seed)
    {
        var dice = new Random(seed);
        var (errors, pairs, held, refused, width) = (new List<double>(), new List<double>(), 0, 0, 0.0);
        for (var i = 0; i < number; i++)
        {
            var (code, step, border, depth) = Rulings[dice.Next(Rulings.Length)];
            var view = ChamberView.Any(dice, (step, border, depth), Side);
            var filling = Math.Exp(0.1 * Normal(dice));
            var (grey, cells) = (view with { PerMillilitre = view.PerMillilitre * filling }).Draw(
                Side,
                Side,
                dice.Next()
            );
            var read = ChamberPicture.Read(grey, new(Side, Side));
            if (!read.Succeeded)
            {
                refused++;
                Board.Write($"refused: {read.Reason} {view}");
                continue;
            }

            var told = ChamberTally.Of(read.Value, read.Value.Cells, new(CountingChamber.Find(code)!));
            if (!told.Succeeded || Math.Abs((read.Value.StepPixels / view.StepPixels) - 1) > 0.02)
            {
                refused++;
                Board.Write(
                    $"refused: {told.Reason} step {read.Value.StepPixels:0.0} of {view.StepPixels:0.0} {view}"
                );
                continue;
            }

            var interval = told.Value.PerMillilitre;
            held += interval.Contains(view.PerMillilitre) ? 1 : 0;
            width += interval.Width / view.PerMillilitre;
            errors.Add((read.Value.Cells.Count / (double)Math.Max(1, cells.Count)) - 1);
            var spots = cells
                .Select(cell => new TrueSpot(cell.X, cell.Y, Math.Max(3, view.CellPixels)))
                .ToList();
            var found = read.Value.Cells.Select(cell => (cell.X, cell.Y)).ToList();
            pairs.Add(Matching.F1(Matching.Pairs(spots, found), spots.Count, found.Count));
            if (Math.Abs(errors[^1]) > 0.15 || pairs[^1] < 0.85)
            {
                Board.Write($"off by {errors[^1]:+0 %;-0 %} of {cells.Count}, F1 {pairs[^1]:0.00}: {view}");
            }
        }

        var sizes = errors.Select(Math.Abs).Order().ToList();
        Board.Write(
            $"{number} invented chambers, seed {seed}: {refused} refused; cells marked, error mean "
                + $"{sizes.Average():0.0 %}, median {sizes[sizes.Count / 2]:0.0 %}, bias {errors.Average():+0.0 %;-0.0 %}, "
                + $"F1 {pairs.Average():0.000}; intervals of cells per mL that hold {held} of {errors.Count} "
                + $"({(double)held / errors.Count:0.0 %}), mean relative width {width / errors.Count:0.00}"
        );
    }

    private static double Normal(Random dice) =>
        Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
