using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Registration;
using CsCheck;

namespace Broodtide.Science.Tests.Imaging.Merging;

/// <summary>What merging measures, beside plain loops over the definitions.</summary>
public sealed class MergingTwinsTests
{
    private static readonly double[] Weights = [1 / 16.0, 4 / 16.0, 6 / 16.0, 4 / 16.0, 1 / 16.0];

    [Fact]
    public void The_sharpness_of_cells_is_that_of_the_plain_loop() =>
        Pictures.Any.Sample(
            picture =>
            {
                var (shape, grid) = picture;
                var cells = new CellGrid(shape, FocusCells.Side);
                var energy = new float[cells.Shape.Count];
                // Two strips, so that their seam is looked at too.
                var first = cells.Shape.Down / 2;
                FocusCells.Measure(grid, cells, 0, first, energy);
                FocusCells.Measure(grid, cells, first, cells.Shape.Down - first, energy);
                // Squares of up to a thousand levels keep seven digits of a million.
                Pictures.Agree(Sharpness(grid, cells), energy, 0.5);
            },
            iter: 200
        );

    [Fact]
    public void The_variance_of_blocks_is_that_of_the_plain_loop()
    {
        var shape = new GridShape(150, 131);
        var dice = new Random(4);
        var grid = Plain.Each(shape, (_, _) => dice.NextDouble() * 255);
        var blocks = new CellGrid(shape, Blocks.Side);
        var map = AffineMap.Similarity((75, 65), 1.01, 0.5, (1.3, -0.7));
        var (variance, laid) = (new float[blocks.Shape.Count], new byte[shape.Count]);
        for (var row = 0; row < blocks.Shape.Down; row++)
        {
            Blocks.Measure(grid, blocks, map, row, variance, laid);
        }

        var seen = new float[shape.Count];
        Resampling.Cubic(grid, shape, map, shape, seen);
        var soft = Softened(seen, shape);
        var plain = Enumerable
            .Range(0, blocks.Shape.Count)
            .Select(block =>
            {
                var values = Enumerable
                    .Range(0, shape.Count)
                    .Where(at =>
                        (at / shape.Across / Blocks.Side * blocks.Shape.Across)
                            + (at % shape.Across / Blocks.Side)
                        == block
                    )
                    .Select(at => soft[at])
                    .ToList();
                var mean = values.Average();
                return (float)values.Average(value => (value - mean) * (value - mean));
            })
            .ToArray();

        Pictures.Agree(plain, variance, 0.05);
        Assert.Equal(
            Array.ConvertAll(seen, value => (byte)Math.Clamp(Math.Floor(value + 0.5), 0, 255)),
            laid
        );
    }

    [Fact]
    public void Colours_apart_are_those_of_the_plain_loop() =>
        Pictures.Colours.Sample(colours =>
        {
            var n = colours.Length / 4;
            var (red, green, blue) = (new float[n], new float[n], new float[n]);
            Channels.Each(colours, red, green, blue);
            for (var i = 0; i < n; i++)
            {
                Assert.Equal(
                    (colours[4 * i], colours[(4 * i) + 1], colours[(4 * i) + 2]),
                    ((byte)red[i], (byte)green[i], (byte)blue[i])
                );
            }
        });

    [Fact]
    public void Whole_levels_come_back_as_they_were() =>
        Gen.Float[-20, 300]
            .Array[0, 150]
            .Sample(values =>
            {
                var (levels, back) = (new byte[values.Length], new float[values.Length]);
                WholeLevels.Of(values, levels);
                WholeLevels.Back(levels, back);
                for (var i = 0; i < values.Length; i++)
                {
                    var within = Math.Clamp(values[i], 0, 255);
                    Assert.InRange(back[i], within - 0.5001, within + 0.5001);
                    Assert.Equal(levels[i], back[i]);
                }
            });

    [Fact]
    public void The_weights_of_pixels_lie_on_straight_lines_between_cells()
    {
        var cells = new CellGrid(new(37, 22), 4);
        var dice = new Random(9);
        var weights = Plain.Each(cells.Shape, (_, _) => dice.NextDouble());
        var pixels = new CellWeights(cells);
        for (var y = 0; y < 22; y++)
        {
            var row = new float[20];
            Assert.True(pixels.Row(weights, y, 11, row));
            for (var x = 0; x < row.Length; x++)
            {
                Assert.Equal(Between(weights, cells.Shape, (x + 11 - 1.5) / 4, (y - 1.5) / 4), row[x], 1e-5);
            }
        }

        Assert.False(pixels.Row(new float[cells.Shape.Count], 3, 0, new float[37]));
    }

    private static double Between(float[] weights, GridShape shape, double x, double y)
    {
        x = Math.Clamp(x, 0, shape.Across - 1);
        y = Math.Clamp(y, 0, shape.Down - 1);
        var (left, top) = ((int)x, (int)y);
        double At(int u, int v) =>
            weights[(Math.Min(v, shape.Down - 1) * shape.Across) + Math.Min(u, shape.Across - 1)];
        var above = At(left, top) + ((x - left) * (At(left + 1, top) - At(left, top)));
        var below = At(left, top + 1) + ((x - left) * (At(left + 1, top + 1) - At(left, top + 1)));
        return above + ((y - top) * (below - above));
    }

    private static float[] Sharpness(float[] grid, CellGrid cells)
    {
        var shape = cells.Picture;
        double Soft(int x, int y) => SoftAt(grid, shape, x, y);
        return Plain.Each(
            cells.Shape,
            (column, row) =>
            {
                var all = new List<double>();
                for (var y = row * 4; y < Math.Min(shape.Down, (row + 1) * 4); y++)
                {
                    for (var x = column * 4; x < Math.Min(shape.Across, (column + 1) * 4); x++)
                    {
                        var across = (2 * Soft(x, y)) - Soft(x - 1, y) - Soft(x + 1, y);
                        var down = (2 * Soft(x, y)) - Soft(x, y - 1) - Soft(x, y + 1);
                        all.Add((across * across) + (down * down));
                    }
                }

                return all.Average();
            }
        );
    }

    private static double[] Softened(float[] grid, GridShape shape) =>
        [
            .. Enumerable
                .Range(0, shape.Count)
                .Select(at => SoftAt(grid, shape, at % shape.Across, at / shape.Across)),
        ];

    // Beyond the picture its edge goes on.
    private static double SoftAt(float[] grid, GridShape shape, int x, int y)
    {
        var sum = 0.0;
        for (var v = -2; v <= 2; v++)
        {
            for (var u = -2; u <= 2; u++)
            {
                var (column, row) = (
                    Math.Clamp(x + u, 0, shape.Across - 1),
                    Math.Clamp(y + v, 0, shape.Down - 1)
                );
                sum += Weights[u + 2] * Weights[v + 2] * grid[(row * shape.Across) + column];
            }
        }

        return sum;
    }
}
