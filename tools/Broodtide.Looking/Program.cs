using Broodtide.Looking;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;
using Broodtide.Units;

if (args is not [var root] || !Directory.Exists(root))
{
    await Console.Error.WriteLineAsync("usage: looking-report DIR");
    return 2;
}

try
{
    var photos = Path.Combine(root, "nuclei_bright_on_dark");
    if (Directory.Exists(photos))
    {
        Board.Print("nuclei_bright_on_dark (real), one photo each", [.. Scenes.Photos(photos).Select(Photo)]);
    }

    var bursts = Path.Combine(root, "larvae_beam_SYNTHETIC");
    if (Directory.Exists(bursts))
    {
        var scenes = Scenes.Bursts(bursts);
        Board.Print("larvae_beam_SYNTHETIC (invented, no photographs), bursts", [.. scenes.Select(Burst)]);
        Board.Print(
            "larvae_beam_SYNTHETIC (invented, no photographs), the first frame alone, as a single photo",
            [.. scenes.Select(Photo)]
        );
    }
}
catch (Exception trouble) when (trouble is IOException or InvalidDataException or FormatException)
{
    await Console.Error.WriteLineAsync(trouble.Message);
    return 2;
}

return 0;

static (float[] Grey, GridShape Shape) Grey(Frame frame)
{
    var picture = PictureFile.Decode(File.ReadAllBytes(frame.Path));
    return picture.Succeeded
        ? (picture.Value.ToGrey(), picture.Value.Shape)
        : throw new InvalidDataException($"{frame.Path}: {picture.Reason}");
}

static Line Photo(Scene scene)
{
    var frame = scene.Frames[0];
    var (grey, shape) = Grey(frame);
    var count = PhotoSpots.Count(grey, shape);
    return count.Succeeded
        ? new(
            scene.Name,
            scene.Count,
            count.Value.Number,
            F1(frame, count.Value.Marks),
            FarOff(scene, count.Value.Marks),
            Said(count.Value.Remarks)
        )
        : Refused(scene, 1, count.Reason);
}

static Line Burst(Scene scene)
{
    var pictures = scene.Frames.Select(Grey).ToList();
    var shape = pictures[0].Shape;
    var count = BurstSpots.Count([.. pictures.Select(picture => picture.Grey)], shape);
    return count.Succeeded
        ? new(
            scene.Name,
            scene.Count,
            count.Value.Number,
            scene.Frames.Zip(count.Value.Frames, (frame, found) => F1(frame, found.Marks)).Average(),
            count.Value.Frames.Sum(found => FarOff(scene, found.Marks)),
            Said(count.Value.Remarks)
        )
        : Refused(scene, scene.Frames.Count, count.Reason);
}

static double F1(Frame frame, IReadOnlyList<SpotMark> marks) =>
    Matching.F1(
        Matching.Pairs(frame.Spots, [.. marks.Select(mark => (mark.X, mark.Y))]),
        frame.Spots.Count,
        marks.Count
    );

static int FarOff(Scene scene, IReadOnlyList<SpotMark> marks) =>
    Math.Abs(marks.Count - scene.Count) > 0.5 * scene.Count ? 1 : 0;

static Line Refused(Scene scene, int frames, Remark reason) =>
    new(scene.Name, scene.Count, Interval.Exactly(0), 0, frames, $"refused: {reason}");

static string Said(IReadOnlyList<Remark> remarks) => string.Join("; ", remarks);
