using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The words in the picture, in the order of their worth.</summary>
internal static class TideWordsPart
{
    private const double LineAir = 1.5;

    public static void Draw(TideScene scene, Box? flag)
    {
        var words = new WordPlacer(scene.Width, scene.BorderY + 3) { HaloAt = (x, y) => Halo(scene, x, y) };
        if (flag is { } tag)
        {
            words.Avoid(tag);
            words.Avoid(new(scene.NowX - 0.8, scene.Sizes.Top, scene.NowX + 0.8, scene.BorderY));
        }

        scene.Obstacles.ForEach(words.Avoid);
        Lines(scene, words);
        TideEventWords.Crossings(scene, words);
        TideEventWords.Return(scene, words);
        TideEventWords.Ends(scene, words);
        TideStateWords.Alive(scene, words);
        TideEventWords.Hatch(scene, words);
        TideStateWords.Mind(scene, words);
        TideEventWords.Marks(scene, words);
        TideReadingsPart.Words(scene, words);
        TideStateWords.Behind(scene, words);
        TideQuietWords.Zones(scene, words);
        TideQuietWords.ScaleBar(scene, words);
        TideQuietWords.Lanes(scene, words);
        scene.Shapes.AddRange(words.Placed);
    }

    // The line itself and the past keel under it, as a chain of narrow boxes.
    private static void Lines(TideScene scene, WordPlacer words)
    {
        if (scene.Main is not { } main || TideFleet.From(scene.Record, main) is not { } start)
        {
            return;
        }

        const double Wide = 6;
        var rows = TideKeelPart.RowsOf(scene);
        var last =
            main.Salinity.Count > 0 ? scene.X(Instant.Max(main.Salinity[^1].At, scene.PastEnd)) : scene.NowX;
        var to = Math.Min(last, scene.IsEnded ? scene.X(scene.PastEnd) : scene.Width);
        for (var x = Math.Max(0, scene.X(start)); x < to; x += Wide)
        {
            var (left, right) = (scene.At(x), scene.At(Math.Min(x + Wide, to)));
            var (a, b) = (scene.Y(scene.Salinity(main, left)), scene.Y(scene.Salinity(main, right)));
            var (top, bottom) = (Math.Min(a, b) - LineAir, Math.Max(a, b) + LineAir);
            if (rows.Count > 0 && left >= rows[0].At && x < scene.NowX)
            {
                bottom = Math.Max(
                    bottom,
                    scene.Calm(main, left) + (TideTrack.At(rows, left)!.Value.High * scene.PxPerLarva)
                );
            }

            words.Avoid(new(x, top, Math.Min(x + Wide, to), bottom));
        }
    }

    private static string Halo(TideScene scene, double x, double y)
    {
        if (y > scene.BedY)
        {
            return y > scene.StageBottom ? "pic-halo-paper" : "";
        }

        var zone =
            y - 4 < scene.Y(scene.Record.Zones.FreshBelowPpt) ? "fresh"
            : y - 4 < scene.Y(scene.Record.Zones.SeaFromPpt) ? "shore"
            : "sea";
        return scene.HasFuture && x > scene.NowX ? $"pic-halo-{zone}-far" : $"pic-halo-{zone}";
    }
}
