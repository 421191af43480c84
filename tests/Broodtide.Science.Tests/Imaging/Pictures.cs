using Broodtide.Science.Imaging;
using CsCheck;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>Small pictures of any shape, so that every rest of a row beside the vectors occurs.</summary>
internal static class Pictures
{
    public static Gen<GridShape> Shapes =>
        Gen.Select(Gen.Int[1, 37], Gen.Int[1, 23], (a, d) => new GridShape(a, d));

    public static Gen<(GridShape Shape, float[] Grid)> Any =>
        Shapes.SelectMany(shape => Gen.Float[0, 255].Array[shape.Count].Select(grid => (shape, grid)));

    /// <summary>Few different values, so that there are plateaus.</summary>
    public static Gen<(GridShape Shape, float[] Grid)> Steps =>
        Shapes.SelectMany(shape =>
            Gen.Int[0, 9].Array[shape.Count].Select(grid => (shape, Array.ConvertAll(grid, g => (float)g)))
        );

    public static Gen<(GridShape Shape, byte[] Marked)> Marks =>
        Shapes.SelectMany(shape => Gen.Byte[0, 1].Array[shape.Count].Select(grid => (shape, grid)));

    public static Gen<byte[]> Colours => Gen.Int[1, 67].SelectMany(n => Gen.Byte.Array[4 * n]);

    public static void Agree(float[] expected, float[] found, double tolerance)
    {
        Assert.Equal(expected.Length, found.Length);
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.True(
                expected[i].Equals(found[i]) || Math.Abs(expected[i] - found[i]) <= tolerance,
                $"at {i}: {expected[i]} expected, {found[i]} found"
            );
        }
    }
}
