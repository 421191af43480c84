using System.Diagnostics;
using Broodtide.Workbench.Photos;

namespace Broodtide.Photos.Tests;

public sealed class PaceTests(ITestOutputHelper output)
{
    // To be run by hand: says how long the intake of a photo of 12 megapixels takes on this machine.
    [Fact(Explicit = true)]
    public void How_long_the_intake_of_twelve_megapixels_takes()
    {
        var photo = Planted.InJpeg(Painted.Jpeg(4000, 3000), Planted.Exif());
        var times = new List<double>();
        for (var round = 0; round < 21; round++)
        {
            var began = Stopwatch.GetTimestamp();
            PhotoIntake.Take(photo);
            times.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }

        times.Sort();
        output.WriteLine($"{photo.Length} bytes: median {times[10]:F2} ms, longest {times[^1]:F2} ms");
    }
}
