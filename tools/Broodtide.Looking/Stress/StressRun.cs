using System.Globalization;
using Broodtide.Scenes;

namespace Broodtide.Looking.Stress;

/// <summary>Counts many invented scenes, two at a time.</summary>
public static class StressRun
{
    private const string Usage =
        "usage: looking-stress --scenes N --seed S [--bursts] [--rows FILE] [--write FOLDER [--large]]";

    public static int Begin(IReadOnlyList<string> args)
    {
        var (scenes, seed, rows, folder, isLarge, hasPhotos) = (
            0,
            0,
            (string?)null,
            (string?)null,
            false,
            true
        );
        for (var i = 0; i < args.Count; i++)
        {
            var next = i + 1 < args.Count ? args[i + 1] : "";
            switch (args[i])
            {
                case "--scenes" when int.TryParse(next, CultureInfo.InvariantCulture, out scenes):
                case "--seed" when int.TryParse(next, CultureInfo.InvariantCulture, out seed):
                    i++;
                    break;
                case "--rows" when next.Length > 0:
                    (rows, i) = (next, i + 1);
                    break;
                case "--write" when next.Length > 0:
                    (folder, i) = (next, i + 1);
                    break;
                case "--bursts":
                    hasPhotos = false;
                    break;
                case "--large":
                    isLarge = true;
                    break;
                default:
                    Console.Error.WriteLine(Usage);
                    return 2;
            }
        }

        if (scenes is < 1 or > 100_000)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        if (folder is not null)
        {
            SceneFolder.Write(folder, seed, Enumerable.Range(0, scenes), isLarge);
            return 0;
        }

        return Run(scenes, seed, rows, hasPhotos);
    }

    private static int Run(int scenes, int seed, string? rows, bool hasPhotos)
    {
        var done = new (Outcome Burst, Outcome? Photo)[scenes];
        var counted = 0;
        Parallel.For(
            0,
            scenes,
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            index =>
            {
                done[index] = Counting.Of(seed, index, hasPhotos);
                if (Interlocked.Increment(ref counted) % 20 == 0)
                {
                    Console.Error.WriteLine($"{counted} of {scenes}");
                }
            }
        );
        if (rows is not null)
        {
            File.WriteAllLines(
                rows,
                done.Select(pair => Told("burst", pair.Burst))
                    .Concat(
                        done.Select(pair => pair.Photo)
                            .OfType<Outcome>()
                            .Select(photo => Told("photo", photo))
                    )
            );
        }

        Board.Write(
            $"Invented scenes (no photographs), seed {seed}, {scenes} scenes of 5 frames; wanted of 400: 344 to 375 held, width under 1"
        );
        StressBoard.Print("Bursts", [.. done.Select(pair => pair.Burst)]);
        if (hasPhotos)
        {
            StressBoard.Print(
                "The first frame alone, as a single photo",
                [.. done.Select(pair => pair.Photo).OfType<Outcome>()]
            );
        }

        return 0;
    }

    private static string Told(string way, Outcome outcome)
    {
        var facts = outcome.Facts;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{way} {facts.Index} {facts.Difficulty} n={facts.Number} {outcome.Number?.Low:0.0} {outcome.Number?.Middle:0.0} {outcome.Number?.High:0.0} marks={outcome.Marks:0.0} f1={outcome.F1:0.00} out={outcome.LeftOut} far={outcome.FarOff} debris={facts.Debris} bubbles={facts.Bubbles} moults={facts.Moults} wall={facts.HasWall} ripple={facts.RipplePixels:0.0} mm={facts.PixelsPerMm:0.0} core={facts.CorePixels:0} lens={facts.LensBlurPixels:0.0} scat={facts.FloorScattered:0.00} base={facts.FloorBase:0.000} tex={facts.Texture:0.00} alb={facts.Albedo:0.00} motion={facts.MotionBlur:0.00} well={facts.FullWell:0} q={facts.JpegQuality} {outcome.Said}"
        );
    }
}
