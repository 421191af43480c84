using Broodtide.Science.Imaging;
using OpenCvSharp;

namespace Broodtide.Looking.Tests;

/// <summary>The other library, OpenCV by its wrapper for .NET: whether it is here, and grids handed to it and back.</summary>
internal static class Peer
{
    private static readonly Lazy<string?> Missing = new(() =>
    {
        try
        {
            Cv2.SetNumThreads(1);
            return null;
        }
        catch (Exception trouble) when (trouble is TypeInitializationException or DllNotFoundException)
        {
            return $"OpenCV does not load here ({trouble.GetBaseException().Message}); on Debian it needs libgtk-3-0.";
        }
    });

    /// <summary>Skips the test where the library does not load; in CI that is a failure.</summary>
    public static void Needed()
    {
        if (Missing.Value is not { } reason)
        {
            return;
        }

        if (Environment.GetEnvironmentVariable("CI") == "true")
        {
            Assert.Fail(reason);
        }

        Assert.Skip(reason);
    }

    public static Mat Of(float[] grid, GridShape shape) => Filled(MatType.CV_32FC1, grid, shape);

    public static Mat Of(byte[] grid, GridShape shape) => Filled(MatType.CV_8UC1, grid, shape);

    public static Mat OfColours(byte[] colours, GridShape shape)
    {
        var made = new Mat(shape.Down, shape.Across, MatType.CV_8UC4);
        made.SetArray(
            Enumerable
                .Range(0, shape.Count)
                .Select(i => new Vec4b(colours[4 * i], colours[(4 * i) + 1], colours[(4 * i) + 2], 255))
                .ToArray()
        );
        return made;
    }

    public static float[] Floats(Mat mat)
    {
        using var converted = new Mat();
        mat.ConvertTo(converted, MatType.CV_32FC1);
        Assert.True(converted.GetArray(out float[] values));
        return values;
    }

    public static int[] Ints(Mat mat)
    {
        Assert.True(mat.GetArray(out int[] values));
        return values;
    }

    /// <summary>The values agree, each within the tolerance, at the places asked for.</summary>
    public static void Agree(float[] theirs, float[] ours, double tolerance, Func<int, bool>? isAsked = null)
    {
        Assert.Equal(theirs.Length, ours.Length);
        for (var i = 0; i < ours.Length; i++)
        {
            if (isAsked?.Invoke(i) != false)
            {
                Assert.True(
                    Math.Abs(theirs[i] - ours[i]) <= tolerance,
                    $"at {i}: the library says {theirs[i]}, we say {ours[i]}"
                );
            }
        }
    }

    private static Mat Filled<T>(MatType type, T[] grid, GridShape shape)
        where T : unmanaged
    {
        var made = new Mat(shape.Down, shape.Across, type);
        Assert.True(made.SetArray(grid));
        return made;
    }
}
