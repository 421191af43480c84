namespace Broodtide.Science.Imaging;

/// <summary>
/// Sums of neighbours with weights that are a product of one weight across and one down. Outside the picture lies its
/// mirror image, the outermost pixel standing twice.
/// </summary>
internal static class Separable
{
    /// <summary>Weights across and down, each of odd length, the middle one at the pixel itself.</summary>
    public static void Sum(
        ReadOnlySpan<float> source,
        GridShape shape,
        (float[] Across, float[] Down) weights,
        Span<float> target
    )
    {
        var reach = weights.Across.Length / 2;
        var between = new float[shape.Count];
        var padded = new float[shape.Across + (2 * reach)];
        for (var y = 0; y < shape.Down; y++)
        {
            var row = shape.Row(source, y);
            row.CopyTo(padded.AsSpan(reach));
            for (var i = 0; i < reach; i++)
            {
                padded[i] = row[Mirrored(i - reach, shape.Across)];
                padded[reach + shape.Across + i] = row[Mirrored(shape.Across + i, shape.Across)];
            }

            var sum = shape.Row(between.AsSpan(), y);
            for (var k = 0; k < weights.Across.Length; k++)
            {
                Lanes.AddScaled(padded.AsSpan(k, shape.Across), weights.Across[k], sum);
            }
        }

        reach = weights.Down.Length / 2;
        target.Clear();
        for (var y = 0; y < shape.Down; y++)
        {
            var sum = shape.Row(target, y);
            for (var k = 0; k < weights.Down.Length; k++)
            {
                var row = shape.Row<float>(between, Mirrored(y + k - reach, shape.Down));
                Lanes.AddScaled(row, weights.Down[k], sum);
            }
        }
    }

    /// <summary>The index within the picture that an index outside stands for.</summary>
    public static int Mirrored(int index, int length)
    {
        while (index < 0 || index >= length)
        {
            index = index < 0 ? -1 - index : (2 * length) - 1 - index;
        }

        return index;
    }
}
