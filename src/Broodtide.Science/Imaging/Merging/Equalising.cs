namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// Makes the frames equally bright, colour by colour, over what all of them see: as bright as the middle one of their
/// means, so that one frame's exposure does not decide.
/// </summary>
internal static class Equalising
{
    // Brighter or darker by more is another exposure on purpose; so far it is followed.
    private const float MostGain = 4;

    public static void Set(IReadOnlyList<LaidFrame> frames, CellGrid light)
    {
        var common = Common(frames, light);
        if (common.Count == 0)
        {
            return;
        }

        var means = frames
            .Select(frame =>
                frame.Light.Select(cells => common.Average(cell => (double)cells[cell])).ToArray()
            )
            .ToList();
        var target = Enumerable.Range(0, 3).Select(c => Middle([.. means.Select(mean => mean[c])])).ToArray();
        for (var i = 0; i < frames.Count; i++)
        {
            frames[i].Gains = [.. target.Zip(means[i], Gain)];
            frames[i].Gain = Gain(Grey(target), Grey(means[i]));
        }
    }

    /// <summary>Cells that all frames see.</summary>
    public static List<int> Common(IReadOnlyList<LaidFrame> frames, CellGrid grid) =>
        [
            .. Enumerable
                .Range(0, grid.Shape.Count)
                .Where(cell => frames.All(frame => grid.IsSeen(frame.Map, cell))),
        ];

    /// <summary>Recommendation ITU-R BT.601-7, section 2.5.1.</summary>
    public static double Grey(IReadOnlyList<double> colours) =>
        (0.299 * colours[0]) + (0.587 * colours[1]) + (0.114 * colours[2]);

    private static float Gain(double wanted, double mean) =>
        mean < 0.5 ? 1 : (float)Math.Clamp(wanted / mean, 1 / MostGain, MostGain);

    private static double Middle(double[] values)
    {
        Array.Sort(values);
        return (values[(values.Length - 1) / 2] + values[values.Length / 2]) / 2;
    }
}
